/* What the table's page says of a slip: faults of its scoring, the lines of a score, which fish go on the scale. */
import { removed, onScale } from "../scoring/score.js";
import { EXAMPLES, plain, readWeight, show, shown } from "../scoring/weights.js";
import { gettext, ngettext } from "../site/text.js";

/** A fault of the scoring in a sentence that says what to do. @param {ScoringFault} fault @param {Unit} unit */
export function fault({ code, short = 0, fish = 0, taken = 0 }, unit) {
  const example = EXAMPLES[unit];
  switch (code) {
    case "negative": return gettext("A weight is never below zero: read the scale again.");
    case "comma": return gettext("Write a point, not a comma, such as %(example)s.", { example });
    case "too_much": return gettext("More than the scale can hold: read it again.");
    case "under_bag": return gettext("Lighter than the empty bag: read the scale again.");
    case "none_on_scale": return gettext("No fish goes on the scale under these rules: leave the weight empty.");
    case "not_weighed": return gettext("Write what the scale shows.");
    case "not_sorted": return gettext("Write the heaviest first.");
    case "over_net": return gettext("Heavier together than all the fish on the scale: weigh them again.");
    case "was_it_alive": return gettext("Some fish are dead: say whether the big fish was alive.");
    case "against_counts": return gettext("The counts say otherwise: count again.");
    case "no_fish": return gettext("No fish was counted: count first.");
    case "over_rest": return gettext("Heavier than all the fish that count: read the scale again.");
    case "more_short": return gettext("%(short)s short fish of %(fish)s: short fish are counted in alive or dead too.", { short, fish });
    case "largest_missing": return gettext("The rules take the %(taken)s largest: weigh each alone and write it, heaviest first.", { taken });
    default: return gettext("This is not a weight: write it as the scale shows it, such as %(example)s.", { example });
  }
}

/** @type {Record<string, string>} */
const LOST = {
  ruling: gettext("The day is lost: by ruling"), over_limit: gettext("The day is lost: over the limit"),
  short_fish: gettext("The day is lost: short fish"), late: gettext("The day is lost: late"),
};

/** @param {number} n */
export const fishOf = (n) => ngettext("%(n)s fish", "%(n)s fish", n);

/** What one of a kind costs, where each costs the same. @param {string} reason @param {RuleBook} book */
function each(reason, book) {
  const steps = reason === "dead_fish" ? book.weights("dead_fish_penalty") : [];
  if (steps.length === 1) return steps[0];
  if (reason === "late") return book.weight("late_penalty_per_minute");
  if (reason === "short_fish" && book.is("short_fish", "penalty")) return book.weight("short_fish_penalty");
  if (reason === "over_limit" && book.is("over_limit", "penalty")) return book.weight("over_limit_penalty");
  return null;
}

/** @param {Deduction} deduction @param {RuleBook} book */
function deducted({ reason, count }, book) {
  const weight = each(reason, book), what = counted(reason, count);
  return weight === null ? what : gettext("%(what)s at %(weight)s", { what, weight: show(weight, book.unit) });
}

/** @param {string} reason @param {number} n */
function counted(reason, n) {
  switch (reason) {
    case "dead_fish": return ngettext("%(n)s dead fish", "%(n)s dead fish", n);
    case "short_fish": return ngettext("%(n)s short fish", "%(n)s short fish", n);
    case "over_limit": return ngettext("%(n)s over the limit", "%(n)s over the limit", n);
    case "late": return ngettext("%(n)s minute late", "%(n)s minutes late", n);
    default: return gettext("Penalty by ruling");
  }
}

/**
 * [words, figures] of every line of a score, the total left out; true behind a line of which nothing comes.
 * @param {Scored} score @param {Typed} slip @param {RuleBook} book @param {string} lateness
 * @returns {[string, string, boolean?][]}
 */
