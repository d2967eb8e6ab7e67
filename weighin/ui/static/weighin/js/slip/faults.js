/* What is wrong or unlikely, said at its line. */
import { element } from "../site/elements.js";
import { gettext } from "../site/text.js";
import { fault } from "./words.js";

/** @type {["alive" | "dead" | "short", string][]} */
const COUNTED = [["alive", gettext("Count the live fish.")], ["dead", gettext("Count the dead fish, or write 0.")], ["short", gettext("Count the short fish, or write 0.")]];

/** @param {HTMLElement} page */
export function faultsOn(page) {
  function clear() {
    for (const said of page.querySelectorAll(".fault, .doubt")) said.remove();
    for (const one of page.querySelectorAll("[aria-invalid]")) one.removeAttribute("aria-invalid");
  }

  /** Says it at the line, which it gives. @param {string} field @param {string} words @param {"fault" | "doubt"} kind */
  function say(field, words, kind) {
    const one = /** @type {HTMLInputElement} */ (page.querySelector(`[data-fault="${field}"]`) || page.querySelector("[data-fault=gross]"));
    const near = /** @type {HTMLElement} */ (one.closest(".field, .count")), more = one.closest("details");
    if (more) more.open = true;
    const place = near.matches(".count, .whose > .field") ? near.parentElement || near : near;
    place.append(element("p", words, { class: kind, role: "alert" }));
    if (kind === "fault") one.setAttribute("aria-invalid", "true");
    return one;
  }

  /**
   * [field, sentence] of what keeps a slip from being kept.
   * @param {Typed} slip @param {Score | null} score
   * @param {{eventDocument: EventDocument | null, unit: Unit, said: (name: string) => string | null, correcting: unknown}} about
   */
  function of(slip, score, { eventDocument, unit, said, correcting }) {
    /** @type {[string, string][]} */
    const found = [];
    /** @param {string} field @param {string} sentence */
    const write = (field, sentence) => found.push([field, sentence]);
    const initials = said("initials"), official = slip.official;
    if (!eventDocument) write("boat", gettext("This tablet has not had the event yet. It needs the link once; until then write slips on paper."));
    if (slip.boat === null) write("boat", gettext("Write the boat number."));
    for (const [name, sentence] of COUNTED) if (slip[name] === null) write(name, sentence);
    if (slip.dead && initials && (/\p{N}/u.test(initials) || !/\p{L}/u.test(initials))) write("initials", gettext("Initials are letters, and this is %(initials)s: is it a weight? Write who judged the fish, or leave it empty.", { initials }));
    if (official && !/\p{L}/u.test(official)) write("official", gettext("Write a name, not %(official)s: who reads the scale.", { official }));
    if (!official) write("official", gettext("Write who reads the scale."));
    if (eventDocument && !slip.day) write("boat", gettext("Every day of this event is cancelled: there is nothing to weigh."));
    if (said("checked_in") && !slip.checked_in) write("checked_in", gettext("Write the time as 3:05 PM or 15:05, with seconds where they count: 15:05:30."));
    if (said("excused_minutes") && slip.excused_minutes === null) write("excused_minutes", gettext("Write minutes in figures, such as 4.5."));
    if (correcting && !said("why")) write("why", gettext("Write why it is corrected, in a few words."));
    if (correcting && !said("who")) write("who", gettext("Write by whom."));
    if (score && "faults" in score) for (const one of score.faults) write(one.field, fault(one, unit));
    return found;
  }

  return { clear, say, of };
}
