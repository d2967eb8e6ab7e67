/* The boats of the day with who still lacks a check, and the notes of this phone with where each is. */
import { clock } from "../device/times.js";
import { button, element } from "../site/elements.js";
import { gettext } from "../site/text.js";
import { needsHand, said, state } from "./words.js";

const LATEST = 8;
const LOOK = "plain";

/** ``choose`` takes a boat's number. @param {HTMLElement} list @param {BoatRow[]} rows @param {(boat: number) => void} choose */
export function boats(list, rows, choose) {
  list.replaceChildren(...rows.map((row) => {
    const made = element("li"), one = element("button", "", { type: "button", class: "boat", "data-boat": row.boat });
    one.append(element("b", String(row.boat), { class: "figure" }), element("span", row.team, { class: "name" }));
    if (row.words) one.append(element("span", row.words, { class: `small${row.isWrong ? " strong" : ""}` }));
    if (row.where) one.append(element("span", row.where[1], { class: `state small is-${row.where[0]}` }));
    one.addEventListener("click", () => choose(row.boat));
    made.append(one);
    return made;
  }));
}

/** @param {NoteRecord} record @param {string | undefined} zone */
function asText(record, zone) {
  const { note, team, keptAt, id } = record, { boat, day, reason } = note;
  return [
    gettext("Boat %(boat)s, %(team)s, day %(day)s: %(note)s.", { boat, team, day, note: said(note, zone) }),
    note.replaces ? gettext("Corrects an earlier note: %(reason)s.", { reason }) : "", gettext("Written %(time)s.", { time: clock(keptAt, zone) }), gettext("Id %(id)s", { id }),
  ].filter(Boolean).join(" ");
}

/**
 * @param {HTMLElement} list @param {NoteRecord[]} records
 * @param {{zone: string | undefined, going: Set<string>, open: Set<string>, acts: Record<"mend" | "again" | "aside", (record: NoteRecord) => unknown>}} about
 */
export function notes(list, records, { zone, going, acts, open }) {
  const newest = [...records].reverse();
  const shown = newest.filter((record, at) => at < LATEST || record.state === "waiting" || needsHand(record));
  list.replaceChildren(...shown.map((record) => {
    const [mark, short, todo] = state(record, going.has(record.id));
    const row = element("li", "", { "data-id": record.id, class: needsHand(record) ? "needs-hand" : "" });
    const more = element("details"), head = element("summary");
    if (open.has(record.id)) more.open = true;
    more.addEventListener("toggle", () => (more.open ? open.add(record.id) : open.delete(record.id)));
    head.append(element("b", String(record.note.boat), { class: "boat" }), element("span", short, { class: `state is-${mark}` }));
    const acting = element("div", "", { class: "acts" });
    const of = gettext("boat %(boat)s", { boat: record.note.boat });
    if (record.state === "refused" && !record.asideAt) {
      acting.append(button(gettext("Correct it"), () => acts.mend(record), LOOK, of), button(gettext("Send it again"), () => acts.again(record), LOOK, of));
    }
    if (needsHand(record)) acting.append(button(record.state === "second" ? gettext("It is settled") : gettext("Set it aside"), () => acts.aside(record), LOOK, of));
    const faults = (record.faults || []).map(({ field, message }) => element("p", field ? gettext("%(field)s: %(fault)s", { field: field.replace(/_/g, " "), fault: message }) : message, { class: "small strong" }));
    more.append(head, ...(todo ? [element("p", todo, { class: "small" })] : []), ...faults, element("p", asText(record, zone), { class: "as-text" }), acting);
    row.append(more);
    return row;
  }));
}
