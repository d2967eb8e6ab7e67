/* Minutes in the bag count on by themselves, by the site's clock: the page says when it was made (data-now).
   <span data-since="2026-06-20T15:03:10+00:00" data-limit="10.0">8</span> and, in the same row,
   <span data-left="{} min left …" data-over="Over … by {} min …">…</span> */
import { write } from "../site/elements.js";

const MINUTE = 60000;
const LONGEST = 12 * 60;
const REST = 2000;
let ahead = 0, heard = "", calling = "";

function setClock() {
  const told = document.querySelector("[data-now]")?.getAttribute("data-now");
  if (!told || told === heard) return;
  heard = told;
  ahead = Date.parse(heard) - Date.now();
}

function count() {
  setClock();
  for (const figure of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-since]"))) {
    const minutes = (Date.now() + ahead - Date.parse(figure.dataset.since || "")) / MINUTE;
    if (!(minutes >= 0) || minutes >= LONGEST) continue;
    const left = Number(figure.dataset.limit) - minutes;
    const row = figure.closest("li"), means = /** @type {HTMLElement | null | undefined} */ (row?.querySelector("[data-left]"));
    write(figure, String(Math.floor(minutes)));
    row?.classList.toggle("late", left < 0);
    if (!means) continue;
    if (left < 0) write(means, (means.dataset.over || "").replace("{}", String(Math.max(1, Math.ceil(-left)))));
    else write(means, (means.dataset.left || "").replace("{}", String(Math.floor(left))));
  }
}

// The big button names another boat where it stood: a second press of the hand that called the first waits.
function rest() {
  const call = /** @type {HTMLButtonElement | null} */ (document.querySelector(".button.call"));
  if (!call || call.id === calling) return;
  calling = call.id;
  call.disabled = true;
  setTimeout(() => { call.disabled = false; }, REST);
}

document.addEventListener("htmx:afterSwap", count);
document.addEventListener("htmx:afterSwap", rest);
rest();
setInterval(count, 1000);
count();
