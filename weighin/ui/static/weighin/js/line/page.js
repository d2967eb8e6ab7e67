/* Minutes in the bag count on by themselves, by the site's clock: the page says when it was made (data-now).
   <span data-since="2026-06-20T15:03:10+00:00" data-limit="10.0">8</span> and, in the same row,
   <span data-left="{} min left …" data-over="Over … by {} min …">…</span> */
const MINUTE = 60000;
const LONGEST = 12 * 60;
let ahead = 0;
let heard = "";
let calling = "";
const REST = 2000;

function setClock() {
  const told = document.querySelector("[data-now]");
  if (!told || told.dataset.now === heard) return;
  heard = told.dataset.now;
  ahead = Date.parse(heard) - Date.now();
}

function write(element, words) {
  if (element && element.textContent !== words) element.textContent = words;
}

function count() {
  setClock();
  for (const figure of document.querySelectorAll("[data-since]")) {
    const minutes = (Date.now() + ahead - Date.parse(figure.dataset.since)) / MINUTE;
    if (!(minutes >= 0) || minutes >= LONGEST) continue;
    const left = Number(figure.dataset.limit) - minutes;
    const row = figure.closest("li");
    const means = row.querySelector("[data-left]");
    write(figure, String(Math.floor(minutes)));
    row.classList.toggle("late", left < 0);
    if (left < 0) write(means, means.dataset.over.replace("{}", String(Math.max(1, Math.ceil(-left)))));
    else write(means, means.dataset.left.replace("{}", String(Math.floor(left))));
  }
}

// The big button names another boat where it stood: a second press of the hand that called the first waits.
function rest() {
  const call = document.querySelector(".button.call");
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
