/* The scale at the table: its line read here through Web Serial where the browser has it (a page on localhost), or what
   ``read_scale`` last told the site. Nothing is written by itself: the button, or the key R in a weight's line, tells the
   page the reading of this moment as "weighin:reading". Readings that went into a slip are sent to the site by their own id.
   Loaded by table-readings.js, only where the event has a scale that speaks. */
import * as lines from "./lines.js";
import { remember, remembered } from "../device/pairing.js";
import { newId } from "../device/store.js";

const FRESH = 5000, SILENT = 3000, ASKED_EVERY = 500, SENT_EVERY = 15000, MOST = 50;
const WORDS = {
  motion: "moving", overload: "overloaded or out of its range", underload: "below its range", refused: "it cannot say its weight now",
  unzeroed: "not zeroed since it was switched on", silent: "nothing comes from it",
};

export function scalePort({ slug, scales, addresses, headers, says, form }) {
  const CHOSEN = `weighin-scale.${slug}`, WAITING = `weighin-readings.${slug}`;
  const speaking = scales.filter((scale) => scale.in_use && scale.layout);
  let port = null, reader = null, now = null, heardAt = 0, lastLine = null;

  const make = (name, said, values) => Object.assign(document.createElement(name), { textContent: said }, values);
  const box = make("div", "", { className: "from-scale no-print", id: "scale-port" });
  const take = make("button", "Take the scale’s reading", { type: "button", className: "button low outlined", id: "take-reading", title: "Key R in a weight’s line" });
  const connect = make("button", "Connect the scale", { type: "button", className: "button plain", id: "connect-scale" });
  const live = make("output", "", { className: "small", id: "scale-now" });
  const choice = make("select", "", { id: "which-scale", ariaLabel: "Which scale" });
  choice.replaceChildren(...speaking.map((scale) => new Option(`Scale ${scale.name}`, scale.name)));
  if (speaking.some((scale) => scale.name === remembered(CHOSEN))) choice.value = remembered(CHOSEN);
  choice.hidden = speaking.length < 2;
  connect.hidden = !("serial" in navigator);
  box.append(take, choice, connect, live);
  says.closest(".field").before(box);
  const chosen = () => speaking.find((scale) => scale.name === choice.value) || speaking[0];
  const weight = (line) => Boolean(line && line.form === form && /^(gross|tare|big_fish|largest_\d+)$/.test(line.name));

  /* ---- the line of the scale ---- */

  async function open() {
    const scale = chosen(), { baud, data_bits, parity, stop_bits } = scale.port;
    port = await navigator.serial.requestPort();
    await port.open({ baudRate: baud, dataBits: data_bits, stopBits: stop_bits, parity: { N: "none", E: "even", O: "odd" }[parity] });
    connect.textContent = "Let the scale go";
    listen(scale).catch((fault) => { live.textContent = `The scale was lost: ${fault.message}. Look at its cable and connect it again.`; }).finally(shut);
  }

  async function listen(scale) {
    const hear = lines.listener(scale.layout, scale.port.once);
    now = null;
    const asking = scale.port.ask ? setInterval(() => ask(scale.port.ask).catch(() => {}), ASKED_EVERY) : 0;
    try {
      while (port && port.readable) {
        reader = port.readable.getReader();
        try {
          for (let part = await reader.read(); !part.done; part = await reader.read()) {
            for (const reading of hear(String.fromCharCode(...part.value))) {
              now = reading;
              heardAt = Date.now();
              live.textContent = now.stable ? `${now.text} ${now.unit}, at rest` : `${now.text} ${WORDS[now.state]}`;
            }
          }
          return;
        } finally { reader.releaseLock(); }
      }
    } finally { clearInterval(asking); }
  }

  async function ask(command) {
    const writer = port.writable.getWriter();
    try { await writer.write(new TextEncoder().encode(`${command}\r\n`)); } finally { writer.releaseLock(); }
  }

  async function shut() {
    const open = port;
    port = reader = now = null;
    connect.textContent = "Connect the scale";
    if (open) await open.close().catch(() => {});
  }

  connect.addEventListener("click", () => {
    if (port) { live.textContent = ""; if (reader) reader.cancel().catch(() => {}); else shut(); return; }
    open().catch((refused) => {
      port = null;
      live.textContent = refused.name === "NotFoundError" ? "No scale was chosen." : `The scale cannot be opened: ${refused.message} Look whether another program has it.`;
    });
  });

  /* ---- what it reads at this moment ---- */

  async function reading() {
    const scale = chosen();
    if (port) {
      const fresh = now && Date.now() - heardAt < (scale.port.once ? FRESH * 12 : SILENT);
      return fresh ? now : { why: `Nothing comes from scale ${scale.name}: look at its cable and how its line is set.` };
    }
    const asked = Date.now();
    let told;
    try {
      const answer = await fetch(addresses.scales, { headers: headers(), cache: "no-store", credentials: "same-origin", signal: AbortSignal.timeout(FRESH) });
      told = answer.ok ? (await answer.json()).scales.find((one) => one.name === scale.name) : null;
    } catch (lost) { return { why: "No link to the site, which has the scale’s reading: type the weight." }; }
    if (!told || !told.now) return { why: `Nothing was heard of scale ${scale.name} yet: start read_scale where its cable is, or type the weight.` };
    const age = told.now.age_seconds * 1000 + Date.now() - asked;
    if (age > FRESH || told.now.state === "silent") return { why: `Scale ${scale.name} has said nothing for ${Math.round(age / 1000)} s: type the weight.` };
    return Object.assign({ stable: told.now.state === "stable" }, told.now, { why: told.now.state === "stable" ? "" : told.now.why });
  }

  async function tell() {
    const line = weight(document.activeElement) ? document.activeElement : weight(lastLine) && lastLine.offsetParent ? lastLine : form.elements.namedItem("gross");
    line.focus();
    const found = await reading();
    if (document.activeElement !== line) return;    // the hand went on
    if (found.why || (!found.stable && found.state !== "motion")) {
      says.textContent = found.why || `Scale ${chosen().name}: ${WORDS[found.state]}.`;
      return;
    }
    const { text, unit, raw, stable } = found;
    if (stable && text.startsWith("-")) { says.textContent = "The scale reads below zero: zero it with nothing on it."; return; }
    document.dispatchEvent(new CustomEvent("weighin:reading", { detail: { text, unit, raw, stable } }));
  }

  take.addEventListener("click", tell);
  choice.addEventListener("change", () => { remember(CHOSEN, choice.value); if (port && reader) reader.cancel().catch(() => {}); });
  form.addEventListener("focusin", (event) => { if (weight(event.target)) lastLine = event.target; });
  form.addEventListener("keydown", (event) => {
    if (!weight(event.target) || event.key.toLowerCase() !== "r" || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    tell();
  });

  /* ---- readings that went into slips ---- */

  const waiting = () => { try { return JSON.parse(remembered(WAITING) || "[]"); } catch (odd) { return []; } };

  document.addEventListener("weighin:kept", (event) => {
    const { id, readings } = event.detail;
    const made = readings.map((one) => ({ id: newId(), slip: id, field: one.field, text: one.text, unit: one.unit, raw: one.raw, scale: chosen().name, taken: one.at }));
    remember(WAITING, JSON.stringify([...waiting(), ...made]));
    send();
  });

  /* A reading that the site refuses is let go: its line stands in the slip's note all the same. */
  async function send() {
    const some = waiting().slice(0, MOST);
    if (!some.length) return;
    try {
      const answer = await fetch(addresses.readings, {
        method: "POST", cache: "no-store", credentials: "same-origin", headers: Object.assign({ "Content-Type": "application/json" }, headers()),
        body: JSON.stringify({ readings: some, sent: new Date().toISOString() }),
      });
      if (!answer.ok) return;
      const done = new Set((await answer.json()).readings.map((one) => one.id));
      remember(WAITING, JSON.stringify(waiting().filter((one) => !done.has(one.id))));
      if (waiting().length && done.size) send();
    } catch (lost) { /* they wait for the link */ }
  }

  setInterval(() => { if (port && now && !chosen().port.once && Date.now() - heardAt > SILENT) { now = null; live.textContent = WORDS.silent; } }, 1000);
  setInterval(send, SENT_EVERY);
  send();
}