export function lines(score, slip, book, lateness) {
  const bag = slip.tare ? readWeight(slip.tare, book.unit) : book.weight("bag_tare");
  const net = shown(score.net, book.unit), n = score.onScale;
  /** @type {[string, string, boolean?][]} */
  const found = [];
  if (!slip.fish) found.push([gettext("No fish"), net]);
  else if (!n) found.push([gettext("Nothing on the scale"), net]);
  else if (bag) {
    found.push([gettext("Scale reading, %(fish)s and bag", { fish: fishOf(n) }), shown(plain(readWeight(slip.gross, book.unit)), book.unit)]);
    found.push([gettext("Bag"), `− ${show(bag, book.unit)}`]);
  } else found.push([gettext("Net weight, %(fish)s", { fish: fishOf(n) }), net]);
  if (score.lost) { found.push([LOST[score.lost], `− ${net}`]); return found; }
  for (const line of score.deductions) found.push([deducted(line, book), `− ${shown(line.amount, book.unit)}`]);
  if (score.bonus !== "0") found.push([gettext("Bonus for live fish"), `+ ${shown(score.bonus, book.unit)}`]);
  const none = [!slip.dead && gettext("no dead fish"), !slip.short && gettext("no short fish"), !score.minutes && lateness].filter(Boolean).join("; ");
  if (none) found.push([none.charAt(0).toUpperCase() + none.slice(1), "", true]);
  return found;
}

/** How many fish go on the scale, and which not. @param {RuleBook} book @param {Counts} slip */
export function goes(book, slip) {
  if (!slip.fish) return "";
  const number = onScale(book, slip), left = slip.fish - number, over = slip.fish - book.whole("fish_limit");
  const start = number === 0 ? gettext("Nothing goes on the scale") : ngettext("%(n)s fish goes on the scale", "%(n)s fish go on the scale", number);
  const why = [
    slip.short && gettext("short"), slip.dead && !book.is("dead_fish", "penalty") && gettext("dead"),
    book.is("over_limit", "penalty") && over > 0 && gettext("the smallest over the limit"),
  ].filter(Boolean).join(", ");
  const stays = left ? `; ${ngettext("%(n)s (%(why)s) does not", "%(n)s (%(why)s) do not", left, { why })}` : "";
  return `${start}${stays}.`;
}

/** How many fish the rules ask to be weighed alone. @param {RuleBook} book @param {Counts} slip */
export function largestAsked(book, slip) {
  if (slip.alive === null || slip.dead === null || slip.short === null) return 0;
  const taken = removed(book, slip).reduce((a, b) => a + b, 0);
  return taken < onScale(book, slip) ? taken : 0;
}

/** "7 fish: 5 alive, 2 dead, 0 short". @param {Partial<Slip>} slip */
export const counts = ({ fish = 0, alive, dead, short }) => gettext("%(fish)s: %(alive)s alive, %(dead)s dead, %(short)s short", { fish: fishOf(fish), alive, dead, short: short || 0 });

/** "slip 7", or as ``otherwise`` says of one without a number. @param {number | null | undefined} number @param {string} [otherwise] */
export const slipNamed = (number, otherwise = gettext("the slip")) => (number ? gettext("slip %(number)s", { number }) : otherwise);

/** What a slip says, in a few words. @param {Partial<Slip> | Typed} slip */
export function inShort(slip) {
  const parts = [
    slip.dead && gettext("%(alive)s alive, %(dead)s dead", { alive: slip.alive, dead: slip.dead }), slip.short && gettext("%(short)s short", { short: slip.short }),
  ].filter(Boolean).join(", ");
  const fish = fishOf(slip.fish || 0);
  return [
    parts ? `${fish} (${parts})` : fish, slip.gross && gettext("%(weight)s on the scale", { weight: slip.gross }),
    slip.big_fish && gettext("big fish %(weight)s", { weight: slip.big_fish }), slip.big_fish && slip.big_fish_alive === false && gettext("dead"),
  ].filter(Boolean).join(", ");
}

/** A reason with the person who gives it, as the history keeps it. @param {string | null | undefined} reason @param {string | null | undefined} person */
export const reasonOf = (reason, person) => `${reason} (${person})`.slice(0, 500);
