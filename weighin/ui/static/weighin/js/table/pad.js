/* A number pad on the page, for wet hands: it writes into the line that has the focus and leaves the focus there. */
const KEPT = "weighin-table.pad";

export function numberPad(pad, button, form, next) {
  let last = null;
  const writable = (line) => line && line.matches("input[inputmode]");

  function press(key) {
    const line = writable(document.activeElement) ? document.activeElement : last;
    if (!line) return;
    if (document.activeElement !== line) line.focus();
    if (key === "next") { next(line); return; }
    const { selectionStart: from, selectionEnd: to } = line;
    if (key === "back") line.setRangeText("", from === to ? Math.max(0, from - 1) : from, to, "end");
    else if (key === "clear") line.setRangeText("", 0, line.value.length, "end");
    else if (line.value.length - (to - from) < line.maxLength || line.maxLength < 0) line.setRangeText(key, from, to, "end");
    line.dispatchEvent(new Event("input", { bubbles: true }));
  }

  function draw(dash) {
    const keys = ["1", "2", "3", "4", "5", "back", "next", "6", "7", "8", "9", "0", ".", dash ? "-" : "clear"];
    const words = { back: "⌫", next: "Next", clear: "C" }, said = { clear: "Clear the line", back: "Take the last figure away", "-": "Dash", ".": "Point" };
    pad.replaceChildren(...keys.map((key) => {
      const made = document.createElement("button");
      Object.assign(made, { type: "button", tabIndex: -1, textContent: words[key] || key });
      if (said[key]) made.setAttribute("aria-label", said[key]);
      made.addEventListener("pointerdown", (event) => event.preventDefault());   // the line keeps the focus
      made.addEventListener("click", () => press(key));
      return made;
    }));
  }

  function show(on) {
    pad.hidden = !on;
    button.setAttribute("aria-pressed", String(on));
    for (const line of form.querySelectorAll("input[inputmode]")) {
      line.dataset.keys = line.dataset.keys || line.inputMode;
      line.inputMode = on ? "none" : line.dataset.keys;
    }
  }

  let on = false;
  try { on = window.localStorage.getItem(KEPT) === "on"; } catch (refused) { /* lasts for this page */ }
  form.addEventListener("focusin", (event) => { if (writable(event.target)) last = event.target; });
  button.addEventListener("click", () => {
    on = !on;
    try { window.localStorage.setItem(KEPT, on ? "on" : "off"); } catch (refused) { /* lasts for this page */ }
    show(on);
    if (on && last) last.focus();
  });
  draw(false);
  show(on);
  return { draw, show: () => show(on) };
}
