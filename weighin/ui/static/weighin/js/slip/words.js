/* What the table's page says: faults, the lines of a score, the state of a slip, and a slip as plain text. */
import * as scoring from "../scoring/scoring.js";

const UNITS = { lb: "lb", kg: "kg", "lb-oz": "lb-oz" };
const EXAMPLES = { lb: "9.47", "lb-oz": "9-07.5", kg: "4.295" };
function element(name, text, attributes) {
  const made = document.createElement(name);
  if (text) made.textContent = text;
  for (const [key, value] of Object.entries(attributes || {})) made.setAttribute(key, value);
  return made;
}

const counted = (number, noun) => `${number} ${noun}${number === 1 || noun === "fish" ? "" : "s"}`;

/* A weight of the scoring, plain decimal text, as the event writes weights. */
function shown(text, unit) {
  const below = text.startsWith("-"), size = below ? text.slice(1) : text;
  const [whole, part = ""] = size.split(".");
  const exact = BigInt(whole) * 10n ** 16n + BigInt((part + "0".repeat(16)).slice(0, 16));
  return scoring.show(below ? -exact : exact, unit);
}

function clock(moment, zone, seconds) {
  const asked = { hour: "2-digit", minute: "2-digit", timeZone: zone || undefined };
  if (seconds) asked.second = "2-digit";
  return new Date(moment).toLocaleTimeString("en-GB", asked);
}

/* A fault of the scoring in a sentence that says what to do. */
function fault({ field, message }, unit) {
  const example = EXAMPLES[unit];
  const said = {
    negative: "A weight is never below zero: read the scale again.",
    comma: `Write a point, not a comma, such as ${example}.`,
    "too much": "More than the scale can hold: read it again.",
    "less than the bag": "Lighter than the empty bag: read the scale again.",
    "no fish goes on the scale under these rules": "No fish goes on the scale under these rules: leave the weight empty.",
    "no weight yet": "Write what the scale shows.",
    "not largest first": "Write the heaviest first.",
    "more than the fish on the scale": "Heavier together than all the fish on the scale: weigh them again.",
    "was it alive?": "Some fish are dead: say whether the big fish was alive.",
    "against the counts": "The counts say otherwise: count again.",
    "no fish was presented": "No fish was counted: count first.",
    "heavier than what counts": "Heavier than all the fish that count: read the scale again.",
  }[message];
  if (said) return said;
  if (field === "short") return `${message.charAt(0).toUpperCase()}${message.slice(1)}: short fish are counted in alive or dead too.`;
  if (message.startsWith("the rules take")) return `T${message.slice(1)}: weigh each alone and write it, heaviest first.`;
  return `This is not a weight: write it as the scale shows it, such as ${example}.`;
}

const LOST = { ruling: "by ruling", over_limit: "over the limit", short_fish: "short fish", late: "late" };
function deduction({ reason, count }, book) {
  const each = { dead_fish: book.deadPenalty.length === 1 ? book.deadPenalty[0] : null, late: book.latePenalty };
  each.short_fish = book.shortFish === "penalty" ? book.shortPenalty : null;
  each.over_limit = book.overLimit === "penalty" ? book.overPenalty : null;
  const at = each[reason] == null ? "" : ` at ${scoring.show(each[reason], book.unit)}`;
  const noun = { dead_fish: "dead fish", short_fish: "short fish", over_limit: "over the limit", late: count === 1 ? "minute late" : "minutes late" };
  return reason === "extra" ? "Penalty by ruling" : `${count} ${noun[reason]}${at}`;
}

