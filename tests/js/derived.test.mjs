// What a form derives from what is filled in is the same as the build would have written.

import assert from "node:assert/strict";
import { test } from "node:test";
import { FORMS, all, one, openPage, script, show, showForm } from "./page.mjs";

openPage();
const { controlOf, emptyLines, showLines, takeChoice, updateDerived } = await script("derived");

/** What stands in the lines, dots and pickers of a form, and which of its fields are hidden. @param {Element} form */
function told(form) {
  return {
    dots: all(".pb-dot", form).map((dot) => dot.getAttribute("data-look") ?? ""),
    looks: all(".pb-look", form).map((picker) => picker.value),
    days: all(".pb-when", form).map((picker) => picker.value),
    hidden: all(".pb-field[hidden]", form).map((field) => field.dataset.input),
  };
}

for (const name of Object.keys(FORMS)) {
  test(`the form of ${name} shows what the build wrote`, () => {
    const form = showForm(name);
    const written = told(form);
    for (const dot of all(".pb-dot", form)) dot.setAttribute("data-look", "#123456");
    for (const field of all(".pb-field[data-only]", form)) field.hidden = !field.hidden;
    updateDerived(form);
    assert.deepEqual(told(form), written);
  });
}

const ROWS = `<form><div class="pb-items" data-input="tiers"><div class="pb-copies"><details class="pb-group"><summary><span class="pb-item-line">a</span></summary>
  <div class="pb-items" data-input="tiers.0.rows"><div class="pb-copies">
    <details class="pb-group"><summary><span class="pb-item-line">b</span></summary><input id="first"></details>
    <details class="pb-group"><summary><span class="pb-item-line">c</span></summary><input id="second"></details>
  </div></div></details></div></div></form>`;

/** The lines over the copies of groups. */
const lines = () => all(".pb-item-line").map((line) => line.textContent);

test("a line stands over the copy that it belongs to, and one that is not given is emptied", () => {
  show(ROWS);
  showLines(one("form"), { "tiers.0.rows.1.": "second", "tiers.0.": "<b>tier</b>", "tiers.1.": "another" });
  assert.deepEqual(lines(), ["<b>tier</b>", "", "second"]);
});

test("a control that was filled in empties the lines over it and leaves those beside it", () => {
  show(ROWS);
  emptyLines(one("#second"));
  assert.deepEqual(lines(), ["", "b", ""]);
});

const PALETTE = `<form><datalist id="f--colours"><option value="russet" data-look="#8b4513"></option></datalist>
  <div class="pb-items" data-group="colours"><div class="pb-copies"><details class="pb-group">
    <div class="pb-field" data-local="name"><input id="own" value="Our Green"></div>
    <div class="pb-field" data-local="look"><div class="pb-entry"><input id="look" value="#00AA11"><input type="color" class="pb-look" id="picker" value="#000000"></div></div>
  </details></div></div>
  <div class="pb-field"><div class="pb-entry"><input id="shade" list="f--colours"><svg class="pb-dot"><circle fill="none"></circle></svg></div></div>
  <div class="pb-field"><div class="pb-entry"><input id="day"><input type="datetime-local" class="pb-when" id="calendar"></div></div></form>`;

/** The colour of the dot beside a field in which this was typed. @param {string} text */
function dotOf(text) {
  show(PALETTE);
  one("#shade").value = text;
  updateDerived(one("form"));
  return [one(".pb-dot").getAttribute("data-look"), one(".pb-dot circle").getAttribute("fill")];
}

test("a colour is found by its name, the reader's own first, or by its number", () => {
  assert.deepEqual(dotOf("russet"), ["#8b4513", "#8b4513"]);
  assert.deepEqual(dotOf("  RUSSET "), ["#8b4513", "#8b4513"]);
  assert.deepEqual(dotOf("our  green"), ["#00aa11", "#00aa11"]);
  assert.deepEqual(dotOf("#ABCDEF"), ["#abcdef", "#abcdef"]);
  assert.deepEqual(dotOf("#abcde"), [null, "none"]);
  assert.deepEqual(dotOf("nothing known"), [null, "none"]);
});

test("pickers follow what is typed, and what is picked is written as if it had been typed", () => {
  show(PALETTE);
  one("#day").value = "2027-10-16 18:00";
  updateDerived(one("form"));
  assert.equal(one("#picker").value, "#00aa11");
  assert.equal(one("#calendar").value, "2027-10-16T18:00");
  one("#day").value = "some Saturday";
  updateDerived(one("form"));
  assert.equal(one("#calendar").value, "");
  one("#calendar").value = "2027-10-17T09:30";
  takeChoice(one("#calendar"));
  assert.equal(one("#day").value, "2027-10-17 09:30");
  one("#picker").value = "#ff0000";
  takeChoice(one("#picker"));
  assert.equal(one("#look").value, "#ff0000");
  takeChoice(one("#day"));
  assert.equal(one("#day").value, "2027-10-17 09:30");
});

test("the list of colours offers first what the order uses, each once, and not what is being typed", () => {
  show(PALETTE);
  const offered = () => all("#f--colours option").map((option) => option.value);
  one("#shade").value = "dusk";
  updateDerived(one("form"));
  assert.deepEqual(offered(), ["dusk", "our green", "russet"]);
  one("#shade").value = "dawn";
  one("#shade").focus();
  updateDerived(one("form"));
  assert.deepEqual(offered(), ["our green", "russet"]);
  one("#shade").blur();
  updateDerived(one("form"));
  assert.deepEqual(offered(), ["dawn", "our green", "russet"]);
});

test("a field asked only beside some choice shows beside it, and while it has a problem", () => {
  show(`<form><div><div class="pb-field" data-local="kind"><select id="kind"><option>swag</option><option>shell</option><option>bead</option></select></div>
    <div class="pb-field" id="asked" data-only="kind=swag bead"><input><p class="pb-problem"></p></div></div></form>`);
  const isHidden = (/** @type {string} */ kind) => {
    one("#kind").value = kind;
    updateDerived(one("form"));
    return one("#asked").hidden;
  };
  assert.deepEqual(["swag", "shell", "bead"].map(isHidden), [false, true, false]);
  one("#asked .pb-problem").textContent = "Too wide";
  assert.equal(isHidden("shell"), false);
});

test("the control of a field is what is typed into, not what helps", () => {
  show(PALETTE);
  assert.equal(controlOf(one('[data-local="look"]')).id, "look");
});
