// The service worker: what is saved is answered from the device when the network is not there or slow, and stays out of the way otherwise.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { beforeEach, mock, test } from "node:test";
import { createContext, runInContext } from "node:vm";

const SOURCE = readFileSync(new URL("../../docs/sw.js", import.meta.url), "utf8");
const SCOPE = "https://handbook.example/cakes/";
const PREFIX = "piping-bench:/cakes/:";
const CACHE = `${PREFIX}build.code`;

const OURS = '<!doctype html><link rel="stylesheet" href="../assets/css-1/handbook-all.css">';
const HTML = { "content-type": "text/html; charset=utf-8" };

/** @type {Map<string, Map<string, string>>} Caches by name: texts by address. */
let kept = new Map();
/** @type {Record<string, (event: any) => void>} */
let listeners = {};
/** @type {(request: Request) => Promise<Response>} What the network does. */
let network;
let fetched = 0;
/** @type {string[]} How the host answers, as pages hear of it. */
let heard = [];

const caches = {
  has: async (/** @type {string} */ name) => kept.has(name),
  keys: async () => [...kept.keys()],
  open: async (/** @type {string} */ name) => ({
    match: async (/** @type {string} */ address) => {
      const text = kept.get(name)?.get(address);
      return text === undefined ? undefined : new Response(text, text.startsWith("<!doctype html>") ? { headers: HTML } : {});
    },
  }),
};

beforeEach(() => {
  mock.timers.reset();
  mock.timers.enable({ apis: ["setTimeout", "Date"] });
  kept = new Map();
  listeners = {};
  fetched = 0;
  heard = [];
  network = async () => new Response("from the network");
  const self = { registration: { scope: SCOPE }, skipWaiting() {}, clients: { claim: async () => {}, matchAll: async () => [{ postMessage: (/** @type {{ how: string }} */ told) => heard.push(told.how) }] }, addEventListener: (/** @type {string} */ name, /** @type {any} */ act) => { listeners[name] = act; } };
  const fetch = (/** @type {Request} */ request) => { fetched += 1; return network(request); };
  const context = createContext({ self, caches, fetch, Response: Object.assign(responseAt, { redirect }), URL, Promise, TextDecoder, setTimeout: (/** @type {any} */ ...all) => setTimeout(.../** @type {[any]} */ (all)), Date });
  runInContext(SOURCE, context);
});

/** @param {ConstructorParameters<typeof Response>} given */
function responseAt(...given) {
  return new Response(...given);
}

/** A redirect whose address can be read. @param {string} address @param {number} status */
function redirect(address, status) {
  return new Response(null, { status, headers: { location: address } });
}

/** Save a build on the device. @param {Record<string, string>} files */
function save(files) {
  kept.set(`${PREFIX}state`, new Map([[SCOPE, JSON.stringify({ cache: CACHE })]]));
  kept.set(CACHE, new Map(Object.entries(files).map(([path, text]) => [SCOPE + path, text])));
  listeners.message({ data: "changed" });
}

/** What a page gets; null where the worker leaves it to the browser. @param {string} path @param {object} [how] @returns {Promise<Response | null>} */
async function ask(path, { method = "GET", mode = "navigate" } = {}) {
  let answered = null;
  const url = path.startsWith("https:") ? path : SCOPE + path;
  listeners.fetch({ request: { url, method, mode }, respondWith: (/** @type {Promise<Response>} */ answer) => { answered = answer; } });
  return await answered;
}

const text = async (/** @type {Promise<Response | null>} */ asked) => (await asked)?.text();

const gone = async () => { throw new TypeError("no network"); };

test("where nothing is saved everything comes from the network, and its faults are the browser's", async () => {
  assert.equal(await text(ask("swags/")), "from the network");
  assert.equal(await text(ask("assets/js-1234/handbook.js")), "from the network");
  network = gone;
  await assert.rejects(ask("swags/"), /no network/);
});

test("what is not its business is left to the browser", async () => {
  save({ "": "saved" });
  for (const path of ["sw.js", "offline.json", "https://handbook.example/other/", "https://elsewhere.example/cakes/"]) assert.equal(await ask(path), null, path);
  assert.equal(await ask("", { method: "POST" }), null);
});

test("what is fetched to be saved is the host's own answer, however late or wrong", async () => {
  save({ "swags/": "saved", "assets/js-1234/worker.js": "saved" });
  assert.equal(await ask("swags/", { mode: "same-origin" }), null);
  assert.equal(await text(ask("assets/js-1234/worker.js", { mode: "same-origin" })), "saved"); // a worker is asked for so, too
});

test("a file whose path carries a version comes from the device first", async () => {
  save({ "assets/js-1234/handbook.js": "saved" });
  assert.equal(await text(ask("assets/js-1234/handbook.js")), "saved");
  assert.equal(fetched, 0);
  assert.equal(await text(ask("assets/js-9999/handbook.js")), "from the network");
});

