/* Slips that the site refused, in the main column until they are dealt with: what is wrong, and what to do. */
import * as words from "../slip/words.js";

const element = words.element;

const MOST = 3;

function button(name, act) {
  const made = element("button", name, { type: "button", class: "button outlined low" });
  made.addEventListener("click", act);
  return made;
}

/* Draws those among ``records`` into ``box``, those with one fault together; acts: {mend, again, aside}. */
export function showRefusedIn(box, records, { acts, mending, unit }) {
  const open = records.filter((one) => ["refused", "differs"].includes(one.state) && one.id !== mending);
  const state = JSON.stringify([open, unit]);
  if (box.dataset.state === state) return;
  box.dataset.state = state;
  box.hidden = !open.length;
  const groups = new Map();
  for (const record of open) {
    const why = words.why(record);
    groups.set(why, [...(groups.get(why) || []), record]);
  }
  const rest = [...groups.values()].slice(MOST).flat().length, more = element("p", `${rest ? `${rest} more: under Slips of this tablet. ` : ""}All that was typed stays on this tablet.`);
  box.replaceChildren(...[...groups].slice(0, MOST).map(([why, group]) => {
    const part = element("div"), acting = element("p", "", { class: "acts" }), [first] = group, refused = group.filter((one) => one.state === "refused");
    const named = group.map((one) => `boat ${one.slip.boat}${one.total ? ` (${one.total} ${unit})` : ""}`).join(", ");
    part.append(element("p", `Not on the site: ${named}`, { class: "name" }), element("p", why));
    for (const record of refused.filter((one) => !one.slip.void)) acting.append(button(`Put boat ${record.slip.boat} right`, () => acts.mend(record)));
    if (refused.length) acting.append(button(refused.length > 1 ? `Send the ${refused.length} again` : "Send it again", async () => { for (const one of refused) await acts.again(one); }));
    if (group.length === 1) acting.append(button("Set it aside", () => acts.aside(first)));
    part.append(acting);
    return part;
  }), more);
}
