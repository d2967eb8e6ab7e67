/* Hands on the slip: Enter goes to the next line, a press counts one more or one less, what has the focus is in view. */
import { bringIntoView } from "./view.js";

/* Gives ``next(line)``. ``boat()`` is the boat as typed, ``left()`` is called when a count was stepped. */
export function handsOn(form, { boat, bounce, said, count, left }) {
  function next(from) {
    if (from.name === "boat" && boat() === null) {
      if (bounce.again()) return;    // of the Enter that kept the slip before
      said.clear();
      said.say("boat", from.value.trim() ? `${from.value.trim()} is no boat number: write figures.` : "Write the boat number.", "fault");
      return;
    }
    if (from.type === "radio" && !form.querySelector(`[name=${from.name}]:checked`)) {
      said.clear();
      bringIntoView(said.say(from.name, "Some fish are dead: say whether the big fish was alive.", "fault"));
      return;
    }
    const order = [...form.elements].filter((one) => one.matches("input, select, #keep")).filter((one) => one.offsetParent !== null && !one.closest("details:not([open])") && (one.type !== "radio" || one.checked || one.value === "yes"));
    const after = order[order.indexOf(from) + 1];
    if (!after || after.id === "keep") { form.requestSubmit(); return; }
    after.focus();
    if (after.select) after.select();
  }

  document.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || event.target.form !== form || !event.target.matches("input, select")) return;
    event.preventDefault();
    if (!event.repeat) next(event.target);
  });
  form.addEventListener("focusin", (event) => {
    if (event.target.matches("input[inputmode]")) event.target.select();
    bringIntoView(event.target);
  });
  form.addEventListener("click", (event) => {
    const step = event.target.closest("[data-step]");
    if (!step) return;
    const line = form.elements.namedItem(step.dataset.of);
    line.value = Math.max(0, (count(step.dataset.of) || 0) + Number(step.dataset.step));
    line.dispatchEvent(new Event("input", { bubbles: true }));
    left();
  });
  return next;
}
