/* Readings of a scale, whoever listens to it. One is told to the page with

     document.dispatchEvent(new CustomEvent("weighin:reading", { detail: { text, unit, raw, stable } }))

   text: the weight as stations write it ("9.47", "9-07.5"); unit: "lb", "lb-oz" or "kg"; raw: the line as it came from
   the scale; stable: whether the scale was at rest. It is written into the weight line that has the focus (the weight,
   the bag, the big fish, a largest fish) when it is stable, above zero and in the event's unit; what was written by
   hand is never written over. ``detail.taken`` is then the line's name, else null, and ``detail.why`` says why not.
   The raw line is kept with the slip: in its note, and as ``readings`` in the event "weighin:kept", whose detail is
   {id, readings: [{field, text, unit, raw, at}]}. */
import { pairingOf, remember, remembered } from "../device/pairing.js";
import { gettext } from "../site/text.js";

const LONGEST = 80;
const WEIGHED = ["gross", "tare", "big_fish"];

/** @param {ScaleReading} reading */
function noteOf({ field, raw }) {
  switch (field) {
    case "gross": return gettext("Scale, weight: %(line)s", { line: raw });
    case "tare": return gettext("Scale, bag: %(line)s", { line: raw });
    case "big_fish": return gettext("Scale, big fish: %(line)s", { line: raw });
    default: return gettext("Scale, largest fish %(number)s: %(line)s", { number: field.split("_")[1], line: raw });
  }
}

/** @param {unknown} raw */
const plain = (raw) => [...String(raw)].map((one) => (one < " " || one === "\x7f" ? " " : one)).join("").trim().slice(0, LONGEST);

/** ``says`` is the element in which the page says what the scale reads. @param {HTMLFormElement} form @param {HTMLElement} says @param {{unit: () => Unit}} about */
export function readingsOf(form, says, { unit }) {
  /** Which reading a line holds. @type {Map<HTMLInputElement, {text: string, unit: string, raw: string, at: string}>} */
  const taken = new Map();
  /** @param {Element | null} line @returns {line is HTMLInputElement} */
  const weighed = (line) => line instanceof HTMLInputElement && line.form === form && (WEIGHED.includes(line.name) || /^largest_\d+$/.test(line.name));
  /** @param {HTMLInputElement} line */
  const holds = (line) => taken.has(line) && taken.get(line)?.text === line.value.trim();

  /** Why the reading cannot be taken into the line; empty where it can. @param {Element | null} line @param {Heard} reading */
  function refusal(line, { stable, text, unit: written }) {
    if (!stable) return gettext("The scale is not at rest.");
    if (written !== unit()) return gettext("The scale reads %(unit)s, the event weighs in %(wanted)s: set the scale, or type the weight.", { unit: written, wanted: unit() });
    if (!/[1-9]/.test(text) || text.startsWith("-")) return gettext("The scale is empty.");
    if (!weighed(line)) return gettext("The scale reads %(weight)s: go to the weight to take it.", { weight: text });
    const value = line.value.trim();
    return value && !holds(line) && value !== text ? gettext("The scale reads %(weight)s; what was written by hand stays. Clear the field to take it.", { weight: text }) : "";
  }

  document.addEventListener("weighin:reading", (event) => {
    /** @type {Heard & {taken?: string | null, why?: string}} */
    const reading = /** @type {CustomEvent} */ (event).detail;
    const line = document.activeElement, why = refusal(line, reading);
    Object.assign(reading, { taken: why || !weighed(line) ? null : line.name, why });
    says.textContent = why || gettext("From the scale: %(weight)s.", { weight: reading.text });
    if (why || !weighed(line)) return;
    const same = line.value.trim() === reading.text;
    if (same && holds(line)) return;
    taken.set(line, { text: reading.text, unit: reading.unit, raw: plain(reading.raw), at: new Date().toISOString() });
    if (same) return;
    line.value = reading.text;
    line.dispatchEvent(new Event("input", { bubbles: true }));
    says.textContent = gettext("From the scale: %(weight)s.", { weight: reading.text });
  });

  return {
    /** The readings that still stand in their lines. @returns {ScaleReading[]} */
    held: () => [...taken].filter(([line]) => line.isConnected && holds(line)).map(([line, one]) => ({ field: line.name, ...one })),
    /** @param {ScaleReading[]} held */
    note: (held) => held.map(noteOf).join("; "),
    clear: () => { taken.clear(); says.textContent = ""; },
  };
}

/** Where the event has a scale that speaks: the modules that read it, fetched only there and kept for without the network. @param {string[]} addresses */
async function keep(addresses) {
  if (!window.caches) return;
  const cache = await window.caches.open("weighin-scale"), kept = (await cache.keys()).map((one) => new URL(one.url).pathname);
  for (const old of kept) if (!addresses.includes(old)) await cache.delete(old);
  await cache.addAll(addresses.filter((one) => !kept.includes(one)));
}

window.addEventListener("load", async () => {
  const form = /** @type {HTMLFormElement | null} */ (document.getElementById("slip")), says = document.getElementById("scale-says");
  if (!form || !says) return;
  const { event: slug = "", way, papers = "" } = document.body.dataset, KEY = `weighin-scales.${slug}`;
  const { ask } = pairingOf(slug, way), [scales, readings] = ["scales", "readings"].map((one) => papers.replace(/station$/, one));
  /** @type {{scales: Scale[], scripts: string[]} | null} */
  let told = null;
  try {
    const answer = await ask(scales);
    if (answer.ok) { told = await answer.json(); remember(KEY, JSON.stringify(told)); }
  } catch { /* as it was told before */ }
  try {
    const found = told || /** @type {NonNullable<typeof told>} */ (JSON.parse(remembered(KEY)));
    if (!found.scales.some((scale) => scale.in_use && scale.layout)) return;
    const { scalePort } = await import("./port.js");
    scalePort({ slug, scales: found.scales, addresses: { scales, readings }, site: ask, says, form });
    await keep(found.scripts);
  } catch { /* without them all is typed */ }
});
