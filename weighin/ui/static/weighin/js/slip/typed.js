/* The slip as it is typed: counts, weights as the scale showed them, and lateness from the check-in. */
import * as times from "../device/times.js";
import * as scoring from "../scoring/scoring.js";
import * as words from "./words.js";

/* ``largest()`` gives the lines for the largest fish that are asked for. */
export function typedSlip(form, { papers, zone, unit, entryOf, largest }) {
  const line = (name) => form.elements.namedItem(name);

  function dueOf(slip) {
    const day = papers().days.find((one) => one.day === slip.day), entry = entryOf(slip.boat);
    return day ? Date.parse((entry && day.flights[entry.flight]) || day.due) : NaN;
  }

  /* What the roll tells of a boat: the first time noted, and the minutes that were excused last, whichever line has them. */
  function checkinOf(boat, day) {
    const lines = papers() ? papers().checkins.filter((one) => one.boat === boat && one.day === day && !one.void) : [];
    const came = lines.find((one) => one.checked_in || one.minutes_late != null);
    const excused = lines.reduce((last, one) => (one.excused_minutes != null ? one.excused_minutes : last), null);
    return lines.length ? Object.assign({}, came || lines[0], { excused_minutes: excused }) : undefined;
  }

  /* A time of the event's clock on the day as a moment; the one nearest to the due time. */
  function moment(text, slip) {
    const found = times.read(text);
    if (!found || !slip.day) return null;
    const day = papers().days.find((one) => one.day === slip.day);
    const offset = /(Z|[+-]\d{2}:\d{2})$/.exec(day.due)[1];
    const wanted = Date.parse(`${day.date}T${found.whole}${offset}`);
    const near = [wanted - 864e5, wanted, wanted + 864e5].sort((a, b) => Math.abs(a - dueOf(slip)) - Math.abs(b - dueOf(slip)));
    return new Date(near[0]).toISOString();
  }

  const count = (name) => (/^\d{1,3}$/.test(line(name).value.trim()) ? Number(line(name).value) : null);
  const said = (name) => line(name).value.trim() || null;

  /* As the scale showed it; what was written in another way is written as stations write it. */
  function weight(text) {
    if (!text || /^(?:\d+-)?\d*\.?\d*$/.test(text)) return text;
    try { return scoring.show(scoring.readWeight(text, unit()), unit()); } catch (fault) { return text; }
  }

  function typed() {
    const boat = /^\d{1,5}$/.test(line("boat").value.trim()) ? Number(line("boat").value) : null;
    const alive = count("alive"), dead = count("dead"), big = weight(said("big_fish"));
    const slip = {
      day: Number(line("day").value) || null, boat, fish: (alive || 0) + (dead || 0), alive, dead, short: count("short"),
      gross: weight(said("gross")), tare: weight(said("tare")), big_fish: big, big_fish_alive: null, largest_weights: [],
      checked_in: null, minutes_late: null, excused_minutes: null, official: said("official"), note: said("note"),
    };
    if (big && dead > 0) {
      const picked = form.querySelector("[name=big_fish_alive]:checked");
      slip.big_fish_alive = alive === 0 ? false : picked ? picked.value === "yes" : null;
    }
    slip.largest_weights = largest().map((one) => weight(one.value.trim())).filter(Boolean);
    takeCheckin(slip);
    return slip;
  }

  function takeCheckin(slip) {
    if (!papers()) return;
    const checkin = checkinOf(slip.boat, slip.day), written = said("checked_in"), excused = said("excused_minutes");
    if (written) slip.checked_in = checkin && checkin.checked_in && written === words.clock(checkin.checked_in, zone(), true) ? checkin.checked_in : moment(written, slip);
    else if (checkin && checkin.minutes_late != null) slip.minutes_late = checkin.minutes_late;
    const minutes = /^(\d+(?:\.\d+)?)\s*(?:m|min|mins|minutes?)?\.?$/i.exec(excused || "");
    if (minutes) slip.excused_minutes = Number(minutes[1]);
  }

  /* A time that was typed without its half of the day, where the other half lies nearer to the due time: as it is taken,
     and as it would be; null where there is no question. */
  function halfOfDay(slip) {
    const found = said("checked_in") && slip.checked_in && times.read(said("checked_in"));
    if (!found || !found.bare) return null;
    const taken = Date.parse(slip.checked_in), far = (moment) => Math.abs(moment - dueOf(slip)), evening = `${Number(found.whole.slice(0, 2)) + 12}${found.whole.slice(2)}`;
    if (Math.min(far(taken + 432e5), far(taken - 432e5)) >= far(taken)) return null;
    return [found.whole, evening].map(times.spoken);
  }

  function lateMs(slip) {
    if (slip.minutes_late != null) return slip.minutes_late * 60000;
    if (!slip.checked_in) return 0;
    return Math.max(0, Date.parse(slip.checked_in) - dueOf(slip) - Math.round((slip.excused_minutes || 0) * 60000));
  }

  /* How late by the clock, to the second; empty when not. */
  function lateBy(slip) {
    const seconds = Math.ceil(lateMs(slip) / 1000);
    return seconds ? `${[seconds >= 60 && `${Math.floor(seconds / 60)} min`, seconds % 60 && `${seconds % 60} s`].filter(Boolean).join(" ")} late` : "";
  }

  function lateness(slip) {
    if (!slip.checked_in && slip.minutes_late == null) return "check-in not recorded, so not counted late";
    return lateMs(slip) ? "late, within the grace" : "on time";
  }

  /* Writes what the check-in table says of the boat; of a slip that is corrected, what that slip says. */
  function fillCheckin(corrected) {
    const boat = Number(line("boat").value), day = Number(line("day").value);
    const checkin = corrected && corrected.boat === boat && corrected.day === day ? corrected : checkinOf(boat, day);
    line("checked_in").value = checkin && checkin.checked_in ? words.clock(checkin.checked_in, zone(), true) : "";
    line("excused_minutes").value = checkin && checkin.excused_minutes ? checkin.excused_minutes : "";
  }

  /* When the bag of a boat went out, as the line says; null when that cannot be before now. */
  function bagIssued(slip) {
    const called = papers() && (papers().called || []).find((one) => one.boat === slip.boat && one.day === slip.day);
    return called && Date.parse(called.bag_issued) <= Date.now() ? called.bag_issued : null;
  }

  /* Writes a slip into the lines. */
  function fill(slip, { note, initials, why, who }) {
    for (const name of ["boat", "alive", "dead", "short", "gross", "tare", "big_fish", "official", "day", "excused_minutes"]) if (slip[name] != null) line(name).value = slip[name];
    for (const [name, text] of Object.entries({ note, initials, why, who })) if (text) line(name).value = text;
    if (slip.checked_in) line("checked_in").value = words.clock(slip.checked_in, zone(), true);
    if (slip.big_fish_alive != null) line("big_fish_alive").value = slip.big_fish_alive ? "yes" : "no";
  }

  return { slip: typed, count, said, checkinOf, halfOfDay, lateMs, lateBy, lateness, fillCheckin, bagIssued, fill };
}
