/* Slips that the site refused, in the main column until they are dealt with: what is wrong, and what to do. */
import { button, element } from "../site/elements.js";
import { gettext, ngettext } from "../site/text.js";
import { why } from "../slip/record-words.js";

const MOST = 3;
const LOOK = "outlined low";

/**
 * Draws those among ``records`` into ``box``, those with one fault together.
 * @param {HTMLElement} box @param {SlipRecord[]} records
 * @param {{acts: RecordActs, editing: string | null, unit: Unit}} about
 */
export function showRefusedIn(box, records, { acts, editing, unit }) {
  const open = records.filter((one) => ["refused", "differs"].includes(one.state) && one.id !== editing);
  const state = JSON.stringify([open, unit]);
  if (box.dataset.state === state) return;
  box.dataset.state = state;
  box.hidden = !open.length;
  /** @type {Map<string, SlipRecord[]>} */
  const groups = new Map();
  for (const record of open) groups.set(why(record), [...(groups.get(why(record)) || []), record]);
  const rest = [...groups.values()].slice(MOST).flat().length;
  const more = [rest && ngettext("%(n)s more: under Slips of this tablet.", "%(n)s more: under Slips of this tablet.", rest), gettext("All that was typed stays on this tablet.")];
  box.replaceChildren(...[...groups].slice(0, MOST).map(([reason, group]) => {
    const part = element("div"), acting = element("p", "", { class: "acts" }), [first] = group, refused = group.filter((one) => one.state === "refused");
    const boats = group.map(({ slip, total }) => (total ? gettext("boat %(boat)s (%(weight)s)", { boat: slip.boat, weight: `${total} ${unit}` }) : gettext("boat %(boat)s", { boat: slip.boat }))).join(", ");
    part.append(element("p", gettext("Not on the site: %(boats)s", { boats }), { class: "name" }), element("p", reason));
    for (const record of refused.filter((one) => !one.slip.void)) acting.append(button(gettext("Correct boat %(boat)s", { boat: record.slip.boat }), () => acts.mend(record), LOOK));
    if (refused.length) {
      acting.append(button(refused.length > 1 ? ngettext("Send the %(n)s again", "Send the %(n)s again", refused.length) : gettext("Send it again"), async () => { for (const one of refused) await acts.again(one); }, LOOK));
    }
    if (group.length === 1) acting.append(button(gettext("Set it aside"), () => acts.aside(first), LOOK));
    part.append(acting);
    return part;
  }), element("p", more.filter(Boolean).join(" ")));
}
