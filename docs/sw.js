// The service worker: answers from the saved copy when the network does not. It saves nothing by itself; assets/js/offline.js does,
// and tells it when what is saved has changed. Files whose path carries a version come from the saved copy first, everything else
// from the network first. A host that answers with a refusal, with a stranger's page or with another type counts as none where there is a saved
// copy, and the page is told. Where nothing is saved it stays out of the way.

/** @typedef {{ cache: string }} Saved What assets/js/offline.js wrote of it; the rest is its own. */

const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));

const SCOPE = worker.registration.scope;
const PREFIX = `piping-bench:${new URL(SCOPE).pathname}:`;
const STATE = `${PREFIX}state`;
const FOR_EVER = /^assets\/(js-|css-|runtime\/|javascripts\/|fonts\/)/;
const NEVER = /^(sw\.js|offline\.json)$/;
const PATIENCE = 3000; // ms; how long the network may take where a saved copy is at hand
const HURRY = 20_000; // ms; how long after that the saved copy comes first
const OURS = "handbook-all.css"; // in the head of every page of the handbook
const HEAD = 65_536; // bytes of a page that are looked at for it

/** @type {Promise<Saved | null> | null} */
let known = null;
let hurryUntil = 0;
let otherwise = ""; // how the host answered last, where the saved copy had to stand in for it

async function readState() {
  const kept = (await caches.has(STATE)) ? await (await caches.open(STATE)).match(SCOPE) : undefined;
  const saved = kept ? /** @type {Saved} */ (await kept.json()) : null;
  return typeof saved?.cache === "string" && saved.cache.startsWith(PREFIX) ? saved : null;
}

/** Tell every page of the handbook how the host answers. @param {string} how */
async function tell(how) {
  if (how === otherwise) return;
  otherwise = how;
  for (const client of await worker.clients.matchAll()) client.postMessage({ kind: "otherwise", how });
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
  if (event.data === "how") event.source?.postMessage({ kind: "otherwise", how: otherwise });
});

worker.addEventListener("fetch", (event) => {
  const { request } = event;
  const path = request.url.startsWith(SCOPE) ? new URL(request.url).pathname.slice(new URL(SCOPE).pathname.length) : null;
  if (request.method !== "GET" || path === null || NEVER.test(path)) return;
  if (FOR_EVER.test(path)) event.respondWith(savedFirst(request));
  // what is fetched to be saved has to be the host's own answer, late or wrong as it may be: offline.js judges it (workers are versioned)
  else if (request.mode !== "same-origin") event.respondWith(networkFirst(request, path));
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
    if (!copy) return await asked;
    const judged = await Promise.race([asked.then(async (answered) => ({ answered, fault: await faultOf(answered, copy) })), tooLong()]);
    const isPage = request.mode === "navigate" || kindOf(copy) === "text/html";
    if (judged && !judged.fault) {
      if (isPage) tell("");
      return judged.answered;
    }
    if (judged) {
      if (isPage || !otherwise) tell(judged.fault); // what a page met is not unsaid by its pictures
    } else {
      asked.catch(() => {});
      hurryUntil = Date.now() + HURRY;
    }
  } catch (error) {
    if (!copy && request.mode !== "navigate") throw error;
  }
  return copy ?? notSaved();
}

const kindOf = (/** @type {Response} */ response) => (response.headers.get("content-type") ?? "").split(";")[0].trim().toLowerCase();

/**
 * What is wrong with an answer of the host, seen beside the saved copy of the same; nothing where it is as it should be.
 * @param {Response} answered @param {Response} copy
 */
async function faultOf(answered, copy) {
  if (answered.type === "opaqueredirect") return copy.status === 302 ? "" : "it leads elsewhere";
  if (!answered.ok && answered.status !== 304) return `it answered ${answered.status}`;
  if (answered.status === 304 || copy.status === 302) return "";
  if (kindOf(copy) !== "text/html") return kindOf(answered) === "text/html" ? "it sent a page in place of a file" : "";
  if (kindOf(answered) !== "text/html") return `it sent ${kindOf(answered) || "no type"} in place of a page`;
  return (await isOurs(answered)) ? "" : "it sent a page that is not the handbook’s";
}

/** Whether a page is one of the handbook's, by its head. @param {Response} answered */
async function isOurs(answered) {
  const reader = /** @type {ReadableStream<Uint8Array>} */ (answered.clone().body).getReader();
  const decoder = new TextDecoder();
  let text = "";
  while (text.length < HEAD && !text.includes(OURS)) {
    const { done, value } = await reader.read();
    if (done) break;
    text += decoder.decode(value, { stream: true });
  }
  reader.cancel();
  return text.includes(OURS);
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
