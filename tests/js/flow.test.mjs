// Enter goes on to the next field that can be seen; with Control it works the order out.

import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { one, openPage, script, show } from "./page.mjs";

openPage();
const { focusField, pressEnter } = await script("flow");

/** @type {HTMLFieldSetElement} */ let form;
let asked = 0;

const FORM = `<fieldset data-flows>
  <div class="pb-field"><input id="first" type="text" value="8 in"></div>
  <div class="pb-field"><select id="second"><option>round</option></select></div>
  <div class="pb-field"><input id="unseen" type="text"></div>
  <div class="pb-field"><input id="skipped" type="text" tabindex="-1"></div>
  <details id="shut"><div class="pb-field"><input id="folded" type="text"></div></details>
  <details id="open" open><div class="pb-field"><input id="third" type="text"></div></details>
  <div class="pb-field"><textarea id="last"></textarea></div>
  <button id="button" type="button"></button>
</fieldset>`;

beforeEach(() => {
  show(FORM);
  form = one("fieldset");
  asked = 0;
  for (const control of form.querySelectorAll("input, select, textarea")) {
    control.getClientRects = () => /** @type {any} */ (control.id === "unseen" ? [] : [{}]);
  }
});

/** Press a key in a field. @param {string} id @param {object} [how] */
function press(id, how = {}) {
  let done;
  const listen = (/** @type {any} */ event) => { done = pressEnter(form, event, () => { asked += 1; }); };
  form.addEventListener("keydown", listen, { once: true });
  one(`#${id}`).dispatchEvent(new KeyboardEvent("keydown", { key: "Enter", bubbles: true, ...how }));
  return done;
}

test("Enter goes on to the next field that is seen and not folded away", () => {
  for (const [from, to] of [["first", "second"], ["second", "third"], ["third", "last"]]) {
    assert.equal(press(from), true);
    assert.equal(document.activeElement?.id, to);
  }
  assert.equal(asked, 0);
});

test("with Shift it goes back, and stays at the first", () => {
  press("third", { shiftKey: true });
  assert.equal(document.activeElement?.id, "second");
  press("second", { shiftKey: true });
  assert.equal(document.activeElement?.id, "first");
  assert.equal(press("first", { shiftKey: true }), true);
  assert.equal(document.activeElement?.id, "first");
  assert.equal(asked, 0);
});

test("in the last field Enter works it out", () => {
  one("#last").closest(".pb-field").remove();
  assert.equal(press("third"), true);
  assert.equal(asked, 1);
});

test("Control or Command and Enter work it out from anywhere", () => {
  assert.equal(press("first", { ctrlKey: true }), true);
  assert.equal(press("last", { metaKey: true }), true);
  assert.equal(asked, 2);
});

test("Enter is left alone where it has a meaning of its own", () => {
  assert.equal(press("last"), false); // a new line
  assert.equal(press("button"), false);
  assert.equal(press("first", { altKey: true }), false);
  assert.equal(press("first", { isComposing: true }), false);
  assert.equal(press("first", { key: "a" }), false);
  form.removeAttribute("data-flows");
  assert.equal(press("second"), false);
  assert.equal(press("last"), false);
  assert.equal(asked, 0);
});

test("a choice that is reached is left as it is", () => {
  show('<select id="choice"><option>round</option></select><input type="checkbox" id="box">');
  for (const id of ["choice", "box"]) {
    one(`#${id}`).select = () => assert.fail("nothing to select");
    focusField(one(`#${id}`));
    assert.equal(document.activeElement?.id, id);
  }
});

test("in a short form Enter works it out", () => {
  form.removeAttribute("data-flows");
  assert.equal(press("first"), true);
  assert.equal(document.activeElement?.id, "");
  assert.equal(asked, 1);
});

test("a field that is reached has its folds opened and its text selected", () => {
  show('<details id="outer"><details id="inner"><input id="deep" type="text" value="8 in"></details></details>');
  focusField(one("#deep"));
  assert.equal(one("#outer").open && one("#inner").open, true);
  assert.equal(document.activeElement?.id, "deep");
  assert.deepEqual([one("#deep").selectionStart, one("#deep").selectionEnd], [0, 4]);
});

test("Enter leads nobody away from a field with something to put right", () => {
  const stays = (/** @type {any} */ event) => pressEnter(form, event, () => {}, (/** @type {HTMLElement} */ field) => field.id === "first");
  focusField(one("#first"));
  form.addEventListener("keydown", stays);
  one("#first").dispatchEvent(new KeyboardEvent("keydown", { key: "Enter", bubbles: true }));
  assert.equal(document.activeElement?.id, "first");
  one("#second").focus();
  one("#second").dispatchEvent(new KeyboardEvent("keydown", { key: "Enter", bubbles: true }));
  assert.notEqual(document.activeElement?.id, "second");
  form.removeEventListener("keydown", stays);
});
