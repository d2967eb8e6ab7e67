/* The slip that was kept last, to be read back aloud, with where it is. */
import * as words from "../slip/words.js";

const element = words.element;

/* ``panel`` gets the whole of it, ``line`` one sentence. */
export function readBackIn(panel, line, record, { unit, going }) {
  const { slip, swap } = record, [mark, where, todo] = words.state(record, going);
  const told = slip.void ? `Taken out: ${slip.reason}.` : `${slip.fish} fish: ${slip.alive} alive, ${slip.dead} dead, ${slip.short || 0} short${slip.gross ? `, ${slip.gross} on the scale` : ""}${slip.big_fish ? `, big fish ${slip.big_fish}` : ""}.`;
  const fresh = [
    element("p", ["refused", "differs"].includes(record.state) ? "Kept on this tablet only" : "Kept. Read it back", { class: "label" }),
    element("p", swap ? `Boats ${swap.join(" and ")} are swapped` : `Boat ${slip.boat}, ${record.team}`, { class: "name" }), element("p", swap ? `Boat ${slip.boat}: ${told}` : told),
    element("p", slip.void ? "" : `Total ${record.total} ${unit}`, { class: "figure mid" }), element("p", where, { class: `small state is-${mark}` }), element("p", record.state === "waiting" ? "" : todo, { class: "small strong" }),
  ];
  if (panel.textContent !== fresh.map((one) => one.textContent).join("")) panel.replaceChildren(...fresh);
  line.textContent = `${swap ? `Boats ${swap.join(" and ")} swapped` : `Boat ${slip.boat}${record.total ? `, total ${record.total} ${unit}` : ", taken out"}`}: ${where}.`;
}
