/* The page at the scale table: one slip at a time, scored as it is typed, kept on the tablet, sent by itself. */
import { keepPage, keepStorage } from "../device/offline.js";
import { pairingOf, remember, remembered } from "../device/pairing.js";
import { makeSender } from "../device/sender.js";
import { openStore } from "../device/store.js";
import { clock, read as readTime, shown } from "../device/times.js";
import { readingsOf } from "../scales/readings.js";
import { rules, score } from "../scoring/score.js";
import { show as showWeight } from "../scoring/weights.js";
import { at, element, input, linesOf, targetOf, write as writeWords } from "../site/elements.js";
import { gettext } from "../site/text.js";
import { doubtsAbout } from "../slip/doubts.js";
import { faultsOn } from "../slip/faults.js";
import * as slipIndex from "../slip/slip-index.js";
import { typedSlip } from "../slip/typed.js";
import { goes, inShort, slipNamed } from "../slip/words.js";
import * as called from "./called.js";
import { changesIn } from "./changes.js";
import { fetchAhead, printCopies, showCopies } from "./copies.js";
import { dayChoice } from "./day.js";
import { handsOn } from "./hands.js";
import * as notices from "./notices.js";
import { numberPad } from "./pad.js";
import { readBackIn } from "./readback.js";
import { recordMaker } from "./records.js";
import { showRefusedIn } from "./refused.js";
import { slipList, whereAll } from "./slip-list.js";
import * as sum from "./sum.js";
import { keepWords, showTeam } from "./team.js";
import { bounceGuard, bringIntoView } from "./view.js";

const body = document.body, page = document.documentElement;
const form = /** @type {HTMLFormElement} */ (at("slip")), line = linesOf(form);
const { event: slug = "", way, papers: papersAt = "", slips: slipsAt = "", codes = "", signIn } = body.dataset, OFFICIAL = "weighin-table.official";

/** @type {Held | null} */ let held = null;
/** @type {EventDocument | null} */ let eventDocument = null;
/** @type {RuleBook | null} */ let book = null;
/** @type {SlipRecord[]} */ let slips = [];
/** @type {SlipRecord | null} */ let editing = null;
/** @type {Standing | null} */ let correcting = null;
/** @type {string | null} */ let reading = null;
/** @type {number | undefined} */ let taken;
let confirmed = "", keeping = false, shownSlips = "";
/** @type {Set<string>} */ const open = new Set();
const largestLines = () => (at("largest").hidden ? [] : [...at("largest-lines").querySelectorAll("input")]);
const typed = typedSlip(form, { eventDocument: () => eventDocument, zone: () => zone(), unit: () => unit(), entryOf: (boat) => entryOf(boat), largest: largestLines });
const said = faultsOn(at("page"));
const readings = readingsOf(form, at("scale-says"), { unit: () => unit() });
const bounce = bounceGuard();
const pairing = pairingOf(slug, way);
/** @type {Store<SlipRecord>} */ const store = await openStore(slug);
const channel = "BroadcastChannel" in window ? new BroadcastChannel("weighin-table") : null;

/* ---- the event ---- */

const zone = () => (eventDocument ? eventDocument.event.time_zone : undefined);
/** @returns {Unit} */
const unit = () => (eventDocument ? eventDocument.event.weight_unit : "lb");
const today = () => new Date().toLocaleDateString("en-CA", { timeZone: zone() });
const siteNow = () => Date.now() - (held ? held.at - Date.parse(held.document.server_time) : 0);
/** @param {number | null} boat */
const entryOf = (boat) => eventDocument && eventDocument.roster.find((entry) => entry.boat === boat);
/** @param {number | null} boat */
const team = (boat) => entryOf(boat)?.team ?? gettext("not on the list");
const standing = () => slipIndex.current(slips, held);

/** @param {Held} found */
function takeDocument(found) {
  eventDocument = found.document;
  held = found;
  book = rules(eventDocument.rules, unit());
  at("event-name").textContent = eventDocument.event.name;
  for (const one of document.querySelectorAll("[data-unit]")) one.textContent = unit();
  line("tare").placeholder = showWeight(book.weight("bag_tare"), unit());
  day.take(eventDocument); pad.draw(unit() === "lb-oz");
  if (!line("checked_in").value && !editing && !correcting) typed.fillCheckin();
  work();
  page.dataset.papers = String(eventDocument.revision);
}

/** What the lines say, with what the slip that is put right says beside them. @returns {Typed} */
function writing() {
  const slip = typed.slip(), before = editing ? editing.slip : correcting ? correcting.slip : null;
  if (!before) return slip;
  const late = slip.checked_in || slip.minutes_late != null || slip.boat !== before.boat ? {} : { minutes_late: slipIndex.said(before).minutes_late ?? null };
  return { ...slipIndex.said(before), ...slip, ...late };
}

