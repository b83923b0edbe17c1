// Undo and redo over the texts of a form.

import assert from "node:assert/strict";
import { test } from "node:test";
import { script } from "./page.mjs";

const { applyChange, difference, lastDone, MOST_STEPS, nextUndone } = await script("steps");

let count = 0;

/** @param {Record<string, string | null>} set @param {object} [more] */
function edit(set, more = {}) {
  count += 1;
  return { id: `c${count}`, kind: "change", set, what: "", visit: "", time: count * 10_000, ...more };
}

/** @param {any} history */
const undo = (history) => applyChange(history, { id: `u${++count}`, kind: "undo", step: lastDone(history)?.id ?? "" });
/** @param {any} history */
const redo = (history) => applyChange(history, { id: `r${++count}`, kind: "redo", step: nextUndone(history)?.id ?? "" });

/** @param {Record<string, string>} values @returns {any} */
const historyOf = (values) => ({ values: { ...values }, steps: [], at: 0 });

test("a difference says what changed, what is new and what is gone", () => {
  assert.deepEqual(difference({ a: "1", b: "2", c: "3" }, { a: "1", b: "x", d: "4" }), { c: null, b: "x", d: "4" });
  assert.deepEqual(difference({ a: "1", strange: "kept" }, { a: "2" }, (name) => name !== "strange"), { a: "2" });
});

test("steps are undone and redone in order, and absent names come and go", () => {
  const history = historyOf({ "rows.0.tip": "a", "rows.1.tip": "b" });
  applyChange(history, edit({ "rows.0.tip": "b", "rows.1.tip": null }));
  applyChange(history, edit({ "rows.0.tip": "c" }));
  assert.deepEqual(history.values, { "rows.0.tip": "c" });
  undo(history);
  undo(history);
  assert.deepEqual(history.values, { "rows.0.tip": "a", "rows.1.tip": "b" });
  assert.equal(undo(history), false);
  redo(history);
  assert.deepEqual(history.values, { "rows.0.tip": "b" });
  redo(history);
  assert.equal(redo(history), false);
  assert.deepEqual(history.values, { "rows.0.tip": "c" });
});

test("something new after an undo takes the place of what was undone", () => {
  const history = historyOf({ a: "1" });
  applyChange(history, edit({ a: "2" }));
  undo(history);
  applyChange(history, edit({ a: "3" }));
  assert.equal(redo(history), false);
  undo(history);
  assert.equal(history.values.a, "1");
});

test("typing in one field without a pause is one step, another visit or a pause begins the next", () => {
  const history = historyOf({ a: "" });
  for (const [text, visit, time] of /** @type {const} */ ([["5", "v1", 0], ["50", "v1", 400], ["50 ", "v1", 900], ["50 cm", "v1", 2500], ["6", "v2", 2600]])) {
    applyChange(history, edit({ a: text }, { visit, time }));
  }
  assert.equal(history.steps.length, 3);
  undo(history);
  assert.equal(history.values.a, "50 cm");
  undo(history);
  assert.equal(history.values.a, "50 ");
  undo(history);
  assert.equal(history.values.a, "");
});

test("what is typed and taken back at once leaves no step", () => {
  const history = historyOf({ a: "1" });
  applyChange(history, edit({ a: "12" }, { visit: "v", time: 0 }));
  applyChange(history, edit({ a: "1" }, { visit: "v", time: 100 }));
  assert.deepEqual([history.steps.length, history.at], [0, 0]);
});

test("a change that changes nothing is none", () => {
  const history = historyOf({ a: "1" });
  assert.equal(applyChange(history, edit({ a: "1", b: null })), false);
  assert.equal(history.steps.length, 0);
});

test("an undo of a step that another tab has built upon is not done", () => {
  const history = historyOf({ a: "1" });
  const first = edit({ a: "2" });
  applyChange(history, first);
  applyChange(history, edit({ b: "3" }));
  assert.equal(applyChange(history, { id: "late", kind: "undo", step: first.id }), false);
  assert.deepEqual(history.values, { a: "2", b: "3" });
});

test("at least 200 steps can be undone, and the oldest go first", () => {
  const history = historyOf({ a: "0" });
  for (let i = 1; i <= MOST_STEPS + 50; i += 1) applyChange(history, edit({ a: String(i) }));
  assert.ok(MOST_STEPS >= 200);
  let undone = 0;
  while (undo(history)) undone += 1;
  assert.equal(undone, MOST_STEPS);
  assert.equal(history.values.a, "50");
  while (redo(history)) undone -= 1;
  assert.deepEqual([undone, history.values.a], [0, String(MOST_STEPS + 50)]);
});

test("random edits, undos and redos agree with a list of whole states", () => {
  let seed = 7;
  const random = (/** @type {number} */ n) => ((seed = (seed * 1103515245 + 12345) % 2147483648) >> 8) % n;
  const history = historyOf({ a: "0", b: "0", c: "0" });
  const states = [{ ...history.values }];
  let at = 0;
  for (let i = 0; i < 3000; i += 1) {
    const what = random(4);
    if (what === 0 && at > Math.max(0, states.length - 1 - MOST_STEPS)) {
      undo(history);
      at -= 1;
    } else if (what === 1) {
      if (redo(history)) at += 1;
    } else {
      const name = "abc"[random(3)];
      const text = random(5) ? String(random(9)) : null;
      if (applyChange(history, edit({ [name]: text }))) {
        states.length = at + 1;
        states.push({ ...history.values });
        at += 1;
      }
    }
    assert.deepEqual(history.values, states[at], `after ${i} changes`);
  }
});
