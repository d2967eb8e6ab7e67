/* The next boats: those called to the scales with minutes in the bag, then those checked in; a press writes the number. */
import { clock } from "../device/times.js";
import { element } from "../site/elements.js";
import { gettext } from "../site/text.js";

const MOST = 4;

/**
 * Boats without a slip on the day, in the order in which they come; ``now`` is the site's clock in ms.
 * @param {EventDocument} eventDocument @param {number} day @param {Set<number>} weighed @param {number} now @returns {NextBoat[]}
 */
export function coming(eventDocument, day, weighed, now) {
  /** @param {{boat: number, day: number, void?: boolean}} one */
  const open = (one) => one.day === day && !one.void && !weighed.has(one.boat);
  const called = (eventDocument.called || []).filter(open);
  called.sort((a, b) => Number(Boolean(b.at_scales)) - Number(Boolean(a.at_scales)) || a.bag_issued.localeCompare(b.bag_issued));
  const limit = Number(eventDocument.rules.care_max_bag_minutes) || Infinity;
  const first = called.map((one) => {
    const minutes = Math.max(0, Math.floor((now - Date.parse(one.bag_issued)) / 60000));
    return { boat: one.boat, says: one.at_scales ? gettext("at scales, %(minutes)s min", { minutes }) : gettext("%(minutes)s min in bag", { minutes }), heed: minutes >= limit };
  });
  const arrived = eventDocument.checkins.filter((one) => open(one) && (one.checked_in || one.minutes_late != null) && !called.some((other) => other.boat === one.boat));
  arrived.sort((a, b) => Date.parse(a.checked_in || "1970") - Date.parse(b.checked_in || "1970"));
  return [...first, ...arrived.map((one) => ({
    boat: one.boat, says: one.checked_in ? gettext("in %(time)s", { time: clock(one.checked_in, eventDocument.event.time_zone) }) : gettext("checked in"),
  }))].slice(0, MOST);
}

/** Draws the strip into ``list``; ``pick(boat)`` is called at a press. @param {HTMLElement} list @param {NextBoat[]} boats @param {number} writing @param {(boat: number) => void} pick */
export function show(list, boats, writing, pick) {
  const state = JSON.stringify([boats, writing]);
  if (list.dataset.shown === state) return;
  list.dataset.shown = state;
  if (list.parentElement) list.parentElement.hidden = !boats.length;
  list.replaceChildren(...boats.map(({ boat, says, heed }) => {
    const cell = element("button", "", { type: "button", tabindex: -1, class: boat === writing ? "is-here" : "" });
    cell.append(element("b", String(boat), { class: "figure" }), element(heed ? "strong" : "span", boat === writing ? gettext("being weighed") : says));
    cell.addEventListener("click", () => pick(boat));
    const item = element("li");
    item.append(cell);
    return item;
  }));
}
