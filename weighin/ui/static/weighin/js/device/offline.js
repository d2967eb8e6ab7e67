/* A page that opens without the network: its worker keeps it, and the root says so (data-alone). */

/** @param {string} address the worker's @param {() => unknown} [changed] called when it may open alone from now on */
export function keepPage(address, changed) {
  if (!("serviceWorker" in navigator)) return;
  const controlled = () => {
    if (navigator.serviceWorker.controller) document.documentElement.dataset.alone = "yes";
    if (changed) changed();
  };
  navigator.serviceWorker.addEventListener("controllerchange", controlled);
  navigator.serviceWorker.register(address).then(async (kept) => {
    controlled();
    // Switched to another language: the copy follows. A look for a new worker that began before the switch would answer for the first of these
    if (location.search.startsWith("?language=")) { await kept.update(); await kept.update(); }
  }).catch(() => {});
}

/* Asks the browser not to throw away what is kept here when it needs room. */
export function keepStorage() {
  if (navigator.storage && navigator.storage.persist) navigator.storage.persist().catch(() => {});
}
