/* The site's clock on the page of the roll: how far this device's is off is measured when the page comes. The site made the
   page at some moment between asking and answer, so the smallest difference that agrees with both is taken: none, mostly. */
import * as times from "../device/times.js";

/** The part of the page that comes again; null where there is no roll yet. */
export const part = /** @type {HTMLElement} */ (document.getElementById("roll"));
/** @param {string} name */
export const by = (name) => /** @type {HTMLElement} */ (document.querySelector(`[data-roll-${name}]`));
const zone = by("cut-off")?.dataset.zone;

function measured() {
  const came = /** @type {PerformanceNavigationTiming | undefined} */ (performance.getEntriesByType("navigation")[0]);
  const ofWorker = "serviceWorker" in navigator && navigator.serviceWorker.controller;
  // A copy from this device says nothing of now
  if (!part || !came || part.dataset.kept !== undefined || (!came.transferSize && !ofWorker)) return 0;
  const made = Date.parse(part.dataset.now || "") - performance.timeOrigin;
  return Math.max(made - came.responseStart, Math.min(made - came.fetchStart, 0));
}

export const ahead = measured();
export const now = () => Date.now() + ahead;
/** @param {string | number} moment @param {boolean} [seconds] */
export const clock = (moment, seconds) => times.clock(moment, zone, seconds);
