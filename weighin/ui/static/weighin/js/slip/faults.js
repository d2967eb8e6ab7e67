/* What is wrong or unlikely, said at its line. */
import * as words from "./words.js";

const element = words.element;
const COUNTED = [["alive", "Count the live fish."], ["dead", "Count the dead fish, or write 0."], ["short", "Count the short fish, or write 0."]];

export function faultsOn(page) {
  function clear() {
    for (const said of page.querySelectorAll(".fault, .doubt")) said.remove();
    for (const one of page.querySelectorAll("[aria-invalid]")) one.removeAttribute("aria-invalid");
  }

  /* ``kind`` is fault or doubt; the line it stands at. */
  function say(field, words, kind) {
    const one = page.querySelector(`[data-fault="${field}"]`) || page.querySelector("[data-fault=gross]");
    const near = one.closest(".field, .count"), more = one.closest("details");
    if (more) more.open = true;
    (near.matches(".count, .whose > .field") ? near.parentElement : near).append(element("p", words, { class: kind, role: "alert" }));
    if (kind === "fault") one.setAttribute("aria-invalid", "true");
    return one;
  }

  /* [field, sentence] of what keeps a slip from being kept. */
  function of(slip, score, { papers, unit, said, correcting }) {
    const found = [], write = (field, sentence) => found.push([field, sentence]);
    if (!papers) write("boat", "This tablet has not had the event yet. It needs the link once; until then write slips on paper.");
    if (slip.boat === null) write("boat", "Write the boat number.");
    for (const [name, sentence] of COUNTED) if (slip[name] === null) write(name, sentence);
    if (slip.dead && said("initials") && (/\p{N}/u.test(said("initials")) || !/\p{L}/u.test(said("initials")))) write("initials", `Initials are letters, and this is ${said("initials")}: is it a weight? Write who judged the fish, or leave it empty.`);
    if (slip.official && !/\p{L}/u.test(slip.official)) write("official", `Write a name, not ${slip.official}: who reads the scale.`);
    if (!slip.official) write("official", "Write who reads the scale.");
    if (papers && !slip.day) write("boat", "Every day of this event is cancelled: there is nothing to weigh.");
    if (said("checked_in") && !slip.checked_in) write("checked_in", "Write the time as 3:05 PM or 15:05, with seconds where they count: 15:05:30.");
    if (said("excused_minutes") && slip.excused_minutes === null) write("excused_minutes", "Write minutes in figures, such as 4.5.");
    if (correcting && !said("why")) write("why", "Write why it is corrected, in a few words.");
    if (correcting && !said("who")) write("who", "Write who says so.");
    if (score && score.faults) for (const one of score.faults) write(one.field, words.fault(one, unit));
    return found;
  }

  return { clear, say, of };
}
