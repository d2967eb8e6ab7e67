/* What the site keeps beside a proof: asked only where it is there. */
import { gettext } from "../site/text.js";

/** @param {number | null} version */
const official = (version) => (version === null
  ? gettext("This site publishes just this result, which is not official.")
  : gettext("This site publishes just this result: official version %(version)s.", { version }));

/**
 * [sentence, lines that differ] of what the site says.
 * @param {string} text @param {ProofVerdict} verdict @param {{proof: string, check: string}} addresses
 * @returns {Promise<[string, string[]]>}
 */
export async function asked(text, verdict, { proof, check }) {
  try {
    const slug = JSON.parse(text.replace(/^\uFEFF/, "")).event.slug, now = await fetch(proof.replace("SLUG", encodeURIComponent(slug)));
    if (now.ok) {
      const kept = await now.json();
      if (verdict.digest.holds && kept.digest === verdict.digest.found && kept.result.version === verdict.version) return [official(verdict.version), []];
    }
    const body = new FormData();
    body.append("file", new Blob([text], { type: "application/json" }), "proof.json");
    const answer = await fetch(check, { method: "POST", body, headers: { Accept: "application/json" } });
    const said = await answer.json();
    return [said.finding, said.differs];
  } catch {
    return [gettext("This site did not answer: ask again when there is a link."), []];
  }
}
