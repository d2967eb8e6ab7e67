/* The page at the scale table: one slip at a time, scored as it is typed, kept on the tablet, sent by itself. */
import * as times from "../device/times.js";
import * as scoring from "../scoring/scoring.js";
import * as knownWays from "../slip/slip-index.js";
import * as words from "../slip/words.js";
import * as called from "./called.js";
import * as notices from "./notices.js";
import * as sum from "./sum.js";
import { pairingOf, remember, remembered } from "../device/pairing.js";
import { makeSender } from "../device/sender.js";
import { newId, openStore } from "../device/store.js";
import { readingsOf } from "../scales/readings.js";
import { doubtsAbout } from "../slip/doubts.js";
import { faultsOn } from "../slip/faults.js";
import { typedSlip } from "../slip/typed.js";
import { changesIn } from "./changes.js";
import { fetchAhead, showCopies } from "./copies.js";
import { dayChoice } from "./day.js";
import { handsOn } from "./hands.js";
import { numberPad } from "./pad.js";
import { readBackIn } from "./readback.js";
import { showRefusedIn } from "./refused.js";
import { slipList, whereAll } from "./slip-list.js";
import { bounceGuard, bringIntoView } from "./view.js";

const body = document.body, page = document.documentElement;
const form = document.getElementById("slip");
const at = (id) => document.getElementById(id);
const line = (name) => form.elements.namedItem(name);
const element = words.element;
const slug = body.dataset.event, OFFICIAL = "weighin-table.official";

let held = null, papers = null, book = null, slips = [], confirmed = "", mending = null, correcting = null, reading = null, keeping = false;
const open = new Set();
const largestLines = () => (at("largest").hidden ? [] : [...at("largest-lines").querySelectorAll("input")]);
const typed = typedSlip(form, { papers: () => papers, zone: () => zone(), unit: () => unit(), entryOf: (boat) => entryOf(boat), largest: largestLines });
const said = faultsOn(at("page"));
const readings = readingsOf(form, at("scale-says"), { unit: () => unit() });
const seen = bringIntoView, bounce = bounceGuard();
const pairing = pairingOf(slug, body.dataset.way);
const store = await openStore(slug);
const channel = "BroadcastChannel" in window ? new BroadcastChannel("weighin-table") : null;

/* ---- the event ---- */

const zone = () => (papers ? papers.event.time_zone : undefined);
const unit = () => (papers ? papers.event.weight_unit : "lb");
const today = () => new Date().toLocaleDateString("en-CA", { timeZone: zone() });
const siteNow = () => Date.now() - (held ? held.at - Date.parse(papers.server_time) : 0);
const entryOf = (boat) => papers && papers.roster.find((entry) => entry.boat === boat), team = (boat) => (entryOf(boat) || { team: "not on the list" }).team;
const standing = () => knownWays.current(slips, held);

function takePapers(found) {
  papers = found.document;
  held = found;
  book = scoring.rules(papers.rules, unit());
  at("event-name").textContent = papers.event.name;
  for (const one of document.querySelectorAll("[data-unit]")) one.textContent = unit();
  line("tare").placeholder = scoring.show(book.bagTare, unit());
  day.take(papers);
  pad.draw(unit() === "lb-oz");
  if (!line("checked_in").value && !mending && !correcting) typed.fillCheckin();
  work();
  page.dataset.papers = papers.revision;
}

/* What the lines say, with what the slip that is put right says beside them. */
function writing() {
  const slip = typed.slip(), before = mending ? mending.slip : correcting ? correcting.slip : null;
  if (!before) return slip;
  const late = slip.checked_in || slip.minutes_late != null || slip.boat !== before.boat ? {} : { minutes_late: knownWays.said(before).minutes_late ?? null };
  return Object.assign(knownWays.said(before), slip, late);
}

function scored(slip) {
  if (slip.alive === null || slip.dead === null || slip.short === null) return null;
  return scoring.score(book, Object.assign({ short: 0 }, slip, { late_ms: typed.lateMs(slip) }));
}

