/* The page at the scale table: one slip at a time, scored as it is typed, kept on the tablet, sent by itself. */
(async function (root) {
  "use strict";
  const body = document.body, page = document.documentElement;
  const form = document.getElementById("slip");
  const at = (id) => document.getElementById(id);
  const line = (name) => form.elements.namedItem(name);
  const words = root.weighinWords, scoring = root.weighinScoring, knownWays = root.weighinKnown, element = words.element;
  const { remembered, remember } = root.weighinPairing;
  const slug = body.dataset.event, OFFICIAL = "weighin-table.official";

  let held = null, papers = null, book = null, slips = [], confirmed = "", mending = null, correcting = null, reading = null;
  const open = new Set();
  const largestLines = () => (at("largest").hidden ? [] : [...at("largest-lines").querySelectorAll("input")]);
  const typed = root.weighinTyped(form, { papers: () => papers, zone: () => zone(), unit: () => unit(), entryOf: (boat) => entryOf(boat), largest: largestLines });
  const said = root.weighinFaults(at("page"));
  const readings = root.weighinReadings(form, at("scale-says"), { unit: () => unit() });
  const pairing = root.weighinPairing(slug, body.dataset.way);
  const store = await root.weighinSlips.open(slug);
  const channel = "BroadcastChannel" in root ? new BroadcastChannel("weighin-table") : null;

  /* ---- the event ---- */

  const zone = () => (papers ? papers.event.time_zone : undefined);
  const unit = () => (papers ? papers.event.weight_unit : "lb");
  const today = () => new Date().toLocaleDateString("en-CA", { timeZone: zone() });
  const siteNow = () => Date.now() - (held ? held.at - Date.parse(papers.server_time) : 0);
  const entryOf = (boat) => papers && papers.roster.find((entry) => entry.boat === boat);
  const team = (boat) => (entryOf(boat) || { team: "not on the list" }).team;
  const standing = () => knownWays.current(slips, held);

  function takePapers(found) {
    papers = found.document;
    held = found;
    book = scoring.rules(papers.rules, unit());
    at("event-name").textContent = papers.event.name;
    for (const one of document.querySelectorAll("[data-unit]")) one.textContent = unit();
    line("tare").placeholder = scoring.show(book.bagTare, unit());
    const days = papers.days.filter((day) => day.status !== "cancelled"), chosen = line("day").value;
    line("day").replaceChildren(...days.map((day) => new Option(`${day.day}`, day.day)));
    at("day-choice").hidden = days.length < 2;
    const now = days.find((day) => day.date === today()) || [...days].reverse().find((day) => day.date < today()) || days[0];
    if (chosen && days.some((day) => String(day.day) === chosen)) line("day").value = chosen;
    else if (now) line("day").value = now.day;
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
    const beside = others(slip).map((one) => Object.assign({}, one.slip, { slip: one.number }));
    return root.weighinDoubts(slip, { book, papers, others: beside, entry: entryOf(slip.boat) });
  }

  /* ---- what the page says while one writes ---- */

  function work() {
    const slip = writing();
    at("fish").textContent = slip.fish;
    at("dead-test").hidden = !slip.dead;
    at("big-alive").hidden = !(slip.big_fish && slip.dead > 0 && slip.alive > 0);
    showTeam(slip);
    if (!book) { at("sum").replaceChildren(element("p", "The rules of this event are not on this tablet yet.", { class: "says quiet" })); return; }
    at("on-scale").textContent = slip.alive === null ? "" : words.goes(book, Object.assign({}, slip, { short: slip.short || 0, dead: slip.dead || 0 }));
    root.weighinSum.askLargest(book, slip, pad.show);
    root.weighinSum.show(scored(slip), slip, { book, lateness: typed.lateness(slip) });
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
    const day = Number(line("day").value), weighed = new Set(standing().filter((one) => one.slip.day === day).map((one) => one.slip.boat));
    root.weighinCalled.show(at("called"), root.weighinCalled.coming(papers, day, weighed, siteNow()), Number(line("boat").value), (boat) => {
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
    said.clear();
    const slip = writing(), score = book ? scored(slip) : null;
    const faults = said.of(slip, score, { papers, unit: unit(), said: typed.said, correcting: correcting || (mending && mending.slip.replaces) });
    if (faults.length) {
      faults.map(([field, sentence]) => said.say(field, sentence, "fault"))[0].focus();
      return;
    }
    const doubts = doubtsOf(slip, score), signature = JSON.stringify(slip);
    if (doubts.length && confirmed !== signature) {
      confirmed = signature;
      for (const one of doubts) said.say(one.field, one.words, "doubt");
      at("has-slip").hidden = true;
      at("keep").textContent = `Keep ${doubts[doubts.length - 1].label} all the same`;
      at("keep").classList.add("outlined");
      at("keep").focus();
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
    const id = root.weighinSlips.newId(), score = slip.void ? null : scored(slip);
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
    const official = line("official").value, day = line("day").value;
    form.reset();
    line("official").value = official;
    line("day").value = day;
    confirmed = "";
    mending = correcting = null;
    at("correcting").hidden = true;
    at("reads").textContent = "";
    readings.clear();
    said.clear();
    at("more").open = false;
    work();
    line("boat").focus();
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
    const { slip, swap } = record, [mark, where, todo] = words.state(record, sender.link.going.has(record.id));
    const told = slip.void ? `Taken out: ${slip.reason}.` : `${slip.fish} fish: ${slip.alive} alive, ${slip.dead} dead, ${slip.short || 0} short${slip.gross ? `, ${slip.gross} on the scale` : ""}${slip.big_fish ? `, big fish ${slip.big_fish}` : ""}.`;
    const fresh = [
      element("p", ["refused", "differs"].includes(record.state) ? "Kept on this tablet only" : "Kept. Read it back", { class: "label" }),
      element("p", swap ? `Boats ${swap.join(" and ")} are swapped` : `Boat ${slip.boat}, ${record.team}`, { class: "name" }), element("p", swap ? `Boat ${slip.boat}: ${told}` : told),
      element("p", slip.void ? "" : `Total ${record.total} ${unit()}`, { class: "figure mid" }), element("p", where, { class: `small state is-${mark}` }), element("p", record.state === "waiting" ? "" : todo, { class: "small strong" }),
    ];
    if (panel.textContent !== fresh.map((one) => one.textContent).join("")) panel.replaceChildren(...fresh);
    at("kept-now").textContent = `${swap ? `Boats ${swap.join(" and ")} swapped` : `Boat ${slip.boat}${record.total ? `, total ${record.total} ${unit()}` : ", taken out"}`}: ${where}.`;
  }

  const copy = (records) => root.weighinCopies(at("copies"), records, { address: body.dataset.codes, zone: zone(), unit: unit() });
  const unsent = () => slips.filter((one) => one.state !== "kept" && one.state !== "already" && one.state !== "second" && !one.asideAt);

  function showSlips() {
    const after = knownWays.replacing(slips), now = standing(), of = (record) => now.find((one) => one.record === record);
    const [mark, where] = root.weighinWhere(slips, after), head = at("where-kept");
    head.className = `state is-${mark}`;
    if (head.textContent !== where) head.textContent = where;
    at("give-up").hidden = !unsent().length;
    const ids = new Set(now.filter((one) => one.record).map((one) => one.record.id));
    const state = JSON.stringify([slips, [...ids], [...sender.link.going], zone()]);
    if (state === showSlips.state) return;
    showSlips.state = state;
    root.weighinSlipList(at("slips"), slips, {
      zone: zone(), unit: unit(), going: sender.link.going, open, after, standing: ids,
      acts: {
        mend, again: (record) => put(record, { state: "waiting", faults: [] }), aside: (record) => put(record, { asideAt: Date.now() }), copy: (record) => copy([record]),
        correct: (record) => correct(of(record)), takeOut: (record) => change("takeOut", of(record)), swap: (record) => change("swap", of(record)),
      },
    });
  }

  async function redraw() {
    const found = await store.papers();
    slips = await store.all();
    if (found && (!papers || found.changed !== redraw.taken)) { redraw.taken = found.changed; takePapers(found); }
    await sendAgain();
    showSlips();
    tick();
    readBack();
    root.weighinNotices.show({ link: sender.link, papers, missing: pairing.missing(), way: body.dataset.way, signIn: body.dataset.signIn, today: today() });
    root.weighinNotices.showLink(sender.link, zone());
    showTeam(writing());
  }

  function tick() {
    at("clock").textContent = words.clock(Date.now(), zone());
    showCalled();
  }

  /* ---- hands ---- */

  function next(from) {
    const order = [...form.elements].filter((one) => one.matches("input, select, #keep")).filter((one) => one.offsetParent !== null && !one.closest("details:not([open])") && (one.type !== "radio" || one.checked || one.value === "yes"));
    const after = order[order.indexOf(from) + 1];
    if (!after || after.id === "keep") { form.requestSubmit(); return; }
    after.focus();
    if (after.select) after.select();
  }

  form.addEventListener("submit", keep);
  at("page").addEventListener("input", (event) => {
    if (event.target.form !== form) return;
    if (event.target.name === "official") remember(OFFICIAL, event.target.value.trim());
    if (event.target.name === "boat" || event.target.name === "day") typed.fillCheckin(correcting && correcting.slip);
    confirmed = "";
    said.clear();
    work();
    readBack();
  });
  form.addEventListener("change", readEntry);
  at("page").addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || event.target.form !== form || !event.target.matches("input, select")) return;
    event.preventDefault();
    next(event.target);
  });
  form.addEventListener("focusin", (event) => { if (event.target.matches("input[inputmode]")) event.target.select(); });
  form.addEventListener("click", (event) => {
    const step = event.target.closest("[data-step]");
    if (!step) return;
    const one = line(step.dataset.of);
    one.value = Math.max(0, (typed.count(step.dataset.of) || 0) + Number(step.dataset.step));
    one.dispatchEvent(new Event("input", { bubbles: true }));
    readEntry();
  });
  at("over").addEventListener("click", again);
  at("give-up").addEventListener("click", () => copy(unsent()));
  at("copies-shut").addEventListener("click", () => { at("copies").hidden = true; });
  at("copies-print").addEventListener("click", () => {
    page.classList.add("prints-copies");
    root.addEventListener("afterprint", () => page.classList.remove("prints-copies"), { once: true });
    root.print();
  });

  /* ---- begin ---- */

  root.addEventListener("hashchange", () => { pairing.take(); sender.go(); });
  if (!line("official").value) line("official").value = remembered(OFFICIAL);
  const pad = root.weighinPad(at("pad"), at("pad-switch"), form, next);
  const changes = root.weighinChanges(at("change"), {
    known: standing, record: recordOf, keep: keepRecords, scored, team, unit, who: () => line("official").value,
    shut: () => { form.hidden = false; line("boat").focus(); },
  });
  const sender = root.weighinSender({ store, papers: body.dataset.papers, to: body.dataset.slips, key: "slips", item: "slip", headers: pairing.headers, changed: redraw });
  if (channel) channel.onmessage = () => redraw();
  setInterval(tick, 5000);
  await redraw();
  work();
  line("boat").focus();
  sender.start();
  root.weighinCopies.ahead(body.dataset.codes);
  page.dataset.ready = "yes";
  if ("serviceWorker" in navigator) {
    const controlled = () => { if (navigator.serviceWorker.controller) page.dataset.alone = "yes"; redraw(); };   // it opens without the network
    navigator.serviceWorker.addEventListener("controllerchange", controlled);
    navigator.serviceWorker.register("worker.js").then(controlled).catch(() => {});
  }
  if (navigator.storage && navigator.storage.persist) navigator.storage.persist().catch(() => {});
})(globalThis);