/** @param {Partial<Slip> | Typed} slip */
function scored(slip) {
  const whole = /** @type {Typed} */ ({ ...slip, short: slip.short ?? (slip.short === null ? null : 0) });
  if (!book || whole.alive === null || whole.dead === null || whole.short === null) return null;
  return score(book, { ...whole, late_ms: typed.lateMs(whole) });
}

/** Slips of the boat and day beside the one that is being written. @param {Typed} slip */
function others(slip) {
  const own = [editing && editing.id, editing && editing.slip.replaces, correcting && correcting.slip.id];
  return standing().filter((one) => one.slip.boat === slip.boat && one.slip.day === slip.day && !own.includes(one.slip.id) && !own.includes(one.number ?? NaN));
}

/** @param {Typed} slip @param {Score | null} score */
function doubtsOf(slip, score) {
  if (!score || "faults" in score || !book || !eventDocument) return [];
  const half = typed.halfOfDay(slip);
  const time = half && {
    field: "checked_in", label: gettext("check-in at %(time)s", { time: half[0] }),
    words: gettext("%(written)s is taken as %(time)s. If it was %(other)s, write that.", { written: typed.said("checked_in"), time: half[0], other: half[1] }),
  };
  const beside = others(slip).map((one) => ({ ...one.slip, slip: one.number }));
  return [...doubtsAbout(slip, { book, eventDocument, others: beside, entry: entryOf(slip.boat) }), ...(time ? [time] : [])];
}

/* ---- what the page says while one writes ---- */

function work() {
  const slip = writing();
  at("fish").textContent = String(slip.fish);
  at("dead-test").hidden = at("dead-by").hidden = !slip.dead;
  form.classList.toggle("is-correcting", !at("correcting").hidden);
  at("big-alive").hidden = !(slip.big_fish && slip.dead && slip.alive);
  day.show();
  showWhose(slip);
  if (!book) { at("sum").replaceChildren(element("p", gettext("The rules of this event are not on this tablet yet."), { class: "says quiet" })); return; }
  at("on-scale").textContent = slip.alive === null ? "" : goes(book, { ...slip, short: slip.short || 0, dead: slip.dead || 0 });
  sum.askLargest(book, slip, pad.show);
  sum.show(scored(slip), slip, { book, lateness: typed.lateness(slip) });
  showCalled();
  if (confirmed) return;
  at("keep").textContent = keepWords(slip.boat, Boolean(editing), Boolean(correcting));
  at("keep").classList.remove("outlined");
}

/** @param {Typed} slip */
function showWhose(slip) {
  const { boat, day } = slip, [there] = eventDocument && !confirmed && boat !== null ? others(slip) : [];
  showTeam(boat, entryOf(boat), { known: Boolean(eventDocument), checkin: typed.checkinOf(boat, day), late: typed.lateBy(slip), there, zone: zone(), correct });
}

function showCalled() {
  if (!eventDocument) return;
  const now = Number(line("day").value), weighed = new Set(standing().filter((one) => one.slip.day === now).map((one) => one.slip.boat));
  called.show(at("called"), called.coming(eventDocument, now, weighed, siteNow()), Number(line("boat").value), (boat) => {
    line("boat").value = String(boat);
    line("boat").dispatchEvent(new Event("input", { bubbles: true }));
    line("alive").focus();
  });
}

/* Each entry in words once its line is left. */
function readEntry() {
  const slip = writing();
  at("reads").textContent = slip.boat === null || slip.alive === null ? "" : gettext("Boat %(boat)s, %(team)s: %(slip)s.", { boat: slip.boat, team: team(slip.boat), slip: inShort(slip) });
}

/* ---- keep ---- */

/** @param {Event} event */
async function keep(event) {
  event.preventDefault();
  if (keeping || (bounce.again() && (confirmed || writing().boat === null))) return;    // a key that bounces
  keeping = true;
  try { await look(); } finally { keeping = false; }
}

async function look() {
  said.clear();
  const slip = writing(), score = book ? scored(slip) : null;
  const faults = said.of(slip, score, { eventDocument, unit: unit(), said: typed.said, correcting: correcting || (editing && editing.slip.replaces) });
  if (faults.length) {
    const [first] = faults.map(([field, sentence]) => said.say(field, sentence, "fault"));
    first.focus(); bringIntoView(first); return;
  }
  if (day.early()) { bringIntoView(at("early")); at("early").querySelector("button")?.focus(); return; }
  const doubts = doubtsOf(slip, score), signature = JSON.stringify(slip);
  if (doubts.length && confirmed !== signature) {
    confirmed = signature;
    const lines = doubts.map((one) => said.say(one.field, one.words, "doubt"));
    at("has-slip").hidden = true;
    at("keep").textContent = gettext("Save %(doubt)s all the same", { doubt: doubts[doubts.length - 1].label });
    at("keep").classList.add("outlined");
    at("keep").focus({ preventScroll: true });
    bringIntoView(lines[lines.length - 1]); bounce.mark(at("keep")); return;
  }
  await write(slip, doubts);
}

