// What outlives a page that is closed at once: what its journal notes, reads again, and what tells that something was removed.

import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { openPage, script } from "./page.mjs";

openPage();
const { JOURNAL, keysOfLocalStorage, markRemoved, notedOf, readJournal, takeMark } = await script("journal");
const storage = globalThis.localStorage;
const none = new Proxy({}, { get() { throw new Error("denied"); } });

beforeEach(() => {
  globalThis.localStorage = storage;
  storage.clear();
});

const CHANGE = { id: "p-1", kind: "change", set: { side: "8 in" }, what: "Side", visit: "", time: 5 };
const STEP = { id: "p-1", what: "Side", before: { side: "" }, after: { side: "8 in" }, time: 5 };
const opened = (/** @type {number} */ revision, /** @type {any[]} */ pending) => ({ record: { id: `r${revision}`, revision, values: { side: "8 in" } }, pending, steps: [STEP], at: 1 });

test("a record that was never written is noted whole, with its steps", () => {
  const [noted] = notedOf([opened(0, [CHANGE])]);
  assert.deepEqual(noted, { record: { id: "r0", revision: 0, values: { side: "8 in" } }, changes: [CHANGE], steps: [STEP], at: 1 });
});

test("of a record that is in the database only the changes since are noted", () => {
  const open = opened(3, [CHANGE]);
  assert.deepEqual(notedOf([open]), [{ record: { id: "r3", revision: 3, values: {} }, changes: [CHANGE], steps: [], at: 0 }]);
  assert.deepEqual(open.record.values, { side: "8 in" }, "the record itself keeps its values");
});

test("what is written is not noted", () => {
  assert.deepEqual(notedOf([opened(0, []), opened(3, [])]), []);
  assert.deepEqual(notedOf([opened(1, []), opened(2, [CHANGE])]).map((/** @type {any} */ { record }) => record.id), ["r2"]);
});

test("a journal is read as it was noted, and a damaged one as an empty one", () => {
  const noted = notedOf([opened(0, [CHANGE]), opened(3, [CHANGE])]);
  const text = JSON.stringify(noted);
  assert.deepEqual(readJournal(text), noted);
  assert.deepEqual(readJournal(text.slice(0, -1)), []);
  assert.deepEqual(readJournal(""), []);
});

test("of the storage of a host only what is the handbook's is looked at", () => {
  for (const key of ["piping-bench:units", `${JOURNAL}page`, "piping-bench", "other:piping-bench:units"]) storage.setItem(key, "x");
  assert.deepEqual(keysOfLocalStorage().sort(), ["piping-bench:journal:page", "piping-bench:units"]);
  globalThis.localStorage = none;
  assert.deepEqual(keysOfLocalStorage(), []);
});

test("something removed is looked for by one page only", () => {
  assert.equal(takeMark(), false);
  markRemoved();
  assert.equal(takeMark(), true);
  assert.equal(takeMark(), false);
});

test("where nothing can be marked every page looks", () => {
  globalThis.localStorage = none;
  markRemoved();
  assert.equal(takeMark(), true);
  assert.equal(takeMark(), true);
});
