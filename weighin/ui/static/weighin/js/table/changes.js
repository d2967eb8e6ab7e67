/* Taking a slip out, and swapping two boats' slips in one act: with a reason and a person, with or without a link.

   A swap is two corrections, kept on the tablet together and sent in one body. Each says all there is to say of its boat
   and names the slip it replaces, so they may arrive in any order and as often as they like; at no moment has a boat two
   slips. The site takes each by itself: if it refuses one, that one says so and asks for a hand. */
import * as knownWays from "../slip/slip-index.js";
import * as words from "../slip/words.js";

const element = words.element;
const at = (id) => document.getElementById(id);
const named = (one) => (one.number ? `slip ${one.number}` : "the slip");

/* known() are the slips that stand; record(slip, more) makes one to keep; keep(records) keeps them together;
   scored(slip), team(boat), unit() and who() as the page has them; shut() is called when the form closes. */
export function changesIn(form, { known, record, keep, scored, team, unit, who, shut }) {
  let doing = null, keeping = false;
  const line = (name) => form.elements.namedItem(name);
  const said = (name) => line(name).value.trim();
  const swaps = () => doing && doing.act === "swap";

  function open(act, target) {
    doing = { act, target };
    const { boat, day } = target.slip;
    form.reset();
    clear();
    line("person").value = who();
    at("other-line").hidden = act !== "swap";
    at("change-head").textContent = act === "swap" ? `Swap boat ${boat} with another boat` : `Take ${named(target)} of boat ${boat} out`;
    at("change-says").textContent = act === "swap"
      ? `Each boat gets what the other’s slip says. The check-in time stays with the boat. Boat ${boat}, ${team(boat)}, day ${day}: ${words.inShort(target.slip)}.`
      : `${team(boat)} then has no weight from it: ${words.inShort(target.slip)}. It stays readable, with the reason. A wrong figure is better corrected.`;
    at("change-keep").textContent = act === "swap" ? "Swap the two" : `Take ${named(target)} out`;
    form.hidden = false;
    show();
    line(act === "swap" ? "other" : "reason").focus();
  }

  function close() {
    doing = null;
    form.hidden = true;
    shut();
  }

  /* The other boat's slip, or the sentence why there is none to swap with. */
  function other() {
    const { slip } = doing.target, boat = /^\d{1,5}$/.test(said("other")) ? Number(said("other")) : null;
    if (boat === null) return "Write the number of the other boat.";
    if (boat === slip.boat) return `That is boat ${boat} itself: write the other boat.`;
    const found = known().filter((one) => one.slip.boat === boat && one.slip.day === slip.day);
    if (!found.length) return `This tablet knows of no slip of boat ${boat} for day ${slip.day}: to put this one under boat ${boat}, correct its boat number.`;
    return found.length > 1 ? `Boat ${boat} has ${found.length} slips for the day: the director settles them first.` : found[0];
  }

  const halves = (mine, its) => [[mine, its], [its, mine]].map(([one, two]) => ({ old: one, slip: knownWays.ofTheOther(one.slip, two.slip) }));

  function show() {
    const found = swaps() ? other() : null;
    at("change-shows").replaceChildren(...(found && found.slip ? halves(doing.target, found) : []).map(({ slip }) => {
      const score = scored(slip), row = element("p", "");
      row.append(element("b", `Boat ${slip.boat}, ${team(slip.boat)}`), ` gets ${words.inShort(slip)}${score && !score.faults ? `, total ${words.shown(score.total, unit())} ${unit()}` : ""}.`);
      return row;
    }));
  }

  function clear() { for (const one of form.querySelectorAll(".fault")) one.remove(); }

  function faults() {
    const found = [], boats = swaps() ? other() : null;
    if (typeof boats === "string") found.push(["other", boats]);
    else if (boats) for (const { slip } of halves(doing.target, boats)) {
      const score = scored(slip);
      if (score && score.faults) found.push(["other", `For boat ${slip.boat} the slip cannot stand: ${words.fault(score.faults[0], unit())}`]);
    }
    if (!said("reason")) found.push(["reason", "Write why, in a few words."]);
    if (!said("person")) found.push(["person", "Write who says so."]);
    return found;
  }

  function records() {
    const { target } = doing, reason = words.reasonOf(said("reason"), said("person"));
    if (!swaps()) return [record({ day: target.slip.day, boat: target.slip.boat, official: said("person"), void: true, replaces: target.slip.id, reason })];
    const its = other(), boats = [target.slip.boat, its.slip.boat];
    return halves(target, its).map(({ old, slip }) => record({ ...slip, replaces: old.slip.id, reason }, { swap: boats }));
  }

  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    if (!doing) return;
    clear();
    const wrong = faults();
    for (const [name, sentence] of wrong) line(name).closest(".field").append(element("p", sentence, { class: "fault", role: "alert" }));
    if (wrong.length) { line(wrong[0][0]).focus(); return; }
    if (keeping) return;    // a key that bounces
    keeping = true;
    try { await keep(records()); } catch (refused) {
      line("reason").closest(".field").append(element("p", "This tablet cannot keep it: its storage is full or shut. Nothing was changed. Write it on paper and call the director.", { class: "fault", role: "alert" }));
      return;
    } finally { keeping = false; }
    close();
  });
  form.addEventListener("input", () => { clear(); show(); });
  form.addEventListener("keydown", (event) => {
    if (event.key === "Escape") { close(); return; }
    if (event.key !== "Enter" || !event.target.matches("input")) return;
    event.preventDefault();
    const lines = [...form.querySelectorAll("input")].filter((one) => one.offsetParent !== null);
    const after = lines[lines.indexOf(event.target) + 1];
    if (after && !after.value) after.focus(); else form.requestSubmit();
  });
  at("change-back").addEventListener("click", close);
  return { takeOut: (target) => open("void", target), swap: (target) => open("swap", target), isOpen: () => doing !== null };
}
