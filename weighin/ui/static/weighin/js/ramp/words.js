/* What the page of boat checks says: fields, checks, and where a note is. */
import { clock } from "../device/times.js";
import { gettext, ngettext } from "../site/text.js";

/** @type {Record<string, string>} */
export const NAMES = {
  pump_ok: gettext("pump"), aeration: gettext("aeration"), livewell_gal: gettext("livewell"), ice_lb: gettext("ice"), thermometer_ok: gettext("thermometer"), launched: gettext("launch"),
  first_fish: gettext("first fish"), livewell_temp: gettext("livewell’s temperature"), livewell_do: gettext("oxygen"), most_on_board: gettext("most on board"),
  culled: gettext("culled"), catch_depth_ft: gettext("depth of catch"), deep_hooked: gettext("deep-hooked"), barotrauma: gettext("signs of depth"),
  reflexes_absent: gettext("reflexes absent"), reflexes_checked: gettext("reflexes tried"), note: gettext("note"),
};
/** @type {Record<string, string>} */
const CHECKS = {
  pump: gettext("pump"), thermometer: gettext("thermometer"), ice: gettext("ice"), on_board: gettext("fish on board"), held: gettext("time held"),
  bag: gettext("time in the bag"), cooling: gettext("cooling"), oxygen: gettext("oxygen"),
};
/** @type {Record<string, string>} */
const AERATION = { recirculated: gettext("recirculated"), pumped: gettext("pumped from the lake"), oxygen: gettext("oxygen"), none: gettext("no aeration") };
const NO_SLIP = gettext("No slip of this boat counts on the site yet: live and dead, the time held and the minutes in the bag come from the scale table.");

/** @param {string} text */
export const sentence = (text) => (text ? `${text.charAt(0).toUpperCase()}${text.slice(1)}.` : "");

/** @param {number} number */
function minutes(number) {
  const whole = Math.round(number), hours = Math.floor(whole / 60), rest = whole % 60;
  if (!hours) return gettext("%(minutes)s min", { minutes: whole });
  return rest ? gettext("%(hours)s h %(minutes)s min", { hours, minutes: rest }) : gettext("%(hours)s h", { hours });
}

/** What is wrong with a boat at the ramp, as far as a hand wrote it; ice is asked for only when the lake is warm. @param {CareValues} values @param {boolean} isWarm @returns {string[]} */
export function wrong(values, isWarm) {
  const found = [];
  if (values.pump_ok === false) found.push(gettext("pump not in order"));
  if (values.aeration === "none") found.push(gettext("no aeration"));
  if (values.thermometer_ok === false) found.push(gettext("no working thermometer"));
  if (isWarm && values.ice_lb !== undefined && Number(values.ice_lb) === 0) found.push(gettext("no ice"));
  return found;
}

/** Whether a lake's temperature, such as "82 F", is at the rule sheet's care limit or above. @param {string | null | undefined} written @param {string | undefined} limit */
export function isWarm(written, limit) {
  const found = /^(-?[\d.]+) ?°?([FC])$/i.exec(written || "");
  if (!found || !limit) return false;
  return (found[2].toUpperCase() === "F" ? Number(found[1]) : Number(found[1]) * 1.8 + 32) >= Number(limit);
}

/** The values of a note in plain words, in the order in which they are seen. @param {CareValues} values @param {string | undefined} zone */
export function said(values, zone) {
  /** @type {(string | undefined)[]} */
  const found = [];
  /** @template T @param {T | undefined} value @param {(value: T) => string | undefined} words */
  const say = (value, words) => { if (value !== undefined) found.push(words(value)); };
  say(values.pump_ok, (ok) => (ok ? gettext("pump runs") : gettext("pump not in order")));
  say(values.aeration, (air) => AERATION[air]);
  say(values.thermometer_ok, (ok) => (ok ? gettext("thermometer works") : gettext("no working thermometer")));
  say(values.ice_lb, (pounds) => (Number(pounds) ? gettext("%(pounds)s lb of ice", { pounds }) : gettext("no ice")));
  say(values.livewell_gal, (gallons) => gettext("%(gallons)s gal livewell", { gallons }));
  say(values.launched, (at) => gettext("launched %(time)s", { time: clock(at, zone) }));
  say(values.first_fish, (at) => gettext("first fish %(time)s", { time: clock(at, zone) }));
  say(values.most_on_board, (fish) => gettext("at most %(fish)s on board", { fish }));
  say(values.livewell_temp, (written) => gettext("livewell %(temperature)s", { temperature: written.replace(/ ?([FC])$/i, " °$1") }));
  say(values.livewell_do, (oxygen) => gettext("oxygen %(oxygen)s mg/L", { oxygen }));
  say(values.deep_hooked, (n) => ngettext("%(n)s deep-hooked", "%(n)s deep-hooked", Number(n)));
  say(values.culled, (n) => ngettext("%(n)s culled", "%(n)s culled", Number(n)));
  say(values.catch_depth_ft, (feet) => gettext("caught at %(feet)s ft", { feet }));
  say(values.barotrauma, (n) => ngettext("%(n)s with signs of depth", "%(n)s with signs of depth", Number(n)));
  say(values.reflexes_checked, (all) => ngettext("%(absent)s of %(n)s reflex absent", "%(absent)s of %(n)s reflexes absent", Number(all), { absent: values.reflexes_absent || 0 }));
  say(values.note, (note) => gettext("“%(note)s”", { note }));
  return found.filter(Boolean).join(", ");
}

