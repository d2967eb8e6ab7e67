/* Keeps each "In now" on this device, with its second, until the site has it.
   Without this script, or without storage, the buttons post to the site and the page asks again by itself. */
import { makeSender } from "../device/sender.js";
import { newId, openStore } from "../device/store.js";
import { ahead, by, clock, now, part } from "./clock.js";

let store = null, sender = null, records = [];
const kept = by("kept");
const token = () => document.querySelector("[name=csrfmiddlewaretoken]").value;
/* A form that goes the plain way still says when it was pressed. */
const tap = (form) => { form.elements.pressed.value = new Date(now()).toISOString(); };
const waits = (record) => record.state === "waiting";
const done = (record) => Boolean(record.asideAt) || ["kept", "already"].includes(record.state);    // they stay on the device for a day: a site that is put back to an older copy gets them again

function said(record) {
  const start = `Boat ${record.line.boat}, in at ${clock(record.line.checked_in, true)}: `;
  if (waits(record)) return `${start}kept on this device, not sent yet.`;
  if (record.state === "second") return `${start}somebody else wrote a time too. Both are kept: take one out on the boat's page.`;
  const faults = (record.faults || []).map((fault) => fault.message).join("; ");
  return `${start}not taken. ${faults || "Write it on the boat's page."}`;
}

function line(record) {
  const row = document.createElement("li");
  row.append(said(record));
  if (!waits(record)) {
    const gone = document.createElement("button");
    gone.className = "as-words";
    gone.textContent = "I have seen this";
    gone.addEventListener("click", async () => { if (record.state === "second") await store.keep({ ...record, asideAt: Date.now() }); else await store.drop(record.id);
      await show();
    });
    row.append(" ", gone);
  }
  return row;
}

function marks() {
  for (const record of records.filter(waits)) {
    const form = part.querySelector(`[data-roll-in] [name=boat][value="${Number(record.line.boat)}"]`)?.form;
    if (form && Number(record.line.day) === Number(form.elements.day.value)) {
      form.querySelector("button").textContent = `In at ${clock(record.line.checked_in, true)}`;
    }
  }
}

function showLink() {
  if (!sender) return;
  const { since, full, barred, restored, clock: off } = sender.link;
  by("cut-off").hidden = !since;
  if (since) by("since").textContent = full ? "The site cannot write just now. Carry on." : `No link since ${clock(since + ahead)}. Carry on.`;
  by("alone").textContent = document.documentElement.dataset.alone ? "This page opens again from its last copy." : "Do not load this page again meanwhile.";
  for (const words of [barred, off, restored && "The site was put back to an older copy: check-ins of this device go up again by themselves, and each counts once."].filter(Boolean)) {
    kept.append(Object.assign(document.createElement("li"), { textContent: words }));
    kept.hidden = false;
  }
}

async function show() {
  const before = records.filter(waits).length;
  records = await store.all();
  const open = records.filter((record) => !done(record));
  kept.replaceChildren(...open.map(line));
  kept.hidden = !open.length;
  marks();
  showLink();
  if (before > open.filter(waits).length && window.htmx) window.htmx.trigger(part, "fresh");
}

function say(words) {
  by("said").textContent = words;
}

const BOUNCE = 350;    // a key or a finger that bounces presses twice within this many ms
const going = new Map();    // day and boat -> when it was tapped

async function checkIn(form) {
  const boat = Number(form.elements.boat.value), day = Number(form.elements.day.value), moment = now(), tapped = `${day} ${boat}`;
  if (Date.now() - (going.get(tapped) ?? -Infinity) < BOUNCE || (!boat && [...going.values()].some((at) => Date.now() - at < BOUNCE))) return;
  going.set(tapped, Date.now());
  const row = document.getElementById(`boat-${boat}`);
  if (!row) return say(boat ? `No boat ${boat} is on this roll: look at the number again.` : "Write the number of the boat that is in.");
  if (row.matches("tr")) return say(`Boat ${boat} is in already: open its page to correct the time.`);
  if (records.some((record) => (waits(record) || Date.now() - record.answeredAt < 15000) && record.line.boat === boat && record.line.day === day)) return say(`Boat ${boat} is kept on this device already.`);
  const id = newId(), checked_in = `${new Date(moment).toISOString().slice(0, 19)}Z`;
  const message = { id, day, boat, checked_in, whereabouts: "in_by_water", official: part.dataset.official };
  try {
    await store.keep({ id, state: "waiting", keptAt: Date.now(), line: message });
  } catch (full) {   // no storage: the plain way
    tap(form);
    return form.submit();
  }
  say(`Boat ${boat} is in at ${clock(moment, true)}.`);
  if (form === by("in") && !form.closest("#roll")) form.elements.boat.value = "";
  await show();
  sender.go();
}

document.addEventListener("submit", (event) => {
  if (!event.target.matches("[data-roll-in]")) return;
  if (!sender) { tap(event.target); return; }
  event.preventDefault();
  checkIn(event.target);
});
if (part && by("in")) start();

function start() {
  document.addEventListener("htmx:afterSwap", marks);
  if ("serviceWorker" in navigator) {
    const controlled = () => { if (navigator.serviceWorker.controller) document.documentElement.dataset.alone = "yes"; };
    navigator.serviceWorker.addEventListener("controllerchange", controlled);
    navigator.serviceWorker.register(part.dataset.worker).then(controlled).catch(() => {});
  }
  openStore(part.dataset.event, "checkins").then((found) => {
    store = found;
    sender = makeSender({
      store, papers: part.dataset.papers, to: part.dataset.api, key: "checkins", item: "line",
      headers: () => ({ "X-CSRFToken": token() }), changed: show,
    });
    show();
    sender.start();
    part.dataset.ready = "";
  });
}
