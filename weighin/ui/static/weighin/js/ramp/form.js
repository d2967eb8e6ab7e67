/* The form of a boat's note: filled from what stands, read back as the values a hand wants to stand. */
import * as times from "../device/times.js";
import { linesOf } from "../site/elements.js";
import { gettext, ngettext } from "../site/text.js";

/** @type {CareField[]} */
const FIGURES = ["ice_lb", "livewell_gal", "livewell_do", "catch_depth_ft"];
/** @type {Record<string, string>} */
const WRITE = {
  ice_lb: gettext("Write pounds in figures, such as 20."), livewell_gal: gettext("Write gallons in figures, such as 20."),
  livewell_do: gettext("Write mg/L in figures, such as 6.5."), catch_depth_ft: gettext("Write feet in figures, such as 20."),
};
/** @type {CareField[]} */
const COUNTS = ["most_on_board", "culled", "deep_hooked", "barotrauma"];
/** @type {("pump_ok" | "thermometer_ok")[]} */
const ANSWERS = ["pump_ok", "thermometer_ok"];
/** @type {("launched" | "first_fish")[]} */
const MOMENTS = ["launched", "first_fish"];
const REFLEXES = 5;

/**
 * ``day()`` is the day's part of the papers, ``zone()`` the event's.
 * @param {HTMLFormElement} form @param {{day: () => EventDay | null | undefined, zone: () => string | undefined}} about
 */
