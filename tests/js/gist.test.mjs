// What a form tells of itself: after anything was typed it says what the build would have written.

import assert from "node:assert/strict";
import { test } from "node:test";
import { FORMS, all, one, openPage, script, show, showForm } from "./page.mjs";

openPage();
const { controlOf, takeChoice, tell } = await script("gist");

/** What stands in the lines, dots and pickers of a form, and which of its fields are hidden. @param {Element} form */
function told(form) {
  return {
    lines: all(".pb-gist", form).map((line) => line.textContent),
    dots: all(".pb-dot", form).map((dot) => dot.getAttribute("data-look") ?? ""),
    looks: all(".pb-look", form).map((picker) => picker.value),
    days: all(".pb-when", form).map((picker) => picker.value),
    hidden: all(".pb-field[hidden]", form).map((field) => field.dataset.input),
  };
}

for (const name of Object.keys(FORMS)) {
  test(`the form of ${name} tells of itself what the build wrote`, () => {
    const form = showForm(name);
    const written = told(form);
    for (const line of all(".pb-gist", form)) line.textContent = "?";
    for (const dot of all(".pb-dot", form)) dot.setAttribute("data-look", "#123456");
    for (const field of all(".pb-field[data-only]", form)) field.hidden = !field.hidden;
    tell(form);
    assert.deepEqual(told(form), written);
  });
}

const ROWS = `<form><div class="pb-items" data-group="rows" data-label="Row"
    data-gist='["{kind}", "{place} on the side", "{tip}", "{tiers}"]'><div class="pb-copies">
  <details class="pb-group"><summary><span class="pb-gist"></span></summary>
    <div class="pb-field" data-local="kind"><select data-name="rows.0.kind"><option value="">—</option><option value="swag">Swag (hung)</option></select></div>
    <div class="pb-field" data-local="place"><select data-name="rows.0.place"><option value="edge">Top Edge</option><option value="">—</option></select></div>
    <div class="pb-field" data-local="tip"><input data-name="rows.0.tip" value=""></div>
    <div class="pb-items" data-group="tiers" data-label="Tier"><div class="pb-copies"></div></div>
  </details></div></div></form>`;

/** The line of the one row, with these chosen or typed. @param {Record<string, string>} values */
function lineOf(values) {
  show(ROWS);
  for (const [name, text] of Object.entries(values)) one(`[data-name="rows.0.${name}"]`).value = text;
  tell(one("form"));
  return one(".pb-gist").textContent;
}

test("a piece with nothing in it is left out whole", () => {
  assert.equal(lineOf({ kind: "", place: "", tip: "" }), "no tiers");
  assert.equal(lineOf({ kind: "swag", place: "", tip: "" }), "Swag · no tiers");
});

test("words chosen come without what is in brackets, the first with its capital only", () => {
  assert.equal(lineOf({ kind: "swag", place: "edge", tip: "Petal 11 mm" }), "Swag · top Edge on the side · Petal 11 mm · no tiers");
});

test("what is typed is told with single spaces and cut off after 40 characters", () => {
  assert.match(lineOf({ kind: "swag", tip: "  a \n b  " }), / · a b · /);
  assert.match(lineOf({ kind: "swag", tip: "x".repeat(40) }), / · x{40} · /);
  assert.match(lineOf({ kind: "swag", tip: "🎂".repeat(41) }), / · (🎂){40}… · /);
});

test("how many there are inside is counted", () => {
  show(ROWS);
  const add = () => one('[data-group="tiers"] > .pb-copies').append(Object.assign(document.createElement("details"), { className: "pb-group" }));
  for (const text of ["no tiers", "1 tier", "2 tiers"]) {
    tell(one("form"));
    assert.equal(one(".pb-gist").textContent, `Top Edge on the side · ${text}`);
    add();
  }
});

const PALETTE = `<form><datalist id="f--colours"><option value="russet" data-look="#8b4513"></option></datalist>
  <div class="pb-items" data-group="colours" data-gist="[]"><div class="pb-copies"><details class="pb-group">
    <div class="pb-field" data-local="name"><input id="own" value="Our Green"></div>
    <div class="pb-field" data-local="look"><div class="pb-entry"><input id="look" value="#00AA11"><input type="color" class="pb-look" id="picker" value="#000000"></div></div>
  </details></div></div>
  <div class="pb-field"><div class="pb-entry"><input id="shade" list="f--colours"><svg class="pb-dot"><circle fill="none"></circle></svg></div></div>
  <div class="pb-field"><div class="pb-entry"><input id="day"><input type="datetime-local" class="pb-when" id="calendar"></div></div></form>`;

/** The colour of the dot beside a field in which this was typed. @param {string} text */
function dotOf(text) {
  show(PALETTE);
  one("#shade").value = text;
  tell(one("form"));
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
  tell(one("form"));
  assert.equal(one("#picker").value, "#00aa11");
  assert.equal(one("#calendar").value, "2027-10-16T18:00");
  one("#day").value = "some Saturday";
  tell(one("form"));
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
  tell(one("form"));
  assert.deepEqual(offered(), ["dusk", "our green", "russet"]);
  one("#shade").value = "dawn";
  one("#shade").focus();
  tell(one("form"));
  assert.deepEqual(offered(), ["our green", "russet"]);
  one("#shade").blur();
  tell(one("form"));
  assert.deepEqual(offered(), ["dawn", "our green", "russet"]);
});

test("a field asked only beside some choice shows beside it, and while it has a problem", () => {
  show(`<form><div><div class="pb-field" data-local="kind"><select id="kind"><option>swag</option><option>shell</option><option>bead</option></select></div>
    <div class="pb-field" id="asked" data-only="kind=swag bead"><input><p class="pb-problem"></p></div></div></form>`);
  const isHidden = (/** @type {string} */ kind) => {
    one("#kind").value = kind;
    tell(one("form"));
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
