/* What this tablet knows to stand: the site's current slips as last heard, and its own that came after. */
import { gettext } from "../site/text.js";

const FIELDS = ["id", "replaces", "reason", "void", "slip"];    // what belongs to a slip itself, not to what it says
/** @type {("checked_in" | "minutes_late" | "excused_minutes")[]} */
const OF_THE_CHECK_IN = ["checked_in", "minutes_late", "excused_minutes"];
/** @param {SlipRecord} record */
export const kept = (record) => !record.asideAt && !["refused", "differs"].includes(record.state);
/** @param {unknown} value @returns {boolean} */
const blank = (value) => value === null || value === undefined || value === "" || (Array.isArray(value) ? !value.length : typeof value === "object" && Object.values(value).every(blank));

/** Own records that another own record replaces: id -> the record that does. @param {SlipRecord[]} records */
export function replacing(records) {
  /** @type {Map<string, SlipRecord>} */
  const found = new Map();
  for (const record of records.filter((one) => kept(one) && one.slip.replaces)) {
    const old = records.find((one) => one.id === record.slip.replaces || (one.number && one.number === record.slip.replaces));
    if (old) found.set(old.id, record);
  }
  return found;
}

/**
 * Every slip that stands; ``held`` is the site's document with the time it was heard.
 * @param {SlipRecord[]} records @param {Held | null} held @returns {Standing[]}
 */
export function current(records, held) {
  const mine = records.filter(kept), there = held ? held.document.slips : [];
  const gone = new Set(mine.map((record) => record.slip.replaces).filter(Boolean));
  const after = replacing(records);
  const here = mine.filter((record) => !record.slip.void && !after.has(record.id)
    && (record.state === "waiting" || !(held && held.at > Number(record.answeredAt)) || there.some((one) => one.id === record.id)));
  const others = there.filter((one) => !one.void && !gone.has(one.id) && !gone.has(one.slip) && !mine.some((record) => record.id === one.id));
  return [
    ...others.map((slip) => ({ slip, number: slip.slip, record: null })),
    ...here.map((record) => ({ slip: record.slip, number: record.number, record })),
  ];
}

/**
 * Of own slips that were one of two: how it was settled, once the site's document has one slip of the boat for the day.
 * @param {SlipRecord[]} records @param {Held | null} held @returns {[SlipRecord, string][]}
 */
export function settled(records, held) {
  /** @type {[SlipRecord, string][]} */
  const found = [];
  if (!held) return found;
  for (const record of records.filter((one) => one.state === "second" && !one.settled && held.at > Number(one.answeredAt))) {
    const there = held.document.slips.filter((one) => !one.void && one.boat === record.slip.boat && one.day === record.slip.day);
    if (there.length !== 1) continue;    // none: nothing says which of two stands
    const [one] = there;
    found.push([record, one.id === record.id ? gettext("this slip counts")
      : one.gross ? gettext("slip %(number)s counts, %(weight)s on the scale, not this one", { number: one.slip, weight: one.gross }) : gettext("slip %(number)s counts, not this one", { number: one.slip })]);
  }
  return found;
}

/** What a slip says, as it is sent: nothing blank, and nothing of the slip itself. @param {Partial<Slip>} slip @returns {Partial<Slip>} */
export function said(slip) {
  return Object.fromEntries(Object.entries(slip).filter(([name, value]) => !FIELDS.includes(name) && !blank(value)));
}

/** What ``other`` says, written for the boat of ``mine``; what the check-in says of a boat stays with the boat. @param {Slip} mine @param {Slip} other */
export function ofTheOther(mine, other) {
  const own = said(mine), words = said(other);
  for (const name of OF_THE_CHECK_IN) { delete words[name]; if (own[name] !== undefined) Object.assign(words, { [name]: own[name] }); }
  if (words.well_boat === mine.boat) delete words.well_boat;
  return { ...words, boat: mine.boat, day: mine.day };
}
