// What is kept, and the way up to it from what earlier handbooks kept.

import assert from "node:assert/strict";
import { test } from "node:test";
import { script } from "./page.mjs";

const { fromLocalStorage, KITCHEN, listed, newRecord, placeOf, titleOf, upgraded, VERSION } = await script("records");
const given = { id: "x", now: 5 };

test("a form that an earlier handbook kept is a record of its page", () => {
  const record = fromLocalStorage("typed:/bench/techniques/swags/:swags-2", '{"side": "81 cm", "tip": ""}', given);
  assert.equal(record.place, placeOf("/bench/techniques/swags/", "swags-2", false));
  assert.equal(record.calculator, "swags");
  assert.deepEqual(record.values, { side: "81 cm", tip: "" });
  assert.equal(record.version, VERSION);
});

test("an order that was kept under a name comes to the shelf with its text as it was", () => {
  const record = fromLocalStorage("order:Plum: the second", 'name = "Plum"\n', given);
  assert.deepEqual([record.place, record.calculator, record.title, record.text], [placeOf("/anywhere/", "order", true), "order", "Plum: the second", 'name = "Plum"\n']);
  assert.equal(titleOf(record), "Plum: the second");
});

test("the order that stood in the form comes to the same shelf", () => {
  assert.equal(fromLocalStorage("typed:/plan/whole-cake/:order", '{"name": "Quince"}', given).place, placeOf("/x/", "order", true));
});

test("what is something else, or not whole, is left where it is", () => {
  for (const [key, text] of [["units", "us"], ["paper", "A4"], ["journal:x", "[]"], ["typed:/a/:swags", "{"], ["typed:/a/:swags", "[1]"], ["typed:/a/:swags", '{"a": 1}']]) {
    assert.equal(fromLocalStorage(key, text, given), null, key);
  }
});

// One of each version, as it stood in a reader's browser then. They stay here for good: a new version brings its own and a way up from the last.
const KEPT = {
  1: {
    ...{ version: 1, id: "abc", place: "order", calculator: "order", title: "Plum (copy)", text: "", values: { name: "Plum", "tiers.0.width": "20 cm" } },
    ...{ made: 1, changed: 2, removed: 0, revision: 7, recent: ["p-1"] },
  },
};

test("a record of every version that there was comes up to this one with nothing lost", () => {
  assert.deepEqual(Object.keys(KEPT).map(Number), Array.from({ length: VERSION }, (_, i) => i + 1));
  for (const [version, kept] of Object.entries(KEPT)) {
    const now = upgraded(structuredClone(kept));
    assert.equal(now.version, VERSION);
    const fresh = newRecord({ ...given, place: "p", calculator: "swags", values: {} });
    assert.deepEqual(Object.keys(now).sort(), Object.keys(fresh).sort(), version);
    for (const name of ["id", "title", "text", "made", "changed", "removed", "revision", "recent", "values"]) assert.deepEqual(now[name], kept[name], name);
  }
});

test("what is no record of any version is passed over", () => {
  for (const damaged of [undefined, null, {}, { version: 0 }, { version: -1 }, { version: "1" }, { version: 0.5 }]) assert.equal(upgraded(damaged), null);
});

test("a record of a newer handbook is not touched", () => {
  const record = newRecord({ ...given, place: "p", calculator: "swags", values: {} });
  assert.equal(upgraded(record), record);
  assert.equal(upgraded({ ...record, version: VERSION + 1 }), null);
});

test("the list has the newest first and nothing that was removed", () => {
  const make = (/** @type {string} */ id, /** @type {number} */ now, removed = 0) => ({ ...newRecord({ id, now, place: "p", calculator: "order", values: {} }), removed });
  assert.deepEqual(listed([make("a", 1), make("b", 3), make("c", 2), make("d", 9, 9)]).map((/** @type {any} */ each) => each.id), ["b", "c", "a"]);
});

test("an order is called what it calls itself", () => {
  const record = (/** @type {object} */ values, title = "") => newRecord({ ...given, place: "order", calculator: "order", values, title });
  assert.equal(titleOf(record({ name: " Plum " })), "Plum");
  assert.equal(titleOf(record({ name: "Plum" }, "Plum (copy)")), "Plum (copy)");
  assert.ok(titleOf(record({})));
});

test("the kitchen has a name of its own in lists and files", () => {
  assert.equal(titleOf(newRecord({ ...given, place: KITCHEN, calculator: KITCHEN, values: { cutters: "9 cm" } })), "My kitchen");
});
