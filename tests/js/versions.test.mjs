// Two versions of an order: what the values were before one of the last steps.

import assert from "node:assert/strict";
import test from "node:test";
import "./page.mjs";

const { applyChange } = await import("../../docs/assets/js/steps.js");
const { valuesBefore } = await import("../../docs/assets/js/versions.js");

/** A history with some changes done. @param {Record<string, string | null>[]} changes */
function made(...changes) {
  const history = { values: { name: "Supper", guests: "36" }, steps: [], at: 0 };
  changes.forEach((set, i) => applyChange(history, { id: `${i}`, kind: "change", set, what: `step ${i}`, visit: "", time: i * 5000 }));
  return history;
}

test("values before a step are those that stood then, whatever was added or taken away since", () => {
  const open = made({ guests: "40" }, { "tiers.0.width": "20 cm", name: null }, { guests: "44" });
  assert.deepEqual(open.values, { guests: "44", "tiers.0.width": "20 cm" });
  assert.deepEqual(valuesBefore(open, 2), { guests: "40", "tiers.0.width": "20 cm" });
  assert.deepEqual(valuesBefore(open, 1), { name: "Supper", guests: "40" });
  assert.deepEqual(valuesBefore(open, 0), { name: "Supper", guests: "36" });
  assert.deepEqual(open.values, { guests: "44", "tiers.0.width": "20 cm" }, "nothing is taken back by looking");
});

test("steps that were undone already are left aside", () => {
  const open = made({ guests: "40" }, { guests: "44" });
  applyChange(open, { id: "u", kind: "undo", step: "1" });
  assert.deepEqual(valuesBefore(open, 0), { name: "Supper", guests: "36" });
});
