/* The boats of the day with who still lacks a check, and the notes of this phone with where each is. */
import * as words from "./words.js";

const LATEST = 8;
const element = words.element;

/* ``boats`` are [{boat, team, words, lacks, here}]; ``choose`` takes a boat's number. */
function boats(list, rows, choose) {
  list.replaceChildren(...rows.map((row) => {
    const made = element("li"), button = element("button", "", { type: "button", class: "boat", "data-boat": row.boat });
    button.append(element("b", String(row.boat), { class: "figure" }), element("span", row.team, { class: "name" }));
    if (row.words) button.append(element("span", row.words, { class: `small${row.isWrong ? " strong" : ""}` }));
    if (row.where) button.append(element("span", row.where[1], { class: `state small is-${row.where[0]}` }));
    button.addEventListener("click", () => choose(row.boat));
    made.append(button);
    return made;
  }));
}

function button(name, act) {
  const made = element("button", name, { type: "button", class: "button plain" });
  made.addEventListener("click", act);
  return made;
}

/* acts: {mend, again, aside}, each with the record. */
function notes(list, records, { zone, going, acts, open }) {
  const newest = [...records].reverse();
  const shown = newest.filter((record, at) => at < LATEST || record.state === "waiting" || words.needsHand(record));
  list.replaceChildren(...shown.map((record) => {
    const [mark, short, todo] = words.state(record, going.has(record.id));
    const row = element("li", "", { "data-id": record.id, class: words.needsHand(record) ? "needs-hand" : "" });
    const more = element("details"), head = element("summary");
    if (open.has(record.id)) more.open = true;
    more.addEventListener("toggle", () => (more.open ? open.add(record.id) : open.delete(record.id)));
    head.append(element("b", String(record.note.boat), { class: "boat" }), element("span", short, { class: `state is-${mark}` }));
    const acting = element("div", "", { class: "acts" });
    if (record.state === "refused" && !record.asideAt) acting.append(button("Put it right", () => acts.mend(record)), button("Send it again", () => acts.again(record)));
    if (words.needsHand(record)) acting.append(button(record.state === "second" ? "It is settled" : "Set it aside", () => acts.aside(record)));
    const faults = (record.faults || []).map((fault) => element("p", fault.field ? `${fault.field.replace(/_/g, " ")}: ${fault.message}` : fault.message, { class: "small strong" }));
    const text = `Boat ${record.note.boat}, ${record.team}, day ${record.note.day}: ${words.said(record.note, zone)}.${record.note.replaces ? ` Corrects an earlier note: ${record.note.reason}.` : ""} Written ${words.clock(record.keptAt, zone)}. Id ${record.id}`;
    more.append(head, ...(todo ? [element("p", todo, { class: "small" })] : []), ...faults, element("p", text, { class: "as-text" }), acting);
    row.append(more);
    return row;
  }));
}

export { boats, notes };
