/* The site's clock on the page of the roll: how far this device's is off is measured when the page comes. */
export const part = document.getElementById("roll");
export const by = (name) => document.querySelector(`[data-roll-${name}]`);
const zone = by("cut-off")?.dataset.zone;

function measured() {
  const came = performance.getEntriesByType("navigation")[0];
  const ofWorker = "serviceWorker" in navigator && navigator.serviceWorker.controller;
  // A copy from this device says nothing of now
  if (!part || !came || part.dataset.kept !== undefined || (!came.transferSize && !ofWorker)) return 0;
  return Date.parse(part.dataset.now) - (performance.timeOrigin + came.responseStart);
}

export const ahead = measured();
export const now = () => Date.now() + ahead;
export const clock = (moment, seconds) => new Date(moment).toLocaleTimeString("en-GB", {
  hour: "2-digit", minute: "2-digit", second: seconds ? "2-digit" : undefined, timeZone: zone,
});
