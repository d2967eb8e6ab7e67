/* The page at the scale table: one slip at a time, scored as it is typed, kept on the tablet, sent by itself. */
(async function (root) {
  "use strict";
  const body = document.body, page = document.documentElement;
  const form = document.getElementById("slip");
  const at = (id) => document.getElementById(id);
  const line = (name) => form.elements.namedItem(name);
  const words = root.weighinWords, scoring = root.weighinScoring;
  const slug = body.dataset.event;
  const KEYS = { token: `weighin-table.token.${slug}`, official: "weighin-table.official" };
  const WAITS = { largest_weights: "the largest fish", big_fish_alive: "whether the big fish was alive" };
  const MOST_LARGEST = 12;
  const kept = (key) => { try { return localStorage.getItem(key) || ""; } catch (refused) { return ""; } };
  const keepKey = (key, value) => { try { localStorage.setItem(key, value); } catch (refused) { /* lasts for this page */ } };

  let token = "", papers = null, book = null, slips = [], confirmed = "", mending = null, reading = null;
  const open = new Set();
  const largestLines = () => (at("largest").hidden ? [] : [...at("largest-lines").querySelectorAll("input")]);
  const typed = root.weighinTyped(form, { papers: () => papers, zone: () => zone(), unit: () => unit(), entryOf: (boat) => entryOf(boat), largest: largestLines });
  const readings = root.weighinReadings(form, at("scale-says"), { unit: () => unit() });
  const store = await root.weighinSlips.open(slug);
  const channel = "BroadcastChannel" in root ? new BroadcastChannel("weighin-table") : null;

  /* ---- who sends ---- */

  function takeToken() {
    const given = decodeURIComponent(root.location.hash.slice(1));
    if (/^[\w-]{20,100}$/.test(given)) {
      keepKey(KEYS.token, given);
      token = given;
      root.history.replaceState(null, "", root.location.pathname);    // not left on the screen for a camera
    }
    token = token || kept(KEYS.token);
  }

  function headers() {
    if (body.dataset.way === "token") return token ? { Authorization: `Bearer ${token}` } : {};
    const cookie = /(?:^|;\s*)csrftoken=([^;]+)/.exec(document.cookie);
    return cookie ? { "X-CSRFToken": cookie[1] } : {};
  }

  /* ---- the event ---- */

  const zone = () => (papers ? papers.event.time_zone : undefined);
  const unit = () => (papers ? papers.event.weight_unit : "lb");
  const today = () => new Date().toLocaleDateString("en-CA", { timeZone: zone() });
  const entryOf = (boat) => papers && papers.roster.find((entry) => entry.boat === boat);

  function takePapers(found) {
    papers = found;
    book = scoring.rules(papers.rules, unit());
    at("event-name").textContent = papers.event.name;
    for (const one of document.querySelectorAll("[data-unit]")) one.textContent = unit() === "lb-oz" ? "lb-oz" : unit();
    line("tare").placeholder = scoring.show(book.bagTare, unit());
    const days = papers.days.filter((day) => day.status !== "cancelled"), chosen = line("day").value;
    line("day").replaceChildren(...days.map((day) => new Option(`${day.day}`, day.day)));
    at("day-choice").hidden = days.length < 2;
    const now = days.find((day) => day.date === today()) || [...days].reverse().find((day) => day.date < today()) || days[0];
    if (chosen && days.some((day) => String(day.day) === chosen)) line("day").value = chosen;
    else if (now) line("day").value = now.day;
    pad.draw(unit() === "lb-oz");
    if (!line("checked_in").value) typed.fillCheckin();
    work();
    page.dataset.papers = "yes";
  }

  function scored(slip) {
    if (slip.alive === null || slip.dead === null || slip.short === null) return null;
    return scoring.score(book, Object.assign({}, slip, { late_ms: typed.lateMs(slip) }));
  }

  function others(slip) {
    const here = slips.filter((one) => !one.asideAt && !["refused", "differs"].includes(one.state) && one !== mending).map((one) => one.slip);
    const there = papers.slips.filter((one) => !one.void && !here.some((mine) => mine.id === one.id));
    return [...there, ...here].filter((one) => one.boat === slip.boat && one.day === slip.day);
  }

  const doubtsOf = (slip, score) => (score && !score.faults ? root.weighinDoubts(slip, { book, papers, others: others(slip), entry: entryOf(slip.boat) }) : []);

  /* ---- what the page says while one writes ---- */

  function work() {
    const slip = typed.slip();
    at("fish").textContent = slip.fish;
    at("dead-test").hidden = !slip.dead;
    at("big-alive").hidden = !(slip.big_fish && slip.dead > 0 && slip.alive > 0);
    showTeam(slip);
    if (!book) { at("sum").replaceChildren(text("p", "The rules of this event are not on this tablet yet.", "says quiet")); return; }
    at("on-scale").textContent = slip.alive === null ? "" : words.goes(book, Object.assign({}, slip, { short: slip.short || 0, dead: slip.dead || 0 }));
    askLargest(slip);
    showSum(slip);
    const boat = slip.boat === null ? "the slip" : `boat ${slip.boat}’s slip`;
    if (confirmed) return;
    at("keep").textContent = mending ? `Keep ${boat} again` : `Keep ${boat}`;
    at("keep").classList.remove("outlined");
  }

  const signature = (slip) => JSON.stringify(slip);

  function showTeam(slip) {
    const entry = entryOf(slip.boat), checkin = typed.checkinOf(slip.boat, slip.day);
    const parts = [];
    if (entry && entry.flight) parts.push(`flight ${entry.flight}`);
    if (checkin && checkin.checked_in) parts.push(`checked in ${words.clock(checkin.checked_in, zone())}`);
    else if (checkin && checkin.minutes_late != null) parts.push(`${words.counted(checkin.minutes_late, "minute")} late`);
    else if (entry) parts.push("no check-in yet");
    at("team").textContent = entry ? entry.team : slip.boat === null || !papers ? "" : `No boat ${slip.boat} on the list`;
    at("team-note").textContent = entry ? [...entry.anglers, ...parts].join(", ") : "";
  }

  function askLargest(slip) {
    const ready = slip.alive !== null && slip.dead !== null && slip.short !== null;
    const taken = ready ? scoring.removed(book, slip).reduce((a, b) => a + b, 0) : 0;
    const scale = ready ? scoring.onScale(book, slip) : 0;
    const asked = taken < scale ? Math.min(taken, MOST_LARGEST) : 0;
    at("largest").hidden = !asked;
    at("largest-says").textContent = asked ? `The rules take the ${asked === 1 ? "largest fish" : `${asked} largest fish`}: weigh ${asked === 1 ? "it" : "each"} alone, heaviest first` : "";
    const lines = at("largest-lines");
    while (lines.children.length > asked) lines.lastElementChild.remove();
    while (lines.children.length < asked) {
      const made = document.createElement("input"), number = lines.children.length + 1;
      Object.assign(made, { name: `largest_${number}`, inputMode: "decimal", maxLength: 9 });
      made.dataset.fault = "largest_weights";
      made.setAttribute("aria-label", `Largest fish ${number}`);
      lines.append(made);
      pad.show();
    }
  }

  function text(name, said, className) {
    const made = document.createElement(name);
    made.textContent = said;
    if (className) made.className = className;
    return made;
  }

  function showSum(slip) {
    const score = scored(slip), sum = at("sum");
    at("total-now").textContent = score && !score.faults ? `Total ${words.shown(score.total, unit())} ${unit()}` : "";
    if (!score || score.faults) {
      const wait = !score || slip.alive === null ? "the counts" : score.faults.some((one) => one.message === "no weight yet") ? "the weight" : WAITS[score.faults[0].field] || "figures that can be right";
      sum.replaceChildren(text("p", `The total waits for ${wait}.`, "says quiet"));
      return;
    }
    const list = document.createElement("dl");
    list.className = "lines";
    for (const [label, figures, nothing] of words.lines(score, slip, book, typed.lateness(slip))) {
      const row = document.createElement("div");
      row.append(text("dt", label), text("dd", figures));
      if (nothing) row.className = "nothing";
      list.append(row);
    }
    const total = document.createElement("p");
    total.className = "total";
    const figure = text("span", words.shown(score.total, unit()), "figure big");
    figure.append(text("small", unit()));
    total.append(text("span", "Total"), figure);
    sum.replaceChildren(list, total);
    if (slip.big_fish) sum.append(text("p", score.bigFish === null ? "The big fish does not count." : `Big fish ${words.shown(score.bigFish, unit())} ${unit()} counts.`, "small"));
  }

  /* ---- keep ---- */

  function clearSaid() {
    for (const said of document.querySelectorAll(".at-scales :is(.fault, .doubt)")) said.remove();
    for (const one of document.querySelectorAll(".at-scales [aria-invalid]")) one.removeAttribute("aria-invalid");
  }

  function sayAt(field, said, kind) {
    const one = document.querySelector(`[data-fault="${field}"]`) || line("gross");
    const near = one.closest(".field, .count");
    const more = one.closest("details");
    if (more) more.open = true;
    const note = text("p", said, kind);
    note.setAttribute("role", "alert");
    (near.classList.contains("count") ? near.parentElement : near).append(note);
    if (kind === "fault") one.setAttribute("aria-invalid", "true");
    return one;
  }

  function faultsOf(slip, score) {
    const found = [];
    if (!papers) found.push(["boat", "This tablet has not had the event yet. It needs the link once; until then write slips on paper."]);
    if (slip.boat === null) found.push(["boat", "Write the boat number."]);
    for (const [name, sentence] of [["alive", "Count the live fish."], ["dead", "Count the dead fish, or write 0."], ["short", "Count the short fish, or write 0."]]) if (slip[name] === null) found.push([name, sentence]);
    if (!slip.official) found.push(["official", "Write who reads the scale."]);
    if (papers && !slip.day) found.push(["boat", "Every day of this event is cancelled: there is nothing to weigh."]);
    if (typed.said("checked_in") && !slip.checked_in) found.push(["checked_in", "Write the time as 14:21 or 14:21:30."]);
    if (typed.said("excused_minutes") && slip.excused_minutes === null) found.push(["excused_minutes", "Write minutes in figures, such as 4.5."]);
    if (score && score.faults) for (const one of score.faults) found.push([one.field, words.fault(one, unit())]);
    return found;
  }

  async function keep(event) {
    event.preventDefault();
    clearSaid();
    const slip = typed.slip(), score = book ? scored(slip) : null;
    const faults = faultsOf(slip, score);
    if (faults.length) {
      const first = faults.map(([field, sentence]) => sayAt(field, sentence, "fault"))[0];
      first.focus();
      return;
    }
    const doubts = doubtsOf(slip, score);
    if (doubts.length && confirmed !== signature(slip)) {
      confirmed = signature(slip);
      for (const one of doubts) sayAt(one.field, one.words, "doubt");
      at("keep").textContent = `Keep ${doubts[doubts.length - 1].label} all the same`;
      at("keep").classList.add("outlined");
      at("keep").focus();
      return;
    }
    await write(slip, score, doubts);
  }

  function noteOf(slip, doubts, held) {
    const initials = slip.dead ? typed.said("initials") : null;
    const parts = [slip.note, initials && `Judged dead by ${initials}.`, doubts.length && `Kept all the same: ${doubts.map((one) => one.label).join(", ")}.`, held.length && `${readings.note(held)}.`];
    return parts.filter(Boolean).join(" ").slice(0, 500) || null;
  }

  async function write(slip, score, doubts) {
    const entry = entryOf(slip.boat);
    const id = mending ? mending.id : root.weighinSlips.newId(), held = readings.held();
    const wire = Object.assign({ id }, slip, { weighed: mending ? mending.slip.weighed : new Date().toISOString(), note: noteOf(slip, doubts, held) });
    for (const key of Object.keys(wire)) if (wire[key] === null || (Array.isArray(wire[key]) && !wire[key].length)) delete wire[key];
    const record = {
      id, slip: wire, state: "waiting", keptAt: mending ? mending.keptAt : Date.now(), team: entry ? entry.team : "not on the list",
      total: words.shown(score.total, unit()), eventName: papers.event.name, faults: [],
      note: slip.note || "", initials: typed.said("initials") || "",
    };
    try { await store.keep(record); } catch (refused) {
      sayAt("gross", "This tablet cannot keep the slip: its storage is full or shut. Write it on paper now, and call the director.", "fault");
      return;
    }
    reading = record.id;
    if (held.length) document.dispatchEvent(new CustomEvent("weighin:kept", { detail: { id, readings: held } }));
    again();
    await redraw();
    if (channel) channel.postMessage("kept");
    sender.go();
  }

  /* A new slip, with the hand on the boat. */
  function again() {
    const official = line("official").value, day = line("day").value;
    form.reset();
    line("official").value = official;
    line("day").value = day;
    confirmed = "";
    mending = null;
    readings.clear();
    clearSaid();
    at("more").open = false;
    work();
    line("boat").focus();
  }

  function mend(record) {
    again();
    mending = record;
    const slip = record.slip;
    for (const name of ["boat", "alive", "dead", "short", "gross", "tare", "big_fish", "official", "day", "excused_minutes"]) if (slip[name] !== undefined) line(name).value = slip[name];
    line("note").value = record.note;
    line("initials").value = record.initials;
    if (slip.checked_in) line("checked_in").value = words.clock(slip.checked_in, zone(), true);
    if (slip.big_fish_alive != null) line("big_fish_alive").value = slip.big_fish_alive ? "yes" : "no";
    work();
    largestLines().forEach((one, place) => { one.value = (slip.largest_weights || [])[place] || ""; });
    work();
    line("boat").select();
  }

  async function change(record, values) {
    await store.keep(Object.assign({}, record, values));
    await redraw();
    sender.go();
  }

  /* ---- where everything is ---- */

  function readBack() {
    const record = slips.find((one) => one.id === reading), panel = at("readback");
    panel.hidden = !record || line("boat").value !== "";    // the next boat's sum takes its place
    if (panel.hidden) return;
    const slip = record.slip, [mark, where, todo] = words.state(record, sender.link.going.has(record.id));
    const scale = slip.gross ? `, ${slip.gross} on the scale` : "";
    const fresh = [
      text("p", ["refused", "differs"].includes(record.state) ? "Kept on this tablet only" : "Kept. Read it back", "label"), text("p", `Boat ${slip.boat}, ${record.team}`, "name"),
      text("p", `${slip.fish} fish: ${slip.alive} alive, ${slip.dead} dead, ${slip.short || 0} short${scale}${slip.big_fish ? `, big fish ${slip.big_fish}` : ""}.`),
      text("p", `Total ${record.total} ${unit()}`, "figure mid"), text("p", where, `small state is-${mark}`), text("p", record.state === "waiting" ? "" : todo, "small strong"),
    ];
    if (panel.textContent !== fresh.map((one) => one.textContent).join("")) panel.replaceChildren(...fresh);
  }

  function notices() {
    const link = sender.link, found = [];
    const add = (strong, rest, href, name) => {
      const note = text("p", "", "heed");
      note.append(text("b", strong), ` ${rest} `);
      if (href) { const way = text("a", name); way.href = href; note.append(way); }
      found.push(note);
    };
    if (body.dataset.way === "token" && !token) add("This tablet is not paired.", "Open the address on the director's screen, or read its QR code: it ends in the tablet's token. Slips are kept here meanwhile.");
    else if (link.barred) add("The site takes nothing from this tablet.", `${link.barred} Slips are kept here meanwhile.`, body.dataset.way === "log-in" ? `${body.dataset.signIn}?next=${encodeURIComponent(root.location.pathname)}` : "", "Sign in");
    if (link.clock) add(link.clock, "Slips carry this tablet's time.");
    if (papers && papers.event.closed) add(`${papers.event.name} is closed.`, "A director must open it again before the site takes slips.");
    else if (papers && papers.days.length && !papers.days.some((day) => Math.abs(Date.parse(day.date) - Date.parse(today())) <= 864e5)) add("No day of this event is today.", `This tablet says ${today()}, the event is on ${papers.days.map((day) => day.date).join(", ")}. The site refuses times more than two days off: look at the tablet's clock.`);
    const box = at("notices"), all = found.map((one) => one.textContent).join();
    if (box.textContent !== all.replace(/,(?=$)/, "") || box.children.length !== found.length) box.replaceChildren(...found);
  }

  function showLink() {
    const since = sender.link.since, band = at("band");
    band.hidden = !since;
    if (!since) return;
    const reload = "serviceWorker" in navigator && navigator.serviceWorker.controller ? "" : " Do not load this page again meanwhile: without the link the browser could not show it, though the slips would stay.";
    const strong = `No link since ${words.clock(since, zone())}. Carry on weighing.`;
    const rest = `${sender.link.why ? `${sender.link.why} ` : ""}Slips are kept on this tablet and go up by themselves when the link is back.${reload}`;
    if (at("band-since").textContent !== strong) at("band-since").textContent = strong;
    if (at("band-words").textContent !== rest) at("band-words").textContent = rest;
  }

  async function redraw() {
    const held = await store.papers();
    if (held && (!papers || held.changed !== redraw.taken)) { redraw.taken = held.changed; takePapers(held.document); }
    slips = await store.all();
    const [mark, where] = root.weighinWhere(slips), head = at("where-kept");
    head.className = `state is-${mark}`;
    if (head.textContent !== where) head.textContent = where;
    const state = JSON.stringify([slips, [...sender.link.going], zone()]);
    if (state !== redraw.state) {
      redraw.state = state;
      root.weighinSlipList(at("slips"), slips, {
        zone: zone(), unit: unit(), going: sender.link.going, open,
        acts: { mend, again: (record) => change(record, { state: "waiting", faults: [] }), aside: (record) => change(record, { asideAt: Date.now() }) },
      });
    }
    tick();
    readBack();
    notices();
    showLink();
    const slip = typed.slip();
    showTeam(slip);
  }

  function tick() { at("clock").textContent = words.clock(Date.now(), zone()); }

  /* ---- hands ---- */

  function next(from) {
    const order = [...form.elements].filter((one) => one.matches("input, select, #keep")).filter((one) => one.offsetParent !== null && !one.closest("details:not([open])") && (one.type !== "radio" || one.checked || one.value === "yes"));
    const place = order.indexOf(from);
    const after = order[place + 1];
    if (!after || after.id === "keep") { form.requestSubmit(); return; }
    after.focus();
    if (after.select) after.select();
  }

  form.addEventListener("submit", keep);
  at("page").addEventListener("input", (event) => {
    if (event.target.name === "official") keepKey(KEYS.official, event.target.value.trim());
    if (event.target.name === "boat" || event.target.name === "day") typed.fillCheckin();
    confirmed = "";
    clearSaid();
    work();
    readBack();
  });
  at("page").addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || !event.target.matches("input, select")) return;
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
  });
  at("over").addEventListener("click", again);

  /* ---- begin ---- */

  takeToken();
  root.addEventListener("hashchange", () => { takeToken(); sender.go(); });
  if (!line("official").value) line("official").value = kept(KEYS.official);
  const pad = root.weighinPad(at("pad"), at("pad-switch"), form, next);
  const sender = root.weighinSender({ store, papers: body.dataset.papers, to: body.dataset.slips, key: "slips", item: "slip", headers, changed: redraw });
  if (channel) channel.onmessage = () => redraw();
  setInterval(tick, 5000);
  await redraw();
  work();
  line("boat").focus();
  sender.start();
  page.dataset.ready = "yes";
  if ("serviceWorker" in navigator) {
    const controlled = () => { if (navigator.serviceWorker.controller) page.dataset.alone = "yes"; redraw(); };   // it opens without the network
    navigator.serviceWorker.addEventListener("controllerchange", controlled);
    navigator.serviceWorker.register("worker.js").then(controlled).catch(() => {});
  }
  if (navigator.storage && navigator.storage.persist) navigator.storage.persist().catch(() => {});
})(globalThis);
