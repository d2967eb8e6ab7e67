/* The roll: counts down to the due times, by the site's clock, and says in its headline what a part that came anew brings. */
import { write } from "../site/elements.js";
import { gettext, ngettext } from "../site/text.js";
import { by, now, part } from "./clock.js";

const SECOND = 1000;

/** How long until it is due, or since; null beyond two days. @param {number} due */
function left(due) {
  const seconds = Math.round((due - now()) / SECOND);
  if (seconds > 0 && seconds < 120) return gettext("in %(time)s", { time: `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}` });
  const minutes = seconds > 0 ? Math.ceil(seconds / 60) : Math.floor(-seconds / 60);
  if (seconds <= 0 && !minutes) return gettext("just now");
  if (minutes >= 48 * 60) return null;
  const hours = Math.floor(minutes / 60), rest = { hours, minutes: minutes % 60 };
  if (minutes >= 120) return seconds > 0 ? gettext("in %(hours)s h %(minutes)s min", rest) : gettext("%(hours)s h %(minutes)s min ago", rest);
  return seconds > 0 ? ngettext("in %(n)s minute", "in %(n)s minutes", minutes) : ngettext("%(n)s minute ago", "%(n)s minutes ago", minutes);
}

function count() {
  for (const line of part.querySelectorAll("[data-due]")) {
    const words = left(Date.parse(line.getAttribute("data-due") || ""));
    if (words) write(line, words);
  }
}

/* The headline and the margin stand outside the part that comes again: they say what it brings along. */
function headline() {
  const told = /** @type {HTMLTemplateElement | null} */ (part.querySelector("[data-roll-now]"));
  if (!told) return;
  by("out").textContent = told.dataset.out || "";
  by("of").textContent = told.dataset.of || "";
  if (by("headline").textContent?.trim() !== told.content.textContent?.trim()) by("headline").replaceChildren(told.content.cloneNode(true));
  for (const form of document.querySelectorAll("form[data-roll-in]")) if (!form.closest("#roll")) form.toggleAttribute("hidden", told.dataset.out === "0");
}

if (part) {
  count();
  setInterval(count, SECOND);
  document.addEventListener("htmx:afterSwap", () => { count(); headline(); });
}
