/* Takes what a tablet's store holds to the site, and fetches the event's papers: on load, after each, and again until it works.

   One tab at a time holds the lease; two that send at once do no harm, for an item is known by its id.
   Whether there is a link is judged only by what was asked and not answered.
   const sender = makeSender({store, papers, to, key, item, notNamed, send, changed}); sender.start(), sender.go()
   to    where items go; key  their name in the body and in the answer ("slips"); item  the record's field that is sent ("slip");
   notNamed  the sentence when the site's answer names none of them
   sender.link  a Link: since when it is lost and why, or why the site takes nothing, and how far this clock is off

   ``life`` in the papers names the life of the site's database. Where it is another than before, the site was put back to
   an older copy and may lack what it had confirmed: all that this device wrote goes up again, each known by its id. */
import { gettext } from "../site/text.js";
import { caughtUp } from "./caught-up.js";
import { newId } from "./store.js";

const LEASE_MS = 25000;
const ANSWER_MS = 15000;
const WAITS = [1000, 2000, 4000, 8000, 15000, 30000];
const ROUND = 15000;
const MOST = 25;
const STATES = ["kept", "already", "differs", "second", "refused"];
const CLOCK_OFF = 120000;
const OTHER = gettext("Something other than the site answers.");

class NoLink extends Error {}
class Full extends NoLink {}
class Barred extends Error {}

/**
 * The sender of a device.
 * @param {{store: Store<any>, papers: string, to: string, key: string, item: string, notNamed: string, send: (address: string, options: RequestInit & {body?: string}) => Promise<Response>, changed: () => unknown}} what
 */
