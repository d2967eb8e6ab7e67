/* The slip as it is typed: counts, weights as the scale showed them, and lateness from the check-in. */
import * as times from "../device/times.js";
import { readWeight, show } from "../scoring/weights.js";
import { linesOf } from "../site/elements.js";
import { gettext } from "../site/text.js";

/**
 * ``largest()`` gives the lines for the largest fish that are asked for.
 * @param {HTMLFormElement} form
 * @param {{eventDocument: () => EventDocument | null, zone: () => string | undefined, unit: () => Unit,
 *   entryOf: (boat: number | null) => Entry | null | undefined, largest: () => HTMLInputElement[]}} about
 */
export function typedSlip(form, { eventDocument, zone, unit, entryOf, largest }) {
  const line = linesOf(form);

  /** @param {BoatAndDay} slip */
  const dayOf = (slip) => eventDocument()?.days.find((one) => one.day === slip.day);

  /** @param {BoatAndDay} slip */
  function dueOf(slip) {
    const day = dayOf(slip), entry = entryOf(slip.boat);
    return day ? Date.parse((entry && day.flights[entry.flight]) || day.due) : NaN;
  }

  /** What the roll tells of a boat: the first time noted, and the minutes that were excused last, whichever line has them. @param {number | null} boat @param {number | null} day */
  function checkinOf(boat, day) {
    const found = eventDocument()?.checkins.filter((one) => one.boat === boat && one.day === day && !one.void) || [];
    const came = found.find((one) => one.checked_in || one.minutes_late != null);
    /** @type {number | string | null} */
    let excused = null;
    for (const one of found) if (one.excused_minutes != null) excused = one.excused_minutes;
    return found.length ? { ...(came || found[0]), excused_minutes: excused } : undefined;
  }

  /** A time of the event's clock on the day as a moment; the one nearest to the due time. @param {string} text @param {BoatAndDay} slip */
  function moment(text, slip) {
    const found = times.read(text), day = dayOf(slip);
    if (!found || !day) return null;
    const offset = (/(Z|[+-]\d{2}:\d{2})$/.exec(day.due) || [])[1];
    const wanted = Date.parse(`${day.date}T${found.whole}${offset}`);
    const near = [wanted - 864e5, wanted, wanted + 864e5].sort((a, b) => Math.abs(a - dueOf(slip)) - Math.abs(b - dueOf(slip)));
    return new Date(near[0]).toISOString();
  }

  /** @param {string} name */
  const count = (name) => (/^\d{1,3}$/.test(line(name).value.trim()) ? Number(line(name).value) : null);
  /** @param {string} name */
  const said = (name) => line(name).value.trim() || null;

  /** As the scale showed it; what was written in another way is written as stations write it. @param {string | null} text */
  function weight(text) {
    if (!text || /^(?:\d+-)?\d*\.?\d*$/.test(text)) return text;
    try { return show(readWeight(text, unit()), unit()); } catch { return text; }
  }

  /** @returns {Typed} */
  function typed() {
    const boat = /^\d{1,5}$/.test(line("boat").value.trim()) ? Number(line("boat").value) : null;
    const alive = count("alive"), dead = count("dead"), big = weight(said("big_fish"));
    /** @type {Typed} */
    const slip = {
      day: Number(line("day").value) || null, boat, fish: (alive || 0) + (dead || 0), alive, dead, short: count("short"),
      gross: weight(said("gross")), tare: weight(said("tare")), big_fish: big, big_fish_alive: null, largest_weights: [],
      checked_in: null, minutes_late: null, excused_minutes: null, official: said("official"), note: said("note"),
    };
    if (big && dead) {
      const picked = /** @type {HTMLInputElement | null} */ (form.querySelector("[name=big_fish_alive]:checked"));
      slip.big_fish_alive = alive === 0 ? false : picked ? picked.value === "yes" : null;
    }
    slip.largest_weights = largest().map((one) => weight(one.value.trim()) || "").filter(Boolean);
    takeCheckin(slip);
    return slip;
  }

  /** @param {Typed} slip */
  function takeCheckin(slip) {
    if (!eventDocument()) return;
    const checkin = checkinOf(slip.boat, slip.day), written = said("checked_in"), excused = said("excused_minutes");
    if (written) slip.checked_in = checkin && checkin.checked_in && written === times.clock(checkin.checked_in, zone(), true) ? checkin.checked_in : moment(written, slip);
    else if (checkin && checkin.minutes_late != null) slip.minutes_late = checkin.minutes_late;
    const minutes = /^(\d+(?:\.\d+)?)\s*(?:m|min|mins|minutes?)?\.?$/i.exec(excused || "");
    if (minutes) slip.excused_minutes = Number(minutes[1]);
  }

  /**
   * A time that was typed without its half of the day, where the other half lies nearer to the due time: as it is taken,
   * and as it would be; null where there is no question.
   * @param {Typed} slip
   */
  function halfOfDay(slip) {
    const written = said("checked_in"), found = written && slip.checked_in && times.read(written);
    if (!found || !found.bare) return null;
    const taken = Date.parse(slip.checked_in || ""), evening = `${Number(found.whole.slice(0, 2)) + 12}${found.whole.slice(2)}`;
    /** @param {number} at */
    const far = (at) => Math.abs(at - dueOf(slip));
    if (Math.min(far(taken + 432e5), far(taken - 432e5)) >= far(taken)) return null;
    return [found.whole, evening].map(times.spoken);
  }

  /** @param {Typed} slip */
  function lateMs(slip) {
    if (slip.minutes_late != null) return slip.minutes_late * 60000;
    if (!slip.checked_in) return 0;
    return Math.max(0, Date.parse(slip.checked_in) - dueOf(slip) - Math.round((slip.excused_minutes || 0) * 60000));
  }

  /** How late by the clock, to the second; empty when not. @param {Typed} slip */
  function lateBy(slip) {
    const all = Math.ceil(lateMs(slip) / 1000), minutes = Math.floor(all / 60), seconds = all % 60;
    if (!all) return "";
    if (!minutes) return gettext("%(seconds)s s late", { seconds });
    return seconds ? gettext("%(minutes)s min %(seconds)s s late", { minutes, seconds }) : gettext("%(minutes)s min late", { minutes });
  }

  /** @param {Typed} slip */
  function lateness(slip) {
    if (!slip.checked_in && slip.minutes_late == null) return gettext("check-in not recorded, so not counted late");
    return lateMs(slip) ? gettext("late, within the grace") : gettext("on time");
  }

  /** Writes what the check-in table says of the boat; of a slip that is corrected, what that slip says. @param {Slip | null} [corrected] */
  function fillCheckin(corrected) {
    const boat = Number(line("boat").value), day = Number(line("day").value);
    const checkin = corrected && corrected.boat === boat && corrected.day === day ? corrected : checkinOf(boat, day);
    line("checked_in").value = checkin && checkin.checked_in ? times.clock(checkin.checked_in, zone(), true) : "";
    line("excused_minutes").value = checkin && checkin.excused_minutes ? String(checkin.excused_minutes) : "";
  }

  /** When the bag of a boat went out, as the line says; null when that cannot be before now. @param {BoatAndDay} slip */
  function bagIssued(slip) {
    const called = eventDocument()?.called?.find((one) => one.boat === slip.boat && one.day === slip.day);
    return called && Date.parse(called.bag_issued) <= Date.now() ? called.bag_issued : null;
  }

  /** Writes a slip into the lines. @param {Slip} slip @param {Record<string, string | null | undefined>} texts */
  function fill(slip, texts) {
    /** @type {(keyof Slip)[]} */
    const names = ["boat", "alive", "dead", "short", "gross", "tare", "big_fish", "official", "day", "excused_minutes"];
    for (const name of names) if (slip[name] != null) line(name).value = String(slip[name]);
    for (const [name, text] of Object.entries(texts)) if (text) line(name).value = text;
    if (slip.checked_in) line("checked_in").value = times.clock(slip.checked_in, zone(), true);
    if (slip.big_fish_alive != null) line("big_fish_alive").value = slip.big_fish_alive ? "yes" : "no";
  }

  return { slip: typed, count, said, checkinOf, halfOfDay, lateMs, lateBy, lateness, fillCheckin, bagIssued, fill };
}
