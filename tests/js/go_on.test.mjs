// The link from a calculator to the same one on another page: it takes along what stands in the fields.

import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { one, openPage, script, show } from "./page.mjs";

openPage();
await script("go_on");
const { readLink } = await script("saved");

const CALCULATOR = (/** @type {string} */ key, /** @type {string} */ width, more = "data-live") =>
  `<section class="pb-calculator" data-key="${key}" data-units="us" ${more}><fieldset class="pb-form">
    <div class="pb-field" data-input="width" data-local="width"><input data-name="width" value="${width}"></div></fieldset></section>`;
const LINK = '<a class="pb-go-on" data-for="coats" href="../coats/#work-it-out"><b>Go on</b></a>';
const pressed = (/** @type {string} */ selector, kind = "click") => one(selector).dispatchEvent(new MouseEvent(kind, { bubbles: true, cancelable: true }));

beforeEach(() => show(CALCULATOR("swags", "8 in") + CALCULATOR("coats", "10 in") + LINK + '<a class="other" data-for="coats" href="#here">Other</a>'));

for (const kind of ["pointerdown", "click", "auxclick"]) {
  test(`before ${kind} is answered the link carries the fields of its own calculator`, () => {
    pressed("b", kind);
    assert.deepEqual(readLink(one(".pb-go-on").hash, "coats"), { width: "10 in", units: "us" });
    assert.match(one(".pb-go-on").href, /\/coats\/#/);
  });
}

test("what is typed between two presses is carried by the second", () => {
  pressed("b");
  one('[data-key="coats"] input').value = "12 in";
  pressed("b");
  assert.equal(readLink(one(".pb-go-on").hash, "coats").width, "12 in");
});

test("other links stay as they are", () => {
  pressed(".other");
  assert.equal(one(".other").hash, "#here");
  assert.equal(one(".pb-go-on").hash, "#work-it-out");
});

test("as long as the calculator is not alive the link leads to the page as the build wrote it", () => {
  show(CALCULATOR("coats", "10 in", "") + LINK);
  pressed("b");
  assert.equal(one(".pb-go-on").hash, "#work-it-out");
});
