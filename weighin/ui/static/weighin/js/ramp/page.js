/* Boat checks at the ramp and care notes at the table: one boat at a time, kept on the phone, sent by itself. */
import * as times from "../device/times.js";
import * as lists from "./lists.js";
import * as notes from "./note.js";
import * as words from "./words.js";
import { pairingOf, remember, remembered } from "../device/pairing.js";
import { makeSender } from "../device/sender.js";
import { newId, openStore } from "../device/store.js";
import { rampForm } from "./form.js";

const body = document.body, page = document.documentElement;
const at = (id) => document.getElementById(id);
const slug = body.dataset.event, form = at("note");
const KEYS = { stage: "weighin-ramp.stage", official: "weighin-ramp.official", air: "weighin-ramp.every-aeration", ice: "weighin-ramp.every-ice" };

let papers = null, papersAt = 0, records = [], boat = null, stood = null, mending = null, stage = remembered(KEYS.stage) === "table" ? "table" : "ramp";
const open = new Set();
const pairing = pairingOf(slug, body.dataset.way);
const store = await openStore(slug, "notes");
const channel = "BroadcastChannel" in window ? new BroadcastChannel("weighin-notes") : null;

const zone = () => (papers ? papers.event.time_zone : undefined);
const BEFORE = 6 * 36e5;    // boats are checked so long before a day starts
const going = () => times.dayNow(papers.days.filter((day) => day.status !== "cancelled"), Date.now(), BEFORE);
const isOn = () => Boolean(dayPart()) && dayPart() === going() && Math.abs(Date.now() - Date.parse(dayPart().start)) < 864e5;
const dayNumber = () => Number(at("day").value) || null;
const dayPart = () => papers && papers.days.find((one) => one.day === dayNumber());
const warm = () => Boolean(dayPart()) && words.isWarm(dayPart().lake_temp || papers.event.lake_temp, papers.rules.care_warm_f);
const entryOf = (number) => papers && papers.roster.find((one) => one.boat === number);
const teamOf = (number) => (entryOf(number) ? entryOf(number).team : "not on the list");
const currentOf = (number) => notes.current(papers, papersAt, records, dayNumber(), number);
const filled = rampForm(form, { day: dayPart, zone });

function takePapers(held) {
  papers = held.document;
  papersAt = held.at;
  at("event-name").textContent = papers.event.name;
  const days = papers.days.filter((day) => day.status !== "cancelled"), chosen = at("day").value;
  at("day").replaceChildren(...days.map((day) => new Option(`${day.day}`, day.day)));
  at("day-choice").hidden = days.length < 2;
  const now = days.length ? going() : null;
  if (chosen && days.some((day) => String(day.day) === chosen)) at("day").value = chosen;
  else if (now) at("day").value = now.day;
  const limit = papers.rules.boat_limit, cooling = papers.rules.care_max_cooling_f;
  at("limit-says").textContent = /^\d+$/.test(limit || "") ? ` (limit ${limit})` : "";
  const deep = papers.rules.deep_fish_kept_ft;
  at("deep-says").textContent = Number(deep) > 0 ? ` (from ${deep} ft on fish are kept, not released: the rule sheet)` : "";
  at("cooling-says").textContent = cooling ? `: a well more than ${cooling} °F below the lake at once is a shock` : "";
  page.dataset.papers = "yes";
}

/* ---- the boats ---- */

function rowOf(number) {
  const { values } = currentOf(number), wrong = words.wrong(values, warm()), lacks = notes.lacks(stage, values);
  const last = records.filter((one) => one.note.boat === number && one.note.day === dayNumber() && !one.asideAt).pop();
  const care = stage === "table" && papers.care.find((one) => one.boat === number && one.day === dayNumber());
  const failed = care && care.checks_failed.length ? words.care(care)[1].split(".")[0] : "";
  const said = wrong.length ? words.sentence(wrong.join(", ")) : failed ? `${failed}.` : lacks ? "" : "Nothing wrong noted.";
  return {
    boat: number, team: teamOf(number), lacks, words: said, isWrong: Boolean(wrong.length || failed),
    where: last && last.state !== "kept" && last.state !== "already" ? words.state(last, sender.link.going.has(last.id)) : null,
  };
}

