// The service worker: answers from the saved copy when the network does not. It saves nothing by itself; assets/js/offline.js does,
// and tells it when what is saved has changed. Files whose path carries a version come from the saved copy first, everything else
// from the network first. Where nothing is saved it stays out of the way.

/** @typedef {{ cache: string }} Saved What assets/js/offline.js wrote of it; the rest is its own. */

const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));

const SCOPE = worker.registration.scope;
const PREFIX = `piping-bench:${new URL(SCOPE).pathname}:`;
const STATE = `${PREFIX}state`;
const FOR_EVER = /^assets\/(js-|css-|runtime\/|javascripts\/|fonts\/)/;
const NEVER = /^(sw\.js|offline\.json)$/;
const PATIENCE = 3000; // ms; how long the network may take where a saved copy is at hand
const HURRY = 20_000; // ms; how long after that the saved copy comes first

/** @type {Promise<Saved | null> | null} */
let known = null;
let hurryUntil = 0;

async function readState() {
  const kept = (await caches.has(STATE)) ? await (await caches.open(STATE)).match(SCOPE) : undefined;
  return kept ? /** @type {Saved} */ (await kept.json()) : null;
}

function state() {
  known ??= readState().catch(() => null);
  return known;
}

worker.addEventListener("install", () => {
  worker.skipWaiting();
});

worker.addEventListener("activate", (event) => {
  event.waitUntil(worker.clients.claim());
});

worker.addEventListener("message", (event) => {
  if (event.data === "changed") known = null;
});

worker.addEventListener("fetch", (event) => {
  const { request } = event;
  const path = request.url.startsWith(SCOPE) ? new URL(request.url).pathname.slice(new URL(SCOPE).pathname.length) : null;
  if (request.method !== "GET" || path === null || NEVER.test(path)) return;
  event.respondWith(FOR_EVER.test(path) ? savedFirst(request) : networkFirst(request, path));
});

/** @param {Request} request */
async function savedFirst(request) {
  const saved = await state();
  if (!saved) return fetch(request);
  const current = await (await caches.open(saved.cache)).match(request.url);
  if (current) return current;
  for (const name of await caches.keys()) {
    // an older build that a page still runs on, or a newer one that is half saved: a path with a version is the same in each
    if (!name.startsWith(PREFIX) || name === STATE || name === saved.cache) continue;
    const found = await (await caches.open(name)).match(request.url);
    if (found) return found;
  }
  return fetch(request);
}

/** @param {Request} request @param {string} path */
async function networkFirst(request, path) {
  const saved = await state();
  if (!saved) return fetch(request);
  const copy = await copyOf(saved, path);
  if (copy && Date.now() < hurryUntil) return copy;
  const asked = fetch(request);
  try {
    const answered = await (copy ? Promise.race([asked, tooLong()]) : asked);
    if (!answered) {
      asked.catch(() => {});
      hurryUntil = Date.now() + HURRY;
    }
    if (answered && (answered.status < 500 || !copy)) return answered;
  } catch (error) {
    if (!copy && request.mode !== "navigate") throw error;
  }
  return copy ?? notSaved();
}

/** @returns {Promise<null>} */
function tooLong() {
  return new Promise((resolve) => setTimeout(resolve, PATIENCE, null));
}

/**
 * The saved copy of a path, whichever way a page's address is written.
 * @param {Saved} saved @param {string} path
 */
async function copyOf(saved, path) {
  const cache = await caches.open(saved.cache);
  const whole = path.replace(/(^|\/)index\.html$/, "$1");
  const found = await cache.match(SCOPE + whole);
  if (found) return found;
  const isFolder = !whole.endsWith("/") && (await cache.match(`${SCOPE}${whole}/`));
  return isFolder ? Response.redirect(`${SCOPE}${whole}/`, 302) : undefined;
}

function notSaved() {
  const text = `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>Not saved - Piping Bench</title><h1>This page is not among those that are saved</h1>
<p>The network does not answer, and no page of this address is saved on this device.</p>
<p><a href="${SCOPE}">The first page of the handbook</a></p></html>`;
  return new Response(text, { status: 503, headers: { "content-type": "text/html; charset=utf-8" } });
}
