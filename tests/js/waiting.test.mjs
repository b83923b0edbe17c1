// What a page says while its reader waits, and what it counts meanwhile.

import assert from "node:assert/strict";
import { test } from "node:test";
import { script } from "./page.mjs";

const { waitWords } = await script("wait_words");
const { Arrivals, counting } = await script("counting");
const { lacksFiles } = await script("protocol");

/** A start in progress, of which so much has come. @param {number} bytes @param {number} of @param {object} [more] */
const starting = (bytes, of, more = {}) => ({ state: "starting", isSlow: false, isAgain: false, come: { bytes, of }, ...more });
const MB = 1e6;

test("for two seconds nothing is said of a start", () => {
  assert.equal(waitWords(starting(MB, 5 * MB), { now: 2999, since: 1000, lastByte: 2900 }), null);
  assert.deepEqual(waitWords(starting(MB, 5 * MB), { now: 3000, since: 1000, lastByte: 2900 }), { said: "Calculator on its way", number: "1.0 of 5.0 MB" });
});

test("before a size is known none is said", () => {
  assert.deepEqual(waitWords(starting(0, 0), { now: 4000, since: 0, lastByte: 3000 }), { said: "Calculator on its way", number: "" });
});

test("when no byte has come for ten seconds, that is said with the time", () => {
  const times = { now: 13_000, since: 0, lastByte: 2500 };
  assert.deepEqual(waitWords(starting(MB, 5 * MB), times), { said: "Calculator on its way, but nothing comes", number: "1.0 of 5.0 MB 11 s without a byte" });
  assert.equal(waitWords(starting(MB, 5 * MB), { ...times, now: 12_500 })?.said, "Calculator on its way");
  assert.equal(waitWords(starting(0, 0), { now: 11_000, since: 0, lastByte: 0 })?.number, "11 s without a byte");
  assert.equal(waitWords(starting(0, 0), { now: 15_000, since: 6000, lastByte: 0 })?.said, "Calculator on its way"); // a second start waits again
});

test("when all has come it is starting", () => {
  assert.deepEqual(waitWords(starting(5 * MB, 5 * MB), { now: 9000, since: 0, lastByte: 0 }), { said: "All of the calculator has come. It is starting." });
});

test("a calculator that was ended is spoken of at once", () => {
  const said = waitWords(starting(0, 5 * MB, { isAgain: true }), { now: 10, since: 0, lastByte: 0 })?.said;
  assert.equal(said, "The calculator did not answer and was ended; it starts again. Calculator on its way");
});

test("an answer that takes long can be broken off, and nothing is said of one that does not", () => {
  const ready = { state: "ready", isSlow: true, isAgain: false, come: { bytes: 0, of: 0 } };
  const told = waitWords(ready, { now: 7400, since: 1000, lastByte: 0 });
  assert.deepEqual([told?.number, told?.isPressed], ["6 s so far", true]);
  assert.equal(waitWords({ ...ready, isSlow: false }, { now: 90_000, since: 0, lastByte: 0 }), null);
  assert.equal(waitWords({ ...ready, state: "failed" }, { now: 90_000, since: 0, lastByte: 0 }), null);
});

test("what arrives is counted up to the size of each file, and only of the files that are awaited", () => {
  const arrivals = new Arrivals();
  arrivals.add("wasm", 30); // before anything is awaited
  arrivals.expect({ wasm: 100, snapshot: 50, packages: undefined });
  assert.deepEqual([arrivals.soFar, arrivals.total], [30, 150]);
  arrivals.add("snapshot", 80); // compressed otherwise than here
  arrivals.add("stdlib", 7);
  assert.equal(arrivals.soFar, 80);
  arrivals.add("wasm", Infinity);
  assert.equal(arrivals.soFar, 150);
  arrivals.expect({ stdlib: 10 });
  assert.deepEqual([arrivals.soFar, arrivals.total], [7, 10]);
});

test("a stream that is counted comes through unchanged", async () => {
  /** @type {number[]} */ const told = [];
  const source = new Blob(["a cake", " in two tiers"]).stream().pipeThrough(counting((/** @type {number} */ bytes) => told.push(bytes)));
  assert.equal(await new Response(source).text(), "a cake in two tiers");
  assert.equal(told.reduce((sum, bytes) => sum + bytes, 0), 19);
});

test("only a fault that looks like a missing file has the files brought", () => {
  for (const kind of ["ModuleNotFoundError", "ImportError", "FileNotFoundError", "EOFError", "ZipImportError"]) {
    assert.equal(lacksFiles(`{"bug":{"kind":"${kind}","details":""}}`), true, kind);
    assert.equal(lacksFiles(`{"bug": {"kind": "${kind}"}}`), true, kind);
  }
  assert.equal(lacksFiles('{"bug":{"kind":"ValueError"}}'), false);
  assert.equal(lacksFiles('{"calculator":"order","notes":["{\\"bug\\": {\\"kind\\": \\"ImportError\\"}}"]}'), false);
});