export function rampForm(form, { day, zone }) {
  const line = linesOf(form);
  /** @param {string} name */
  const said = (name) => line(name).value.trim();
  /** @param {string} name @returns {HTMLInputElement | null} */
  const picked = (name) => form.querySelector(`[name=${name}]:checked`);
  /** @type {CareValues} */
  let stood = {};

  /** @param {string} name @param {CareValue} value */
  function set(name, value) {
    const found = form.elements.namedItem(name);
    if (found instanceof RadioNodeList) for (const one of found) /** @type {HTMLInputElement} */ (one).checked = /** @type {HTMLInputElement} */ (one).value === value;
    else line(name).value = value === undefined ? "" : String(value);
  }

  /** A temperature as the page and the site write it: its figures and its unit. @param {string} text @param {RegExp} form */
  function setTemperature(text, form) {
    const found = form.exec(text);
    if (!found) return;
    set("livewell_temp", found[1]);
    set("livewell_temp_unit", found[2].toUpperCase());
  }

  /** @param {CareValues} values */
  function fill(values) {
    stood = values;
    form.reset();
    for (const name of ANSWERS) set(name, values[name] === undefined ? "" : values[name] ? "yes" : "no");
    set("aeration", values.aeration);
    for (const name of [...FIGURES, ...COUNTS]) set(name, values[name]);
    set("note", values.note);
    for (const name of MOMENTS) set(name, values[name] === undefined ? "" : times.clock(values[name], zone()));
    setTemperature(values.livewell_temp || "", /^(-?[\d.]+) ?°?([FC])$/i);
    for (const more of form.querySelectorAll("details")) more.open = false;
  }

  /** A time of the event's clock as a moment; in a night event the early hours are of the next date. @param {"launched" | "first_fish"} name */
  function moment(name) {
    const text = said(name), before = stood[name], of = day();
    if (before !== undefined && text === times.clock(before, zone())) return before;
    const found = times.read(text);
    if (!found || !of) return null;
    const offset = (/(Z|[+-]\d{2}:\d{2})$/.exec(of.start) || [])[1];
    const first = Date.parse(`${of.date}T${found.whole}${offset}`);
    const night = of.due.slice(0, 10) > of.date && first < Date.parse(of.start) - 4 * 36e5;
    return new Date(first + (night ? 864e5 : 0)).toISOString();
  }

  /** @returns {{values: CareValues, faults: [string, string][]}} */
  function read() {
    /** @type {CareValues} */
    const values = {};
    /** @type {[string, string][]} */
    const faults = [];
    for (const name of ANSWERS) if (picked(name)) values[name] = picked(name)?.value === "yes";
    const air = picked("aeration");
    if (air) values.aeration = air.value;
    for (const name of FIGURES) {
      if (!said(name)) continue;
      if (/^\d*\.?\d+$/.test(said(name))) Object.assign(values, { [name]: said(name) });
      else faults.push([name, WRITE[name]]);
    }
    for (const name of COUNTS) {
      if (!said(name)) continue;
      if (/^\d+$/.test(said(name))) Object.assign(values, { [name]: Number(said(name)) });
      else faults.push([name, gettext("Write the number of fish in figures.")]);
    }
    for (const name of MOMENTS) {
      if (!said(name)) continue;
      const at = moment(name);
      if (at) values[name] = at;
      else faults.push([name, gettext("Write the time as 7:10 AM or 07:10.")]);
    }
    readTemperature(values, faults);
    readReflexes(values, faults);
    if (said("note")) values.note = said("note");
    return { values, faults };
  }

  /** @param {CareValues} values @param {[string, string][]} faults */
  function readTemperature(values, faults) {
    setTemperature(said("livewell_temp"), /^([\d.]+)\s*°?\s*([FC])$/i);
    const degrees = said("livewell_temp"), unit = line("livewell_temp_unit").value;
    if (!degrees) return;
    const text = `${degrees} ${unit}`, celsius = unit === "C" ? Number(degrees) : (Number(degrees) - 32) / 1.8;
    if (!/^\d*\.?\d+$/.test(degrees)) faults.push(["livewell_temp", gettext("Write the degrees in figures, such as 76.5.")]);
    else if (celsius < 0 || celsius > 45) faults.push(["livewell_temp", gettext("No lake has %(degrees)s: look at the unit.", { degrees: `${degrees} °${unit}` })]);
    else values.livewell_temp = stood.livewell_temp && stood.livewell_temp.replace(/\s|°/g, "") === text.replace(" ", "") ? stood.livewell_temp : text;
  }

  /** @param {CareValues} values @param {[string, string][]} faults */
  function readReflexes(values, faults) {
    const absent = Array.from({ length: REFLEXES }, (_, place) => said(`absent_${place + 1}`)), fish = said("fish_tried");
    if (!fish && absent.every((one) => !one)) {
      if (stood.reflexes_checked !== undefined) values.reflexes_checked = stood.reflexes_checked;
      if (stood.reflexes_absent !== undefined) values.reflexes_absent = stood.reflexes_absent;
      return;
    }
    const n = Number(fish);
    if (![fish, ...absent].every((one) => /^\d*$/.test(one)) || !n) faults.push(["reflexes_checked", gettext("Write how many fish were tried, in figures.")]);
    else if (absent.some((one) => Number(one) > n)) faults.push(["reflexes_absent", ngettext("A reflex cannot be absent in more than the %(n)s fish tried: count again.", "A reflex cannot be absent in more than the %(n)s fish tried: count again.", n)]);
    else Object.assign(values, { reflexes_checked: REFLEXES * n, reflexes_absent: absent.reduce((sum, one) => sum + Number(one), 0) });
  }

  /** Writes what "All good" means, blanks only where it is not a look at something that can break. @param {string} stage @param {{aeration: string, ice: string}} usual @param {boolean} isToday */
  function allGood(stage, usual, isToday) {
    /** @param {string} name */
    const blank = (name) => !said(name);
    if (stage === "table") { for (const name of ["deep_hooked", "barotrauma"]) if (blank(name)) set(name, "0"); return; }
    set("pump_ok", "yes");
    set("thermometer_ok", "yes");
    if (!picked("aeration") && usual.aeration) set("aeration", usual.aeration);
    if (blank("ice_lb") && usual.ice) set("ice_lb", usual.ice);
    if (blank("launched") && isToday) set("launched", times.clock(Date.now(), zone()));
  }

  /** @param {string} name @param {number} by */
  function step(name, by) { line(name).value = String(Math.max(0, (Number(said(name)) || 0) + by)); }

  return { fill, read, allGood, step };
}
