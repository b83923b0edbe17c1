// The strip over a long answer: which part is in view, and the way to and fro between the order and its answer.

import assert from "node:assert/strict";
import { afterEach, beforeEach, test } from "node:test";
import { all, one, openPage, script, show } from "./page.mjs";

const window = openPage();
const { watchPlaces } = await script("places");

/** Where the top of each element is seen, by id. @type {Record<string, number>} */
let tops = {};
/** @type {string[]} */ let gone = [];
let leave = () => {};

const PAGE = `<div class="pb-calculator">
  <nav class="pb-pair"><a href="#form" data-half="form">Order</a><a href="#answer" data-half="answer">Answer</a></nav>
  <form id="form"></form>
  <nav class="pb-jump" id="bar"><ul>${["one", "two", "three"].map((name) => `<li><a href="#${name}" data-part="${name}">${name}</a></li>`).join("")}</ul></nav>
  <div class="pb-result" id="answer">${["one", "two", "three"].map((name) => `<section id="${name}" tabindex="-1">${name}</section>`).join("")}</div>
</div>`;

beforeEach(() => {
  show(PAGE);
  gone = [];
  globalThis.requestAnimationFrame = (act) => { act(0); return 0; };
  globalThis.scrollY = 0;
  globalThis.scrollTo = (/** @type {any} */ to) => { gone.push(`to ${to.top}`); };
  for (const element of all("[id]")) {
    element.getBoundingClientRect = () => ({ top: tops[element.id] ?? 0, bottom: (tops[element.id] ?? 0) + 50 });
    element.scrollIntoView = () => gone.push(element.id);
  }
  one(".pb-jump ul").scrollTo = () => {};
  tops = { answer: 1000, one: 1000, two: 1600, three: 2200 };
  history.replaceState(null, "", "#");
  leave = watchPlaces(one(".pb-calculator"));
});
afterEach(() => leave());

const current = (/** @type {string} */ place) => all(`${place} a[aria-current="true"]`).map((link) => link.textContent);

/** The reader scrolls down so far. @param {number} by */
function scroll(by) {
  for (const id of Object.keys(tops)) tops[id] -= by;
  globalThis.scrollY += by;
  window.dispatchEvent(new Event("scroll"));
}

function press(/** @type {string} */ selector) {
  const event = new MouseEvent("click", { bubbles: true, cancelable: true });
  one(selector).dispatchEvent(event);
  return event.defaultPrevented;
}

test("the part whose heading has passed under the strip is marked, and one only", () => {
  assert.deepEqual(current(".pb-jump"), ["one"]);
  scroll(1500);
  assert.deepEqual(current(".pb-jump"), ["one"]);
  scroll(20); // the second begins 80 px down, the strip ends at 50: less than 40 below it
  assert.deepEqual(current(".pb-jump"), ["two"]);
  scroll(5000);
  assert.deepEqual(current(".pb-jump"), ["three"]);
  scroll(-6520);
  assert.deepEqual(current(".pb-jump"), ["one"]);
});

test("the strip scrolls sideways until the marked part is in its middle, unless its link stands there whole", () => {
  /** @type {number[]} */ const to = [];
  const list = one(".pb-jump ul");
  const link = one('.pb-jump a[data-part="two"]');
  list.scrollTo = (/** @type {{ left: number }} */ { left }) => to.push(left);
  for (const [element, sizes] of [[list, { clientWidth: 200 }], [link, { clientWidth: 80, offsetLeft: 300 }]]) {
    for (const [name, value] of Object.entries(sizes)) Object.defineProperty(element, name, { value });
  }
  const stands = (/** @type {Element} */ element, /** @type {number} */ left, /** @type {number} */ right) => {
    element.getBoundingClientRect = () => /** @type {DOMRect} */ ({ top: 0, bottom: 50, left, right });
  };
  stands(list, 0, 200);
  stands(link, 120, 201);
  stands(one('.pb-jump a[data-part="three"]'), 0, 200);
  scroll(1520);
  scroll(10);
  scroll(5000);
  assert.deepEqual(to, [240]); // its middle at 340, that of the strip 100 further to the left; once
});

test("a press beside the links does nothing", () => {
  const event = new MouseEvent("click", { bubbles: true, cancelable: true });
  one("#one").dispatchEvent(event);
  assert.equal(event.defaultPrevented, false);
  assert.deepEqual(gone, []);
});

test("the half that fills the page is marked", () => {
  assert.deepEqual(current(".pb-pair"), ["Order"]);
  scroll(601); // the answer begins above the middle
  assert.deepEqual(current(".pb-pair"), ["Answer"]);
});

test("a link of the strip goes to its part and takes the focus there", () => {
  assert.equal(press('.pb-jump a[data-part="two"]'), true);
  assert.deepEqual(gone, ["two"]);
  assert.equal(document.activeElement?.id, "two");
  assert.equal(location.hash, "#two");
});

test("the other half is gone to where it was left", () => {
  scroll(300);
  assert.equal(press('.pb-pair a[data-half="answer"]'), true);
  assert.deepEqual(gone, ["answer"]); // the first time, to its beginning
  scroll(900);
  press('.pb-pair a[data-half="form"]');
  assert.equal(gone.at(-1), "to 300");
  scroll(-900);
  press('.pb-pair a[data-half="answer"]');
  assert.equal(gone.at(-1), "to 1200");
});

test("the link of the half that one is in is left to the browser", () => {
  assert.equal(press('.pb-pair a[data-half="form"]'), false);
  assert.deepEqual(gone, []);
});

test("after a new answer the marks are looked at again, and after leaving no more", () => {
  tops.answer = 0;
  one(".pb-calculator").dispatchEvent(new Event("pb-answer"));
  assert.deepEqual(current(".pb-pair"), ["Answer"]);
  leave();
  scroll(-2000);
  assert.deepEqual(current(".pb-pair"), ["Answer"]);
});

test("a short answer has no strip", () => {
  show('<div class="pb-calculator"></div>');
  assert.equal(typeof watchPlaces(one(".pb-calculator")), "function");
});
