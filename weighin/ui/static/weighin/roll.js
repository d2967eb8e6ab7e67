/* The roll: counts down to the due times, and keeps each "In now" on this device, with its second, until the site has it.
   Without this script, or without storage, the buttons post to the site and the page asks again by itself.
   Times are the site's: how far this device's clock is off is measured when the page comes. */
(function () {
  "use strict";
  const part = document.getElementById("roll");
  if (!part) return;
  const SECOND = 1000, MINUTE = 60000;
  const by = (name) => document.querySelector(`[data-roll-${name}]`);
  const zone = by("cut-off").dataset.zone;

  function measured() {
    const came = performance.getEntriesByType("navigation")[0];
    const ofWorker = "serviceWorker" in navigator && navigator.serviceWorker.controller;
    // A copy from this device says nothing of now
    if (!came || part.dataset.kept !== undefined || (!came.transferSize && !ofWorker)) return 0;
    return Date.parse(part.dataset.now) - (performance.timeOrigin + came.responseStart);
  }
  const ahead = measured();
  const now = () => Date.now() + ahead;
  const clock = (moment, seconds) => new Date(moment).toLocaleTimeString("en-GB", {
    hour: "2-digit", minute: "2-digit", second: seconds ? "2-digit" : undefined, timeZone: zone,
  });

  function left(due) {
    const seconds = Math.round((due - now()) / SECOND);
    if (seconds > 0 && seconds < 120) return `in ${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
    const minutes = seconds > 0 ? Math.ceil(seconds / 60) : Math.floor(-seconds / 60);
    if (seconds <= 0 && !minutes) return "just now";
    if (minutes >= 48 * 60) return null;
    const size = minutes >= 120 ? `${Math.floor(minutes / 60)} h ${minutes % 60} min` : minutes === 1 ? "1 minute" : `${minutes} minutes`;
    return seconds > 0 ? `in ${size}` : `${size} ago`;
  }

  function count() {
    for (const line of part.querySelectorAll("[data-due]")) {
      const words = left(Date.parse(line.dataset.due));
      if (words && line.textContent !== words) line.textContent = words;
    }
  }
  count();
  setInterval(count, SECOND);

  /* The headline and the margin stand outside the part that comes again: they say what it brings along. */
  function headline() {
    const told = part.querySelector("[data-roll-now]");
    if (!told) return;
    by("out").textContent = told.dataset.out;
    by("of").textContent = told.dataset.of;
    if (by("headline").textContent.trim() !== told.content.textContent.trim()) by("headline").replaceChildren(told.content.cloneNode(true));
    for (const form of document.querySelectorAll("form[data-roll-in]")) if (!form.closest("#roll")) form.hidden = told.dataset.out === "0";
  }
  document.addEventListener("htmx:afterSwap", () => { count(); headline(); });

  /* A form that goes the plain way still says when it was pressed. */
  const tap = (form) => { form.elements.pressed.value = new Date(now()).toISOString(); };

  if (!window.weighinSlips || !window.weighinSender || !by("in")) {
    document.addEventListener("submit", (event) => { if (event.target.matches("[data-roll-in]")) tap(event.target); });
    return;
  }

  let store = null, sender = null, records = [];
  const kept = by("kept");
  const token = () => document.querySelector("[name=csrfmiddlewaretoken]").value;
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
    const id = weighinSlips.newId(), checked_in = `${new Date(moment).toISOString().slice(0, 19)}Z`;
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
    if (!event.target.matches("[data-roll-in]") || !sender) return;
    event.preventDefault();
    checkIn(event.target);
  });
  document.addEventListener("htmx:afterSwap", marks);

  if ("serviceWorker" in navigator) {
    const controlled = () => { if (navigator.serviceWorker.controller) document.documentElement.dataset.alone = "yes"; };
    navigator.serviceWorker.addEventListener("controllerchange", controlled);
    navigator.serviceWorker.register(part.dataset.worker).then(controlled).catch(() => {});
  }
  weighinSlips.open(part.dataset.event, "checkins").then((found) => {
    store = found;
    sender = weighinSender({
      store, papers: part.dataset.papers, to: part.dataset.api, key: "checkins", item: "line",
      headers: () => ({ "X-CSRFToken": token() }), changed: show,
    });
    show();
    sender.start();
    part.dataset.ready = "";
  });
})();