function showBoats() {
  for (const one of document.querySelectorAll("[data-stage]")) one.setAttribute("aria-pressed", String(one.dataset.stage === stage));
  for (const one of document.querySelectorAll("[data-at]")) one.hidden = one.dataset.at !== stage;
  if (!papers) return;
  const fishing = papers.fishing.find((one) => one.day === dayNumber()), asked = at("find").value.trim().toLowerCase();
  const all = (fishing ? fishing.boats : []).map(rowOf), lacking = all.filter((row) => row.lacks);
  const fits = (row) => !asked || String(row.boat).startsWith(asked) || (/\D/.test(asked) && row.team.toLowerCase().includes(asked));
  const what = stage === "ramp" ? "a check" : "a note at the table";
  const finding = !all.length ? "No boat fishes on this day." : lacking.length ? `${words.counted(lacking.length, "boat")} of ${all.length} ${lacking.length === 1 ? "lacks" : "lack"} ${what}.`
    : stage === "ramp" ? `Every boat is checked, ${all.length} of ${all.length}.` : `Every boat has a note at the table, ${all.length} of ${all.length}.`;
  if (at("finding").textContent !== finding) at("finding").textContent = finding;
  const noted = all.filter((row) => !row.lacks), wrong = noted.filter((row) => row.isWrong).length;
  at("noted-part").hidden = !noted.length;
  at("noted-head").textContent = `${stage === "ramp" ? "Checked" : "Noted"}: ${words.counted(noted.length, "boat")}${wrong ? `, ${wrong} with something wrong` : ""}`;
  if (asked && noted.some(fits)) at("noted-part").open = true;
  lists.boats(at("lacking"), lacking.filter(fits), choose);
  lists.boats(at("noted"), noted.filter(fits), choose);
}

/* ---- one boat ---- */

function choose(number) {
  boat = number;
  stood = currentOf(number);
  filled.fill(mending ? Object.assign({}, stood.values, notes.of(mending.note)) : stood.values);
  at("boat").textContent = String(number);
  at("team").textContent = teamOf(number);
  const said = words.said(stood.values, zone());
  at("stands").textContent = said ? `Noted so far: ${said}.` : "Nothing is noted yet.";
  const [counts, checks] = words.care(papers.care.find((one) => one.boat === number && one.day === dayNumber()));
  at("care-counts").textContent = counts;
  at("care-checks").textContent = checks;
  const tried = stood.values.reflexes_checked;
  at("reflexes-head").textContent = tried ? `Reflex check: ${stood.values.reflexes_absent || 0} of ${tried} absent; count anew` : "Reflex check";
  at("all-good-says").textContent = "";
  at("keep").textContent = `Keep boat ${number}`;
  show(true);
  work();
  at("whose").focus();
  window.scrollTo(0, 0);
}

function show(one) {
  form.hidden = !one;
  at("boats-part").hidden = one;
}

function back() {
  boat = mending = null;
  show(false);
  at("find").value = "";
  showBoats();
  redraw();
  at("finding").tabIndex = -1;
  at("finding").focus();
  window.scrollTo(0, 0);
}

function plan(values) {
  const about = { day: dayNumber(), boat, official: at("official").value.trim(), reason: at("reason").value.trim() };
  return notes.messages(values, stood, about, newId);
}

function work() {
  const { values } = filled.read(), { corrects, beside } = plan(values), named = (list) => list.map((name) => words.NAMES[name]).join(", ");
  at("oxygen-says").hidden = values.aeration !== "oxygen";
  at("reason-part").hidden = !corrects.length;
  const waits = beside.length ? ` What stands of ${named(beside)} was written on the page of fish care: yours waits beside it until an official decides.` : "";
  at("reason-says").textContent = corrects.length ? `Noted before, and changed now: ${named(corrects)}. All else that was noted stays.${waits}` : "";
}

function clearSaid() {
  for (const said of form.querySelectorAll(".fault")) said.remove();
  for (const one of form.querySelectorAll("[aria-invalid]")) one.removeAttribute("aria-invalid");
}

function sayAt(name, sentence) {
  const one = form.querySelector(`[data-fault="${name}"]`) || at("words");
  const near = one.closest(".field, .count, .check"), more = one.closest("details"), note = words.element("p", sentence, { class: "fault", role: "alert" });
  if (more) more.open = true;
  near.append(note);
  if (one.matches("input")) one.setAttribute("aria-invalid", "true");
  return one.matches("input") ? one : one.querySelector("input");
}