export function makeSender({ store, papers, to, key, item, notNamed, send, changed }) {
  const LEASE = `${store.name}.lease.${store.event}`;
  const me = newId();
  /** @type {Link} */
  const link = { since: null, why: "", full: false, barred: "", off: 0, restored: false, going: new Set() };
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let timer;
  let busy = false, again = false, failures = 0, single = false, wait = 0;

  function leased() {
    try {
      const held = JSON.parse(window.localStorage.getItem(LEASE) || "null");
      if (held && held.by !== me && held.until > Date.now() && held.until < Date.now() + 2 * LEASE_MS) return false;
      window.localStorage.setItem(LEASE, JSON.stringify({ by: me, until: Date.now() + LEASE_MS }));
    } catch { /* no lease without storage: sending twice is harmless */ }
    return true;
  }

  function release() {
    try {
      const held = JSON.parse(window.localStorage.getItem(LEASE) || "null");
      if (held && held.by === me) window.localStorage.removeItem(LEASE);
    } catch { /* there was none */ }
  }

  /** @param {string} address @param {RequestInit & {body?: string}} options @returns {Promise<{status: number, told?: any, etag?: string | null}>} */
  async function ask(address, options) {
    const stop = new AbortController();
    const late = setTimeout(() => stop.abort(), ANSWER_MS);
    let answer;
    try {
      answer = await send(address, { signal: stop.signal, redirect: "error", ...options });
      if (answer.status === 304) return { status: 304 };
      const told = await answer.json().catch(() => null);
      if (answer.status >= 500) {
        wait = 1000 * Number(answer.headers.get("Retry-After") || 0);
        if (answer.status === 503 && told && told.error) throw new Full(gettext("The site cannot write just now."));
        throw new NoLink(gettext("The site answers with a fault (%(status)s).", { status: answer.status }));
      }
      if (told === null) throw new NoLink(OTHER);
      if (answer.ok) return { status: answer.status, told, etag: answer.headers.get("ETag") };
      if ([401, 403, 404, 429].includes(answer.status)) {
        wait = 1000 * Number(answer.headers.get("Retry-After") || 0);
        throw new Barred(told.error || gettext("The site does not take anything from this tablet."));
      }
      return { status: answer.status, told };
    } catch (fault) {
      if (fault instanceof Barred || fault instanceof NoLink) throw fault;
      throw new NoLink(answer ? OTHER : "");
    } finally { clearTimeout(late); }
  }

  /* All that this device wrote waits again, except what was set aside and never taken. */
  async function sendAllAgain() {
    const rows = (await store.all()).filter((one) => one.state !== "waiting" && !(one.asideAt && ["refused", "differs"].includes(one.state)));
    if (rows.length) await store.keepAll(rows.map((one) => ({ ...one, state: "waiting", faults: [], answeredAt: undefined, again: true })));
    link.restored = again = true;
  }

  /* True when the event is closed. */
  async function fetchPapers() {
    const held = await store.papers();
    const since = encodeURIComponent((held && held.document.cursor) || "");
    const { status, told, etag } = await ask(`${papers}?since=${since}`, { headers: held && held.etag ? { "If-None-Match": held.etag } : {} });
    if (status === 304) return Boolean(held && held.document.event.closed);
    const copy = held && told.gone ? caughtUp(held.document, told) : told;
    if (status !== 200 || !copy.event || !copy.rules) throw new NoLink(OTHER);
    const off = Date.now() - Date.parse(told.server_time);
    link.off = Math.abs(off) > CLOCK_OFF ? off : 0;
    if (held && held.document.life && told.life && held.document.life !== told.life) await sendAllAgain();    // before the papers: cut off here, it is done again
    await store.keepPapers({ document: copy, etag: etag || null, at: Date.now() });
    return copy.event.closed;
  }

  /* Sends one body; false when nothing waits. */
  async function sendSome() {
    const waiting = (await store.all()).filter((record) => record.state === "waiting").slice(0, single ? 1 : MOST);
    if (!waiting.length) { single = false; return false; }
    link.going = new Set(waiting.map((record) => record.id));
    changed();
    const body = JSON.stringify({ [key]: waiting.map((record) => record[item]), sent: new Date().toISOString() });
    const { status, told } = await ask(to, { method: "POST", body, headers: { "Content-Type": "application/json", Prefer: "labels" } });
    if (status !== 200 && waiting.length > 1) { single = true; return true; }
    if (status !== 200) {
      const fault = { field: "", message: told.error || gettext("The site refused it (%(status)s).", { status }) };
      await store.keep({ ...waiting[0], state: "refused", faults: [fault] });
      return true;
    }
    if (!Array.isArray(told[key])) throw new NoLink(OTHER);
    link.off = told.clock ? 1000 * told.clock.off_seconds : 0;
    let named = 0;
    for (const record of waiting) {
      const answer = told[key].find((/** @type {{id: string, state: string}} */ one) => one.id === record.id && STATES.includes(one.state));
      if (!answer) continue;
      named += 1;
      await store.keep({ ...record, state: answer.state, number: answer.slip, url: answer.url, faults: answer.faults || [], answeredAt: Date.now() });
    }
    if (!named) throw new NoLink(notNamed);
    return true;
  }

  async function go() {
    if (busy) { again = true; return; }
    clearTimeout(timer);
    if (!leased()) { timer = setTimeout(go, 2000); return; }
    busy = true;
    try {
      let sent = false;
      do { again = false; while (await sendSome()) { sent = true; leased(); } } while (again);
      link.going = new Set();
      if (sent) changed();
      await store.sweep(await fetchPapers());
      Object.assign(link, { since: null, why: "", full: false, barred: "" });
      failures = 0;
    } catch (fault) {
      failures += 1;
      if (fault instanceof Barred) Object.assign(link, { barred: fault.message, since: null, why: "", full: false });
      else if (fault instanceof NoLink) Object.assign(link, { since: link.since || Date.now(), why: fault.message, full: fault instanceof Full });
      else Object.assign(link, { barred: gettext("This tablet’s storage fails: write the next ones on paper, and show this tablet to a director.") });
    } finally {
      link.going = new Set();
      busy = false;
      release();
      changed();
      const next = failures ? Math.max(wait, WAITS[Math.min(failures, WAITS.length) - 1]) : ROUND;
      wait = 0;
      timer = setTimeout(go, again ? 0 : next);
    }
  }

  function start() {
    window.addEventListener("online", go);
    window.addEventListener("pagehide", release);
    document.addEventListener("visibilitychange", () => { if (!document.hidden) go(); });
    go();
  }

  return { start, go, link };
}
