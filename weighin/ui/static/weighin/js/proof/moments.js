/* Moments of a proof in whole microseconds since 1970: written local times of an event's days in its time zone. */
const MINUTE = 60_000_000n;
const DAY_MS = 86_400_000;
const CLOCK = /^(\d{1,2}):(\d{2})(?::(\d{2}))?$/;
const DATE_TIME = /^(\d{4})-(\d{2})-(\d{2})[T ](\d{2}):(\d{2})(?::(\d{2})(?:\.(\d{1,6}))?)?(Z|[+-]\d{2}:\d{2})?$/;

/** A time that cannot be read, or that its day's clock does not show. */
export class NoMoment extends Error {}

/** How many ms the zone's clock is ahead of UTC at a moment. @param {string} zone */
function aheadIn(zone) {
  const form = new Intl.DateTimeFormat("en-US", { timeZone: zone, hourCycle: "h23", year: "numeric", month: "numeric", day: "numeric", hour: "numeric", minute: "numeric", second: "numeric" });
  /** @type {Map<number, number>} */
  const known = new Map();
  return (/** @type {number} */ at) => {
    const found = known.get(at);
    if (found !== undefined) return found;
    const part = Object.fromEntries(form.formatToParts(at).map(({ type, value }) => [type, Number(value)]));
    const ahead = Date.UTC(part.year, part.month - 1, part.day, part.hour, part.minute, part.second) - at;
    known.set(at, ahead);
    return ahead;
  };
}

/** Seconds of the day. @param {unknown} text */
function seconds(text) {
  const found = typeof text === "string" ? CLOCK.exec(text.trim()) : null;
  const [hours, minutes, rest] = (found || []).slice(1).map((one) => Number(one || 0));
  if (!found || hours > 23 || minutes > 59 || rest > 59) throw new NoMoment(String(text));
  return hours * 3600 + minutes * 60 + rest;
}

/**
 * The calendar of an event: ``read(day, text)`` of a time as the workbook writes it, ``due(day, flight)``, and ``fished``, the
 * numbers of the days that were not cancelled.
 * @param {Proof} proof
 */
export function calendarOf({ event, flights }) {
  const aheadAt = aheadIn(event.time_zone);
  const days = new Map(event.days.map((day) => {
    const [year, month, date] = /^\d{4}-\d{2}-\d{2}$/.test(day.date) ? day.date.split("-").map(Number) : [NaN, NaN, NaN];
    const midnight = Date.UTC(year, month - 1, date);
    if (!Number.isInteger(day.day) || Number.isNaN(midnight)) throw new NoMoment(String(day.date));
    return [day.day, { midnight, start: seconds(day.start_time ?? event.start_time), due: seconds(day.due_time ?? event.due_time), cancelled: day.status === "cancelled" }];
  }));
  const due = new Map(flights.map((row) => [JSON.stringify([row.flight, row.day]), seconds(row.due_time)]));

  /** The moment of a local time; one that comes twice means its first passing. @param {number} local ms, as if it were UTC */
  function moment(local) {
    const found = [local - aheadAt(local - DAY_MS), local - aheadAt(local + DAY_MS)].filter((at) => at + aheadAt(at) === local);
    if (!found.length) throw new NoMoment(new Date(local).toISOString());
    return Math.min(...found);
  }

  /** In a night event early hours belong to the next date. @param {number} number @param {number} clock seconds */
  function at(number, clock) {
    const day = days.get(number);
    if (!day) throw new NoMoment(String(number));
    const next = day.due < day.start && clock < day.start ? DAY_MS : 0;
    return BigInt(moment(day.midnight + next + clock * 1000)) * 1000n;
  }

  return {
    fished: [...days].filter(([, day]) => !day.cancelled).map(([number]) => number).sort((a, b) => a - b),
    /** @param {number} number @param {unknown} text */
    read(number, text) {
      const found = typeof text === "string" ? DATE_TIME.exec(text.trim()) : null;
      if (!found) return at(number, seconds(text));
      const [year, month, day, hours, minutes, rest] = found.slice(1, 7).map((one) => Number(one || 0));
      const local = Date.UTC(year, month - 1, day, hours, minutes, rest), zone = found[8];
      const offset = !zone ? null : zone === "Z" ? 0 : (Number(zone.slice(1, 3)) * 60 + Number(zone.slice(4))) * (zone[0] === "-" ? -1 : 1);
      return BigInt(offset === null ? moment(local) : local - offset * 60_000) * 1000n + BigInt((found[7] || "").padEnd(6, "0"));
    },
    /** @param {number} number @param {string | null} flight */
    due(number, flight) {
      const named = flight ?? "";
      return at(number, due.get(JSON.stringify([named, number])) ?? due.get(JSON.stringify([named, null])) ?? days.get(number)?.due ?? NaN);
    },
  };
}

/** @typedef {ReturnType<typeof calendarOf>} ProofCalendar */

/** Minutes late as a fraction, never below 0. @param {bigint} came @param {bigint} due @param {bigint} excused minutes, over ``one`` @param {bigint} one @returns {[bigint, bigint]} */
export function minutesLate(came, due, excused, one) {
  const late = (came - due) * one - excused * MINUTE;
  return [late > 0n ? late : 0n, MINUTE * one];
}
