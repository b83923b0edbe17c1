// What is asked for an order on the shelf: what it leaves open comes from the kitchen, or from the example of the page that it is opened on.

import assert from "node:assert/strict";
import { test } from "node:test";
import { openPage, script, showForm } from "./page.mjs";

openPage();
const { inputsOf } = await script("shelf_inputs");
const { readForm } = await script("form");

const form = showForm("harvest-supper");
const example = readForm(form);
const kept = (/** @type {Record<string, string>} */ values) => ({ values: { ...values, units: "metric" }, steps: [], at: 0 });

test("what was typed stays, what is open is the page's example, and the kitchen's where that has it", () => {
  const { hours, hand, ...typed } = example;
  assert.ok(hours && hand);
  assert.equal(inputsOf(form, kept(typed), {}).hours, hours);
  const asked = inputsOf(form, kept({ ...typed, hand: "quick" }), { hours: "Sat 8:00 to 20:00", hand: "learning" });
  assert.deepEqual([asked.hours, asked.hand, asked.units], ["Sat 8:00 to 20:00", "quick", "metric"]);
});

test("of a group that shall be empty nothing is asked, and one that is open comes from the kitchen", () => {
  const typed = Object.fromEntries(Object.entries(example).filter(([name]) => !name.startsWith("measured")));
  const kitchen = { "measured.0.tip": "petal 11 mm", "measured.0.kind": "line", "measured.0.length": "30 cm", "measured.0.mass": "19 g" };
  assert.equal(inputsOf(form, kept(typed), kitchen)["measured.0.mass"], "19 g");
  assert.deepEqual(Object.keys(inputsOf(form, kept({ ...typed, measured: "" }), kitchen)).filter((name) => name.startsWith("measured")), []);
});
