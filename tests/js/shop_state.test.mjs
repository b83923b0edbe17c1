// What is in the basket and at hand, as it is kept.

import assert from "node:assert/strict";
import { test } from "node:test";
import { openPage, script } from "./page.mjs";

openPage();
const { countIn, haveIn, isGot, listText } = await script("shop_state");
const line = (/** @type {string} */ key, /** @type {object} */ more = {}) => ({ key, what: key, buy: "2", use: "x", need: 2, reads: "", have: "", problem: "", isThere: false, ...more });
const groups = [
  { title: "One", lines: [line("bags"), line("board", { isThere: true })] },
  { title: "Two", lines: [line("paper", { need: 0 })] },
];

test("a tick holds for no more than was needed when it was set", () => {
  assert.equal(isGot({ "got:bags": "2" }, line("bags")), true);
  assert.equal(isGot({ "got:bags": "2" }, line("bags", { need: 3 })), false);
  assert.equal(isGot({ "got:bags": "2" }, line("bags", { need: 1 })), true);
  assert.equal(isGot({ "got:bags": "" }, line("bags")), false);
  assert.equal(isGot({ "got:paper": "1" }, line("paper", { need: 0 })), true);
});

test("what is at hand is not counted", () => {
  assert.deepEqual(countIn(groups, { "got:paper": "1" }), { all: 2, got: 1 });
});

test("what is typed is told by its line, and nothing where it is empty", () => {
  assert.deepEqual(haveIn({ "have:butter": "300 g", "have:salt": "  ", "got:bags": "2" }), { butter: "300 g" });
});

test("the text has what is left to buy, group by group", () => {
  assert.equal(listText("Supper", groups, {}), "Supper\n\nOne\n- bags: 2 (x)\n\nTwo\n- paper: 2 (x)\n");
  assert.equal(listText("Supper", groups, { "got:bags": "2" }), "Supper\n\nTwo\n- paper: 2 (x)\n");
});
