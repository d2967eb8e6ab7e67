/* Boat checks at the ramp and care notes at the table: one boat at a time, kept on the phone, sent by itself. */
import { keepPage, keepStorage } from "../device/offline.js";
import { pairingOf, remember, remembered } from "../device/pairing.js";
import { makeSender } from "../device/sender.js";
import { newId, openStore } from "../device/store.js";
import * as times from "../device/times.js";
import { at, element, input, targetOf, write } from "../site/elements.js";
import { gettext, ngettext } from "../site/text.js";
import { rampForm } from "./form.js";
import * as lists from "./lists.js";
import * as notes from "./note.js";
import * as notices from "./notices.js";
import * as words from "./words.js";

const body = document.body, page = document.documentElement;
const { event: slug = "", way, papers: papersAddress = "", notes: notesAddress = "", signIn } = body.dataset, form = /** @type {HTMLFormElement} */ (at("note"));
const KEYS = { stage: "weighin-ramp.stage", official: "weighin-ramp.official", air: "weighin-ramp.every-aeration", ice: "weighin-ramp.every-ice" };
const BEFORE = 6 * 36e5;    // boats are checked so long before a day starts

/** @type {RampDocument | null} */
let eventDocument = null;
/** @type {NoteRecord[]} */
let records = [];
/** @type {number | null} */
let boat = null;
/** @type {ReturnType<typeof notes.current>} */
let stood = { values: {}, sources: [] };
/** @type {NoteRecord | null} */
let editing = null;
/** @type {number | undefined} */
let taken;
let papersAt = 0, stage = remembered(KEYS.stage) === "table" ? "table" : "ramp", shown = "";
/** @type {Set<string>} */
const open = new Set();
const pairing = pairingOf(slug, way);
/** @type {Store<NoteRecord>} */
const store = await openStore(slug, "notes");
const channel = "BroadcastChannel" in window ? new BroadcastChannel("weighin-notes") : null;

const zone = () => (eventDocument ? eventDocument.event.time_zone : undefined);
const fished = () => (eventDocument ? eventDocument.days.filter((day) => day.status !== "cancelled") : []);
const going = () => times.dayNow(fished(), Date.now(), BEFORE);
const dayNumber = () => Number(input("day").value) || null;
const dayPart = () => eventDocument && eventDocument.days.find((one) => one.day === dayNumber());
const isOn = () => { const day = dayPart(); return Boolean(day) && day === going() && Math.abs(Date.now() - Date.parse(day?.start || "")) < 864e5; };
const warm = () => { const day = dayPart(); return Boolean(eventDocument && day) && words.isWarm(day?.lake_temp || eventDocument?.event.lake_temp, eventDocument?.rules.care_warm_f); };
/** @param {number} number */
const teamOf = (number) => eventDocument?.roster.find((one) => one.boat === number)?.team ?? gettext("not on the list");
/** @param {number} number */
const currentOf = (number) => notes.current(eventDocument, papersAt, records, dayNumber(), number);
/** @param {number} number */
const careOf = (number) => eventDocument?.care.find((one) => one.boat === number && one.day === dayNumber());
const filled = rampForm(form, { day: dayPart, zone });

/** @param {Held} held */
function takeDocument(held) {
  eventDocument = /** @type {RampDocument} */ (held.document);
  papersAt = held.at;
  at("event-name").textContent = eventDocument.event.name;
  const days = fished(), chosen = input("day").value;
  at("day").replaceChildren(...days.map((day) => new Option(`${day.day}`, String(day.day))));
  at("day-choice").hidden = days.length < 2;
  if (chosen && days.some((day) => String(day.day) === chosen)) input("day").value = chosen;
  else if (days.length) input("day").value = String(going().day);
  const { boat_limit: limit, care_max_cooling_f: cooling, deep_fish_kept_ft: deep } = eventDocument.rules;
  at("limit-says").textContent = /^\d+$/.test(limit || "") ? ` ${gettext("(limit %(limit)s)", { limit })}` : "";
  at("deep-says").textContent = Number(deep) > 0 ? ` ${gettext("(from %(deep)s ft on fish are kept, not released: the rule sheet)", { deep })}` : "";
  at("cooling-says").textContent = cooling ? gettext(": a livewell more than %(cooling)s °F below the lake at once is a shock", { cooling }) : "";
  page.dataset.papers = "yes";
}

