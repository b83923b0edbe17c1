// What is done for every page: for the first, whenever its script comes, and after each change of page. With it the drawings of the hand.

import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { all, one, openPage, script, show } from "./page.mjs";

const window = openPage();
const { onEachChange, onEachPage } = await script("theme");

/** @type {(() => void)[]} */ let listening = [];
/** The theme's script: it calls once for the first page, and then for each other. */
const theme = { subscribe: (/** @type {() => void} */ act) => { listening.push(act); act(); } };
const changePage = () => listening.forEach((act) => act());

beforeEach(() => {
  listening = [];
  delete window.document$;
});

test("where the theme's script is there already, its changes are heard", () => {
  window.document$ = theme;
  let times = 0;
  onEachChange(() => { times += 1; });
  assert.equal(times, 1);
  changePage();
  assert.equal(times, 2);
});

test("where the theme's script comes later, nothing is done until it does", () => {
  let times = 0;
  onEachChange(() => { times += 1; });
  assert.equal(times, 0);
  window.document$ = theme;
  window.dispatchEvent(new Event("pb-theme"));
  assert.equal(times, 1);
  window.dispatchEvent(new Event("pb-theme"));
  changePage();
  assert.equal(times, 2);
});

test("a page that has been read is seen to at once, without the theme", () => {
  let times = 0;
  onEachPage(() => { times += 1; });
  assert.equal(times, 1);
});

const HAND = '<div class="pb-hand"><input type="checkbox"></div>';
const TOLD = "The left hand turns, at right angles, to the right. Left of it";
const PICTURES = `<div data-turns><svg><title>Right</title><desc>${TOLD}</desc></svg></div><svg><desc>left</desc></svg>`;
const told = () => all("svg > *").map((each) => each.textContent);

test("a left-handed reader's choice is kept, and holds on every page", async () => {
  window.document$ = theme;
  show(HAND + PICTURES);
  await script("hand");
  const isLeft = () => document.documentElement.classList.contains("pb-left-hand");
  assert.equal(isLeft(), false);
  one("input").checked = true;
  one("input").dispatchEvent(new Event("change"));
  assert.equal(isLeft(), true);
  assert.equal(localStorage.getItem("pb-hand"), "left");
  const turned = ["Left", "The right hand turns, at right angles, to the left. Right of it", "left"];
  assert.deepEqual(told(), turned);
  changePage();
  assert.deepEqual(told(), turned, "once is enough");
  show(HAND + HAND + PICTURES);
  changePage();
  assert.deepEqual(told(), turned);
  assert.deepEqual(all("input").map((box) => box.checked), [true, true]);
  one("input").checked = false;
  one("input").dispatchEvent(new Event("change"));
  assert.equal(isLeft(), false);
  assert.deepEqual(all("input").map((box) => box.checked), [false, false]);
  assert.equal(localStorage.getItem("pb-hand"), "right");
  assert.deepEqual(told(), ["Right", TOLD, "left"]);
});
