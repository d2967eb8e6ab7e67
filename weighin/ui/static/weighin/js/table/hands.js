/* Hands on the slip: Enter goes to the next line, a press counts one more or one less, what has the focus is in view. */
import { linesOf, targetOf } from "../site/elements.js";
import { gettext } from "../site/text.js";
import { bringIntoView } from "./view.js";

/**
 * Gives ``next(line)``. ``boat()`` is the boat as typed, ``left()`` is called when a count was stepped.
 * @param {HTMLFormElement} form
 * @param {{boat: () => number | null, bounce: ReturnType<typeof import("./view.js").bounceGuard>, said: ReturnType<typeof import("../slip/faults.js").faultsOn>,
 *   count: (name: string) => number | null, left: () => void}} about
 */
export function handsOn(form, { boat, bounce, said, count, left }) {
  const lineOf = linesOf(form);

  /** @param {HTMLInputElement} from */
  function next(from) {
    if (from.name === "boat" && boat() === null) {
      if (bounce.again()) return;    // of the Enter that kept the slip before
      const text = from.value.trim();
      said.clear();
      said.say("boat", text ? gettext("%(text)s is no boat number: write figures.", { text }) : gettext("Write the boat number."), "fault");
      return;
    }
    if (from.type === "radio" && !form.querySelector(`[name=${from.name}]:checked`)) {
      said.clear();
      bringIntoView(said.say(from.name, gettext("Some fish are dead: say whether the big fish was alive."), "fault"));
      return;
    }
    const lines = /** @type {HTMLInputElement[]} */ ([...form.elements].filter((one) => one.matches("input, select, #keep")));
    const order = lines.filter((one) => one.offsetParent !== null && !one.closest("details:not([open])") && (one.type !== "radio" || one.checked || one.value === "yes"));
    const after = order[order.indexOf(from) + 1];
    if (!after || after.id === "keep") { form.requestSubmit(); return; }
    after.focus();
    if (after.select) after.select();
  }

  document.addEventListener("keydown", (event) => {
    const line = targetOf(event);
    if (event.key !== "Enter" || line.form !== form || !line.matches("input, select")) return;
    event.preventDefault();
    if (!event.repeat) next(line);
  });
  form.addEventListener("focusin", (event) => {
    const line = targetOf(event);
    if (line.matches("input[inputmode]")) line.select();
    bringIntoView(line);
  });
  form.addEventListener("click", (event) => {
    const step = /** @type {HTMLElement | null} */ (targetOf(event).closest("[data-step]"));
    if (!step) return;
    const name = step.dataset.of || "", line = lineOf(name);
    line.value = String(Math.max(0, (count(name) || 0) + Number(step.dataset.step)));
    line.dispatchEvent(new Event("input", { bubbles: true }));
    left();
  });
  return next;
}
