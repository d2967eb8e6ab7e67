/* A proof checked from itself alone: its digest, and its result worked out again. */
import { gettext } from "../site/text.js";
import { canonical, digestOf } from "./canonical.js";
import { differences } from "./compare.js";
import { recompute } from "./recompute.js";

const FORMAT = "weighin-proof-1";
const PARTS = ["event", "rules", "result", "ledger"];
const LISTS = ["flights", "side_pots", "teams", "slips", "checkins"];

/** A text that is no proof; its message says what to do. */
export class NoProof extends Error {}

const noProof = () => new NoProof(gettext("This file is no proof: choose the proof of an event, from its public pages."));

/** The digest of a text; one that is nested deeper than it can be read is no proof. @param {string} text */
function digest(text) {
  try { return digestOf(text); } catch { throw noProof(); }
}

/** @param {string} text @returns {Proof} */
function read(text) {
  /** @type {any} */
  let told;
  try { told = JSON.parse(text); } catch { throw noProof(); }
  if (!told || typeof told !== "object" || told.format !== FORMAT) throw noProof();
  const whole = PARTS.every((part) => told[part] && typeof told[part] === "object") && LISTS.every((part) => Array.isArray(told[part]));
  if (!whole || !Array.isArray(told.event.days) || !Array.isArray(told.result.standings)) throw new NoProof(gettext("Parts of this proof are missing: take it again from the event’s public pages."));
  return told;
}

/** What a proof is found to be. Raises NoProof. @param {string} text @returns {ProofVerdict} */
export function check(text) {
  const bare = text.replace(/^\uFEFF/, ""), proof = read(bare), found = digest(bare);
  const { result, problems } = recompute(proof);
  return {
    name: String(proof.event.name), version: proof.result.version, boats: proof.teams.length, slips: proof.slips.length,
    digest: { told: String(proof.digest), found, holds: proof.digest === found },
    result, differs: [...problems, ...(result ? differences(proof.result, result) : [])],
  };
}

export { canonical, digestOf, recompute };
