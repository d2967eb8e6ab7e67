/* The scale at the table: its line read here through Web Serial where the browser has it (a page on localhost), or what
   ``read_scale`` last told the site. Nothing is written by itself: the button, or the key R in a weight's line, tells the
   page the reading of this moment as "weighin:reading". Imported by readings.js only where the event has a scale that speaks. */
import { remember, remembered } from "../device/pairing.js";
import { element, targetOf } from "../site/elements.js";
import { gettext } from "../site/text.js";
import * as lines from "./lines.js";
import { sendReadings } from "./sent.js";

const FRESH = 5000, SILENT = 3000, ASKED_EVERY = 500;
const SILENCE = gettext("nothing comes from it");
/** @type {Record<string, string>} */
const STATES = {
  motion: gettext("moving"), overload: gettext("overloaded or out of its range"), underload: gettext("below its range"), refused: gettext("it cannot say its weight now"),
  unzeroed: gettext("not zeroed since it was switched on"), silent: SILENCE,
};
/** @type {Record<string, ParityType>} */
const PARITIES = { N: "none", E: "even", O: "odd" };

/** @typedef {Heard | {why: string}} Found a reading, or why there is none */

/**
 * @param {{slug: string, scales: Scale[], addresses: {scales: string, readings: string}, site: (address: string, options?: RequestInit & {body?: string}) => Promise<Response>, says: HTMLElement, form: HTMLFormElement}} about
 */
