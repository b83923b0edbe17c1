// What choosing a kind of row brings with it: where it goes, its own tip, a drop that means the same.

import assert from "node:assert/strict";
import { test } from "node:test";
import { one, openPage, script, showForm } from "./page.mjs";

openPage();
const { fillForm, readForm, renumber } = await script("form");
const { followChoice } = await script("choices");

/**
 * A row that says so, after a kind was chosen for it.
 * @param {Record<string, string>} says @param {string} kind
 */
function chosen(says, kind) {
  const form = showForm("harvest-supper");
  renumber(form);
  const row = Object.fromEntries(Object.entries({ kind: "swag", place: "side", tip: "", drop: "", below: "", ...says }).map(([name, text]) => [`tiers.0.rows.0.${name}`, text]));
  const before = { ...readForm(form), ...row };
  fillForm(form, before);
  const select = one('[data-name="tiers.0.rows.0.kind"]', form);
  select.value = kind;
  const done = followChoice(form, select);
  const after = readForm(form);
  for (const [name, text] of Object.entries(before)) if (!name.startsWith("tiers.0.rows.0.")) assert.equal(after[name], text, name);
  assert.equal(followChoice(form, select), ""); // the change that follows the input
  return { done, of: (/** @type {string} */ name) => after[`tiers.0.rows.0.${name}`] };
}

test("a place, a tip and a drop that do not suit follow the kind", () => {
  const shell = chosen({ tip: "petal 11 mm", drop: "3 cm", below: "2 cm" }, "shell");
  assert.deepEqual(["place", "tip", "drop", "below"].map(shell.of), ["base", "", "", ""]);
  assert.match(shell.done, /^Shell\. Where: round the base; Tip: its own; /);
  const string = chosen({ kind: "bead", place: "base", tip: "round 8 mm" }, "string");
  assert.deepEqual(["place", "tip"].map(string.of), ["side", ""]);
  assert.equal(chosen({}, "rosette").of("place"), "joints");
  assert.equal(chosen({ drop: "3 cm" }, "C scroll").of("drop"), "");
});

test("what suits the new kind stays", () => {
  const ruched = chosen({ tip: "petal 13 mm", place: "over", drop: "3 cm", below: "2 cm" }, "ruched swag");
  assert.deepEqual(["place", "tip", "drop", "below"].map(ruched.of), ["over", "petal 13 mm", "3 cm", "2 cm"]);
  assert.equal(ruched.done, "");
  const rope = chosen({ kind: "shell", place: "base", tip: "open star 7 mm" }, "rope");
  assert.deepEqual(["place", "tip"].map(rope.of), ["base", "open star 7 mm"]);
  assert.equal(chosen({ kind: "bead", place: "base", tip: "round 2 mm" }, "string").of("tip"), "round 2 mm");
});

test("the kind of a strip that was weighed brings nothing", () => {
  const form = showForm("harvest-supper");
  fillForm(form, { ...readForm(form), "measured.0.kind": "line", "measured.0.tip": "petal 11 mm" });
  const select = one('[data-name="measured.0.kind"]', form);
  select.value = "string";
  assert.equal(followChoice(form, select), "");
  assert.equal(readForm(form)["measured.0.tip"], "petal 11 mm");
});
