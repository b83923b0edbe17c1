// Offline use: the files are those that the build listed, and the reader is told how things stand.

import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { beforeEach, mock, test } from "node:test";
import { script } from "./page.mjs";

const { fetchChecked, parseList, typeOf } = await script("offline_files");
const { Changed, Short, Stopped, describeGone, describeHost, describeState, describeStop, isFull } = await script("offline_words");

const BASE = "https://handbook.example/cakes/";
const PAGE = "<p>swags</p>";
const hashOf = (/** @type {string} */ text) => createHash("sha256").update(text).digest("base64");
const LINE = ["techniques/swags/", hashOf(PAGE), PAGE.length];

/** @type {{ address: string, cache: string }[]} */ let asked = [];
/** @type {number[]} */ let told = [];

beforeEach(() => {
  asked = [];
  told = [];
  mock.timers.reset();
  mock.timers.enable({ apis: ["setTimeout"] });
});

/** Fetch a file from a host that answers so, one after the other. @param {(Response | Error)[]} answers @param {any} [line] @param {AbortSignal} [signal] */
async function brought(answers, line = LINE, signal = new AbortController().signal) {
  globalThis.fetch = /** @type {any} */ (async (/** @type {string} */ address, /** @type {{ cache: string, mode: string }} */ { cache, mode }) => {
    assert.equal(mode, "same-origin", "the saved copy could answer");
    asked.push({ address, cache });
    const answer = answers.shift();
    if (!(answer instanceof Response)) throw answer;
    return answer;
  });
  let isOver = false;
  const done = fetchChecked(BASE, line, signal, (/** @type {number} */ bytes) => told.push(bytes)).finally(() => { isOver = true; });
  done.catch(() => {});
  while (!isOver) {
    await new Promise((resolve) => setImmediate(resolve));
    mock.timers.tick(5000); // what it waits between two tries
  }
  return done;
}

const sum = () => told.reduce((total, bytes) => total + bytes, 0);

test("a file that is as it was built is brought at once", async () => {
  assert.equal(new TextDecoder().decode(await brought([new Response(PAGE)])), PAGE);
  assert.deepEqual(asked, [{ address: `${BASE}techniques/swags/`, cache: "no-cache" }]);
  assert.equal(sum(), PAGE.length);
});

test("a path with a version may come from the browser's own cache", async () => {
  await brought([new Response(PAGE)], ["assets/js-1a/handbook.js", hashOf(PAGE), PAGE.length]);
  assert.equal(asked[0].cache, "default");
});

test("what came otherwise, or in part, is asked for again past every cache, and is not counted", async () => {
  await brought([new Response("<p>swamp</p>"), new Response(PAGE.slice(0, 5)), new Response(PAGE)]);
  assert.deepEqual(asked.map(({ cache }) => cache), ["no-cache", "reload", "reload"]);
  assert.equal(sum(), PAGE.length);
});

for (const [what, answer, Kind] of /** @type {[string, () => Response | Error, any][]} */ ([
  ["longer", () => new Response(`${PAGE} `), Changed],
  ["another of the same size", () => new Response("<p>swamp</p>"), Changed],
  ["shorter", () => new Response(PAGE.slice(1)), Short],
  ["refused by the host", () => new Response("", { status: 403 }), Stopped],
  ["no network", () => new TypeError("network"), TypeError],
])) {
  test(`a file that is ${what} three times stops it`, async () => {
    await assert.rejects(brought([answer(), answer(), answer()]), Kind);
    assert.equal(asked.length, 3);
    assert.equal(sum(), 0);
  });
}

test("a file that the host does not have is asked for twice", async () => {
  await assert.rejects(brought([new Response("", { status: 404 }), new Response("", { status: 404 })]), Stopped);
  assert.equal(asked.length, 2);
  await brought([new Response("", { status: 410 }), new Response(PAGE)]);
});

test("what is broken off is not tried again", async () => {
  const stop = new AbortController();
  stop.abort();
  await assert.rejects(brought([new TypeError("aborted")], LINE, stop.signal), TypeError);
  assert.equal(asked.length, 1);
});

test("a list is read only where it is the handbook's, and whole", () => {
  const list = { build: "b1", code: "c1", bytes: 12, fetched: 5, files: [["", "hash", 12]] };
  assert.deepEqual(parseList(JSON.stringify(list)), list);
  const others = [{ ...list, files: [["", "hash"]] }, { ...list, files: [["", "hash", -1]] }, { ...list, files: "none" }, { ...list, build: 7 }, { files: [] }, [], null];
  for (const text of ["", JSON.stringify(list).slice(0, -1), ...others.map((other) => JSON.stringify(other))]) assert.throws(() => parseList(text), Stopped, text);
});

test("each file has the type that a host should send", () => {
  const types = ["", "plan/", "a/b.html", "x.mjs", "pyodide.asm.wasm", "order.toml", "photo.jpeg"].map(typeOf);
  const html = "text/html; charset=utf-8";
  assert.deepEqual(types, [html, html, html, "text/javascript; charset=utf-8", "application/wasm", "text/plain; charset=utf-8", "application/octet-stream"]);
});

const LIST = /** @type {any} */ ({ build: "b1", code: "c1", bytes: 12_640_000, fetched: 8_100_000, files: [] });
const SAVED = /** @type {any} */ ({ bytes: 12_640_000, date: "2027-10-16T09:00:00Z" });

test("the reader is told how things stand", () => {
  assert.deepEqual(describeState("saving", null, LIST, 6_320_000, ""), ["6.3 of 12.6 MB"]);
  assert.deepEqual(describeState("saving", null, null, 0, ""), ["Finding what to save."]);
  assert.match(describeState("unsaved", null, LIST, 0, "")[0], /About 8\.1 MB to fetch, 12\.6 MB on this device/);
  assert.doesNotMatch(describeState("unsaved", null, null, 0, "")[0], /MB/);
  assert.equal(describeState("saved", SAVED, LIST, 0, "")[0], "16 October 2027, 12.6 MB");
  for (const state of ["failed", "damaged", "impossible"]) assert.deepEqual(describeState(state, SAVED, LIST, 0, "why"), ["why"]);
});

test("what is gone is counted and one of it named", () => {
  assert.match(describeGone([""]), /^the first page is no longer/);
  assert.match(describeGone(["a/", "b/", "c/"]), /^3 things, a\/ among them, are no longer/);
});

test("why saving stopped is said with what stays", () => {
  const still = "What was saved before is still there.";
  assert.equal(describeStop(new Stopped("The host has no list."), null), `The host has no list. ${still}`);
  assert.equal(describeStop(new Stopped("The host has no list."), null, ""), "The host has no list.");
  assert.match(describeStop(new Short("", 5, 12), null), /^The first page came only in part \(5 of 12 bytes\): the line broke off/);
  assert.match(describeStop(new Changed("plan/"), null), /^The host sends plan\/ changed from how it was built/);
  assert.match(describeStop(new DOMException("", "QuotaExceededError"), LIST), /not enough room on this device\. It takes 12\.6 MB\./);
  assert.match(describeStop(new TypeError("network"), null), /^The network went away/);
  assert.match(describeStop("odd", null), /\(odd\); this may be a private window/);
  assert.match(describeHost("404 for pages"), /\(404 for pages\)/);
});

test("a full device is known by the name of its error", () => {
  assert.equal(isFull(new DOMException("", "QuotaExceededError")), true);
  assert.equal(isFull(new Error("the quota has been exceeded")), true);
  assert.equal(isFull(new Error("disk")), false);
  assert.equal(isFull("quota"), false);
});
