/* The planner with a script: sliders beside the sentence, a button that prints, and words while an answer is on its way.
   Without it the form asks the server as a page; htmx asks for the answer's part alone. */
import { button, element, first, input } from "./elements.js";
import { gettext } from "./text.js";

const PATIENCE = 2000;
const form = document.getElementById("planner");
const asking = document.getElementById("asking");
if (form && asking && document.getElementById("answer")) start(form, asking);

/** @param {HTMLElement} form @param {HTMLElement} asking */
function start(form, asking) {
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let waiting;

  /** @param {HTMLInputElement} field */
  function slider(field) {
    const [min, max, step] = (field.dataset.slide || "").split(" ");
    const unit = field.parentElement?.querySelector(".unit")?.textContent || "";
    const label = element("label"), output = element("output");
    const name = element("span", first(`label[for="${field.id}"]`, form).textContent || "");
    const range = element("input", "", { type: "range", id: `${field.id}_slide`, min, max, step });
    label.htmlFor = range.id;
    const show = () => {
      const known = Number.isFinite(parseFloat(field.value));
      if (known) range.value = field.value;
      output.textContent = known ? `${field.value} ${unit}`.trim() : "";
      range.setAttribute("aria-valuetext", output.textContent);
    };
    range.addEventListener("input", () => {
      field.value = range.value;
      show();
    });
    field.addEventListener("input", show);
    label.append(name, output, range);
    show();
    return label;
  }

  const sliders = first(".sliders", form);
  const fields = /** @type {NodeListOf<HTMLInputElement>} */ (form.querySelectorAll("[data-slide]"));
  sliders.append(...Array.from(fields, slider));
  sliders.hidden = false;

  /* Each kind of fish has its usual weight, which goes along with the kind until a hand writes another. */
  const kind = input("id_kind"), each = input("id_each");
  const usual = JSON.parse(kind.dataset.each || "{}");
  kind.addEventListener("change", () => { if (!each.value.trim() || Object.values(usual).includes(each.value)) each.value = usual[kind.value]; });

  first(".doing", form).append(button(gettext("Print the card"), () => window.print(), "plain"));

  function mark() {
    for (const fault of form.querySelectorAll(".fault")) {
      const field = document.getElementById(fault.id.replace(/_error$/, ""));
      if (!field) continue;
      if ((fault.textContent || "").trim()) {
        field.setAttribute("aria-invalid", "true");
        field.setAttribute("aria-describedby", fault.id);
      } else {
        field.removeAttribute("aria-invalid");
        field.removeAttribute("aria-describedby");
      }
    }
  }

  document.addEventListener("htmx:beforeRequest", () => {
    clearTimeout(waiting);
    waiting = setTimeout(() => { asking.textContent = gettext("Working it out again; below is the answer before."); }, PATIENCE);
  });
  /* What is unfolded stays so in the next answer. */
  const folds = () => document.querySelectorAll("#answer details");
  /** @type {boolean[]} */
  let open = [];
  document.addEventListener("htmx:beforeSwap", () => { open = Array.from(folds(), (one) => /** @type {HTMLDetailsElement} */ (one).open); });
  document.addEventListener("htmx:afterSwap", () => { folds().forEach((one, n) => { /** @type {HTMLDetailsElement} */ (one).open = Boolean(open[n]); }); });

  document.addEventListener("htmx:afterRequest", (event) => {
    if (!/** @type {CustomEvent<HtmxDetail>} */ (event).detail.successful) return;
    clearTimeout(waiting);
    asking.textContent = "";
  });
  for (const failed of ["htmx:sendError", "htmx:responseError", "htmx:timeout"]) {
    document.addEventListener(failed, () => {
      clearTimeout(waiting);
      asking.textContent = gettext("No answer came. Below is the answer before; change a figure to ask again.");
    });
  }
  document.addEventListener("htmx:afterSettle", mark);
}
