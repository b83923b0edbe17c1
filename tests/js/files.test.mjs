// What a reader made as a file, written and read again.

import assert from "node:assert/strict";
import { test } from "node:test";
import { script } from "./page.mjs";

const { isKept, read, Refused, written } = await script("files");
const { newRecord, VERSION, wordsOf } = await script("records");

const BASE = "/handbook/";
const NOW = Date.parse("2026-11-28T12:00:00Z");
const records = [
  newRecord({ id: "a", place: "order", calculator: "order", values: { name: "Plum \u2028 “wedding” 🎂", guests: "29" }, now: NOW - 5000 }),
  newRecord({ id: "b", place: `${BASE}techniques/swags/#swags-2`, calculator: "swags", values: { side: "50 cm" }, now: NOW - 4000, title: "Tuesday" }),
  newRecord({ id: "c", place: "order", calculator: "order", values: {}, now: NOW, text: 'name = "Quince"\n' }),
];
const changed = (/** @type {(whole: any) => void} */ change) => {
  const whole = JSON.parse(written(records, BASE, NOW));
  change(whole);
  return JSON.stringify(whole);
};

test("what was written is read again, at another address of the handbook too", () => {
  const text = written(records, BASE, NOW);
  assert.ok(isKept(text));
  assert.deepEqual(read(text, BASE, NOW).map(wordsOf), records.map(wordsOf));
  assert.deepEqual(read(text, BASE, NOW).map((record) => record.made), records.map((record) => record.made));
  assert.deepEqual(read(`\uFEFF${text}`, "/elsewhere/", NOW).map((record) => record.place), ["order", "/elsewhere/techniques/swags/#swags-2", "order"]);
});

test("a person can read it: each text has a line of its own, after its name", () => {
  const text = written(records, BASE, NOW);
  assert.match(text, /^ "version": \d+,$/m);
  assert.match(text, /^ +"side": "50 cm"$/m);
  assert.doesNotMatch(text, /"id"|"recent"|"revision"/);
});

test("an order's own text is not taken for such a file", () => {
  for (const text of ['name = "{"\n', "", "[[tiers]]\n"]) assert.ok(!isKept(text));
});

test("a file of a newer version is refused in words, one of an older version is brought up", () => {
  const text = changed((whole) => (whole.version = VERSION + 1));
  assert.throws(() => read(text, BASE, NOW), (error) => error instanceof Refused && /newer handbook/.test(error.message));
  const up = (/** @type {any} */ record) => ({ ...record, version: VERSION + 1, title: `${record.title} (from ${record.version})` });
  const [first] = read(written(records, BASE, NOW), BASE, NOW, { version: VERSION + 1, up });
  assert.deepEqual([first.version, first.title], [VERSION + 1, ` (from ${VERSION})`]);
});

test("of a damaged file nothing is taken", () => {
  const whole = written(records, BASE, NOW);
  const damaged = [
    whole.slice(0, -20), "{}", "null", "[]", `{"madeWith": "Piping Bench"}`, "[".repeat(100_000), "{".repeat(100_000),
    changed((it) => (it.madeWith = "something else")),
    changed((it) => (it.version = "1")),
    changed((it) => (it.version = 0.5)),
    changed((it) => (it.kept = {})),
    changed((it) => it.kept.push(null)),
    changed((it) => (it.kept[1].values.side = 50)),
    changed((it) => (it.kept[1].values = ["50 cm"])),
    changed((it) => delete it.kept[1].place),
    changed((it) => (it.kept[1].calculator = {})),
    changed((it) => (it.kept[2].text = ["name"])),
    changed((it) => (it.kept[0].title = "t".repeat(1000))),
  ];
  for (const text of damaged) assert.throws(() => read(text, BASE, NOW), Refused, text.slice(0, 60));
});

test("a file that is only there to be large is refused", () => {
  const many = Object.fromEntries(Array.from({ length: 4001 }, (_, i) => [`name${i}`, ""]));
  assert.throws(() => read(changed((it) => (it.kept[0].values = many)), BASE, NOW), Refused);
  assert.throws(() => read(changed((it) => (it.kept[0].values.name = "x".repeat(1_000_001))), BASE, NOW), Refused);
  assert.throws(() => read(changed((it) => (it.kept = Array(10_001).fill(it.kept[0]))), BASE, NOW), Refused);
});

test("a day that is none, or is to come, counts as now", () => {
  const [first, second] = read(changed((it) => ([it.kept[0].made, it.kept[1].changed] = ["some day", "2999-01-01"])), BASE, NOW);
  assert.equal(first.made, NOW);
  assert.equal(second.changed, NOW);
});
