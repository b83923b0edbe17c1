// Units: a number without one keeps its meaning when the units are switched, in every kind of field.

import assert from "node:assert/strict";
import { test } from "node:test";
import { all, one, openPage, script, show, showForm } from "./page.mjs";

openPage();
const { nameChoices, spellOut, spelledOut, spelledValue } = await script("units");
const { fillForm, readExample, readForm } = await script("form");
const { updateDerived } = await script("derived");

test("the unit is written after the last number, and only where none is there", () => {
  for (const [typed, spelled] of [
    ["8", "8 in"], ["8 round", "8 in round"], ["1/4", "1/4 in"], ["3 1/2", "3 1/2 in"], ["½", "½ in"], ["1½", "1½ in"], [".5", ".5 in"], ["15,5", "15,5 in"],
    ["8 in", "8 in"], ['8"', '8"'], ["8” round", "8” round"], ["20 cm", "20 cm"], ["6-inch round", "6-inch round"], ["1 ft 2 in", "1 ft 2 in"], ["8x4", "8x4 in"],
    ["1 x 2", "1 x 2 in"], ["25 x 50 mm", "25 x 50 mm"], ["3, 3 1/2 and 4", "3, 3 1/2 and 4 in"], ["3 cm, 4", "3 cm, 4 in"], ["9x13 rectangle", "9x13 in rectangle"],
    ["", ""], ["wedding", "wedding"], ["half an inch", "half an inch"],
  ]) {
    assert.equal(spelledOut(typed, "in"), spelled, typed);
    assert.equal(spelledOut(spelledOut(typed, "in"), "cm"), spelled, "once is enough");
  }
});

test("each field takes the unit beside it, a list of sizes piece by piece, and a count none", () => {
  const form = (/** @type {string} */ attributes, /** @type {string} */ value) => {
    show(`<div class="pb-calculator"><fieldset class="pb-form"><div class="pb-field" ${attributes}><input value="${value}"></div></fieldset></div>`);
    return one("input");
  };
  const tiers = 'data-field="text" data-unit-metric="cm" data-unit-us="in"';
  assert.equal(spelledValue(form(tiers, "8x4 round; 20 x 10 cm; 6x4"), "us"), "8x4 in round; 20 x 10 cm; 6x4 in");
  assert.equal(spelledValue(form(`${tiers} data-counts`, "2"), "us"), "2");
  assert.equal(spelledValue(form('data-field="length" data-unit-metric="mm" data-unit-us="in"', "6"), "metric"), "6 mm");
  assert.equal(spelledValue(form('data-field="mass" data-unit-metric="g" data-unit-us="lb"', "2 of butter"), "us"), "2 lb of butter");
  assert.equal(spelledValue(form('data-field="count"', "36"), "us"), "36");
});

test("every field of an order keeps its meaning, and the example is in round figures of each system", () => {
  const form = showForm("harvest-supper");
  fillForm(form, { ...readForm(form), "tiers.0.width": "8", "tiers.0.filling": "1/4", "tiers.0.rows.0.tip": "petal 11", guests: "36", cutters: "3, 3 1/2" });
  spellOut(form, "us");
  const values = readForm(form);
  assert.deepEqual(
    ["tiers.0.width", "tiers.0.filling", "tiers.0.rows.0.tip", "guests", "cutters"].map((name) => values[name]),
    ["8 in", "1/4 in", "petal 11", "36", "3, 3 1/2 in"],
  );
  const example = readExample(form, "us");
  assert.equal(example["tiers.0.width"], "8 in");
  assert.equal(example["tiers.0.side"], "26 in");
  assert.equal(readExample(form)["tiers.0.width"], "20 cm");
  for (const field of all('.pb-field[data-field="length"]', form)) {
    const text = one("input", field).dataset.us;
    if (text !== undefined) assert.match(text, / in$/);
  }
});

test("the calendar beside a day follows both ways of writing it", () => {
  const form = showForm("timetable");
  const [typed, picker] = [one('[data-name="ready_at"]', form), one(".pb-when", form)];
  for (const [text, shown] of [
    ["2027-10-16 18:00", "2027-10-16T18:00"], ["October 16, 2027 6:00 PM", "2027-10-16T18:00"], ["June 5, 2027, 12:05 AM", "2027-06-05T00:05"], ["soon", ""],
  ]) {
    typed.value = text;
    updateDerived(form);
    assert.equal(picker.value, shown, text);
  }
  assert.equal(typed.dataset.us, "October 16, 2027 6:00 PM");
});

test("a list names its choices in the reader's words, and what is chosen stays chosen", () => {
  const form = showForm("batch");
  const recipe = one('select[data-name="recipe"]', form);
  const named = () => all("option", recipe).map((option) => option.text).filter((text) => text.includes("sugar"));
  recipe.value = "plain";
  const here = named();
  for (const [units, said] of [["us", "Plain (butter and powdered sugar)"], ["us", "Plain (butter and powdered sugar)"], ["metric", "Plain (butter and icing sugar)"]]) {
    document.documentElement.dataset.units = units;
    nameChoices(document);
    assert.ok(named().includes(said), said);
    assert.equal(recipe.value, "plain");
  }
  assert.deepEqual(named(), here);
});
