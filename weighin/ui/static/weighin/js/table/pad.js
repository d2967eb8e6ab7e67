/* A number pad on the page, for wet hands: it writes into the line that has the focus and leaves the focus there. */
import { remember, remembered } from "../device/pairing.js";
import { element, targetOf } from "../site/elements.js";
import { gettext } from "../site/text.js";

const KEPT = "weighin-table.pad";
/** @type {Record<string, string>} */
const SHOWN = { back: "⌫", next: gettext("Next"), clear: "C" };
/** @type {Record<string, string>} */
const SAID = { clear: gettext("Clear the field"), back: gettext("Take the last figure away"), "-": gettext("Dash"), ".": gettext("Point") };

/** @param {HTMLElement} pad @param {HTMLElement} button @param {HTMLFormElement} form @param {(line: HTMLInputElement) => void} next */
export function numberPad(pad, button, form, next) {
  /** @type {HTMLInputElement | null} */
  let last = null;
  /** @param {Element | null} line @returns {line is HTMLInputElement} */
  const writable = (line) => Boolean(line && line.matches("input[inputmode]"));

  /** @param {string} key */
  function press(key) {
    const line = writable(document.activeElement) ? document.activeElement : last;
    if (!line) return;
    if (document.activeElement !== line) line.focus();
    if (key === "next") { next(line); return; }
    const from = line.selectionStart || 0, to = line.selectionEnd || 0;
    if (key === "back") line.setRangeText("", from === to ? Math.max(0, from - 1) : from, to, "end");
    else if (key === "clear") line.setRangeText("", 0, line.value.length, "end");
    else if (line.value.length - (to - from) < line.maxLength || line.maxLength < 0) line.setRangeText(key, from, to, "end");
    line.dispatchEvent(new Event("input", { bubbles: true }));
  }

  /** @param {boolean} dash */
  function draw(dash) {
    const keys = ["1", "2", "3", "4", "5", "back", "next", "6", "7", "8", "9", "0", ".", dash ? "-" : "clear"];
    pad.replaceChildren(...keys.map((key) => {
      const made = element("button", SHOWN[key] || key, { type: "button", tabindex: -1 });
      if (SAID[key]) made.setAttribute("aria-label", SAID[key]);
      made.addEventListener("pointerdown", (event) => event.preventDefault());   // the line keeps the focus
      made.addEventListener("click", () => press(key));
      return made;
    }));
  }

  function show() {
    pad.hidden = !on;
    button.setAttribute("aria-pressed", String(on));
    for (const line of form.querySelectorAll("input")) {
      if (!line.matches("[inputmode]")) continue;
      line.dataset.keys = line.dataset.keys || line.inputMode;
      line.inputMode = on ? "none" : line.dataset.keys;
    }
  }

  let on = remembered(KEPT) === "on";
  form.addEventListener("focusin", (event) => { if (writable(targetOf(event))) last = targetOf(event); });
  button.addEventListener("click", () => {
    on = !on;
    remember(KEPT, on ? "on" : "off");
    show();
    if (on && last) last.focus();
  });
  draw(false);
  show();
  return { draw, show };
}