/* ---- the boats ---- */

/** @param {number} number @returns {BoatRow} */
function rowOf(number) {
  const { values } = currentOf(number), wrong = words.wrong(values, warm()), lacks = notes.lacks(stage, values);
  const last = records.filter((one) => one.note.boat === number && one.note.day === dayNumber() && !one.asideAt).pop();
  const care = stage === "table" ? careOf(number) : undefined, failed = care ? words.failed(care) : "";
  const said = wrong.length ? words.sentence(wrong.join(", ")) : failed || (lacks ? "" : gettext("Nothing wrong noted."));
  return {
    boat: number, team: teamOf(number), lacks, words: said, isWrong: Boolean(wrong.length || failed),
    where: last && last.state !== "kept" && last.state !== "already" ? words.state(last, sender.link.going.has(last.id)) : null,
  };
}

/** How many boats still lack a check or a note. @param {number} all @param {number} n */
function finding(all, n) {
  if (!all) return gettext("No boat fishes on this day.");
  if (stage === "ramp") {
    return n ? ngettext("%(n)s boat of %(all)s lacks a check.", "%(n)s boats of %(all)s lack a check.", n, { all })
      : ngettext("Every boat is checked, %(n)s of %(n)s.", "Every boat is checked, %(n)s of %(n)s.", all);
  }
  return n ? ngettext("%(n)s boat of %(all)s lacks a note at the table.", "%(n)s boats of %(all)s lack a note at the table.", n, { all })
    : ngettext("Every boat has a note at the table, %(n)s of %(n)s.", "Every boat has a note at the table, %(n)s of %(n)s.", all);
}

function showBoats() {
  for (const one of document.querySelectorAll("[data-stage]")) one.setAttribute("aria-pressed", String(one.getAttribute("data-stage") === stage));
  for (const one of document.querySelectorAll("[data-at]")) one.toggleAttribute("hidden", one.getAttribute("data-at") !== stage);
  if (!eventDocument) return;
  const fishing = eventDocument.fishing.find((one) => one.day === dayNumber()), asked = input("find").value.trim().toLowerCase();
  const all = (fishing ? fishing.boats : []).map(rowOf), lacking = all.filter((row) => row.lacks);
  /** @param {BoatRow} row */
  const fits = (row) => !asked || String(row.boat).startsWith(asked) || (/\D/.test(asked) && row.team.toLowerCase().includes(asked));
  write(at("finding"), finding(all.length, lacking.length));
  const noted = all.filter((row) => !row.lacks), wrong = noted.filter((row) => row.isWrong).length, n = noted.length;
  at("noted-part").hidden = !n;
  const head = stage === "ramp" ? ngettext("Checked: %(n)s boat", "Checked: %(n)s boats", n) : ngettext("Noted: %(n)s boat", "Noted: %(n)s boats", n);
  at("noted-head").textContent = wrong ? ngettext("%(boats)s, %(n)s with something wrong", "%(boats)s, %(n)s with something wrong", wrong, { boats: head }) : head;
  if (asked && noted.some(fits)) /** @type {HTMLDetailsElement} */ (at("noted-part")).open = true;
  lists.boats(at("lacking"), lacking.filter(fits), choose);
  lists.boats(at("noted"), noted.filter(fits), choose);
}

/* ---- one boat ---- */

/** @param {number} number */
function choose(number) {
  boat = number;
  stood = currentOf(number);
  filled.fill(editing ? { ...stood.values, ...notes.of(editing.note) } : stood.values);
  at("boat").textContent = String(number);
  at("team").textContent = teamOf(number);
  const said = words.said(stood.values, zone());
  at("stands").textContent = said ? gettext("Noted so far: %(note)s.", { note: said }) : gettext("Nothing is noted yet.");
  const [counts, checks] = words.care(careOf(number));
  at("care-counts").textContent = counts;
  at("care-checks").textContent = checks;
  const { reflexes_checked: tried, reflexes_absent: absent } = stood.values;
  at("reflexes-head").textContent = tried ? gettext("Reflex check: %(absent)s of %(tried)s absent; count anew", { absent: absent || 0, tried }) : gettext("Reflex check");
  at("all-good-says").textContent = "";
  at("keep").textContent = gettext("Save boat %(boat)s", { boat: number });
  show(true);
  work();
  at("whose").focus();
  window.scrollTo(0, 0);
}