/** @param {string[]} names */
const named = (names) => names.map((name) => CHECKS[name] || name).join(", ");

/** The checks that a boat did not keep; empty where there are none. @param {CareRow} row */
export const failed = (row) => (row.checks_failed.length ? gettext("Failed: %(checks)s.", { checks: named(row.checks_failed) }) : "");

/** Counts, times and checks of one boat as the site works them out: [lead, checks]. @param {CareRow | undefined} row @returns {[string, string]} */
export function care(row) {
  if (!row) return [NO_SLIP, ""];
  const held = row.minutes_held === null ? "" : row.held_is_upper_bound ? gettext("held at most %(time)s", { time: minutes(row.minutes_held) }) : gettext("held %(time)s", { time: minutes(row.minutes_held) });
  const bag = row.minutes_in_bag === null ? "" : gettext("%(time)s in the bag", { time: minutes(row.minutes_in_bag) });
  const kept = row.checks_passed.length ? gettext("Passed: %(checks)s.", { checks: named(row.checks_passed) }) : "";
  const counts = gettext("%(alive)s alive, %(dead)s dead on the slip", { alive: row.live_count, dead: row.dead_count });
  return [row.live_count === null ? NO_SLIP : `${[counts, held, bag].filter(Boolean).join("; ")}.`, [failed(row), kept].filter(Boolean).join(" ")];
}

/** @param {string} here @param {NoteRecord} record */
const withNumber = (here, { number }) => (number ? gettext("%(state)s, note %(number)s", { state: here, number }) : here);

/** The mark, the short state, and what to do about it. @param {NoteRecord} record @param {boolean} going @returns {[string, string, string]} */
export function state(record, going) {
  const there = withNumber(gettext("on the server"), record);
  if (record.state === "second" && !record.waits) return ["done", there, gettext("This boat has other notes for the day; whether it fits them is being asked.")];
  if (record.asideAt) return ["none", gettext("set aside"), gettext("Set aside by hand. It stays readable on this phone and is not sent.")];
  switch (record.state) {
    case "kept": return ["done", there, ""];
    case "already": return ["done", there, gettext("The site had it already: it counts once.")];
    case "second": return ["done", withNumber(gettext("waits for an official"), record), gettext("It contradicts what stands for this boat. Nothing is written over: both stay until an official decides on the boat’s page of fish care.")];
    case "differs": return ["open", gettext("differs, not saved"), gettext("The site holds this note with other values and changed nothing. Show both to a director, then set this one aside.")];
    case "refused": return ["open", gettext("refused, not saved"), gettext("The site did not save it. Correct it and save it again, or send it again when the cause is gone.")];
    default: return going ? ["going", gettext("sending"), gettext("It is on its way; it stays on this phone until the site has named it.")]
      : ["open", gettext("saved on this phone"), gettext("It is sent by itself when there is a link.")];
  }
}

/** @param {NoteRecord} record */
export const needsHand = (record) => (["differs", "refused"].includes(record.state) || (record.state === "second" && Boolean(record.waits))) && !record.asideAt;

/** [mark, words] for the head of the page: where all notes are. @param {NoteRecord[]} records @returns {[string, string]} */
export function where(records) {
  const live = records.filter((record) => !record.asideAt), hands = live.filter(needsHand).length;
  const here = live.filter((record) => record.state === "waiting").length;
  const there = live.filter((record) => ["kept", "already", "second"].includes(record.state)).length;
  if (!here && !live.length) return ["none", gettext("no note on this phone yet")];
  const all = here ? ngettext("%(n)s note saved on this phone", "%(n)s notes saved on this phone", here)
    : there < live.length ? ngettext("%(there)s of %(n)s note on the server", "%(there)s of %(n)s notes on the server", live.length, { there })
      : ngettext("the note is on the server", "all %(n)s notes are on the server", there);
  const asks = hands ? `; ${ngettext("%(n)s needs you", "%(n)s need you", hands)}` : "";
  return [here || there < live.length ? "open" : "done", `${all}${asks}`];
}
