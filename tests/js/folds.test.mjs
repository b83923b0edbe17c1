// The parts of a long answer fold on a narrow page; on a wide one nothing does.

import assert from "node:assert/strict";
import { test } from "node:test";
import { all, one, openPage, script, show } from "./page.mjs";

const window = openPage({ width: 390, url: "https://handbook.example/plan/#pb-x--part-shopping" });
document.documentElement.onbeforematch = null; // what a browser has whose search finds what is folded

const PART = (/** @type {string} */ name) => `<section class="pb-section" data-section="${name}" id="pb-x--part-${name}">
  <h4>${name}</h4><button class="pb-sheet">Print it</button><button class="pb-copy-text">Copy</button><p id="${name}">what is in ${name}</p></section>`;
show(`<div class="pb-calculator"><nav class="pb-jump"><a data-part="work" href="#pb-x--part-work">work</a></nav>
  <div class="pb-answer">${["cake", "shopping", "work"].map(PART).join("")}</div></div>`);
await script("folds");

const folded = () => all("section.pb-section p").filter((text) => text.getAttribute("hidden") === "until-found").map((text) => text.id);
const heading = (/** @type {string} */ name) => one(`[data-section="${name}"] > h4`);
const press = (/** @type {Element} */ element) => element.dispatchEvent(new MouseEvent("click", { bubbles: true }));

test("the first part and the one that the address names begin open", () => {
  assert.deepEqual(folded(), ["work"]);
});

test("a heading is the button that folds its part, and says whether it is open", () => {
  const button = one("button", heading("cake"));
  assert.equal(button.textContent, "cake");
  assert.equal(button.getAttribute("aria-expanded"), "true");
  press(button);
  assert.deepEqual(folded(), ["cake", "work"]);
  assert.equal(one("button", heading("cake")).getAttribute("aria-expanded"), "false");
  press(one("button", heading("cake")));
  assert.deepEqual(folded(), ["work"]);
});

test("the buttons that print and copy a part are never folded away", () => {
  assert.equal(all(".pb-sheet, .pb-copy-text").some((button) => button.hasAttribute("hidden")), false);
});

test("a link of the strip opens its part", () => {
  press(one('[data-part="work"]'));
  assert.deepEqual(folded(), []);
  press(one("button", heading("work")));
  assert.deepEqual(folded(), ["work"]);
});

test("what the browser's search finds is opened", () => {
  one("#work").dispatchEvent(new Event("beforematch", { bubbles: true }));
  assert.deepEqual(folded(), []);
  press(one("button", heading("work")));
});

test("a new answer is folded as the one before it was", () => {
  one('[data-section="work"]').outerHTML = PART("work");
  one('[data-section="cake"]').outerHTML = PART("cake");
  one(".pb-calculator").dispatchEvent(new Event("pb-answer"));
  assert.deepEqual(folded(), ["work"]);
  assert.equal(one("button", heading("cake")).getAttribute("aria-expanded"), "true");
});

test("a page that is made wide shows all of it, with plain headings", () => {
  window.happyDOM.setViewport({ width: 1280 });
  one(".pb-calculator").dispatchEvent(new Event("pb-answer"));
  assert.deepEqual(folded(), []);
  assert.equal(all("h4 button").length, 0);
  assert.deepEqual(all("h4").map((title) => title.textContent), ["cake", "shopping", "work"]);
});
