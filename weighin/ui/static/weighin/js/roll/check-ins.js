/* Keeps each "In now" on this device, with its second, until the site has it.
   Without this script, or without storage, the buttons post to the site and the page asks again by itself. */
import { keepPage } from "../device/offline.js";
import { makeSender } from "../device/sender.js";
import { newId, openStore } from "../device/store.js";
import { element, linesOf } from "../site/elements.js";
import { gettext } from "../site/text.js";
import { ahead, by, clock, now, part } from "./clock.js";

const BOUNCE = 350;    // a key or a finger that bounces presses twice within this many ms
const SOON = 15000;    // so long after an answer the page may not show it yet

/** @param {CheckInRecord} record */
const waits = (record) => record.state === "waiting";
/** They stay on the device for a day: a site that is put back to an older copy gets them again. @param {CheckInRecord} record */
const done = (record) => Boolean(record.asideAt) || ["kept", "already"].includes(record.state);
/** A form that goes the plain way still says when it was pressed. @param {HTMLFormElement} form */
const tap = (form) => { linesOf(form)("pressed").value = new Date(now()).toISOString(); };
/** @param {HTMLFormElement} form */
const numbersOf = (form) => ({ boat: Number(linesOf(form)("boat").value), day: Number(linesOf(form)("day").value) });

/** @param {CheckInRecord} record */
function said(record) {
  const { boat, checked_in } = record.line, values = { boat, time: clock(checked_in, true) };
  if (waits(record)) return gettext("Boat %(boat)s, in at %(time)s: saved on this device, not sent yet.", values);
  if (record.state === "second") return gettext("Boat %(boat)s, in at %(time)s: somebody else entered a time too. Both are saved: void one on the boat’s page.", values);
  const faults = (record.faults || []).map((fault) => fault.message).join("; ");
  return gettext("Boat %(boat)s, in at %(time)s: not taken. %(faults)s", { ...values, faults: faults || gettext("Add it on the boat’s page.") });
}

/** @param {number} off ms that this clock is ahead of the site's */
function clockOff(off) {
  const minutes = Math.round(Math.abs(off) / 60000);
  return off > 0 ? gettext("This tablet’s clock is %(minutes)s min ahead of the site’s: set it.", { minutes }) : gettext("This tablet’s clock is %(minutes)s min behind the site’s: set it.", { minutes });
}

/** @param {Store<CheckInRecord>} store */
function start(store) {
  /** @type {CheckInRecord[]} */
  let records = [];
  /** When a day's boat was tapped. @type {Map<string, number>} */
  const going = new Map();
  const kept = by("kept");

  /** @param {CheckInRecord} record */
  function line(record) {
    const row = element("li", said(record));
    if (waits(record)) return row;
    const gone = element("button", gettext("I have seen this"), { class: "as-words" });
    gone.addEventListener("click", async () => {
      if (record.state === "second") await store.keep({ ...record, asideAt: Date.now() }); else await store.drop(record.id);
      await show();
    });
    row.append(" ", gone);
    return row;
  }

  function marks() {
    for (const { line: { boat, day, checked_in } } of records.filter(waits)) {
      const place = /** @type {HTMLInputElement | null} */ (part.querySelector(`[data-roll-in] [name=boat][value="${Number(boat)}"]`));
      if (!place?.form || Number(day) !== numbersOf(place.form).day) continue;
      const button = place.form.querySelector("button");
      if (button) button.textContent = gettext("In at %(time)s", { time: clock(checked_in, true) });
    }
  }

  function showLink() {
    const { since, full, barred, restored, off } = sender.link;
    by("cut-off").hidden = !since;
    if (since) by("since").textContent = full ? gettext("The site cannot write just now. Carry on.") : gettext("No link since %(time)s. Carry on.", { time: clock(since + ahead) });
    by("alone").textContent = document.documentElement.dataset.alone ? gettext("This page opens again from its last copy.") : gettext("Do not load this page again meanwhile.");
    const back = restored && gettext("The site was put back to an older copy: check-ins of this device are sent again by themselves, and each counts once.");
    for (const words of [barred, off && clockOff(off), back]) {
      if (!words) continue;
      kept.append(element("li", words));
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

  /** @param {string} words */
  function say(words) { by("said").textContent = words; }

  /** @param {HTMLFormElement} form */
  async function checkIn(form) {
    const { boat, day } = numbersOf(form), moment = now(), tapped = `${day} ${boat}`;
    if (Date.now() - (going.get(tapped) ?? -Infinity) < BOUNCE || (!boat && [...going.values()].some((at) => Date.now() - at < BOUNCE))) return;
    going.set(tapped, Date.now());
    const row = document.getElementById(`boat-${boat}`);
    if (!row) { say(boat ? gettext("No boat %(boat)s is on this page: check the number.", { boat }) : gettext("Write the number of the boat that is in.")); return; }
    if (row.matches("tr")) { say(gettext("Boat %(boat)s is in already: open its page to correct the time.", { boat })); return; }
    const held = records.some((record) => (waits(record) || Date.now() - Number(record.answeredAt) < SOON) && record.line.boat === boat && record.line.day === day);
    if (held) { say(gettext("Boat %(boat)s is saved on this device already.", { boat })); return; }
    const id = newId(), checked_in = `${new Date(moment).toISOString().slice(0, 19)}Z`;
    /** @type {CheckInRecord} */
    const record = { id, state: "waiting", keptAt: Date.now(), line: { id, day, boat, checked_in, whereabouts: "in_by_water", official: part.dataset.official } };
    try {
      await store.keep(record);
    } catch {   // no storage: the plain way
      tap(form);
      form.submit();
      return;
    }
    say(gettext("Boat %(boat)s is in at %(time)s.", { boat, time: clock(moment, true) }));
    if (form === by("in") && !form.closest("#roll")) linesOf(form)("boat").value = "";
    await show();
    sender.go();
  }

  const sender = makeSender({
    store, papers: part.dataset.papers || "", to: part.dataset.api || "", key: "checkins", item: "line", notNamed: gettext("The site did not name the check-ins it was sent."),
    send: (address, options) => fetch(address, { cache: "no-store", credentials: "same-origin", ...options, headers: { ...options.headers, "X-CSRFToken": /** @type {HTMLInputElement} */ (document.querySelector("[name=csrfmiddlewaretoken]")).value } }),
    changed: show,
  });
  document.addEventListener("htmx:afterSwap", marks);
  show();
  sender.start();
  part.dataset.ready = "";
  return checkIn;
}

/** @type {((form: HTMLFormElement) => void) | null} */
let checkIn = null;
document.addEventListener("submit", (event) => {
  const form = /** @type {HTMLFormElement} */ (event.target);
  if (!form.matches("[data-roll-in]")) return;
  if (!checkIn) { tap(form); return; }
  event.preventDefault();
  checkIn(form);
});

if (part && by("in")) {
  keepPage(part.dataset.worker || "");
  openStore(part.dataset.event || "", "checkins").then((store) => { checkIn = start(/** @type {Store<CheckInRecord>} */ (store)); });
}
