/* The desk: earlier teams and anglers as they are typed, what is wrong at its line at once, and what is taken on the button.
   Without a script the page enters teams all the same, and fills in a known team when it is sent without anglers. */
import { element, first, linesOf, write } from "../site/elements.js";
import { gettext } from "../site/text.js";
import { offer } from "./offer.js";

const PATIENCE = 150;
const FILLED = ["name", "anglers", "phone", "emergency"];
const WRITTEN = [...FILLED, "boat", "flight_name"];
const form = document.getElementById("desk");
if (form instanceof HTMLFormElement) start(form);

/** @param {HTMLFormElement} form */
function start(form) {
  const line = linesOf(form);
  /** @type {Record<string, string>} What a chosen team filled in, which the next one may write over. */
  const filled = {};
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let waiting;
  let asked = 0;
  let sent = false;

  /** @param {Record<string, string>} team */
  function fill(team) {
    for (const name of FILLED) {
      const own = line(name).value.trim();
      if (name !== "name" && own && own !== filled[name]) continue;
      line(name).value = filled[name] = team[name];
    }
    look("");
  }

  /** The last angler of the line is the one that was chosen. @param {string} name */
  function complete(name) {
    const anglers = line("anglers"), before = anglers.value.match(/^.*(?:\s+(?:&|and|\/)\s+|;)/i);
    anglers.value = `${before ? `${before[0].trim()} ` : ""}${name}`;
    look("");
  }

  const teams = offer(line("name"), (one) => [one.name, one.says], fill);
  const anglers = offer(line("anglers"), (name) => [name], complete);

  /** @param {string} name @param {string} words */
  function say(name, words) {
    const field = line(name)?.closest(".field");
    if (!field) return;
    const said = field.querySelector(".fault.now") || field.appendChild(element("p", "", { class: "fault now", role: "status", id: `id_${name}_now` }));
    field.querySelectorAll(".fault:not(.now)").forEach((one) => one.remove());
    write(said, words);
    said.toggleAttribute("hidden", !words);
    line(name).setAttribute("aria-invalid", String(Boolean(words)));
  }

  /** Ask what is known of the team so far. @param {string} at the line that is being written */
  async function look(at) {
    const mine = ++asked, body = new FormData(form);
    body.set("at", at);
    try {
      const answer = await fetch(form.dataset.look || "", { method: "POST", body, headers: { Accept: "application/json" } });
      if (!answer.ok) throw new Error(String(answer.status));
      const found = await answer.json();
      if (mine !== asked) return;
      for (const name of WRITTEN) say(name, found.faults[name] || "");
      line("name").placeholder = found.made;
      teams.show(found.teams);
      anglers.show(found.anglers);
      write(first("[data-look-note]", form), "");
    } catch {
      if (mine !== asked) return;
      teams.show([]);
      anglers.show([]);
      write(first("[data-look-note]", form), gettext("The site does not answer. Duplicates are looked for again when you save."));
    }
  }

  function sum() {
    const fees = JSON.parse(form.dataset.fees || "{}");
    const ticked = /** @type {NodeListOf<HTMLInputElement>} */ (form.querySelectorAll("[name=paid]:checked"));
    const cents = [...ticked].reduce((all, box) => all + Math.round(Number(fees[box.value]) * 100), 0);
    const amount = `${form.dataset.sign}${(cents / 100).toFixed(2)}`;
    write(first("[data-save]", form), ticked.length ? gettext("Save, and take %(amount)s", { amount }) : gettext("Save, nothing paid"));
  }

  form.addEventListener("input", (event) => {
    const name = event.target instanceof HTMLInputElement || event.target instanceof HTMLSelectElement ? event.target.name : "";
    if (!WRITTEN.includes(name)) { sum(); return; }
    clearTimeout(waiting);
    (name === "name" ? teams : anglers).wait();
    waiting = setTimeout(() => look(name), PATIENCE);
  });
  form.addEventListener("submit", (event) => {
    clearTimeout(waiting);
    if (sent) event.preventDefault();    // a second press while the first is on its way
    sent = true;
  });
  window.addEventListener("pageshow", () => { sent = false; });
  sum();
  const wrong = /** @type {HTMLElement | null} */ (form.querySelector("[aria-invalid=true]"));
  (wrong || line("name")).focus();
}
