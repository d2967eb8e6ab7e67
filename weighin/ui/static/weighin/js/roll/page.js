/* The roll: counts down to the due times, by the site's clock, and says in its headline what a part that came anew brings. */
import { by, now, part } from "./clock.js";

const SECOND = 1000;

function left(due) {
  const seconds = Math.round((due - now()) / SECOND);
  if (seconds > 0 && seconds < 120) return `in ${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
  const minutes = seconds > 0 ? Math.ceil(seconds / 60) : Math.floor(-seconds / 60);
  if (seconds <= 0 && !minutes) return "just now";
  if (minutes >= 48 * 60) return null;
  const size = minutes >= 120 ? `${Math.floor(minutes / 60)} h ${minutes % 60} min` : minutes === 1 ? "1 minute" : `${minutes} minutes`;
  return seconds > 0 ? `in ${size}` : `${size} ago`;
}

function count() {
  for (const line of part.querySelectorAll("[data-due]")) {
    const words = left(Date.parse(line.dataset.due));
    if (words && line.textContent !== words) line.textContent = words;
  }
}
if (part) {
  count();
  setInterval(count, SECOND);
  document.addEventListener("htmx:afterSwap", () => { count(); headline(); });
}

/* The headline and the margin stand outside the part that comes again: they say what it brings along. */
function headline() {
  const told = part.querySelector("[data-roll-now]");
  if (!told) return;
  by("out").textContent = told.dataset.out;
  by("of").textContent = told.dataset.of;
  if (by("headline").textContent.trim() !== told.content.textContent.trim()) by("headline").replaceChildren(told.content.cloneNode(true));
  for (const form of document.querySelectorAll("form[data-roll-in]")) if (!form.closest("#roll")) form.hidden = told.dataset.out === "0";
}
