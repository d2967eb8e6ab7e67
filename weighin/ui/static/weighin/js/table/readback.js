/* The slip that was kept last, to be read back aloud, with where it is. */
import { element } from "../site/elements.js";
import { gettext } from "../site/text.js";
import { state } from "../slip/record-words.js";
import { counts } from "../slip/words.js";

/** @param {Slip} slip */
function told(slip) {
  if (slip.void) return gettext("Void: %(reason)s.", { reason: slip.reason });
  return `${[counts(slip), slip.gross && gettext("%(weight)s on the scale", { weight: slip.gross }), slip.big_fish && gettext("big fish %(weight)s", { weight: slip.big_fish })].filter(Boolean).join(", ")}.`;
}

/** ``panel`` gets the whole of it, ``line`` one sentence. @param {HTMLElement} panel @param {HTMLElement} line @param {SlipRecord} record @param {{unit: Unit, going: boolean}} about */
export function readBackIn(panel, line, record, { unit, going }) {
  const { slip, swap, team, total } = record, { boat } = slip, [mark, where, todo] = state(record, going);
  const boats = swap && { one: swap[0], other: swap[1] };
  const weight = `${total} ${unit}`;
  const fresh = [
    element("p", ["refused", "differs"].includes(record.state) ? gettext("Saved on this tablet only") : gettext("Saved. Read it back"), { class: "label" }),
    element("p", boats ? gettext("Boats %(one)s and %(other)s are swapped", boats) : gettext("Boat %(boat)s, %(team)s", { boat, team }), { class: "name" }),
    element("p", swap ? gettext("Boat %(boat)s: %(slip)s", { boat, slip: told(slip) }) : told(slip)),
    element("p", slip.void ? "" : gettext("Total %(weight)s", { weight }), { class: "figure mid" }), element("p", where, { class: `small state is-${mark}` }), element("p", record.state === "waiting" ? "" : todo, { class: "small strong" }),
  ];
  if (panel.textContent !== fresh.map((one) => one.textContent).join("")) panel.replaceChildren(...fresh);
  line.textContent = boats ? gettext("Boats %(one)s and %(other)s swapped: %(where)s.", { ...boats, where })
    : total ? gettext("Boat %(boat)s, total %(weight)s: %(where)s.", { boat, weight, where }) : gettext("Boat %(boat)s, void: %(where)s.", { boat, where });
}
