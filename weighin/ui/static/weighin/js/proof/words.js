/* What a proof was found to be, in sentences. */
import { gettext, ngettext } from "../site/text.js";

/** The figures of a digest, in fours, as they are printed. @param {string} digest */
export const printed = (digest) => (digest.slice(0, 16).match(/.{1,4}/g) || []).join(" ");

/** @param {ProofVerdict} verdict */
export function findingOf({ digest, differs, boats, result }) {
  if (!result) return gettext("This result cannot be worked out again.");
  if (differs.length) return ngettext("%(n)s row differs.", "%(n)s rows differ.", differs.length);
  if (!digest.holds) return gettext("The result comes out the same, but the file was altered after it was made.");
  return ngettext("%(n)s boat, and everything comes out the same.", "%(n)s boats, and everything comes out the same.", boats);
}

/** @param {ProofVerdict} verdict */
export const digestSaid = ({ digest }) => (digest.holds
  ? gettext("The file is whole. Its first figures are %(figures)s: they stand on a printed result too.", { figures: printed(digest.found) })
  : gettext("The file was altered after it was made. Its first figures are %(found)s, and it says %(told)s.", { found: printed(digest.found), told: printed(digest.told) }));

/** @param {ProofVerdict} verdict */
export const workedOut = ({ differs, slips, result }) => (result && !differs.length
  ? ngettext("%(n)s slip was scored again by the rules in the file: every place, weight, prize and point is the same.", "%(n)s slips were scored again by the rules in the file: every place, weight, prize and point is the same.", slips)
  : gettext("Worked out again from the slips and rules in the file, this is otherwise:"));

/** @param {ProofDifference} difference */
export const line = ({ what, lines }) => `${what}: ${lines.join("; ")}`;
