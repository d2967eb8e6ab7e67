/* The day a slip is written for: the one going on, unless a hand picks another; one that has not begun is said at once. */
import * as times from "../device/times.js";
import { first } from "../site/elements.js";
import { gettext } from "../site/text.js";

const EARLY = 6 * 36e5;    // so long before the start of the first day nobody weighs

/**
 * ``now()`` is the site's clock in ms, ``idle()`` whether nothing is being written.
 * @param {HTMLInputElement} select @param {HTMLElement} choice @param {HTMLElement} box
 * @param {{now: () => number, idle: () => boolean, chosen: () => void}} about
 */
export function dayChoice(select, choice, box, { now, idle, chosen }) {
  /** @type {EventDay[]} */
  let days = [];
  let zone = "", picked = "", going = "";
  const back = first("button", box);

  /* The day going on is followed from night to night; what a hand picked holds until then. */
  function follow() {
    const day = days.length ? String(times.dayNow(days, now()).day) : "";
    if (day !== going) { going = day; picked = ""; }
    if (idle() && select.value !== (picked || going)) { select.value = picked || going; chosen(); }
  }

  /** @param {EventDocument} eventDocument */
  function take(eventDocument) {
    days = eventDocument.days.filter((day) => day.status !== "cancelled");
    zone = eventDocument.event.time_zone;
    const before = select.value;
    select.replaceChildren(...days.map((day) => new Option(`${day.day}, ${times.dated(day)}`, String(day.day))));
    choice.hidden = days.length < 2;
    if (days.some((day) => String(day.day) === before)) select.value = before;
    else select.value = String(days.length ? times.dayNow(days, now()).day : "");
    follow();
  }

  /* Why nothing can be weighed for the day that is chosen; empty where it can. */
  function early() {
    const day = days.find((one) => String(one.day) === select.value);
    if (!day || now() >= Date.parse(day.start) - (select.value === going ? EARLY : 0)) return "";
    return gettext("Day %(day)s has not begun. It starts %(date)s at %(time)s.", { day: day.day, date: times.dated(day), time: times.clock(day.start, zone) });
  }

  function show() {
    const why = early(), other = select.value !== going;
    if (box.hidden === !why && box.dataset.why === why) return;
    box.hidden = !why;
    box.dataset.why = why;
    first("b", box).textContent = why;
    first("span", box).textContent = other ? gettext("No slip can be saved for it yet. What you typed stays. Day %(day)s is going on.", { day: going })
      : gettext("No slip can be saved for it yet: wait, or ask a director to correct the day.");
    back.hidden = !other;
    back.textContent = gettext("Set it to day %(day)s", { day: going });
  }

  select.addEventListener("change", () => { picked = select.value; });
  back.addEventListener("click", () => { picked = ""; select.value = going; chosen(); });
  return { take, follow, early, show };
}
