// The work at the bench: what is done, what is waited for, and how long that still lasts.

import assert from "node:assert/strict";
import { test } from "node:test";
import { openPage, script } from "./page.mjs";

openPage();
const { doneIn, remaining, waitsIn } = await script("bench_state");

test("what is left of a wait is told in the largest units that matter, and never runs out early", () => {
  const told = [
    [0, "0 s"],
    [-5000, "0 s"],
    [1, "1 s"],
    [59_001, "1 min"],
    [60_000, "1 min"],
    [119_000, "1 min"],
    [3_599_000, "59 min"],
    [3_600_000, "1 h 0 min"],
    [7_380_000, "2 h 3 min"],
  ];
  for (const [ms, words] of told) assert.equal(remaining(/** @type {number} */ (ms)), words);
});

test("the wait that ends first comes first, and one that was seen is none", () => {
  const values = { done: "a,b,c", "wait:a": "3000", "wait:b": "", "wait:c": "2000", at: "d" };
  assert.deepEqual(waitsIn(values), [{ key: "c", until: 2000 }, { key: "a", until: 3000 }]);
  assert.deepEqual(waitsIn({}), []);
});

test("what is done is told by the keys of the tasks", () => {
  assert.deepEqual(doneIn({ done: "bake0,row3.2" }), ["bake0", "row3.2"]);
  assert.deepEqual(doneIn({ done: "" }), []);
  assert.deepEqual(doneIn({}), []);
});
