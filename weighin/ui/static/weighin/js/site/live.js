/* A part of the page that asks again by itself, and says so in words when it must wait.
   <div data-live data-etag='"42"' hx-get="…" hx-trigger="every 10s"> … </div>
   <p class="as-of" data-live-note data-zone="America/Chicago" role="status">as of 14:41</p>
   Times are said in the event's own zone.
   An unchanged answer (304) leaves the page, and whatever is open on it, as it is. */
const PATIENCE = 2000;
const waiting = new WeakMap();
const note = () => document.querySelector("[data-live-note]");
const clock = () => new Date().toLocaleTimeString("en-GB", {
  hour: "2-digit", minute: "2-digit", timeZone: note()?.dataset.zone || undefined,
});
const live = (event) => event.detail.elt && event.detail.elt.closest("[data-live]");

function say(words) {
  const line = note();
  if (line && line.textContent !== words) line.textContent = words;
}

function known() {
  const line = note();
  if (!line) return "";
  if (!line.dataset.asOf) line.dataset.asOf = line.textContent.trim();
  return line.dataset.asOf;
}

document.addEventListener("htmx:configRequest", (event) => {
  const part = live(event);
  if (part && part.dataset.etag) event.detail.headers["If-None-Match"] = part.dataset.etag;
});

document.addEventListener("htmx:beforeRequest", (event) => {
  const part = live(event);
  if (!part) return;
  const words = known();
  waiting.set(part, setTimeout(() => say(`${words}, asking again`), PATIENCE));
});

document.addEventListener("htmx:afterRequest", (event) => {
  const part = live(event);
  if (!part) return;
  clearTimeout(waiting.get(part));
  const answer = event.detail.xhr;
  const line = note();
  if (answer.status === 200 || answer.status === 304) {
    const etag = answer.getResponseHeader("ETag");
    if (etag) part.dataset.etag = etag;
    if (line) {
      line.dataset.asOf = `as of ${clock()}`;
      delete line.dataset.lost;
      say(line.dataset.asOf);
    }
  } else if (line) {
    if (!line.dataset.lost) line.dataset.lost = clock();
    say(`${known()}; no answer since ${line.dataset.lost}. This page asks again by itself.`);
  }
});