/* [words, figures] of every line of a score, the total left out. */
function lines(score, slip, book, lateness) {
  const bag = slip.tare ? scoring.readWeight(slip.tare, book.unit) : book.bagTare;
  const net = shown(score.net, book.unit);
  const found = [];
  if (!slip.fish) found.push(["No fish", net]);
  else if (!score.onScale) found.push(["Nothing on the scale", net]);
  else if (bag) found.push([`The scale, ${score.onScale} fish and the bag`, shown(scoring.plain(scoring.readWeight(slip.gross, book.unit)), book.unit)], ["The bag", `− ${scoring.show(bag, book.unit)}`]);
  else found.push([`Weighed, ${score.onScale} fish`, net]);
  if (score.lost) { found.push([`The day is lost: ${LOST[score.lost]}`, `− ${net}`]); return found; }
  for (const line of score.deductions) found.push([deduction(line, book), `− ${shown(line.amount, book.unit)}`]);
  if (score.bonus !== "0") found.push(["Bonus for live fish", `+ ${shown(score.bonus, book.unit)}`]);
  const none = [!slip.dead && "no dead fish", !slip.short && "no short fish", !score.minutes && lateness].filter(Boolean).join("; ");
  if (none) found.push([none.charAt(0).toUpperCase() + none.slice(1), "", true]);
  return found;
}

/* How many fish go on the scale, and which not. */
function goes(book, slip) {
  if (!slip.fish) return "";
  const number = scoring.onScale(book, slip), left = slip.fish - number;
  const start = number === 0 ? "Nothing goes" : number === 1 ? "1 fish goes" : `${number} fish go`;
  const over = slip.fish - book.fishLimit;
  const beyond = over > 0 ? ` ${slip.fish} fish, ${over} over the limit of ${book.fishLimit}: count again.` : "";
  const why = [slip.short && "short", slip.dead && book.deadFish !== "penalty" && "dead", book.overLimit === "penalty" && slip.fish > book.fishLimit && "the smallest over the limit"].filter(Boolean);
  return (left ? `${start} on the scale; ${left} (${why.join(", ")}) ${left === 1 ? "does" : "do"} not.` : `${start} on the scale.`) + beyond;
}

/* What a slip says, in a few words. */
function inShort(slip) {
  const counts = [slip.dead && `${slip.alive} alive, ${slip.dead} dead`, slip.short && `${slip.short} short`].filter(Boolean).join(", ");
  return `${counted(slip.fish, "fish")}${counts ? ` (${counts})` : ""}${slip.gross ? `, ${slip.gross} on the scale` : ""}${slip.big_fish ? `, big fish ${slip.big_fish}${slip.big_fish_alive === false ? ", dead" : ""}` : ""}`;
}

const LABELS = {
  boat: "Boat", alive: "Alive", dead: "Dead", short: "Short", fish: "Fish in all", gross: "Weight", tare: "Bag", largest_weights: "Largest fish", big_fish: "Big fish",
  big_fish_alive: "The big fish", checked_in: "Checked in", minutes_late: "Minutes late", excused_minutes: "Minutes excused", weighed: "Weighed", official: "Official", note: "Note", day: "Day",
  launched: "Launched", first_fish: "First fish", bag_issued: "Bag issued", bag_emptied: "Bag emptied", released: "Released", dead_at_release: "Dead at release",
};
/* A message with field names such as checked_in as the page calls them: where they begin it, are compared with, or have an underline. */
const inLabels = (message) => message.replace(/[a-z]+(?:_[a-z]+)+|^[a-z]+(?= is before )|(?<= is before )[a-z]+(?=:)/g, (name) => (LABELS[name] ? `“${LABELS[name]}”` : name));
/* What the site says is wrong with a record, in sentences that name the line as the page does. */
function why({ state, faults }) {
  if (state === "differs") return "The site holds this slip with other values and changed nothing: show both to the director.";
  const said = (faults || []).map(({ field, message }) => ({ said: inLabels(message), label: LABELS[field] })).map(({ said, label }) => (label && !said.startsWith(`“${label}”`) ? `${label}: ${said}` : said.charAt(0).toUpperCase() + said.slice(1)));
  return said.map((one) => (/[.!?]$/.test(one) ? one : `${one}.`)).join(" ") || "The site did not say why.";
}

