/* A part of the page that asks again by itself, and says so in words when it must wait.
   <div data-live data-etag='"42"' hx-get="…" hx-trigger="every 10s"> … </div>
   <p class="as-of" data-live-note data-zone="America/Chicago" role="status">as of 2:41 PM</p>
   Times are said in the event's own zone.
   An unchanged answer (304) leaves the page, and whatever is open on it, as it is. */
import * as times from "../device/times.js";
import { gettext } from "./text.js";

const PATIENCE = 2000;
/** @type {WeakMap<Element, ReturnType<typeof setTimeout>>} */
const waiting = new WeakMap();
const note = () => /** @type {HTMLElement | null} */ (document.querySelector("[data-live-note]"));
const clock = () => times.clock(Date.now(), note()?.dataset.zone);
/** What htmx tells of a request. @param {Event} event @returns {HtmxDetail} */
const detailOf = (event) => /** @type {CustomEvent<HtmxDetail>} */ (event).detail;
/** @param {Event} event @returns {HTMLElement | null} */
const live = (event) => detailOf(event).elt && detailOf(event).elt.closest("[data-live]");

/** @param {string} words */
function say(words) {
  const line = note();
  if (line && line.textContent !== words) line.textContent = words;
}

function known() {
  const line = note();
  if (!line) return "";
  if (!line.dataset.asOf) line.dataset.asOf = (line.textContent || "").trim();
  return line.dataset.asOf;
}

document.addEventListener("htmx:configRequest", (event) => {
  const part = live(event);
  if (part && part.dataset.etag) detailOf(event).headers["If-None-Match"] = part.dataset.etag;
});

document.addEventListener("htmx:beforeRequest", (event) => {
  const part = live(event);
  if (!part) return;
  const words = gettext("%(known)s, asking again", { known: known() });
  waiting.set(part, setTimeout(() => say(words), PATIENCE));
});

document.addEventListener("htmx:afterRequest", (event) => {
  const part = live(event);
  if (!part) return;
  clearTimeout(waiting.get(part));
  const answer = detailOf(event).xhr;
  const line = note();
  if (answer.status === 200 || answer.status === 304) {
    const etag = answer.getResponseHeader("ETag");
    if (etag) part.dataset.etag = etag;
    if (line) {
      line.dataset.asOf = gettext("as of %(time)s", { time: clock() });
      delete line.dataset.lost;
      say(line.dataset.asOf);
    }
  } else if (line) {
    if (!line.dataset.lost) line.dataset.lost = clock();
    say(gettext("%(known)s; no answer since %(time)s. This page asks again by itself.", { known: known(), time: line.dataset.lost }));
  }
});
