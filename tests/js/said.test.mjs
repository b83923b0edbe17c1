// What is read out of an answer: the figures that changed, and what is to be put right, by the name of its field.

import assert from "node:assert/strict";
import { test } from "node:test";
import { one, openPage, script, show } from "./page.mjs";

openPage();
const { changesOf, figuresIn, problemsInWords } = await script("said");

const answer = (/** @type {Record<string, string>} */ figures) =>
  Object.entries(figures).map(([name, value]) => `<div class="pb-figure" data-figure="${name}"><dt>${name} in all</dt><dd>${value} <span class="pb-range">(1 to 2)</span></dd></div>`).join("");

/** @param {Record<string, string>} figures */
function figures(figures) {
  show(`<dl>${answer(figures)}</dl>`);
  return figuresIn(one("dl"));
}

test("only what changed is said, buttercream and price before the rest", () => {
  const before = figures({ height: "21 cm", buttercream: "2.11 kg", drop: "3 cm", price: "300.32" });
  const now = figures({ height: "20 cm", buttercream: "2.44 kg", drop: "3 cm", price: "277.01" });
  assert.equal(changesOf(before, now), "buttercream in all: 2.44 kg. price in all: 277.01. height in all: 20 cm.");
});

test("nothing changed is said too, so that a press is never answered with silence", () => {
  const same = figures({ height: "21 cm" });
  assert.equal(changesOf(same, new Map(same)), "The figures stay as they were.");
});

test("many changes are counted, not read one by one", () => {
  const many = (/** @type {string} */ value) => figures(Object.fromEntries(["a", "b", "c", "d", "e", "f"].map((name) => [name, value])));
  assert.match(changesOf(many("1"), many("2")), /d in all: 2\. 2 more figures have changed\.$/);
});

const FORM = `<fieldset><details class="pb-group"><summary><span class="pb-count">Tier 2</span></summary>
  <div class="pb-field" data-input="tiers.1.height"><label for="h">Height<span> (optional)</span></label><input id="h"></div></details>
  <div class="pb-field" data-input="side"><label for="s">Round the side</label><input id="s"></div></fieldset>`;

test("one mistake is said whole, with its field and its tier", () => {
  show(FORM);
  assert.equal(problemsInWords(one("fieldset"), [{ input: "tiers.1.height", message: "It must be 1 cm or more" }]), "Height, Tier 2: It must be 1 cm or more.");
  const named = [{ input: "side", message: "Round the side is empty. Write what the tape says" }];
  assert.equal(problemsInWords(one("fieldset"), named), "Round the side is empty. Write what the tape says.", "its name once");
});

test("several mistakes are said by their fields", () => {
  show(FORM);
  const problems = [{ input: "tiers.1.height", message: "x" }, { input: "side", message: "y" }];
  assert.equal(problemsInWords(one("fieldset"), problems), "2 things to put right: Height, Tier 2; Round the side.");
});
