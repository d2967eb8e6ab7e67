/* Readings of a scale, whoever listens to it. One is told to the page with

     document.dispatchEvent(new CustomEvent("weighin:reading", { detail: { text, unit, raw, stable } }))

   text: the weight as stations write it ("9.47", "9-07.5"); unit: "lb", "lb-oz" or "kg"; raw: the line as it came from
   the scale; stable: whether the scale was at rest. It is written into the weight line that has the focus (the weight,
   the bag, the big fish, a largest fish) when it is stable, above zero and in the event's unit; what was written by
   hand is never written over. ``detail.taken`` is then the line's name, else null, and ``detail.why`` says why not.
   The raw line is kept with the slip: in its note, and as ``readings`` in the event "weighin:kept", whose detail is
   {id, readings: [{field, text, unit, raw, at}]}. */
import { pairingOf, remember, remembered } from "../device/pairing.js";

const LONGEST = 80;
const NAMES = { gross: "weight", tare: "bag", big_fish: "big fish" };
const named = (field) => NAMES[field] || field.replace("_", " fish ");
const plain = (raw) => [...String(raw)].map((one) => (one < " " || one === "\x7f" ? " " : one)).join("").trim().slice(0, LONGEST);

/* ``says`` is the element in which the page says what the scale reads. */
export function readingsOf(form, says, { unit }) {
  const taken = new Map();    // line -> the reading it holds
  const weighed = (line) => Boolean(line && line.form === form && (NAMES[line.name] || /^largest_\d+$/.test(line.name)));
  const holds = (line) => taken.has(line) && taken.get(line).text === line.value.trim();

  function refusal(line, reading) {
    if (!reading.stable) return "The scale is not at rest.";
    if (reading.unit !== unit()) return `The scale reads ${reading.unit}, the event weighs in ${unit()}: set the scale, or type the weight.`;
    if (!/[1-9]/.test(reading.text) || reading.text.startsWith("-")) return "The scale is empty.";
    if (!weighed(line)) return `The scale reads ${reading.text}: go to the weight to take it.`;
    if (line.value.trim() && !holds(line)) return line.value.trim() === reading.text ? "" : `The scale reads ${reading.text}; what was written by hand stays. Clear the line to take it.`;
    return "";
  }

  document.addEventListener("weighin:reading", (event) => {
    const reading = event.detail, line = document.activeElement;
    const why = refusal(line, reading), same = weighed(line) && line.value.trim() === reading.text;
    Object.assign(reading, { taken: why ? null : line.name, why });
    says.textContent = why || `From the scale: ${reading.text}.`;
    if (why || (same && holds(line))) return;
    taken.set(line, { text: reading.text, unit: reading.unit, raw: plain(reading.raw), at: new Date().toISOString() });
    if (same) return;
    line.value = reading.text;
    line.dispatchEvent(new Event("input", { bubbles: true }));
    says.textContent = `From the scale: ${reading.text}.`;
  });

  return {
    /* The readings that still stand in their lines. */
    held: () => [...taken].filter(([line]) => line.isConnected && holds(line)).map(([line, one]) => ({ field: line.name, ...one })),
    note: (held) => held.map((one) => `Scale, ${named(one.field)}: ${one.raw}`).join("; "),
    clear: () => { taken.clear(); says.textContent = ""; },
  };
}

/* Where the event has a scale that speaks: the modules that read it, fetched only there and kept for without the network. */

async function keep(addresses) {
  if (!window.caches) return;
  const cache = await window.caches.open("weighin-scale"), kept = (await cache.keys()).map((one) => new URL(one.url).pathname);
  for (const old of kept) if (!addresses.includes(old)) await cache.delete(old);
  await cache.addAll(addresses.filter((one) => !kept.includes(one)));
}

window.addEventListener("load", async () => {
  const form = document.getElementById("slip"), says = document.getElementById("scale-says");
  if (!form || !says) return;
  const { event: slug, way, papers } = document.body.dataset, KEY = `weighin-scales.${slug}`;
  const headers = pairingOf(slug, way).headers, [scales, readings] = ["scales", "readings"].map((one) => papers.replace(/station$/, one));
  let told = null;
  try {
    const answer = await fetch(scales, { headers: headers(), cache: "no-store", credentials: "same-origin" });
    if (answer.ok) { told = await answer.json(); remember(KEY, JSON.stringify(told)); }
  } catch (lost) { /* as it was told before */ }
  try {
    told = told || JSON.parse(remembered(KEY));
    if (!told.scales.some((scale) => scale.in_use && scale.layout)) return;
    const { scalePort } = await import("./port.js");
    scalePort({ slug, scales: told.scales, addresses: { scales, readings }, headers, says, form });
    await keep(told.scripts);
  } catch (missing) { /* without them all is typed */ }
});
