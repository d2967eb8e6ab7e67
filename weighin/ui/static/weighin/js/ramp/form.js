/* The form of a boat's note: filled from what stands, read back as the values a hand wants to stand. */
import * as times from "../device/times.js";
import * as words from "./words.js";

const FIGURES = { ice_lb: "pounds", livewell_gal: "gallons", livewell_do: "mg/L", catch_depth_ft: "feet" };
const COUNTS = ["most_on_board", "culled", "deep_hooked", "barotrauma"];
const REFLEXES = 5;

/* ``day()`` is the day's part of the papers, ``zone()`` the event's. */
export function rampForm(form, { day, zone }) {
  const line = (name) => form.elements.namedItem(name);
  const said = (name) => line(name).value.trim();
  let stood = {};

  function set(name, value) {
    if (line(name) instanceof RadioNodeList) for (const one of form.querySelectorAll(`[name=${name}]`)) one.checked = one.value === value;
    else line(name).value = value === undefined ? "" : value;
  }

  function fill(values) {
    stood = values;
    form.reset();
    for (const name of ["pump_ok", "thermometer_ok"]) set(name, values[name] === undefined ? "" : values[name] ? "yes" : "no");
    for (const name of ["aeration", ...Object.keys(FIGURES), ...COUNTS, "note"]) set(name, values[name]);
    for (const name of ["launched", "first_fish"]) set(name, values[name] === undefined ? "" : words.clock(values[name], zone()));
    const warm = /^(-?[\d.]+) ?°?([FC])$/i.exec(values.livewell_temp || "");
    if (warm) { set("livewell_temp", warm[1]); set("livewell_temp_unit", warm[2].toUpperCase()); }
    for (const more of form.querySelectorAll("details")) more.open = false;
  }

  /* A time of the event's clock as a moment; in a night event the early hours are of the next date. */
  function moment(name) {
    const text = said(name);
    if (stood[name] !== undefined && text === words.clock(stood[name], zone())) return stood[name];
    const found = times.read(text);
    if (!found || !day()) return null;
    const offset = /(Z|[+-]\d{2}:\d{2})$/.exec(day().start)[1];
    const first = Date.parse(`${day().date}T${found.whole}${offset}`);
    const night = day().due.slice(0, 10) > day().date && first < Date.parse(day().start) - 4 * 36e5;
    return new Date(first + (night ? 864e5 : 0)).toISOString();
  }

  /* {values, faults: [[field, sentence], …]} */
  function read() {
    const values = {}, faults = [];
    for (const name of ["pump_ok", "thermometer_ok"]) {
      const picked = form.querySelector(`[name=${name}]:checked`);
      if (picked) values[name] = picked.value === "yes";
    }
    const air = form.querySelector("[name=aeration]:checked");
    if (air) values.aeration = air.value;
    for (const [name, unit] of Object.entries(FIGURES)) {
      if (!said(name)) continue;
      if (/^\d*\.?\d+$/.test(said(name))) values[name] = said(name);
      else faults.push([name, `Write ${unit} in figures, such as ${name === "livewell_do" ? "6.5" : "20"}.`]);
    }
    for (const name of COUNTS) {
      if (!said(name)) continue;
      if (/^\d+$/.test(said(name))) values[name] = Number(said(name));
      else faults.push([name, "Write the number of fish in figures."]);
    }
    for (const name of ["launched", "first_fish"]) {
      if (!said(name)) continue;
      const at = moment(name);
      if (at) values[name] = at;
      else faults.push([name, "Write the time as 7:10 AM or 07:10."]);
    }
    const warm = /^([\d.]+)\s*°?\s*([FC])$/i.exec(said("livewell_temp"));
    if (warm) { set("livewell_temp", warm[1]); set("livewell_temp_unit", warm[2].toUpperCase()); }
    if (said("livewell_temp")) {
      const text = `${said("livewell_temp")} ${line("livewell_temp_unit").value}`;
      const celsius = line("livewell_temp_unit").value === "C" ? Number(said("livewell_temp")) : (Number(said("livewell_temp")) - 32) / 1.8;
      if (!/^\d*\.?\d+$/.test(said("livewell_temp"))) faults.push(["livewell_temp", "Write the degrees in figures, such as 76.5."]);
      else if (celsius < 0 || celsius > 45) faults.push(["livewell_temp", `No lake has ${text.replace(" ", " °")}: look at the unit.`]);
      else values.livewell_temp = stood.livewell_temp && stood.livewell_temp.replace(/\s|°/g, "") === text.replace(" ", "") ? stood.livewell_temp : text;
    }
    readReflexes(values, faults);
    if (said("note")) values.note = said("note");
    return { values, faults };
  }

  function readReflexes(values, faults) {
    const absent = Array.from({ length: REFLEXES }, (_, place) => said(`absent_${place + 1}`)), fish = said("fish_tried");
    if (!fish && absent.every((one) => !one)) {
      for (const name of ["reflexes_checked", "reflexes_absent"]) if (stood[name] !== undefined) values[name] = stood[name];
      return;
    }
    if (![fish, ...absent].every((one) => /^\d*$/.test(one)) || !Number(fish)) faults.push(["reflexes_checked", "Write how many fish were tried, in figures."]);
    else if (absent.some((one) => Number(one) > Number(fish))) faults.push(["reflexes_absent", `A reflex cannot be absent in more than the ${words.counted(Number(fish), "fish")} tried: count again.`]);
    else Object.assign(values, { reflexes_checked: REFLEXES * fish, reflexes_absent: absent.reduce((sum, one) => sum + Number(one), 0) });
  }

  /* Writes what "All good" means, blanks only where it is not a look at something that can break. */
  function allGood(stage, usual, isToday) {
    const blank = (name) => !said(name);
    if (stage === "table") { for (const name of ["deep_hooked", "barotrauma"]) if (blank(name)) set(name, "0"); return; }
    set("pump_ok", "yes");
    set("thermometer_ok", "yes");
    if (!form.querySelector("[name=aeration]:checked") && usual.aeration) set("aeration", usual.aeration);
    if (blank("ice_lb") && usual.ice) set("ice_lb", usual.ice);
    if (blank("launched") && isToday) set("launched", words.clock(Date.now(), zone()));
  }

  function step(name, by) { line(name).value = Math.max(0, (Number(said(name)) || 0) + by); }

  return { fill, read, allGood, step };
}
