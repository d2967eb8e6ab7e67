/* Slips that the tablet cannot send, to be taken from it by eye: each as codes for a phone, as their text, and in words.

   A code holds the slip as it would be sent, in JSON and ASCII; a long one stands in several, each with its place, their
   number, the first figures of the slip's id and its part of the text (the site's reader of copies takes both). The maker
   of codes is fetched only when one is asked for; the tablet has it without a link. */
import { element, first } from "../site/elements.js";
import { gettext, ngettext } from "../site/text.js";
import { asText } from "../slip/record-words.js";

const MOST = 420;           // characters in a code that a phone still reads off a scratched screen
const QUIET = 4, LEVEL = "M";
/** @type {Promise<QrMaker> | null} */
let making = null;

/** @param {string} address */
function maker(address) {
  making = making || new Promise((resolve, reject) => {
    const script = element("script", "", { src: address });
    script.onload = () => resolve(window.qrcode);
    script.onerror = () => { making = null; script.remove(); reject(new Error("not fetched")); };
    document.head.append(script);
  });
  return making;
}

/** The texts of a slip's codes. @param {Slip} slip */
function texts(slip) {
  const text = JSON.stringify(slip).replace(/[\u007f-\uffff]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`);
  const number = Math.ceil(text.length / MOST), size = Math.ceil(text.length / number);
  if (number === 1) return [text];
  return Array.from({ length: number }, (_, place) => `weighin ${place + 1}/${number} ${slip.id.slice(0, 8)}|${text.slice(place * size, (place + 1) * size)}|`);
}

/** Black on white whatever the light: a reader wants it so. @param {QrMaker} qrcode @param {string} text @param {string} label */
function drawn(qrcode, text, label) {
  const code = qrcode(0, LEVEL);
  code.addData(text, "Byte");
  code.make();
  const size = code.getModuleCount(), all = size + 2 * QUIET, runs = [];
  for (let row = 0; row < size; row += 1) {
    for (let from = 0; from < size; from += 1) {
      if (!code.isDark(row, from)) continue;
      let to = from;
      while (to + 1 < size && code.isDark(row, to + 1)) to += 1;
      runs.push(`M${from + QUIET} ${row + QUIET}h${to - from + 1}v1h-${to - from + 1}z`);
      from = to;
    }
  }
  const drawing = /** @type {HTMLTemplateElement} */ (document.getElementById("copies-drawing"));
  const svg = /** @type {Element} */ (drawing.content.cloneNode(true).firstChild);
  svg.setAttribute("viewBox", `0 0 ${all} ${all}`);
  svg.setAttribute("aria-label", label);
  svg.querySelector("path")?.setAttribute("d", runs.join(""));
  return svg;
}

/** @param {SlipRecord} record @param {QrMaker | null} qrcode @param {{zone: string | undefined, unit: Unit}} about */
function oneOf(record, qrcode, { zone, unit }) {
  const item = element("li"), parts = texts(record.slip), codes = element("div", "", { class: "codes" }), { slip: { boat }, team } = record;
  parts.forEach((text, place) => {
    if (qrcode) codes.append(drawn(qrcode, text, gettext("Code %(place)s of %(all)s of boat %(boat)s’s slip", { place: place + 1, all: parts.length, boat })));
  });
  item.append(
    element("h3", parts.length > 1 ? ngettext("Boat %(boat)s, %(team)s: %(n)s code", "Boat %(boat)s, %(team)s: %(n)s codes", parts.length, { boat, team }) : gettext("Boat %(boat)s, %(team)s", { boat, team })), codes,
    element("p", asText(record, zone, unit).join("\n"), { class: "as-text" }),
    element("pre", parts.join("\n"), { class: "code-text", tabindex: 0, "aria-label": gettext("The text of the code") }));
  return item;
}

/** Shows the records in ``box``, a section with a list and a place for words. @param {HTMLElement} box @param {SlipRecord[]} records @param {{address: string, zone: string | undefined, unit: Unit}} about */
export async function showCopies(box, records, { address, zone, unit }) {
  let qrcode = null, why = "";
  try { qrcode = await maker(address); } catch { why = gettext("The codes cannot be drawn: this tablet has not fetched what draws them. The text below holds the same."); }
  first("ol", box).replaceChildren(...records.map((record) => oneOf(record, qrcode, { zone, unit })));
  first("[role=status]", box).textContent = why;
  box.hidden = !records.length;
  box.scrollIntoView({ block: "start" });
}

/** Where no worker keeps the page's files, the browser's own store may: asked for once, when there is nothing else to do. @param {string} address */
export const fetchAhead = (address) => { if (!("serviceWorker" in navigator)) window.fetch(address).catch(() => {}); };

/* Prints the copies alone. */
export function printCopies() {
  const page = document.documentElement;
  page.classList.add("prints-copies");
  window.addEventListener("afterprint", () => page.classList.remove("prints-copies"), { once: true });
  window.print();
}