/** Keeps records together and sends them. Raises when the tablet takes none. @param {SlipRecord[]} records @param {() => void} [then] */
async function keepRecords(records, then) {
  await store.keepAll(records);
  reading = records[records.length - 1].id;
  if (then) then();
  await redraw();
  if (channel) channel.postMessage("kept");
  sender.go();
}

/** @param {Typed} slip @param {Doubt[]} doubts */
async function write(slip, doubts) {
  const from = readings.held(), made = records(slip, doubts, from, { editing, correcting });
  try { await keepRecords(made, again); } catch {
    said.say("gross", gettext("This tablet cannot save the slip: its storage is full or blocked. Write it on paper now, and call the director."), "fault");
    return;
  }
  if (from.length) document.dispatchEvent(new CustomEvent("weighin:kept", { detail: { id: reading, readings: from } }));
}

/* A new slip, with the hand on the boat. */
function again() {
  const official = line("official").value, dayWas = line("day").value;
  form.reset();
  line("official").value = official;
  line("day").value = dayWas;
  confirmed = "";
  editing = correcting = null;
  bounce.mark();
  day.follow();
  at("correcting").hidden = true;
  at("reads").textContent = "";
  readings.clear();
  said.clear();
  /** @type {HTMLDetailsElement} */ (at("more")).open = false;
  work();
  line("boat").focus();
  if (!at("refused").hidden) window.scrollTo({ top: 0, behavior: "instant" });    // what needs a hand stands above
}

/** Opens a slip again in the lines: a refused one under its own id, or one that stands to be corrected by a new one. @param {Slip} slip @param {Record<string, string | null | undefined>} texts */
function reopen(slip, texts) {
  typed.fill(slip, texts);
  work();
  largestLines().forEach((one, place) => { one.value = (slip.largest_weights || [])[place] || ""; });
  work();
}

/** @param {SlipRecord} record */
function mend(record) {
  const { slip, of, note, initials } = record;
  again();
  editing = record;
  at("correcting").hidden = !slip.replaces;
  at("correcting-says").textContent = gettext("Corrects %(slip)s of boat %(boat)s.", { slip: of || gettext("a slip"), boat: slip.boat });
  reopen(slip, { note, initials, why: slip.reason, who: slip.official });
  line("boat").select();
  showRefused();
}

/** @param {Standing} target */
function correct(target) {
  again();
  correcting = target;
  const { slip, record, number } = target;
  at("correcting").hidden = false;
  at("correcting-says").textContent = gettext("Corrects %(slip)s of boat %(boat)s: %(says)s. Another boat number voids it there and saves it here.", { slip: slipNamed(number), boat: slip.boat, says: inShort(slip) });
  at("correcting-out").onclick = () => { again(); change("takeOut", target); };
  at("correcting-swap").onclick = () => { again(); change("swap", target); };
  reopen(slip, { note: record ? record.note : slip.note, initials: record && record.initials, who: line("official").value });
  line("gross").focus();
}

/** @param {"takeOut" | "swap"} act @param {Standing} target */
function change(act, target) {
  form.hidden = true;
  changes[act](target);
  at("change").scrollIntoView({ block: "nearest" });
}

/** @param {SlipRecord} record @param {Partial<SlipRecord>} values */
async function put(record, values) {
  await store.keep({ ...record, ...values });
  await redraw();
  sender.go();
}

/* A correction that came before its slip goes up again once that slip is there. */
async function sendAgain() {
  const late = slips.filter((one) => one.state === "refused" && !one.asideAt && one.slip.replaces
    && slips.some((old) => old.id === one.slip.replaces && ["kept", "already", "second"].includes(old.state) && Number(old.answeredAt) > Number(one.answeredAt)));
  for (const one of late) await store.keep({ ...one, state: "waiting", faults: [] });
  if (late.length) { slips = await store.all(); sender.go(); }
}

/* ---- where everything is ---- */

function readBack() {
  const record = slips.find((one) => one.id === reading), panel = at("readback");
  panel.hidden = at("kept-now").hidden = !record || line("boat").value !== "";    // the next boat's sum takes its place
  if (record && !panel.hidden) readBackIn(panel, at("kept-now"), record, { unit: unit(), going: sender.link.going.has(record.id) });
}

/** @type {RecordActs} */ const acts = {
  mend, copy: (record) => copy([record]),
  again: (record) => put(record, { state: "waiting", faults: [] }), aside: (record) => put(record, { asideAt: Date.now() }),
};