/** @param {boolean} one whether one boat's form is shown, or the boats */
function show(one) {
  form.hidden = !one;
  at("boats-part").hidden = one;
}

function back() {
  boat = editing = null;
  show(false);
  input("find").value = "";
  showBoats();
  redraw();
  at("finding").tabIndex = -1;
  at("finding").focus();
  window.scrollTo(0, 0);
}

/** @param {CareValues} values */
function plan(values) {
  const about = { day: dayNumber(), boat: Number(boat), official: input("official").value.trim(), reason: input("reason").value.trim() };
  return notes.messages(values, stood, about, newId);
}

/** @param {string[]} fields */
const named = (fields) => fields.map((name) => words.NAMES[name]).join(", ");

function work() {
  const { values } = filled.read(), { corrects, beside } = plan(values);
  at("oxygen-says").hidden = values.aeration !== "oxygen";
  at("reason-part").hidden = !corrects.length;
  const waits = beside.length && gettext("%(fields)s: recorded on the page of fish care already. Yours waits beside it until an official decides.", { fields: named(beside) });
  const says = corrects.length && [gettext("Noted before, and changed now: %(fields)s. All else that was noted stays.", { fields: named(corrects) }), waits].filter(Boolean).join(" ");
  at("reason-says").textContent = says || "";
}

function clearSaid() {
  for (const said of form.querySelectorAll(".fault")) said.remove();
  for (const one of form.querySelectorAll("[aria-invalid]")) one.removeAttribute("aria-invalid");
}

/** Says what is wrong at its line, which it gives. @param {string} name @param {string} sentence @returns {HTMLElement | null} */
function sayAt(name, sentence) {
  const one = /** @type {HTMLElement} */ (form.querySelector(`[data-fault="${name}"]`) || at("words"));
  const more = one.closest("details");
  if (more) more.open = true;
  one.closest(".field, .count, .check")?.append(element("p", sentence, { class: "fault", role: "alert" }));
  if (one.matches("input")) one.setAttribute("aria-invalid", "true");
  return one.matches("input") ? one : one.querySelector("input");
}

/** @param {[string, string][]} faults */
function sayAll(faults) { faults.map(([name, sentence]) => sayAt(name, sentence))[0]?.focus(); }

let keeping = false;    // a finger that bounces presses twice

/** @param {Event} event */
async function keep(event) {
  event.preventDefault();
  if (keeping || boat === null) return;
  keeping = true;
  try { await keepNote(boat); } finally { keeping = false; }
}

/** @param {number} number */
async function keepNote(number) {
  clearSaid();
  const { values, faults } = filled.read(), made = plan(values), team = teamOf(number);
  for (const name of made.cannot) faults.push([name, gettext("This was written on the page of fish care: clear it there.")]);
  if (made.corrects.length && !input("reason").value.trim()) faults.push(["reason", gettext("Write why, in a few words: what was noted before stays in the history.")]);
  if (faults.length) { sayAll(faults); return; }
  const keptAt = Date.now(), eventName = eventDocument ? eventDocument.event.name : "";
  const fresh = made.messages.map((note, place) => /** @type {NoteRecord} */ ({ id: note.id, note, state: "waiting", keptAt: keptAt + place, team, eventName, faults: [] }));
  try {
    if (fresh.length) await store.keepAll(fresh);
    if (editing) await store.keep({ ...editing, asideAt: keptAt });
  } catch {
    sayAll([["note", gettext("This phone cannot save the note: its storage is full or blocked. Write it on paper now, and call a director.")]]);
    return;
  }
  const wrong = words.wrong(values, warm()), whose = { boat: number, team };
  const kept = fresh.length ? gettext("Boat %(boat)s, %(team)s: saved on this phone.", whose) : gettext("Boat %(boat)s, %(team)s: nothing new to save.", whose);
  at("readback").hidden = false;
  at("readback").replaceChildren(element("p", kept, { class: "name" }), element("p", words.sentence(words.said(values, zone())) || gettext("Nothing is noted."), { class: "small" }));
  if (wrong.length && stage === "ramp") {
    at("readback").append(element("p", gettext("Something is wrong: %(what)s. The director decides what follows from it.", { what: wrong.join(", ") }), { class: "small strong" }));
  }
  records = await store.all();
  back();
  if (channel) channel.postMessage("kept");
  sender.go();
}

