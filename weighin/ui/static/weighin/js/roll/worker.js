/* The roll without the network: asked of the site first; where that does not answer, the last copy on this device.
   PAGE and FILES, its modules, come from the script that loads this one. A copy is marked, since its clock says nothing of now.
   How teams are reached is not kept on a device: it outlasts the day, and the copy does not know who is in by now. */
"use strict";
const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const CACHE = `weighin-roll ${PAGE}`;
const PATIENCE = 5000;

/** @param {string} path */
const isPage = (path) => path === PAGE;
/** @param {string} path */
const isStatic = (path) => path.startsWith("/static/") || FILES.includes(path);

/** @param {string} address */
function ask(address) {
  const stop = new AbortController();
  const late = setTimeout(() => stop.abort(), PATIENCE);
  return fetch(address, { cache: "no-store", credentials: "same-origin", signal: stop.signal }).finally(() => clearTimeout(late));
}

/** The page without how teams are reached. @param {Response} page */
async function copyOf(page) {
  const text = (await page.text()).replace(/<p [^>]*data-reached>[^]*?<\/p>/g, "");
  return new Response(text, { headers: page.headers });
}

/* The page, every file it names, and those its modules import. */
async function keepAll() {
  const cache = await caches.open(CACHE), page = await ask(PAGE);
  if (!page.ok || page.redirected) return;
  const files = [...(await page.clone().text()).matchAll(/(?:src|href)="(\/static\/[^"]+)"/g)].map((found) => found[1]);
  await cache.addAll([...new Set([...files, ...FILES])]);
  await cache.put(PAGE, await copyOf(page));
}

/** @param {Response} kept */
async function marked(kept) {
  const text = (await kept.text()).replace('id="roll" data-live', 'id="roll" data-kept data-live');
  return new Response(text, { headers: kept.headers });
}

/** @param {Request} request */
async function answer(request) {
  const cache = await caches.open(CACHE), address = new URL(request.url);
  try {
    const found = await ask(request.url);
    if (found.ok && !found.redirected) await cache.put(request.url, isPage(address.pathname) ? await copyOf(found.clone()) : found.clone());
    if (found.redirected || found.status === 403 || found.status === 404) await cache.delete(request.url, { ignoreSearch: true });    // no longer this reader's
    if (found.redirected) return Response.redirect(found.url);
    if (found.status < 500) return found;
    throw new Error("no answer");
  } catch (lost) {
    const kept = await cache.match(request.url) || await cache.match(request.url, { ignoreSearch: true });
    if (!kept) throw lost;
    return isPage(address.pathname) ? marked(kept) : kept;
  }
}

worker.addEventListener("install", (event) => { event.waitUntil(keepAll().then(() => worker.skipWaiting())); });
worker.addEventListener("activate", (event) => { event.waitUntil(worker.clients.claim()); });
worker.addEventListener("fetch", (event) => {
  const address = new URL(event.request.url);
  if (event.request.method !== "GET" || address.origin !== worker.location.origin) return;
  if (isPage(address.pathname) || isStatic(address.pathname)) event.respondWith(answer(event.request));
});