function showRefused() {
  const after = slipIndex.replacing(slips);
  showRefusedIn(at("refused"), slips.filter((one) => !one.asideAt && !after.has(one.id)), { acts, editing: editing && editing.id, unit: unit() });
}

/** @param {SlipRecord[]} records */
const copy = (records) => showCopies(at("copies"), records, { address: codes, zone: zone(), unit: unit() });
const unsent = () => slips.filter((one) => !["kept", "already", "second"].includes(one.state) && !one.asideAt);

function showSlips() {
  const after = slipIndex.replacing(slips), now = standing();
  const [mark, where] = whereAll(slips, after), head = at("where-kept");
  head.className = `state is-${mark}`;
  writeWords(head, where);
  at("give-up").hidden = !unsent().length;
  const ids = new Set(now.flatMap((one) => (one.record ? [one.record.id] : [])));
  const state = JSON.stringify([slips, [...ids], [...sender.link.going], zone()]);
  if (state === shownSlips) return;
  shownSlips = state;
  /** Does something with the standing slip of a record. @param {(target: Standing) => void} act */
  const toStanding = (act) => (/** @type {SlipRecord} */ record) => {
    const target = now.find((one) => one.record === record);
    if (target) act(target);
  };
  slipList(at("slips"), slips, {
    zone: zone(), unit: unit(), going: sender.link.going, open, after, standing: ids,
    acts: { ...acts, correct: toStanding(correct), takeOut: toStanding((target) => change("takeOut", target)), swap: toStanding((target) => change("swap", target)) },
  });
}

async function redraw() {
  const found = await store.papers();
  slips = await store.all();
  if (found && (!eventDocument || found.changed !== taken)) { taken = found.changed; takeDocument(found); }
  await sendAgain();
  const settled = slipIndex.settled(slips, held).map(([record, words]) => ({ ...record, settled: words }));
  if (settled.length) { await store.keepAll(settled); slips = await store.all(); }
  showSlips();
  showRefused();
  tick();
  readBack();
  notices.show({ link: sender.link, eventDocument, missing: pairing.missing(), asks: pairing.question(), way, signIn, today: today() });
  notices.showLink(sender.link, zone());
  showWhose(writing());
}

function tick() {
  at("clock").textContent = clock(Date.now(), zone());
  day.follow();
  day.show();
  showCalled();
}

/* ---- hands ---- */

const next = handsOn(form, { boat: () => writing().boat, bounce, said, count: typed.count, left: readEntry });
form.addEventListener("submit", keep);
at("page").addEventListener("input", (event) => {
  const from = targetOf(event);
  if (from.form !== form) return;
  if (from.name === "official") remember(OFFICIAL, from.value.trim());
  if (from.name === "boat" || from.name === "day") typed.fillCheckin(correcting && correcting.slip);
  confirmed = "";
  said.clear();
  work();
  readBack();
  if (from.closest("#slip")) bringIntoView(from);    // what it made the page ask
});
form.addEventListener("change", (event) => {
  const from = targetOf(event), time = from.name === "checked_in" && readTime(from.value);
  if (time && !time.bare) from.value = shown(time);    // as it is taken
  readEntry();
});
at("over").addEventListener("click", again);
at("give-up").addEventListener("click", () => copy(unsent()));
at("copies-shut").addEventListener("click", () => { at("copies").hidden = true; });
at("copies-print").addEventListener("click", printCopies);

/* ---- begin ---- */

window.addEventListener("hashchange", () => { pairing.take(); sender.go(); });
if (!line("official").value) line("official").value = remembered(OFFICIAL);
const day = dayChoice(input("day"), at("day-choice"), at("early"), {
  now: siteNow, idle: () => !line("boat").value && !editing && !correcting, chosen: () => line("day").dispatchEvent(new Event("input", { bubbles: true })),
});
const pad = numberPad(at("pad"), at("pad-switch"), form, next);
const { record, records } = recordMaker({
  eventName: () => (eventDocument ? eventDocument.event.name : ""), scored, team, unit, standing, line: typed.said, bagIssued: typed.bagIssued, noteOfReadings: readings.note,
});
const changes = changesIn(/** @type {HTMLFormElement} */ (at("change")), {
  known: standing, record, keep: keepRecords, scored, team, unit, who: () => line("official").value,
  shut: () => { form.hidden = false; line("boat").focus(); },
});
const sender = makeSender({ store, papers: papersAt, to: slipsAt, key: "slips", item: "slip", notNamed: gettext("The site did not name the slips it was sent."), send: pairing.ask, changed: redraw });
if (channel) channel.onmessage = () => redraw();
setInterval(tick, 5000);
await redraw();
work();
line("boat").focus();
sender.start();
fetchAhead(codes);
page.dataset.ready = "yes";
keepPage("worker.js", redraw);
keepStorage();