function sayAll(faults) { faults.map(([name, sentence]) => sayAt(name, sentence))[0].focus(); }

let keeping = false;    // a finger that bounces presses twice

async function keep(event) {
  event.preventDefault();
  if (keeping || boat === null) return;
  keeping = true;
  try { await keepNote(); } finally { keeping = false; }
}

async function keepNote() {
  clearSaid();
  const { values, faults } = filled.read(), made = plan(values);
  for (const name of made.cannot) faults.push([name, "This was written on the page of fish care: clear it there."]);
  if (made.corrects.length && !at("reason").value.trim()) faults.push(["reason", "Write why, in a few words: what was noted before stays in the history."]);
  if (faults.length) { sayAll(faults); return; }
  const keptAt = Date.now();
  const fresh = made.messages.map((note, place) => ({ id: note.id, note, state: "waiting", keptAt: keptAt + place, team: teamOf(boat), eventName: papers.event.name, faults: [] }));
  try {
    if (fresh.length) await store.keepAll(fresh);
    if (mending) await store.keep(Object.assign({}, mending, { asideAt: keptAt }));
  } catch (refused) {
    sayAll([["note", "This phone cannot keep the note: its storage is full or shut. Write it on paper now, and call a director."]]);
    return;
  }
  const wrong = words.wrong(values, warm()), kept = fresh.length ? "kept on this phone." : "nothing new to keep.";
  at("readback").hidden = false;
  at("readback").replaceChildren(words.element("p", `Boat ${boat}, ${teamOf(boat)}: ${kept}`, { class: "name" }), words.element("p", words.sentence(words.said(values, zone())) || "Nothing is noted.", { class: "small" }));
  if (wrong.length && stage === "ramp") at("readback").append(words.element("p", `Something is wrong: ${wrong.join(", ")}. What follows from it is the director’s to say.`, { class: "small strong" }));
  records = await store.all();
  back();
  if (channel) channel.postMessage("kept");
  sender.go();
}

async function change(record, values) {
  await store.keep(Object.assign({}, record, values));
  await redraw();
  sender.go();
}

function mend(record) {
  mending = record;
  at("day").value = record.note.day;
  choose(record.note.boat);
}

/* ---- where everything is ---- */

function notices() {
  const link = sender.link, found = [];
  const add = (strong, rest, href, name) => {
    const note = words.element("p", "", { class: "heed" });
    note.append(words.element("b", strong), ` ${rest} `);
    if (href) note.append(words.element("a", name, { href }));
    found.push(note);
  };
  if (pairing.missing()) add("This phone is not paired.", "Open the address on the director’s screen, or read its QR code: it ends in the phone’s token. Notes are kept here meanwhile.");
  else if (link.barred) add("The site takes nothing from this phone.", `${link.barred} Notes are kept here meanwhile.`, body.dataset.way === "log-in" ? `${body.dataset.signIn}?next=${encodeURIComponent(window.location.pathname)}` : "", "Sign in");
  if (!papers) add("This phone has not had the event yet.", "It needs the link once; until then write on paper.");
  if (link.restored) add("The site was put back to an older copy.", "All notes of this phone go up again by themselves: what the site lacks it takes, and each counts once.");
  if (link.clock) add(link.clock.replace("tablet", "phone"), "Launches carry this phone’s time.");
  if (papers && papers.event.closed) add(`${papers.event.name} is closed.`, "A director must open it again before the site takes notes.");
  else if (papers && dayPart() && !isOn()) add(`Day ${dayNumber()} of this event is ${dayPart().date}, not today.`, "“All good” writes no launch; times you write are taken for that day.");
  const box = at("notices"), all = (shown) => [...shown].map((one) => one.textContent).join();
  if (all(box.children) !== all(found)) box.replaceChildren(...found);
}

function showLink() {
  const since = sender.link.since;
  at("band").hidden = !since;
  if (!since) return;
  const reload = "serviceWorker" in navigator && navigator.serviceWorker.controller ? "" : " Do not load this page again meanwhile: without the link the browser could not show it, though the notes would stay.";
  const strong = sender.link.full ? "The site cannot write just now. Carry on." : `No link since ${words.clock(since, zone())}. Carry on.`;
  const rest = sender.link.full ? "Notes stay on this phone and go up by themselves as soon as it can." : `${sender.link.why ? `${sender.link.why} ` : ""}Notes are kept on this phone and go up by themselves when the link is back.${reload}`;
  if (at("band-since").textContent !== strong) at("band-since").textContent = strong;
  if (at("band-words").textContent !== rest) at("band-words").textContent = rest;
}