/* A reason with the person who gives it, as the history keeps it. */
const reasonOf = (reason, person) => `${reason} (${person})`.slice(0, 500);

/* The mark, the short state, and what to do about it; ``after`` is the record that took its place. */
function state(record, going, after) {
  const number = record.number ? `, slip ${record.number}` : "";
  if (after) return ["none", after.slip.void ? "taken out here" : "replaced here", `${after.slip.void ? "Taken out" : "Replaced"} on this tablet: ${after.slip.reason}. It stays readable.`];
  if (record.swap && record.state === "refused") {
    return ["open", "half of a swap, not kept", `The site did not keep this half of the swap of boats ${record.swap.join(" and ")}; the other half may stand. Look at both boats’ slips with the director, then put this boat right by itself.`];
  }
  if (record.settled) return ["done", `on the server${number}; settled: ${record.settled}`, `A director settled the boat’s slips: ${record.settled}.`];
  if (record.asideAt && record.state === "second") return ["done", `on the server${number}`, "One of two slips of this boat, ticked off at this table. Which one counts is the director's to say."];
  if (record.asideAt) return ["none", "set aside", "Set aside by hand. It stays readable on this tablet and is not sent."];
  return {
    waiting: going ? ["going", "going up", "It is on its way; it stays on this tablet until the site has named it."]
      : ["open", "kept on this tablet", "It goes up by itself when there is a link."],
    kept: ["done", `on the server${number}`, ""],
    already: ["done", `on the server${number}`, "The site had it already: it counts once."],
    second: ["done", `second slip${number}`, "This boat has another slip for the day. Both are kept and neither counts until the director settles it: call the director."],
    differs: ["open", "differs, not kept", "The site holds this slip with other values and changed nothing. Show both to the director, then set this one aside."],
    refused: ["open", "refused, not kept", "The site did not keep it. Put it right and keep it again, or send it again when what it says is mended."],
  }[record.state];
}

/* A slip in plain lines, to copy by hand or to print. */
function asText(record, zone, unit) {
  const slip = record.slip;
  if (slip.void) return [record.eventName, `Takes ${record.of || "a slip"} of boat ${slip.boat}, ${record.team}, day ${slip.day} out`, `Why: ${slip.reason}`, `Id ${slip.id}, of the slip ${slip.replaces}`];
  const weight = (text) => `${text} ${UNITS[unit] || ""}`.trim();
  return [
    record.eventName, `Boat ${slip.boat}, ${record.team}, day ${slip.day}`,
    `${counted(slip.fish, "fish")}: ${slip.alive} alive, ${slip.dead} dead, ${slip.short || 0} short`,
    slip.gross ? `The scale showed ${weight(slip.gross)}` : "Nothing on the scale",
    slip.tare ? `Bag ${weight(slip.tare)}` : "",
    slip.largest_weights && slip.largest_weights.length ? `Largest fish ${slip.largest_weights.join(", ")}` : "",
    slip.big_fish ? `Big fish ${weight(slip.big_fish)}${slip.big_fish_alive == null ? "" : slip.big_fish_alive ? ", alive" : ", dead"}` : "",
    record.total ? `Total ${weight(record.total)}` : "",
    slip.checked_in ? `Checked in ${clock(slip.checked_in, zone, true)}` : "",
    slip.minutes_late ? `${counted(slip.minutes_late, "minute")} late` : "",
    slip.excused_minutes ? `${slip.excused_minutes} min excused` : "",
    `Weighed ${clock(slip.weighed, zone, true)} by ${slip.official}`,
    slip.note ? `Note: ${slip.note}` : "", slip.reason ? `Why it was changed: ${slip.reason}` : "",
    slip.replaces ? `Takes the place of ${record.of || `the slip ${slip.replaces}`}` : "", `Id ${slip.id}`,
  ].filter(Boolean);
}

export { element, shown, clock, fault, lines, goes, inShort, reasonOf, why, state, asText, counted, UNITS, EXAMPLES };
