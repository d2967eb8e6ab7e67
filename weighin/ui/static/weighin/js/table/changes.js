/* Taking a slip out, and swapping two boats' slips in one act: with a reason and a person, with or without a link.

   A swap is two corrections, kept on the tablet together and sent in one body. Each says all there is to say of its boat
   and names the slip it replaces, so they may arrive in any order and as often as they like; at no moment has a boat two
   slips. The site takes each by itself: if it refuses one, that one says so and asks for a hand. */
import { shown } from "../scoring/weights.js";
import { at, element, linesOf, targetOf } from "../site/elements.js";
import { gettext } from "../site/text.js";
import { ofTheOther } from "../slip/slip-index.js";
import { fault, inShort, reasonOf, slipNamed } from "../slip/words.js";

/**
 * known() are the slips that stand; record(slip, more) makes one to keep; keep(records) keeps them together;
 * scored(slip), team(boat), unit() and who() as the page has them; shut() is called when the form closes.
 * @param {HTMLFormElement} form
 * @param {{known: () => Standing[], record: (slip: Partial<Slip>, more?: Partial<SlipRecord>) => SlipRecord, keep: (records: SlipRecord[]) => Promise<void>,
 *   scored: (slip: Partial<Slip>) => Score | null, team: (boat: number) => string, unit: () => Unit, who: () => string, shut: () => void}} page
 */
export function changesIn(form, { known, record, keep, scored, team, unit, who, shut }) {
  /** @type {{act: "void" | "swap", target: Standing} | null} */
  let doing = null;
  let keeping = false;
  const line = linesOf(form);
  /** @param {string} name */
  const said = (name) => line(name).value.trim();

  /** @param {"void" | "swap"} act @param {Standing} target */
  function open(act, target) {
    doing = { act, target };
    const { boat, day } = target.slip, slip = slipNamed(target.number), values = { boat, day, slip, says: inShort(target.slip), team: team(boat) };
    form.reset();
    clear();
    line("person").value = who();
    at("other-line").hidden = act !== "swap";
    if (act === "swap") {
      at("change-head").textContent = gettext("Swap boat %(boat)s with another boat", values);
      at("change-says").textContent = gettext("Each boat gets what the other’s slip says. The check-in time stays with the boat. Boat %(boat)s, %(team)s, day %(day)s: %(says)s.", values);
      at("change-keep").textContent = gettext("Swap the two");
    } else {
      at("change-head").textContent = gettext("Void %(slip)s of boat %(boat)s", values);
      at("change-says").textContent = gettext("%(team)s then has no weight from it: %(says)s. It stays readable, with the reason. A wrong figure is better corrected.", values);
      at("change-keep").textContent = gettext("Void %(slip)s", values);
    }
    form.hidden = false;
    show();
    line(act === "swap" ? "other" : "reason").focus();
  }

  function close() {
    doing = null;
    form.hidden = true;
    shut();
  }

  /** The other boat's slip, or the sentence why there is none to swap with. @param {Standing} target */
  function other({ slip }) {
    const { day } = slip, boat = /^\d{1,5}$/.test(said("other")) ? Number(said("other")) : null;
    if (boat === null) return gettext("Write the number of the other boat.");
    if (boat === slip.boat) return gettext("That is boat %(boat)s itself: write the other boat.", { boat });
    const found = known().filter((one) => one.slip.boat === boat && one.slip.day === day);
    if (!found.length) return gettext("This tablet knows of no slip of boat %(boat)s for day %(day)s: to put this one under boat %(boat)s, correct its boat number.", { boat, day });
    return found.length > 1 ? gettext("Boat %(boat)s has %(slips)s slips for the day: the director settles them first.", { boat, slips: found.length }) : found[0];
  }

  /** @param {Standing} mine @param {Standing} its */
  const halves = (mine, its) => [[mine, its], [its, mine]].map(([one, two]) => ({ old: one, slip: ofTheOther(one.slip, two.slip) }));

  function show() {
    const found = doing && doing.act === "swap" ? other(doing.target) : null;
    const both = doing && found && typeof found !== "string" ? halves(doing.target, found) : [];
    at("change-shows").replaceChildren(...both.map(({ slip }) => {
      const score = scored(slip), row = element("p", ""), gets = inShort(slip);
      row.append(element("b", gettext("Boat %(boat)s, %(team)s", { boat: slip.boat, team: team(slip.boat) })), " ",
        score && !("faults" in score) ? gettext("gets %(slip)s, total %(weight)s.", { slip: gets, weight: `${shown(score.total, unit())} ${unit()}` }) : gettext("gets %(slip)s.", { slip: gets }));
      return row;
    }));
  }

  function clear() { for (const one of form.querySelectorAll(".fault")) one.remove(); }

  /** @param {string} name @param {string} sentence */
  function say(name, sentence) { line(name).closest(".field")?.append(element("p", sentence, { class: "fault", role: "alert" })); }

  /** What keeps it from being kept, and the slips to keep. @param {"void" | "swap"} act @param {Standing} target */
  function read(act, target) {
    /** @type {[string, string][]} */
    const wrong = [];
    const its = act === "swap" ? other(target) : null;
    const both = its && typeof its !== "string" ? halves(target, its) : [];
    if (typeof its === "string") wrong.push(["other", its]);
    for (const { slip } of both) {
      const score = scored(slip);
      if (score && "faults" in score) wrong.push(["other", gettext("For boat %(boat)s the slip cannot stand: %(fault)s", { boat: slip.boat, fault: fault(score.faults[0], unit()) })]);
    }
    if (!said("reason")) wrong.push(["reason", gettext("Write why, in a few words.")]);
    if (!said("person")) wrong.push(["person", gettext("Write by whom.")]);
    const reason = reasonOf(said("reason"), said("person")), { day, boat, id } = target.slip;
    /** @type {[number, number] | undefined} */
    const swap = its && typeof its !== "string" ? [boat, its.slip.boat] : undefined;
    const made = () => (act === "swap" ? both.map(({ old, slip }) => record({ ...slip, replaces: old.slip.id, reason }, { swap }))
      : [record({ day, boat, official: said("person"), void: true, replaces: id, reason })]);
    return { wrong, made };
  }

  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    if (!doing) return;
    clear();
    const { wrong, made } = read(doing.act, doing.target);
    for (const [name, sentence] of wrong) say(name, sentence);
    if (wrong.length) { line(wrong[0][0]).focus(); return; }
    if (keeping) return;    // a key that bounces
    keeping = true;
    try { await keep(made()); } catch {
      say("reason", gettext("This tablet cannot save it: its storage is full or blocked. Nothing was changed. Write it on paper and call the director."));
      return;
    } finally { keeping = false; }
    close();
  });
  form.addEventListener("input", () => { clear(); show(); });
  form.addEventListener("keydown", (event) => {
    const from = targetOf(event);
    if (event.key === "Escape") { close(); return; }
    if (event.key !== "Enter" || !from.matches("input")) return;
    event.preventDefault();
    const lines = [...form.querySelectorAll("input")].filter((one) => one.offsetParent !== null);
    const after = lines[lines.indexOf(from) + 1];
    if (after && !after.value) after.focus(); else form.requestSubmit();
  });
  at("change-back").addEventListener("click", close);
  /** @param {Standing} target */
  const takeOut = (target) => open("void", target);
  /** @param {Standing} target */
  const swap = (target) => open("swap", target);
  return { takeOut, swap };
}