/* Slips of the boat and day beside the one that is being written. */
function others(slip) {
  const own = [mending && mending.id, mending && mending.slip.replaces, correcting && correcting.slip.id];
  return standing().filter((one) => one.slip.boat === slip.boat && one.slip.day === slip.day && !own.includes(one.slip.id) && !own.includes(one.number));
}

function doubtsOf(slip, score) {
  if (!score || score.faults) return [];
  const half = typed.halfOfDay(slip), clock = half ? [{ field: "checked_in", words: `${typed.said("checked_in")} is taken as ${half[0]}. If it was ${half[1]}, write that.`, label: `check-in at ${half[0]}` }] : [];
  const beside = others(slip).map((one) => Object.assign({}, one.slip, { slip: one.number }));
  return [...doubtsAbout(slip, { book, papers, others: beside, entry: entryOf(slip.boat) }), ...clock];
}

/* ---- what the page says while one writes ---- */

function work() {
  const slip = writing();
  at("fish").textContent = slip.fish;
  at("dead-test").hidden = at("dead-by").hidden = !slip.dead;
  form.classList.toggle("is-correcting", !at("correcting").hidden);
  at("big-alive").hidden = !(slip.big_fish && slip.dead > 0 && slip.alive > 0);
  day.show();
  showTeam(slip);
  if (!book) { at("sum").replaceChildren(element("p", "The rules of this event are not on this tablet yet.", { class: "says quiet" })); return; }
  at("on-scale").textContent = slip.alive === null ? "" : words.goes(book, Object.assign({}, slip, { short: slip.short || 0, dead: slip.dead || 0 }));
  sum.askLargest(book, slip, pad.show);
  sum.show(scored(slip), slip, { book, lateness: typed.lateness(slip) });
  showCalled();
  if (confirmed) return;
  at("keep").textContent = correcting ? "Keep the correction" : `Keep ${slip.boat === null ? "the slip" : `boat ${slip.boat}’s slip`}${mending ? " again" : ""}`;
  at("keep").classList.remove("outlined");
}

function showTeam(slip) {
  const entry = entryOf(slip.boat), checkin = typed.checkinOf(slip.boat, slip.day), late = typed.lateBy(slip);
  const parts = entry ? [...entry.anglers] : [];
  if (entry && entry.flight) parts.push(`flight ${entry.flight}`);
  if (checkin && checkin.checked_in) parts.push(`checked in ${words.clock(checkin.checked_in, zone())}`);
  else if (entry && !late) parts.push("no check-in yet");
  at("team").textContent = entry ? entry.team : slip.boat === null || !papers ? "" : `No boat ${slip.boat} on the list`;
  at("team-note").textContent = entry ? parts.join(", ") : "";
  at("late").textContent = entry && late ? `${late}.` : "";
  const there = papers && !confirmed && slip.boat !== null ? others(slip) : [];
  at("has-slip").hidden = !there.length;
  if (!there.length) return;
  at("has-slip-says").textContent = `Boat ${slip.boat} has ${there[0].number ? `slip ${there[0].number}` : "a slip on this tablet"} already: ${words.inShort(there[0].slip)}.`;
  at("has-slip-correct").onclick = () => correct(there[0]);
}

function showCalled() {
  if (!papers) return;
  const now = Number(line("day").value), weighed = new Set(standing().filter((one) => one.slip.day === now).map((one) => one.slip.boat));
  called.show(at("called"), called.coming(papers, now, weighed, siteNow()), Number(line("boat").value), (boat) => {
    line("boat").value = boat;
    line("boat").dispatchEvent(new Event("input", { bubbles: true }));
    line("alive").focus();
  });
}

/* Each entry in words once its line is left. */
function readEntry() {
  const slip = writing();
  at("reads").textContent = slip.boat === null || slip.alive === null ? "" : `Boat ${slip.boat}, ${team(slip.boat)}: ${words.inShort(slip)}.`;
}

/* ---- keep ---- */

async function keep(event) {
  event.preventDefault();
  if (keeping || (bounce.again() && (confirmed || writing().boat === null))) return;    // a key that bounces
  keeping = true;
  try { await look(); } finally { keeping = false; }
}