export function scalePort({ slug, scales, addresses, site, says, form }) {
  const CHOSEN = `weighin-scale.${slug}`;
  const speaking = scales.filter((scale) => scale.in_use && scale.layout);
  /** @type {SerialPort | null} */
  let port = null;
  /** @type {ReadableStreamDefaultReader<Uint8Array> | null} */
  let reader = null;
  /** @type {Heard | null} */
  let now = null;
  /** @type {HTMLInputElement | null} */
  let lastLine = null;
  let heardAt = 0;

  const box = element("div", "", { class: "from-scale no-print", id: "scale-port" });
  const take = element("button", gettext("Use the scale reading"), { type: "button", class: "button low outlined", id: "take-reading", title: gettext("Key R in a weight field") });
  const connect = element("button", gettext("Connect the scale"), { type: "button", class: "button plain", id: "connect-scale" });
  const live = element("output", "", { class: "small", id: "scale-now" });
  const choice = element("select", "", { id: "which-scale", "aria-label": gettext("Which scale") });
  choice.replaceChildren(...speaking.map((scale) => new Option(gettext("Scale %(name)s", { name: scale.name }), scale.name)));
  if (speaking.some((scale) => scale.name === remembered(CHOSEN))) choice.value = remembered(CHOSEN);
  choice.hidden = speaking.length < 2;
  connect.hidden = !("serial" in navigator);
  box.append(take, choice, connect, live);
  says.closest(".field")?.before(box);
  const chosen = () => speaking.find((scale) => scale.name === choice.value) || speaking[0];
  /** @param {Element | null} line @returns {line is HTMLInputElement} */
  const weight = (line) => line instanceof HTMLInputElement && line.form === form && /^(gross|tare|big_fish|largest_\d+)$/.test(line.name);

  /* ---- the line of the scale ---- */

  async function open() {
    const scale = chosen(), { baud, data_bits, parity, stop_bits } = scale.port;
    port = await navigator.serial.requestPort();
    await port.open({ baudRate: baud, dataBits: data_bits, stopBits: stop_bits, parity: PARITIES[parity] });
    connect.textContent = gettext("Disconnect the scale");
    listen(scale).catch((fault) => { live.textContent = gettext("The scale was lost: %(fault)s. Look at its cable and connect it again.", { fault: fault.message }); }).finally(shut);
  }

  /** @param {Scale} scale */
  async function listen({ layout, port: how }) {
    if (!layout) return;
    const hear = lines.listener(layout, how.once);
    now = null;
    const asking = how.ask ? setInterval(() => ask(how.ask).catch(() => {}), ASKED_EVERY) : undefined;
    try {
      while (port && port.readable) {
        reader = port.readable.getReader();
        try {
          for (let part = await reader.read(); !part.done; part = await reader.read()) hear(String.fromCharCode(...part.value)).forEach(show);
          return;
        } finally { reader.releaseLock(); }
      }
    } finally { clearInterval(asking); }
  }

  /** @param {Heard} heard */
  function show(heard) {
    now = heard;
    heardAt = Date.now();
    live.textContent = heard.stable ? gettext("%(weight)s, at rest", { weight: `${heard.text} ${heard.unit}` }) : `${heard.text} ${STATES[heard.state]}`;
  }

  /** @param {string} command */
  async function ask(command) {
    const writer = port?.writable?.getWriter();
    if (!writer) return;
    try { await writer.write(new TextEncoder().encode(`${command}\r\n`)); } finally { writer.releaseLock(); }
  }

  async function shut() {
    const open = port;
    port = reader = now = null;
    connect.textContent = gettext("Connect the scale");
    if (open) await open.close().catch(() => {});
  }

  const cancel = () => reader?.cancel().catch(() => {});

  connect.addEventListener("click", () => {
    if (port) { live.textContent = ""; if (reader) cancel(); else shut(); return; }
    open().catch((refused) => {
      port = null;
      live.textContent = refused.name === "NotFoundError" ? gettext("No scale was chosen.")
        : gettext("The scale cannot be opened: %(fault)s Look whether another program has it.", { fault: refused.message });
    });
  });

  /* ---- what it reads at this moment ---- */

  /** @returns {Promise<Found>} */
  async function reading() {
    const { name, port: how } = chosen();
    if (port) {
      const fresh = now && Date.now() - heardAt < (how.once ? FRESH * 12 : SILENT);
      return now && fresh ? now : { why: gettext("Nothing comes from scale %(name)s: look at its cable and its settings.", { name }) };
    }
    const asked = Date.now();
    /** @type {Scale | null | undefined} */
    let told;
    try {
      const answer = await site(addresses.scales, { signal: AbortSignal.timeout(FRESH) });
      told = answer.ok ? (await answer.json()).scales.find((/** @type {Scale} */ one) => one.name === name) : null;
    } catch { return { why: gettext("No link to the site, which has the scale’s reading: type the weight.") }; }
    if (!told || !told.now) return { why: gettext("Nothing was heard of scale %(name)s yet: start read_scale where its cable is, or type the weight.", { name }) };
    const age = told.now.age_seconds * 1000 + Date.now() - asked, stable = told.now.state === "stable";
    if (age > FRESH || told.now.state === "silent") return { why: gettext("Scale %(name)s has said nothing for %(seconds)s s: type the weight.", { name, seconds: Math.round(age / 1000) }) };
    return stable || !told.now.why ? { ...told.now, stable } : { why: told.now.why };
  }

  async function tell() {
    const { activeElement } = document, gross = /** @type {HTMLInputElement} */ (form.elements.namedItem("gross"));
    const line = weight(activeElement) ? activeElement : lastLine && weight(lastLine) && lastLine.offsetParent ? lastLine : gross;
    line.focus();
    const found = await reading();
    if (document.activeElement !== line) return;    // the hand went on
    if (!("text" in found)) { says.textContent = found.why; return; }
    const { text, unit, raw, stable, state } = found;
    if (!stable && state !== "motion") { says.textContent = gettext("Scale %(name)s: %(state)s.", { name: chosen().name, state: STATES[state] }); return; }
    if (stable && text.startsWith("-")) { says.textContent = gettext("The scale reads below zero: zero it with nothing on it."); return; }
    document.dispatchEvent(new CustomEvent("weighin:reading", { detail: { text, unit, raw, stable } }));
  }

  take.addEventListener("click", tell);
  choice.addEventListener("change", () => { remember(CHOSEN, choice.value); if (port) cancel(); });
  form.addEventListener("focusin", (event) => { const line = targetOf(event); if (weight(line)) lastLine = line; });
  form.addEventListener("keydown", (event) => {
    if (!weight(targetOf(event)) || event.key.toLowerCase() !== "r" || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    tell();
  });
  setInterval(() => { if (port && now && !chosen().port.once && Date.now() - heardAt > SILENT) { now = null; live.textContent = SILENCE; } }, 1000);
  sendReadings(slug, { address: addresses.readings, ask: site, scale: () => chosen().name });
}
