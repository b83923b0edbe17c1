// Where a field begins that nothing was set in.

import assert from "node:assert/strict";
import { test } from "node:test";
import { one, openPage, script, show } from "./page.mjs";

openPage();
const { entriesIn, isOpen, nearestTip, showStarts, startsOf, textsOf, tiedOf, withKitchen, without } = await script("starts");

const FIELD = (/** @type {string} */ name, /** @type {string} */ kind, /** @type {string} */ key, more = "") =>
  `<div class="pb-field" data-input="${name}" data-local="${name}" data-field="${kind}" data-kitchen="${key}" ${more}><label>${name}</label><input data-name="${name}"><p class="pb-problem"></p></div>`;
const PACK = '<div class="pb-field" data-local="name" data-field="text"><input></div><div class="pb-field" data-local="price" data-field="money"><input></div>';

/** A form with a field of each way, in a calculator. */
function form() {
  show(`<section class="pb-calculator" id="pb-swags" data-pipes="swag" data-plain="line swag"><fieldset class="pb-form">
    ${FIELD("tip", "tip", "tips")}${FIELD("cutter", "length", "cutters", 'data-unit-metric="cm" data-unit-us="in"')}
    ${FIELD("piped", "length", "measured.length", 'data-unit-metric="cm" data-unit-us="in"')}${FIELD("rate", "money", "rate")}
    <div class="pb-items" data-input="packs" data-kitchen="packs" data-maximum="2"><template>${PACK}</template><div class="pb-copies"></div></div>
  </fieldset></section>`);
  return one(".pb-form");
}

const KITCHEN = {
  ...{ units: "metric", cutters: "7,5 and 9 cm", currency: "£", "tips.0.tip": "round 2 mm", "tips.1.tip": "petal 9 mm", "tips.2.tip": "petal 13 mm" },
  ...{ "measured.0.tip": "Petal  13 mm", "measured.0.kind": "line", "measured.0.length": "30 cm", "measured.0.mass": "21 g" },
  ...{ "packs.0.name": "butter", "packs.0.price": "2.20", "packs.1.name": "sugar", "packs.1.price": "€1", "packs.2.name": "one too many" },
};
const EXAMPLE = { tip: "petal 12 mm", cutter: "9 cm", piped: "", rate: "18" };

/** All texts that a form begins with. @param {Record<string, string>} kitchen @param {Record<string, string>} values @param {string} units */
function begun(kitchen, values = {}, units = "metric") {
  const tied = tiedOf(form(), false).filter((/** @type {any} */ each) => !(each.name in values));
  return Object.assign({}, ...[...startsOf(tied, kitchen, values, EXAMPLE, units).values()].map((start) => start.texts));
}

test("what is no sign of a currency goes before no amount", () => {
  assert.equal(begun({ currency: "kr" }).rate, "kr18");
  assert.equal(begun({ currency: "1" }).rate, "18", "it would be 118");
});

test("everything begins with the page's example where the kitchen is empty", () => {
  assert.deepEqual(begun({}), EXAMPLE);
});

test("each field begins with what the kitchen has for it", () => {
  const found = begun(KITCHEN);
  assert.deepEqual([found.tip, found.cutter, found.piped, found.rate], ["petal 13 mm", "7,5 cm", "30 cm", "£18"]);
  assert.deepEqual(textsOf(tiedOf(form(), false).at(-1), found), { "packs.0.name": "butter", "packs.0.price": "£2.20", "packs.1.name": "sugar", "packs.1.price": "€1" });
});

test("a strip goes by the tip that stands beside it", () => {
  assert.equal(begun(KITCHEN, { tip: "petal 9 mm" }).piped, "");
  assert.equal(begun(KITCHEN, { tip: "petal 13 mm" }).piped, "30 cm");
});