async function look() {
  said.clear();
  const slip = writing(), score = book ? scored(slip) : null;
  const faults = said.of(slip, score, { papers, unit: unit(), said: typed.said, correcting: correcting || (mending && mending.slip.replaces) });
  if (faults.length) {
    const [first] = faults.map(([field, sentence]) => said.say(field, sentence, "fault"));
    first.focus();
    seen(first);
    return;
  }
  if (day.early()) { seen(at("early")); at("early").querySelector("button").focus(); return; }
  const doubts = doubtsOf(slip, score), signature = JSON.stringify(slip);
  if (doubts.length && confirmed !== signature) {
    confirmed = signature;
    const lines = doubts.map((one) => said.say(one.field, one.words, "doubt"));
    at("has-slip").hidden = true;
    at("keep").textContent = `Keep ${doubts[doubts.length - 1].label} all the same`;
    at("keep").classList.add("outlined");
    at("keep").focus({ preventScroll: true });
    seen(lines[lines.length - 1]);
    bounce.mark(at("keep"));
    return;
  }
  await write(slip, doubts);
}

function noteOf(slip, doubts, from) {
  const initials = slip.dead ? typed.said("initials") : null;
  const parts = [slip.note, initials && `Judged dead by ${initials}.`, doubts.length && `Kept all the same: ${doubts.map((one) => one.label).join(", ")}.`, from.length && `${readings.note(from)}.`];
  return parts.filter(Boolean).join(" ").slice(0, 500) || null;
}

/* A record to keep: the slip as it will be sent, and what the page says of it. */
function recordOf(slip, more) {
  const id = newId(), score = slip.void ? null : scored(slip);
  const old = slip.replaces && standing().find((one) => one.slip.id === slip.replaces || one.number === slip.replaces);
  const wire = { ...knownWays.said(slip), id, ...Object.fromEntries(["replaces", "reason", "void"].filter((name) => slip[name]).map((name) => [name, slip[name]])) };
  return Object.assign({
    id, slip: wire, state: "waiting", keptAt: Date.now(), team: team(slip.boat), total: score && !score.faults ? words.shown(score.total, unit()) : "",
    eventName: papers.event.name, faults: [], of: old && old.number ? `slip ${old.number}` : "", note: slip.note || "", initials: "",
  }, more);
}

/* A slip written for the boat it is of replaces the one before; written for another, it takes that one out beside it. */
function recordsOf(slip, doubts, from) {
  const before = mending ? mending.slip : correcting ? correcting.slip : {};
  const own = { initials: typed.said("initials") || "", note: slip.note || "" };
  const wire = Object.assign({}, slip, { weighed: before.weighed || new Date().toISOString(), note: noteOf(slip, doubts, from) });
  const bag = before.id ? null : typed.bagIssued(slip);
  if (bag) wire.bag_issued = bag;
  const replaces = mending ? mending.slip.replaces : correcting && correcting.slip.id;
  if (replaces) Object.assign(wire, { replaces, reason: words.reasonOf(typed.said("why"), typed.said("who")) });
  if (mending) {
    const again = recordOf(wire, { id: mending.id, keptAt: mending.keptAt, swap: mending.swap, ...own });
    again.slip.id = mending.id;
    return [again];
  }
  if (!correcting || correcting.slip.boat === slip.boat) return [recordOf(wire, own)];
  const out = recordOf({ day: before.day, boat: before.boat, official: typed.said("who"), void: true, replaces, reason: wire.reason });
  return [out, recordOf(Object.assign({}, wire, { replaces: null }), own)];
}

/* Keeps records together and sends them. Raises when the tablet takes none. */
async function keepRecords(records, then) {
  await store.keepAll(records);
  reading = records[records.length - 1].id;
  if (then) then();
  await redraw();
  if (channel) channel.postMessage("kept");
  sender.go();
}

