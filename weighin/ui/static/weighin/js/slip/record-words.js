/* What the table's page says of a slip that was kept: where it is, why the site did not take it, and its text. */
import { clock } from "../device/times.js";
import { gettext, ngettext } from "../site/text.js";
import { counts } from "./words.js";

/** What the site says is wrong with a record, in sentences. @param {SlipRecord} record */
export function why({ state, faults }) {
  if (state === "differs") return gettext("The site holds this slip with other values and changed nothing: show both to the director.");
  return (faults || []).map(({ says, message }) => says || message).join(" ") || gettext("The site did not say why.");
}

/** @param {string} here @param {SlipRecord} record */
const withNumber = (here, { number }) => (number ? gettext("%(state)s, slip %(number)s", { state: here, number }) : here);

/** The mark, the short state, and what to do about it; ``after`` is the record that took its place. @param {SlipRecord} record @param {boolean} going @param {SlipRecord} [after] @returns {[string, string, string]} */
export function state(record, going, after) {
  const there = withNumber(gettext("on the server"), record);
  if (after) {
    const { reason } = after.slip;
    return after.slip.void ? ["none", gettext("void here"), gettext("Voided on this tablet: %(reason)s. It stays readable.", { reason })]
      : ["none", gettext("replaced here"), gettext("Replaced on this tablet: %(reason)s. It stays readable.", { reason })];
  }
  if (record.swap && record.state === "refused") {
    const [one, other] = record.swap;
    return ["open", gettext("half of a swap, not saved"), gettext("The site did not save this half of the swap of boats %(one)s and %(other)s; the other half may stand. Look at both boats’ slips with the director, then correct this boat by itself.", { one, other })];
  }
  if (record.settled) return ["done", gettext("%(state)s; settled: %(settled)s", { state: there, settled: record.settled }), gettext("A director settled the boat’s slips: %(settled)s.", { settled: record.settled })];
  if (record.asideAt && record.state === "second") return ["done", there, gettext("One of two slips of this boat, checked off on this tablet. The director decides which one counts.")];
  if (record.asideAt) return ["none", gettext("set aside"), gettext("Set aside by hand. It stays readable on this tablet and is not sent.")];
  switch (record.state) {
    case "kept": return ["done", there, ""];
    case "already": return ["done", there, gettext("The site had it already: it counts once.")];
    case "second": return ["done", withNumber(gettext("second slip"), record), gettext("This boat has another slip for the day. Both are saved and neither counts until the director settles it: call the director.")];
    case "differs": return ["open", gettext("differs, not saved"), gettext("The site has this slip with other values and changed nothing. Show both to the director, then set this one aside.")];
    case "refused": return ["open", gettext("refused, not saved"), gettext("The site did not save it. Correct it and save it again, or send it again when the cause is gone.")];
    default: return going ? ["going", gettext("sending"), gettext("It is on its way; it stays on this tablet until the site has named it.")]
      : ["open", gettext("saved on this tablet"), gettext("It is sent by itself when there is a link.")];
  }
}

/** A slip in plain lines, to copy by hand or to print. @param {SlipRecord} record @param {string | undefined} zone @param {Unit} unit @returns {string[]} */
export function asText(record, zone, unit) {
  const slip = record.slip, { boat, day } = slip, team = record.team;
  if (slip.void) {
    const out = gettext("Voids %(slip)s of boat %(boat)s, %(team)s, day %(day)s", { slip: record.of || gettext("a slip"), boat, team, day });
    return [record.eventName, out, gettext("Why: %(reason)s", { reason: slip.reason }), gettext("Id %(id)s, of the slip %(replaces)s", { id: slip.id, replaces: slip.replaces })];
  }
  /** @param {string | null | undefined} text */
  const weight = (text) => `${text} ${unit}`;
  const bigFish = slip.big_fish && [gettext("Big fish %(weight)s", { weight: weight(slip.big_fish) }), slip.big_fish_alive == null ? "" : slip.big_fish_alive ? gettext("alive") : gettext("dead")].filter(Boolean).join(", ");
  return [
    record.eventName, gettext("Boat %(boat)s, %(team)s, day %(day)s", { boat, team, day }),
    counts(slip),
    slip.gross ? gettext("Scale reading %(weight)s", { weight: weight(slip.gross) }) : gettext("Nothing on the scale"),
    slip.tare ? gettext("Bag %(weight)s", { weight: weight(slip.tare) }) : "",
    slip.largest_weights && slip.largest_weights.length ? gettext("Largest fish %(weights)s", { weights: slip.largest_weights.join(", ") }) : "", bigFish || "",
    record.total ? gettext("Total %(weight)s", { weight: weight(record.total) }) : "",
    slip.checked_in ? gettext("Checked in %(time)s", { time: clock(slip.checked_in, zone, true) }) : "",
    slip.minutes_late ? ngettext("%(n)s minute late", "%(n)s minutes late", slip.minutes_late) : "",
    slip.excused_minutes ? gettext("%(minutes)s min excused", { minutes: slip.excused_minutes }) : "",
    gettext("Weighed %(time)s by %(official)s", { time: clock(slip.weighed || "", zone, true), official: slip.official }),
    slip.note ? gettext("Note: %(note)s", { note: slip.note }) : "", slip.reason ? gettext("Why it was changed: %(reason)s", { reason: slip.reason }) : "",
    slip.replaces ? gettext("Replaces %(slip)s", { slip: record.of || gettext("the slip %(id)s", { id: slip.replaces }) }) : "",
    gettext("Id %(id)s", { id: slip.id }),
  ].filter(Boolean);
}