/* A second note of a boat either fits what stands, and is part of it, or waits: the site's document says which. */
async function sortSecond() {
  for (const record of records.filter((one) => one.state === "second" && papers && one.answeredAt <= papersAt)) {
    const waits = papers.waiting.includes(record.id);
    if (!waits) await store.keep(Object.assign({}, record, { state: "kept" }));
    else if (!record.waits) await store.keep(Object.assign({}, record, { waits }));
    else continue;
    records = await store.all();
  }
}

async function redraw() {
  const held = await store.papers();
  if (held && held.changed !== redraw.taken) { redraw.taken = held.changed; takePapers(held); }
  records = await store.all();
  await sortSecond();
  const [mark, where] = words.where(records), head = at("where-kept");
  head.className = `state is-${mark}`;
  if (head.textContent !== where) head.textContent = where;
  const state = JSON.stringify([records, [...sender.link.going], redraw.taken, stage, at("day").value, at("find").value]);
  if (state !== redraw.state) {
    redraw.state = state;
    at("notes-head").hidden = !records.length;
    lists.notes(at("notes"), records, {
      zone: zone(), going: sender.link.going, open,
      acts: { mend, again: (record) => change(record, { state: "waiting", faults: [] }), aside: (record) => change(record, { asideAt: Date.now() }) },
    });
    showBoats();
  }
  notices();
  showLink();
}

/* ---- hands ---- */

form.addEventListener("submit", keep);
form.addEventListener("input", () => { at("all-good-says").textContent = ""; clearSaid(); work(); });
form.addEventListener("click", (event) => {
  const step = event.target.closest("[data-step]");
  if (!step) return;
  filled.step(step.dataset.of, Number(step.dataset.step));
  at("all-good-says").textContent = "";
  clearSaid();
  work();
});
at("all-good").addEventListener("click", () => {
  filled.allGood(stage, { aeration: at("usual-aeration").value, ice: at("usual-ice").value.trim() }, isOn());
  clearSaid();
  work();
  const read = filled.read();
  at("all-good-says").textContent = `Written: ${words.said(read.values, zone())}. Look it over, then keep it.`;
});
at("back").addEventListener("click", back);
for (const one of document.querySelectorAll("[data-stage]")) one.addEventListener("click", () => { stage = one.dataset.stage; remember(KEYS.stage, stage); at("readback").hidden = true; showBoats(); notices(); });
at("find").addEventListener("input", showBoats);
at("find").addEventListener("keydown", (event) => {
  if (event.key !== "Enter") return;
  const exact = document.querySelector(`.boat[data-boat="${CSS.escape(at("find").value.trim())}"]`), first = exact || document.querySelector("#lacking .boat, #noted .boat");
  if (first) first.click();
});
at("day").addEventListener("change", () => { showBoats(); notices(); });
for (const [id, key] of [["usual-aeration", KEYS.air], ["usual-ice", KEYS.ice], ["official", KEYS.official]]) {
  const known = remembered(key);
  if (known && !(id === "official" && at(id).value)) at(id).value = known === "blank" ? "" : known;
  at(id).addEventListener("input", () => remember(key, at(id).value.trim() || "blank"));
}

/* ---- begin ---- */

window.addEventListener("hashchange", () => { pairing.take(); sender.go(); });
const sender = makeSender({ store, papers: body.dataset.papers, to: body.dataset.notes, key: "notes", item: "note", headers: pairing.headers, changed: redraw });
if (channel) channel.onmessage = redraw;
await redraw();
showBoats();
sender.start();
page.dataset.ready = "yes";
if ("serviceWorker" in navigator) {
  const controlled = () => { if (navigator.serviceWorker.controller) page.dataset.alone = "yes"; redraw(); };   // it opens without the network
  navigator.serviceWorker.addEventListener("controllerchange", controlled);
  navigator.serviceWorker.register("worker.js").then(controlled).catch(() => {});
}
if (navigator.storage && navigator.storage.persist) navigator.storage.persist().catch(() => {});
