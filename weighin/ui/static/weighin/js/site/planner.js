/* The planner with a script: sliders beside the sentence, a button that prints, and words while an answer is on its way.
   Without it the form asks the server as a page; htmx asks for the answer's part alone. */
const PATIENCE = 2000;
const form = document.getElementById("planner");
const answer = document.getElementById("answer");
const asking = document.getElementById("asking");
if (form && answer && asking) start();

function start() {
  let waiting = 0;

  function slider(field) {
    const [low, high, step] = field.dataset.slide.split(" ");
    const unit = field.parentElement.querySelector(".unit")?.textContent || "";
    const label = document.createElement("label");
    const name = document.createElement("span");
    const output = document.createElement("output");
    const range = document.createElement("input");
    name.textContent = form.querySelector(`label[for="${field.id}"]`).textContent;
    Object.assign(range, { type: "range", id: `${field.id}_slide`, min: low, max: high, step });
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

  const sliders = form.querySelector(".sliders");
  sliders.append(...Array.from(form.querySelectorAll("[data-slide]"), slider));
  sliders.hidden = false;

  /* Each kind of fish has its usual weight, which goes along with the kind until a hand writes another. */
  const kind = document.getElementById("id_kind"), each = document.getElementById("id_each");
  const usual = JSON.parse(kind.dataset.each);
  kind.addEventListener("change", () => { if (!each.value.trim() || Object.values(usual).includes(each.value)) each.value = usual[kind.value]; });

  const print = document.createElement("button");
  Object.assign(print, { type: "button", className: "button plain", textContent: "Print the card" });
  print.addEventListener("click", () => window.print());
  form.querySelector(".doing").append(print);

  function mark() {
    for (const fault of form.querySelectorAll(".fault")) {
      const field = document.getElementById(fault.id.replace(/_error$/, ""));
      if (!field) continue;
      if (fault.textContent.trim()) {
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
    waiting = setTimeout(() => { asking.textContent = "Working it out again; below is the answer before."; }, PATIENCE);
  });
  document.addEventListener("htmx:afterRequest", (event) => {
    if (!event.detail.successful) return;
    clearTimeout(waiting);
    asking.textContent = "";
  });
  for (const failed of ["htmx:sendError", "htmx:responseError", "htmx:timeout"]) {
    document.addEventListener(failed, () => {
      clearTimeout(waiting);
      asking.textContent = "No answer came. Below is the answer before; change a figure to ask again.";
    });
  }
  document.addEventListener("htmx:afterSettle", mark);
}
