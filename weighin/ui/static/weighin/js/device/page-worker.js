/* The table's page without the network: PAGE, FILES and VERSION come from the script that loads this one.
   The page and its files are taken from the tablet; what the page asks the site for always goes to the site. */
"use strict";
const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const CACHE = `weighin-table ${PAGE} ${VERSION}`;

worker.addEventListener("install", (event) => {
  event.waitUntil((async () => {
    const cache = await caches.open(CACHE);
    await cache.addAll([PAGE, ...FILES].map((address) => new Request(address, { cache: "reload" })));
    await worker.skipWaiting();
  })());
});

worker.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) {
      if (name.startsWith(`weighin-table ${PAGE} `) && name !== CACHE) await caches.delete(name);
    }
    await worker.clients.claim();
  })());
});

worker.addEventListener("fetch", (event) => {
  const address = new URL(event.request.url);
  if (event.request.method !== "GET" || address.origin !== worker.location.origin) return;
  const path = address.pathname;
  if (path !== PAGE && !FILES.includes(path) && !path.startsWith("/static/")) return;
  event.respondWith((async () => {
    const held = await (await caches.open(CACHE)).match(path) || await caches.match(path);    // what a page keeps of its own
    // Asked for in another language: from the site, where that answers
    if (held && address.search.startsWith("?language=")) return fetch(event.request, { signal: AbortSignal.timeout(5000) }).catch(() => held);
    return held || fetch(event.request);
  })());
});
