// The work on an order, as it goes into a file and comes out of it.

import assert from "node:assert/strict";
import { test } from "node:test";
import { openPage, script } from "./page.mjs";

openPage();
const { fieldsOf, joinedBeside, NAMES, workIn, workRead, workTold } = await script("beside");
const { read, Refused, written } = await script("files");
const { newRecord, wordsOf } = await script("records");

const NOW = Date.parse("2026-11-28T12:00:00Z");
const DUE = Date.parse("2026-11-28T12:45:30.250Z");
const KEPT = {
  "at-the-bench": { open: "yes", done: "bake0,row3.2", at: "row4", "wait:crumb0": String(DUE), "wait:bake0": "", "wait:row3.2": String(DUE + 1000) },
  "to-the-shop": { open: "", "got:butter": "250.5", "got:sugar": "", "have:egg white, dried": "1/2 lb, old", "have:salt": " " },
};
const CARRIED = {
  "at-the-bench": { done: "bake0,row3.2", at: "row4", "wait:crumb0": String(DUE), "wait:row3.2": String(DUE + 1000) },
  "to-the-shop": { "got:butter": "250.5", "have:egg white, dried": "1/2 lb, old" },
};
const order = newRecord({ id: "a", place: "order", calculator: "order", values: { name: "Plum" }, now: NOW });

test("a person can read it, and it says nothing of what nothing is kept of", () => {
  assert.deepEqual(workTold(KEPT), {
    bench: { done: "bake0, row3.2", at: "row4", waits: "crumb0 2026-11-28T12:45:30.250Z, row3.2 2026-11-28T12:45:31.250Z" },
    shop: [{ line: "butter", got: "250.5" }, { line: "egg white, dried", have: "1/2 lb, old" }],
  });
  for (const kept of [{}, { "at-the-bench": { open: "yes" } }, { "to-the-shop": { "got:butter": "" } }, { "at-the-bench": { done: "", at: "" } }]) assert.deepEqual(workTold(kept), {});
});

test("what was told is read again, but not that the bench was open", () => {
  assert.deepEqual(workRead(workTold(KEPT)), CARRIED);
  assert.deepEqual(NAMES, Object.keys(KEPT)); // as the store has them
});

test("in an order's own file it stands beside the fields of the order, which are as they were", () => {
  const fields = { name: "Plum", "tiers.0.name": "Lower", shopping: "no", benches: "2" };
  const { order, told } = workIn({ ...fields, ...fieldsOf(workTold(KEPT)) });
  assert.deepEqual(order, fields);
  assert.deepEqual(workRead(told), CARRIED);
  assert.deepEqual(workIn(fields), { order: fields, told: {} });
});

test("a line of the list may be called whatever a colour is called", () => {
  const keys = ["gel-st", "gel-st. clement", "gel-a.b.c.d.e.f.g.h", `gel-${"x".repeat(200)}`, "gel-0", "gel-__proto__", "tip-round 1.8 mm"];
  const kept = { "to-the-shop": Object.fromEntries(keys.flatMap((key) => [[`got:${key}`, "1"], [`have:${key}`, "2"]])) };
  const fields = fieldsOf(workTold(kept));
  assert.ok(Object.keys(fields).every((name) => name.length < 20));
  assert.deepEqual(workRead(workIn(fields).told), kept);
});

const DAMAGED = [
  { bench: "bake0" },
  { bench: null },
  { bench: ["bake0"] },
  { bench: { done: 7 } },
  { bench: { done: "bake0; DROP" } },
  { bench: { done: "bake0 row1" } },
  { bench: { at: "row 4" } },
  { bench: { waits: "crumb0" } },
  { bench: { waits: "crumb0 soon" } },
  { bench: { waits: "__proto__ 2026-11-28T12:45:30Z" } },
  { bench: { dne: "bake0" } },
  { bench: { done: Array(1001).fill("bake0").join() } },
  { shop: { line: "butter", got: "250" } },
  { shop: ["butter"] },
  { shop: [{ got: "250" }] },
  { shop: [{ line: "butter", got: 250 }] },
  { shop: [{ line: "butter", got: "much" }] },
  { shop: [{ line: "butter", got: "-1" }] },
  { shop: [{ line: "butter", got: "Infinity" }] },
  { shop: [{ line: "butter", have: "x".repeat(41) }] },
  { shop: [{ line: "x".repeat(301), have: "1" }] },
  { shop: [{ line: "butter", had: "1" }] },
  { shop: Array(1001).fill({ line: "butter", got: "1" }) },
];

test("of what is damaged nothing is taken", () => {
  for (const told of DAMAGED) assert.equal(workRead(told), null, JSON.stringify(told).slice(0, 80));
});

test("an order's text with a word in the place of the work is damaged too", () => {
  const damaged = [
    { bench: "x" },
    { bench: "x", "bench.done": "bake0" },
    { "bench.done": "bake0", bench: "x" },
    { "bench.0.done": "bake0" },
    { "bench.__proto__": "x" },
    { shop: "x" },
    { "shop.line": "butter" },
    { "shop.0.line": "butter", "shop.got.butter": "1" },
    { "shop.1.line": "butter" },
  ];
  for (const fields of damaged) assert.equal(workRead(workIn(fields).told), null);
});

test("a file of all carries it with its order; an older one has none, and of a damaged one nothing is taken", () => {
  const text = written([order], "/", NOW, { a: KEPT, b: {} });
  assert.match(text, /^ +"done": "bake0, row3.2",$/m);
  const [again] = read(text, "/", NOW);
  assert.deepEqual([again.work, wordsOf(again)], [CARRIED, wordsOf(order)]);
  const older = written([order], "/", NOW);
  assert.doesNotMatch(older, /bench|shop/);
  assert.ok(!("work" in read(older, "/", NOW)[0]));
  assert.equal(written([order], "/", NOW, { a: { "at-the-bench": { open: "yes" } } }), older);
  for (const told of DAMAGED) {
    const whole = JSON.parse(older);
    Object.assign(whole.kept[0], told);
    assert.throws(() => read(JSON.stringify(whole), "/", NOW), Refused, JSON.stringify(told).slice(0, 80));
  }
});

test("what is done here or there is done, and what was seen or ticked here stays", () => {
  const here = { open: "yes", done: "mix,bake0", at: "", "wait:crumb0": "", "wait:bake0": "5" };
  const joined = joinedBeside("at-the-bench", here, CARRIED["at-the-bench"]);
  assert.deepEqual(joined, { open: "yes", done: "mix,bake0,row3.2", at: "row4", "wait:crumb0": "", "wait:bake0": "5", "wait:row3.2": String(DUE + 1000) });
  assert.equal(joinedBeside("at-the-bench", { at: "mix" }, CARRIED["at-the-bench"]).at, "mix");
  assert.deepEqual(joinedBeside("to-the-shop", { "got:butter": "" }, CARRIED["to-the-shop"]), { "got:butter": "", "have:egg white, dried": "1/2 lb, old" });
  assert.deepEqual(joinedBeside("at-the-bench", {}, {}), {});
});