test("lengths of a kitchen in other units keep their meaning", () => {
  assert.equal(begun({ units: "us", cutters: "3" }).cutter, "3 in");
  assert.equal(begun({ units: "metric", cutters: "9" }, {}, "us").cutter, "9 cm");
});

test("a list gives its unit to what stands before it", () => {
  assert.deepEqual(entriesIn({ cutters: "7,5; 9 or 10 cm" }, "cutters"), ["7,5 cm", "9 cm", "10 cm"]);
  assert.deepEqual(entriesIn({}, "cutters"), []);
});

test("an order takes from the kitchen what it leaves open, with the kitchen's unit said", () => {
  const kitchen = { units: "us", cutters: "3; 3.5", "tips.0.tip": "round 2 mm", "tips.1.tip": "petal 9 mm" };
  const order = { name: "Harvest", cutters: "" };
  assert.deepEqual(withKitchen(order, kitchen), { name: "Harvest", cutters: "3 in, 3.5 in", tips: "round 2 mm, petal 9 mm" });
  assert.deepEqual(withKitchen({}, { cutters: "7,5" }), { cutters: "7,5 cm", tips: "" });
  assert.deepEqual(order, { name: "Harvest", cutters: "" }, "the order itself stays as it is kept");
});

test("what an order says goes before the kitchen", () => {
  const order = { cutters: "9 cm", tips: "leaf 9 mm" };
  assert.deepEqual(withKitchen(order, KITCHEN), order);
});

test("the nearest tip is of the same family", () => {
  assert.equal(nearestTip(["open star 7 mm", "closed star 5 mm"], "closed star 8 mm"), "closed star 5 mm");
  assert.equal(nearestTip(["open star 7 mm"], "petal 7 mm"), "");
});

test("what is open: nothing kept, or left empty by an earlier handbook, but not what the reader emptied", () => {
  const [tip, , , , packs] = tiedOf(form(), false);
  const kept = (/** @type {object} */ values, steps = /** @type {any[]} */ ([]), at = steps.length) => ({ values, steps, at });
  assert.ok(isOpen(kept({}), tip));
  assert.ok(isOpen(kept({ tip: "" }), tip));
  assert.ok(!isOpen(kept({ tip: "petal 9 mm" }), tip));
  const emptied = [{ after: { tip: "" } }];
  assert.ok(!isOpen(kept({ tip: "" }, emptied), tip));
  assert.ok(isOpen(kept({ tip: "" }, emptied, 0), tip)); // undone
  assert.ok(isOpen(kept({ rate: "1" }), packs));
  assert.ok(!isOpen(kept({ "packs.0.name": "flour" }), packs));
  assert.ok(!isOpen(kept({ packs: "" }), packs)); // none, by the reader's will
});

test("a record is kept without what is open", () => {
  const tied = tiedOf(form(), false);
  assert.deepEqual(without({ side: "66 cm", tip: "x", "packs.0.name": "y", packsize: "z" }, tied), { side: "66 cm", packsize: "z" });
});

test("beside a field stands where it comes from, and the way back where it was changed", () => {
  const tied = tiedOf(form(), false);
  const values = { cutter: "12 cm" };
  const starts = startsOf(tied.filter((/** @type {any} */ each) => each.name !== "cutter"), KITCHEN, values, EXAMPLE, "metric");
  showStarts(tied, starts, (/** @type {any} */ each) => (each.name === "cutter" ? { cutter: "7.5 cm" } : {}), values, "../my-kitchen/");
  assert.equal(one('[data-input="tip"] > .pb-from').textContent, "from My kitchen");
  assert.equal(one('[data-input="tip"] > .pb-from a').getAttribute("href"), "../my-kitchen/#pb-kitchen-tips");
  assert.equal(one('[data-input="cutter"] .pb-take-kitchen').dataset.tied, "cutter");
  showStarts(tied, new Map(), () => ({}), {}, "../my-kitchen/");
  assert.equal(document.querySelectorAll(".pb-from").length, 0);
});
