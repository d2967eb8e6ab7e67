/* Slips that the tablet cannot send, to be taken from it by eye: each as codes for a phone, as their text, and in words.

   A code holds the slip as it would be sent, in JSON and ASCII; a long one stands in several, each with its place, their
   number, the first figures of the slip's id and its part of the text (scale/copied.py reads both). The maker of codes
   is fetched only when one is asked for; the tablet has it without a link. */
import * as words from "../slip/words.js";

const MOST = 420;           // characters in a code that a phone still reads off a scratched screen
const QUIET = 4, LEVEL = "M";
const element = words.element;
let making = null;

function maker(address) {
  making = making || new Promise((resolve, reject) => {
    const script = element("script", "", { src: address });
    script.onload = () => resolve(window.qrcode);
    script.onerror = () => { making = null; script.remove(); reject(new Error("not fetched")); };
    document.head.append(script);
  });
  return making;
}

/* The texts of a slip's codes. */
function texts(slip) {
  const text = JSON.stringify(slip).replace(/[\u007f-\uffff]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`);
  const number = Math.ceil(text.length / MOST), size = Math.ceil(text.length / number);
  if (number === 1) return [text];
  return Array.from({ length: number }, (_, place) => `weighin ${place + 1}/${number} ${slip.id.slice(0, 8)}|${text.slice(place * size, (place + 1) * size)}|`);
}

/* Black on white whatever the light: a reader wants it so. */
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
  const svg = document.getElementById("copies-drawing").content.firstElementChild.cloneNode(true);
  svg.setAttribute("viewBox", `0 0 ${all} ${all}`);
  svg.setAttribute("aria-label", label);
  svg.querySelector("path").setAttribute("d", runs.join(""));
  return svg;
}

function oneOf(record, qrcode, { zone, unit }) {
  const item = element("li"), parts = texts(record.slip), codes = element("div", "", { class: "codes" });
  parts.forEach((text, place) => {
    if (qrcode) codes.append(drawn(qrcode, text, `Code ${place + 1} of ${parts.length} of boat ${record.slip.boat}’s slip`));
  });
  item.append(
    element("h3", `Boat ${record.slip.boat}, ${record.team}${parts.length > 1 ? `: ${parts.length} codes` : ""}`), codes,
    element("p", words.asText(record, zone, unit).join("\n"), { class: "as-text" }),
    element("pre", parts.join("\n"), { class: "code-text", tabindex: 0, "aria-label": "The text of the code" }));
  return item;
}

/* Shows the records in ``box``, a section with a list and a place for words. */
export async function showCopies(box, records, { address, zone, unit }) {
  let qrcode = null, why = "";
  try { qrcode = await maker(address); } catch (missing) { why = "The codes cannot be drawn: this tablet has not fetched what draws them. The text below holds the same."; }
  box.querySelector("ol").replaceChildren(...records.map((record) => oneOf(record, qrcode, { zone, unit })));
  box.querySelector("[role=status]").textContent = why;
  box.hidden = !records.length;
  box.scrollIntoView({ block: "start" });
}

/* Where no worker keeps the page's files, the browser's own store may: asked for once, when there is nothing else to do. */
export const fetchAhead = (address) => { if (!("serviceWorker" in navigator)) window.fetch(address).catch(() => {}); };
