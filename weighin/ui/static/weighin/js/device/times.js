/* Days and times of an event: which day is going on, and times as people type them. */

/**
 * {text: "15:05:30", whole, bare} of "15:05", "3:05 PM", "3pm", "3.05.30 p.m." or "1505"; null for anything else.
 * ``bare`` tells of an hour from 1 to 11 without a word for its half of the day.
 * @param {string} written
 */
export function read(written) {
  const found = /^(\d{1,2})(?:[:.h]?(\d{2})(?:[:.](\d{2}))?)?\s*(?:([ap])\.?\s?m?\.?)?$/i.exec(written.trim());
  if (!found) return null;
  const [, first, minutes, seconds, half] = found;
  if (!half && minutes === undefined) return null;    // a figure alone is no time
  let hours = Number(first);
  if (hours > (half ? 12 : 23) || (half && hours < 1) || Number(minutes || 0) > 59 || Number(seconds || 0) > 59) return null;
  if (half) hours = (hours % 12) + (half.toLowerCase() === "p" ? 12 : 0);
  const two = (/** @type {string | number} */ figure) => String(figure || 0).padStart(2, "0");
  return { text: `${two(hours)}:${two(minutes)}${seconds ? `:${seconds}` : ""}`, whole: `${two(hours)}:${two(minutes)}:${two(seconds)}`, bare: !half && first[0] !== "0" && hours < 12 };
}

/** "3:05 PM" of "15:05:00". @param {string} whole */
export function spoken(whole) {
  const [hours, minutes, seconds] = whole.split(":");
  return `${Number(hours) % 12 || 12}:${minutes}${seconds && seconds !== "00" ? `:${seconds}` : ""} ${Number(hours) < 12 ? "AM" : "PM"}`;
}

/**
 * The day that is fished at ``now``: the last that has begun, or the first. In a night event that is the evening's day
 * until the next one starts, whatever the calendar says; ``ahead`` ms before its start a day counts as begun.
 * @param {EventDay[]} days @param {number} now
 */
export function dayNow(days, now, ahead = 0) {
  const sorted = [...days].sort((a, b) => a.day - b.day);
  const begun = sorted.filter((day, place) => now >= Math.max(Date.parse(day.start) - ahead, place ? Date.parse(sorted[place - 1].due) : -Infinity));
  return begun.pop() || sorted[0];
}

const page = globalThis.document?.documentElement;
const lang = page?.lang, hourCycle = page?.dataset.hours ? "h23" : "h12";

/** "Sat, November 28, 2026" of a day of the event. @param {{date: string}} day */
export const dated = (day) => new Date(day.date).toLocaleDateString(lang, { weekday: "short", month: "long", day: "numeric", year: "numeric", timeZone: "UTC" });

/** "3:05 PM", or with its seconds; 15:05 where the club writes 24 hours; in every language. @param {string | number} moment @param {string} [zone] @param {boolean} [seconds] */
export const clock = (moment, zone, seconds) => new Date(moment).toLocaleTimeString("en-US", {
  hour: "numeric", minute: "2-digit", second: seconds ? "2-digit" : undefined, hourCycle, timeZone: zone || undefined,
}).replace(/\s/gu, " ");

/** A time that was typed, as the club writes it. @param {{text: string, whole: string}} time */
export const shown = ({ text, whole }) => page?.dataset.hours ? text : spoken(whole);