/** @param {NoteRecord} record @param {Partial<NoteRecord>} values */
async function change(record, values) {
  await store.keep({ ...record, ...values });
  await redraw();
  sender.go();
}

/** @param {NoteRecord} record */
function mend(record) {
  editing = record;
  input("day").value = String(record.note.day);
  choose(record.note.boat);
}

/* ---- where everything is ---- */

function showNotices() {
  const otherDay = isOn() ? null : dayPart() || null;
  notices.show({ link: sender.link, eventDocument, missing: pairing.missing(), asks: pairing.question(), way, signIn, otherDay });
}

/* A second note of a boat either fits what stands, and is part of it, or waits: the site's document says which. */
async function sortSecond() {
  for (const record of records.filter((one) => one.state === "second" && eventDocument && Number(one.answeredAt) <= papersAt)) {
    const waits = eventDocument?.waiting.includes(record.id);
    if (!waits) await store.keep({ ...record, state: "kept" });
    else if (!record.waits) await store.keep({ ...record, waits });
    else continue;
    records = await store.all();
  }
}

async function redraw() {
  const held = await store.papers();
  if (held && held.changed !== taken) { taken = held.changed; takeDocument(held); }
  records = await store.all();
  await sortSecond();
  const [mark, where] = words.where(records), head = at("where-kept");
  head.className = `state is-${mark}`;
  write(head, where);
  const state = JSON.stringify([records, [...sender.link.going], taken, stage, input("day").value, input("find").value]);
  if (state !== shown) {
    shown = state;
    at("notes-head").hidden = !records.length;
    lists.notes(at("notes"), records, {
      zone: zone(), going: sender.link.going, open,
      acts: { mend, again: (record) => change(record, { state: "waiting", faults: [] }), aside: (record) => change(record, { asideAt: Date.now() }) },
    });
    showBoats();
  }
  showNotices();
  notices.showLink(sender.link, zone());
}

/* ---- hands ---- */

form.addEventListener("submit", keep);
form.addEventListener("input", () => { at("all-good-says").textContent = ""; clearSaid(); work(); });
form.addEventListener("click", (event) => {
  const step = /** @type {HTMLElement | null} */ (targetOf(event).closest("[data-step]"));
  if (!step) return;
  filled.step(step.dataset.of || "", Number(step.dataset.step));
  at("all-good-says").textContent = "";
  clearSaid();
  work();
});
at("all-good").addEventListener("click", () => {
  filled.allGood(stage, { aeration: input("usual-aeration").value, ice: input("usual-ice").value.trim() }, isOn());
  clearSaid();
  work();
  at("all-good-says").textContent = gettext("Written: %(note)s. Check it, then save it.", { note: words.said(filled.read().values, zone()) });
});
at("back").addEventListener("click", back);
for (const one of document.querySelectorAll("[data-stage]")) {
  one.addEventListener("click", () => { stage = one.getAttribute("data-stage") || stage; remember(KEYS.stage, stage); at("readback").hidden = true; showBoats(); showNotices(); });
}
at("find").addEventListener("input", showBoats);
at("find").addEventListener("keydown", (event) => {
  if (event.key !== "Enter") return;
  const exact = document.querySelector(`.boat[data-boat="${CSS.escape(input("find").value.trim())}"]`), first = exact || document.querySelector("#lacking .boat, #noted .boat");
  if (first instanceof HTMLElement) first.click();
});
at("day").addEventListener("change", () => { showBoats(); showNotices(); });
for (const [id, key] of [["usual-aeration", KEYS.air], ["usual-ice", KEYS.ice], ["official", KEYS.official]]) {
  const known = remembered(key), one = input(id);
  if (known && !(id === "official" && one.value)) one.value = known === "blank" ? "" : known;
  one.addEventListener("input", () => remember(key, one.value.trim() || "blank"));
}

/* ---- begin ---- */

window.addEventListener("hashchange", () => { pairing.take(); sender.go(); });
const sender = makeSender({ store, papers: papersAddress, to: notesAddress, key: "notes", item: "note", notNamed: gettext("The site did not name the notes it was sent."), send: pairing.ask, changed: redraw });
if (channel) channel.onmessage = redraw;
await redraw();
showBoats();
sender.start();
page.dataset.ready = "yes";
keepPage("worker.js", redraw);
keepStorage();