async function write(slip, doubts) {
  const from = readings.held(), records = recordsOf(slip, doubts, from);
  try { await keepRecords(records, again); } catch (refused) {
    said.say("gross", "This tablet cannot keep the slip: its storage is full or shut. Write it on paper now, and call the director.", "fault");
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
  mending = correcting = null;
  bounce.mark();
  day.follow();
  at("correcting").hidden = true;
  at("reads").textContent = "";
  readings.clear();
  said.clear();
  at("more").open = false;
  work();
  line("boat").focus();
  if (!at("refused").hidden) window.scrollTo({ top: 0, behavior: "instant" });    // what needs a hand stands above
}

/* Opens a slip again in the lines: a refused one under its own id, or one that stands to be corrected by a new one. */
function reopen(slip, texts) {
  typed.fill(slip, texts);
  work();
  largestLines().forEach((one, place) => { one.value = (slip.largest_weights || [])[place] || ""; });
  work();
}

function mend(record) {
  again();
  mending = record;
  at("correcting").hidden = !record.slip.replaces;
  at("correcting-says").textContent = `Corrects ${record.of || "a slip"} of boat ${record.slip.boat}.`;
  reopen(record.slip, { note: record.note, initials: record.initials, why: record.slip.reason, who: record.slip.official });
  line("boat").select();
  showRefused();
}

function correct(target) {
  again();
  correcting = target;
  const { slip, record } = target;
  at("correcting").hidden = false;
  at("correcting-says").textContent = `Corrects ${target.number ? `slip ${target.number}` : "the slip"} of boat ${slip.boat}: ${words.inShort(slip)}. Another boat number takes it out there and keeps it here.`;
  at("correcting-out").onclick = () => { again(); change("takeOut", target); };
  at("correcting-swap").onclick = () => { again(); change("swap", target); };
  reopen(slip, { note: record ? record.note : slip.note, initials: record && record.initials, who: line("official").value });
  line("gross").focus();
}

function change(act, target) {
  form.hidden = true;
  changes[act](target);
  at("change").scrollIntoView({ block: "nearest" });
}

async function put(record, values) {
  await store.keep(Object.assign({}, record, values));
  await redraw();
  sender.go();
}

/* A correction that came before its slip goes up again once that slip is there. */
async function sendAgain() {
  const late = slips.filter((one) => one.state === "refused" && !one.asideAt && one.slip.replaces
    && slips.some((old) => old.id === one.slip.replaces && ["kept", "already", "second"].includes(old.state) && old.answeredAt > one.answeredAt));
  for (const one of late) await store.keep(Object.assign({}, one, { state: "waiting", faults: [] }));
  if (late.length) { slips = await store.all(); sender.go(); }
}

/* ---- where everything is ---- */

function readBack() {
  const record = slips.find((one) => one.id === reading), panel = at("readback");
  panel.hidden = at("kept-now").hidden = !record || line("boat").value !== "";    // the next boat's sum takes its place
  if (panel.hidden) return;
  readBackIn(panel, at("kept-now"), record, { unit: unit(), going: sender.link.going.has(record.id) });
}

const acts = { mend: (record) => mend(record), again: (record) => put(record, { state: "waiting", faults: [] }), aside: (record) => put(record, { asideAt: Date.now() }), copy: (record) => copy([record]) };

function showRefused() {
  const after = knownWays.replacing(slips);
  showRefusedIn(at("refused"), slips.filter((one) => !one.asideAt && !after.has(one.id)), { acts, mending: mending && mending.id, unit: unit() });
}

const copy = (records) => showCopies(at("copies"), records, { address: body.dataset.codes, zone: zone(), unit: unit() });
const unsent = () => slips.filter((one) => one.state !== "kept" && one.state !== "already" && one.state !== "second" && !one.asideAt);

function showSlips() {
  const after = knownWays.replacing(slips), now = standing(), of = (record) => now.find((one) => one.record === record);
  const [mark, where] = whereAll(slips, after), head = at("where-kept");
  head.className = `state is-${mark}`;
  if (head.textContent !== where) head.textContent = where;
  at("give-up").hidden = !unsent().length;
  const ids = new Set(now.filter((one) => one.record).map((one) => one.record.id));
  const state = JSON.stringify([slips, [...ids], [...sender.link.going], zone()]);
  if (state === showSlips.state) return;
  showSlips.state = state;
  slipList(at("slips"), slips, {
    zone: zone(), unit: unit(), going: sender.link.going, open, after, standing: ids,
    acts: {
      ...acts, correct: (record) => correct(of(record)), takeOut: (record) => change("takeOut", of(record)), swap: (record) => change("swap", of(record)),
    },
  });
}

async function redraw() {
  const found = await store.papers();
  slips = await store.all();
  if (found && (!papers || found.changed !== redraw.taken)) { redraw.taken = found.changed; takePapers(found); }
  await sendAgain();
  const settled = knownWays.settled(slips, held).map(([record, words]) => Object.assign({}, record, { settled: words }));
  if (settled.length) { await store.keepAll(settled); slips = await store.all(); }
  showSlips();
  showRefused();
  tick();
  readBack();
  notices.show({ link: sender.link, papers, missing: pairing.missing(), way: body.dataset.way, signIn: body.dataset.signIn, today: today() });
  notices.showLink(sender.link, zone());
  showTeam(writing());
}

function tick() {
  at("clock").textContent = words.clock(Date.now(), zone());
  day.follow();
  day.show();
  showCalled();
}

/* ---- hands ---- */

const next = handsOn(form, { boat: () => writing().boat, bounce, said, count: typed.count, left: readEntry });
form.addEventListener("submit", keep);
at("page").addEventListener("input", (event) => {
  if (event.target.form !== form) return;
  if (event.target.name === "official") remember(OFFICIAL, event.target.value.trim());
  if (event.target.name === "boat" || event.target.name === "day") typed.fillCheckin(correcting && correcting.slip);
  confirmed = "";
  said.clear();
  work();
  readBack();
  if (event.target.closest("#slip")) seen(event.target);    // what it made the page ask
});
form.addEventListener("change", (event) => {
  const time = event.target.name === "checked_in" && times.read(event.target.value);
  if (time && !time.bare) event.target.value = time.text;    // as it is taken
  readEntry();
});
at("over").addEventListener("click", again);
at("give-up").addEventListener("click", () => copy(unsent()));
at("copies-shut").addEventListener("click", () => { at("copies").hidden = true; });
at("copies-print").addEventListener("click", () => {
  page.classList.add("prints-copies");
  window.addEventListener("afterprint", () => page.classList.remove("prints-copies"), { once: true });
  window.print();
});

/* ---- begin ---- */

window.addEventListener("hashchange", () => { pairing.take(); sender.go(); });
if (!line("official").value) line("official").value = remembered(OFFICIAL);
const day = dayChoice(line("day"), at("day-choice"), at("early"), {
  now: siteNow, idle: () => !line("boat").value && !mending && !correcting, chosen: () => line("day").dispatchEvent(new Event("input", { bubbles: true })),
});
const pad = numberPad(at("pad"), at("pad-switch"), form, next);
const changes = changesIn(at("change"), {
  known: standing, record: recordOf, keep: keepRecords, scored, team, unit, who: () => line("official").value,
  shut: () => { form.hidden = false; line("boat").focus(); },
});
const sender = makeSender({ store, papers: body.dataset.papers, to: body.dataset.slips, key: "slips", item: "slip", headers: pairing.headers, changed: redraw });
if (channel) channel.onmessage = () => redraw();
setInterval(tick, 5000);
await redraw();
work();
line("boat").focus();
sender.start();
fetchAhead(body.dataset.codes);
page.dataset.ready = "yes";
if ("serviceWorker" in navigator) {
  const controlled = () => { if (navigator.serviceWorker.controller) page.dataset.alone = "yes"; redraw(); };   // it opens without the network
  navigator.serviceWorker.addEventListener("controllerchange", controlled);
  navigator.serviceWorker.register("worker.js").then(controlled).catch(() => {});
}
if (navigator.storage && navigator.storage.persist) navigator.storage.persist().catch(() => {});