test("such a file of an older build is found too, but not in a cache of another site", async () => {
  save({});
  kept.set(`${PREFIX}older.code`, new Map([[`${SCOPE}assets/css-1/all.css`, "older"]]));
  kept.set("piping-bench:/other/:x.y", new Map([[`${SCOPE}assets/css-2/all.css`, "a stranger's"]]));
  assert.equal(await text(ask("assets/css-1/all.css")), "older");
  assert.equal(await text(ask("assets/css-2/all.css")), "from the network");
});

test("a page comes from the network while that answers", async () => {
  save({ "swags/": "saved" });
  assert.equal(await text(ask("swags/")), "from the network");
});

test("without a network a page comes from the device, whichever way its address is written", async () => {
  save({ "": "first", "swags/": "saved" });
  network = gone;
  assert.equal(await text(ask("swags/")), "saved");
  assert.equal(await text(ask("swags/index.html")), "saved");
  assert.equal(await text(ask("")), "first");
  assert.equal(await text(ask("index.html")), "first");
  const bare = await ask("swags");
  assert.equal(bare?.status, 302);
  assert.equal(bare?.headers.get("location"), `${SCOPE}swags/`);
});

test("a host that refuses is not believed where a copy is saved, and pages hear of it", async () => {
  save({ "swags/": "saved" });
  for (const status of [403, 404, 410, 503]) {
    network = async () => new Response("refused", { status });
    assert.equal(await text(ask("swags/")), "saved");
    assert.equal(heard.at(-1), `it answered ${status}`);
  }
  assert.equal(await text(ask("other/")), "refused");
  network = async () => new Response("from the network");
  assert.equal(await text(ask("swags/")), "from the network");
  assert.equal(heard.at(-1), "");
});

test("a stranger's page, or another type, is not taken for a page of the handbook or a file of it", async () => {
  save({ "swags/": `${OURS}saved`, "search.json": "saved" });
  network = async () => new Response("<!doctype html>Accept the rules", { headers: HTML });
  assert.equal(await text(ask("swags/")), `${OURS}saved`);
  assert.match(heard.at(-1) ?? "", /not the handbook/);
  assert.equal(await text(ask("search.json", { mode: "cors" })), "saved");
  assert.match(heard.at(-1) ?? "", /not the handbook/, "what a page met is not unsaid by a file");
  network = async () => new Response(OURS, { headers: { "content-type": "application/octet-stream" } });
  assert.equal(await text(ask("swags/")), `${OURS}saved`);
  assert.match(heard.at(-1) ?? "", /octet-stream in place of a page/);
  network = async () => new Response(`${OURS}newer`, { headers: HTML });
  assert.equal(await text(ask("swags/")), `${OURS}newer`);
  assert.equal(heard.at(-1), "");
});

test("a page that begins and then stands still is not waited for", async () => {
  save({ "swags/": `${OURS}saved` });
  network = async () => new Response(new ReadableStream({ start: (body) => body.enqueue(new TextEncoder().encode("<!doctype html>")) }), { headers: HTML });
  const asked = text(ask("swags/"));
  await settle();
  mock.timers.tick(3000);
  assert.equal(await asked, `${OURS}saved`);
});

test("a damaged note of what is saved counts as none", async () => {
  save({ "swags/": "saved" });
  for (const note of ["{", "null", '{"cache": 5}', '{"cache": "another"}']) {
    kept.set(`${PREFIX}state`, new Map([[SCOPE, note]]));
    listeners.message({ data: "changed" });
    assert.equal(await text(ask("swags/")), "from the network", note);
  }
});

test("a page that is not saved says so without a network, a file fails", async () => {
  save({ "": "first" });
  network = gone;
  const answer = await ask("other/");
  assert.equal(answer?.status, 503);
  assert.match(await answer?.text() ?? "", /not among those that are saved/);
  await assert.rejects(ask("data.json", { mode: "cors" }), /no network/);
});

/** Let what is waiting go on as far as it can. */
const settle = () => new Promise((resolve) => setImmediate(resolve));

test("a slow network is waited for three seconds, and then not asked first for twenty", async () => {
  save({ "swags/": "saved" });
  network = () => new Promise(() => {});
  const asked = text(ask("swags/"));
  let answered = "";
  asked.then((found) => { answered = found ?? ""; });
  await settle();
  mock.timers.tick(2999);
  await settle();
  assert.equal(answered, "");
  mock.timers.tick(1);
  assert.equal(await asked, "saved");
  network = async () => new Response("from the network");
  assert.equal(await text(ask("swags/")), "saved");
  mock.timers.tick(20_000);
  assert.equal(await text(ask("swags/")), "from the network");
});

test("what was saved since is known once the page says so", async () => {
  network = gone;
  await assert.rejects(ask("data.json", { mode: "cors" }));
  save({ "data.json": "saved" });
  assert.equal(await text(ask("data.json", { mode: "cors" })), "saved");
});
