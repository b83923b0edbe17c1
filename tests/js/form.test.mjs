// The form of a whole order: what is read from it, what is put into it, its tiers and rows, and what is to be put right.

import assert from "node:assert/strict";
import { test } from "node:test";
import { FORMS, all, one, openPage, script, showForm } from "./page.mjs";

openPage();
const { begunAnew, fillForm, knownNames, pressGroupButton, readForm, renumber, showCures, showProblems, showSummary, withPress } = await script("form");

const WHOLE = "harvest-supper";
const tiers = (/** @type {Element} */ form) => all(':scope > [data-group="tiers"] > .pb-copies > .pb-group', form);
const rowsOf = (/** @type {Element} */ tier) => all(':scope > [data-group="rows"] > .pb-copies > .pb-group', tier);
const button = (/** @type {Element} */ copy, /** @type {string} */ which) => one(`:scope > .pb-group-tools > ${which}`, copy);

/** Whether every name, id, label and description agrees. @param {Element} form */
function checkNames(form) {
  const names = Object.keys(readForm(/** @type {HTMLElement} */ (form)));
  assert.equal(new Set(names).size, all(".pb-field", form).length);
  for (const field of all(".pb-field", form)) {
    const control = one("input, select, textarea", field);
    assert.equal(control.dataset.name, field.dataset.input);
    assert.equal(control.id, `pb-form-${control.dataset.name}`);
    assert.equal(one("label", field).htmlFor, control.id);
    for (const id of control.getAttribute("aria-describedby").split(" ")) assert.ok(field.querySelector(`[id="${id}"]`), id);
  }
}

for (const name of Object.keys(FORMS)) {
  test(`what stands in the form of ${name} can be put back`, () => {
    const form = showForm(name);
    const values = readForm(form);
    const written = one(".pb-calculator").outerHTML;
    renumber(form);
    fillForm(form, values);
    assert.deepEqual(readForm(form), values);
    if (name !== "order") assert.equal(written.match(/class="pb-group"/g)?.length, one(".pb-calculator").outerHTML.match(/class="pb-group"/g)?.length);
    checkNames(form);
  });
}

test("as many tiers and rows are made as the values speak of", () => {
  const form = showForm(WHOLE);
  const values = readForm(form);
  const other = showForm("order");
  fillForm(other, values);
  assert.deepEqual(readForm(other), values);
  checkNames(other);
  const few = Object.fromEntries(Object.entries(values).filter(([name]) => !/^tiers\.[1-9]/.test(name)));
  fillForm(other, few);
  assert.equal(tiers(other).length, 1);
  assert.deepEqual(readForm(other), few);
});

test("no more are made than there may be", () => {
  const form = showForm("order");
  const most = Number(one('[data-group="tiers"]', form).dataset.maximum);
  fillForm(form, Object.fromEntries(Array.from({ length: most + 3 }, (_, i) => [`tiers.${i}.width`, "8 in"])));
  assert.equal(tiers(form).length, most);
  assert.equal(one(':scope > [data-group="tiers"] > .pb-add', form).disabled, true);
});

test("a choice that is not on the list is kept, for calc to say what is wrong with it", () => {
  const form = showForm("order");
  const select = one("select", form);
  fillForm(form, { [select.dataset.name]: "hexagonal" });
  assert.equal(readForm(form)[select.dataset.name], "hexagonal");
});

test("a box that is ticked is yes", () => {
  const form = showForm(WHOLE);
  const box = one('.pb-field input[type="checkbox"]', form);
  for (const text of ["yes", "no", "yes"]) {
    fillForm(form, { ...readForm(form), [box.dataset.name]: text });
    assert.equal(box.checked, text === "yes");
    assert.equal(readForm(form)[box.dataset.name], text);
  }
});

test("names of tiers that are not there yet are known, names of no field are not", () => {
  const form = showForm(WHOLE);
  const known = ["tiers.0.width", "tiers.5.width", "tiers.4.rows.11.tip"];
  assert.deepEqual(knownNames(form, [...known, "tiers.0.colour of the sky", "width", "tiers.0.rows.tip"]), known);
});

test("a tier is added with what it takes from the last, numbered, and no more than there may be", () => {
  const form = showForm(WHOLE);
  const group = one(':scope > [data-group="tiers"]', form);
  const before = tiers(form).length;
  assert.equal(pressGroupButton(form, one(":scope > .pb-add", group)), `Tier ${before + 1} added.`);
  assert.equal(tiers(form).length, before + 1);
  checkNames(form);
  for (const local of (group.dataset.follows ?? "").split(" ").filter(Boolean)) {
    const values = readForm(form);
    assert.equal(values[`tiers.${before}.${local}`], values[`tiers.${before - 1}.${local}`], local);
  }
  assert.equal(tiers(form)[before].contains(document.activeElement), true);
  while (!one(":scope > .pb-add", group).disabled) pressGroupButton(form, one(":scope > .pb-add", group));
  assert.equal(tiers(form).length, Number(group.dataset.maximum));
});

test("a row once more is the same row, under it, and open", () => {
  const form = showForm(WHOLE);
  const before = readForm(form);
  const rows = rowsOf(tiers(form)[0]);
  pressGroupButton(form, button(rows[0], ".pb-again"));
  const after = readForm(form);
  const of = (/** @type {Record<string, string>} */ values, /** @type {number} */ row) =>
    Object.fromEntries(Object.entries(values).filter(([name]) => name.startsWith(`tiers.0.rows.${row}.`)).map(([name, text]) => [name.split(".").at(-1), text]));
  assert.equal(rowsOf(tiers(form)[0]).length, rows.length + 1);
  assert.deepEqual(of(after, 0), of(before, 0));
  assert.deepEqual(of(after, 1), of(before, 0));
  for (let i = 1; i < rows.length; i += 1) assert.deepEqual(of(after, i + 1), of(before, i));
  assert.equal(rowsOf(tiers(form)[0])[1].hasAttribute("open"), true);
  checkNames(form);
});

test("a tier once more, or one added where another went, has a name that no other has", () => {
  const form = showForm(WHOLE);
  const names = () => tiers(form).map((_, i) => readForm(form)[`tiers.${i}.name`]);
  fillForm(form, { ...readForm(form), "tiers.0.name": "Tier 1", "tiers.1.name": "Top" });
  assert.equal(pressGroupButton(form, button(tiers(form)[0], ".pb-again")), "Tier 1 once more, as Tier 2.");
  pressGroupButton(form, button(tiers(form)[2], ".pb-again"));
  assert.deepEqual(names(), ["Tier 1", "Tier 2", "Top", "Top 2"]);
  pressGroupButton(form, button(tiers(form)[0], ".pb-again"));
  pressGroupButton(form, button(tiers(form)[4], ".pb-remove"));
  pressGroupButton(form, one(':scope > [data-group="tiers"] > .pb-add', form));
  assert.deepEqual(names(), ["Tier 1", "Tier 3", "Tier 2", "Top", "Tier 5"]);
  pressGroupButton(form, button(tiers(form)[0], ".pb-remove"));
  pressGroupButton(form, one(':scope > [data-group="tiers"] > .pb-add', form));
  assert.deepEqual(names(), ["Tier 3", "Tier 2", "Top", "Tier 5", "Tier 6"]);
});

test("a row is copied to the end of another tier, whole, and no more than there may be", () => {
  const form = showForm(WHOLE);
  renumber(form);
  const [lower, upper] = tiers(form);
  const before = readForm(form);
  const count = rowsOf(upper).length;
  const copies = all(":scope > .pb-group-tools > .pb-copy-to", rowsOf(lower)[1]);
  assert.deepEqual(copies.map((each) => each.textContent), ["Copy to Tier 2"]);
  assert.equal(copies[0].getAttribute("aria-label"), "Copy to Tier 2: Row 2 of Tier 1");
  assert.equal(all(":scope > .pb-group-tools > .pb-copy-to", lower).length, 0);
  assert.equal(pressGroupButton(form, copies[0]), `Row 2 copied to Tier 2, as Row ${count + 1} there.`);
  const after = readForm(form);
  for (const local of ["kind", "place", "tip", "colour", "drop"]) assert.equal(after[`tiers.1.rows.${count}.${local}`], before[`tiers.0.rows.1.${local}`], local);
  for (const [name, text] of Object.entries(before)) assert.equal(after[name], text, name);
  checkNames(form);
  while (!copies[0].disabled) pressGroupButton(form, copies[0]);
  assert.equal(rowsOf(upper).length, Number(one(':scope > [data-group="rows"]', upper).dataset.maximum));
  pressGroupButton(form, one(':scope > [data-group="tiers"] > .pb-add', form));
  pressGroupButton(form, button(lower, ".pb-remove"));
  const left = all(":scope > .pb-group-tools > .pb-copy-to", rowsOf(tiers(form)[0])[0]);
  assert.deepEqual(left.map((each) => each.textContent), ["Copy to Tier 2"]);
});

test("each row and tier says which one it is, and so do its buttons", () => {
  const form = showForm(WHOLE);
  renumber(form);
  const row = rowsOf(tiers(form)[1])[0];
  const kind = one(".pb-field select", row);
  assert.equal(row.getAttribute("aria-label"), `Row 1, ${kind.options[kind.selectedIndex].textContent}, Tier 2`);
  assert.equal(tiers(form)[1].getAttribute("aria-label"), `Tier 2, ${readForm(form)["tiers.1.name"]}`);
  fillForm(form, { ...readForm(form), "tiers.1.rows.0.kind": "rosette", "tiers.1.name": "Tier 2" });
  assert.equal(row.getAttribute("aria-label"), "Row 1, Rosette, Tier 2");
  assert.equal(tiers(form)[1].getAttribute("aria-label"), "Tier 2");
  assert.equal(button(row, ".pb-remove").getAttribute("aria-label"), "Remove Row 1 from Tier 2");
  const moved = rowsOf(tiers(form)[1])[1];
  assert.equal(pressGroupButton(form, button(moved, '[data-direction="up"]')), "Row 2 is now Row 1.");
  assert.equal(pressGroupButton(form, button(moved, ".pb-remove")), "Row 1 removed.");
  const labels = all(".pb-group-tools > button", form).map((each) => each.getAttribute("aria-label"));
  assert.equal(new Set(labels).size, labels.length);
});

test("a row moves up and down with all that is in it, and no further than the ends", () => {
  const form = showForm(WHOLE);
  renumber(form);
  const tier = tiers(form).find((each) => rowsOf(each).length > 1);
  assert.ok(tier);
  const [first, second] = rowsOf(tier);
  assert.equal(button(first, '[data-direction="up"]').disabled, true);
  assert.equal(button(rowsOf(tier).at(-1), '[data-direction="down"]').disabled, true);
  pressGroupButton(form, button(second, '[data-direction="up"]'));
  assert.deepEqual(rowsOf(tier).slice(0, 2), [second, first]);
  assert.equal(one(".pb-count", second).textContent.endsWith("1"), true);
  assert.equal(button(second, '[data-direction="up"]').disabled, true);
  assert.equal(document.activeElement, button(second, '[data-direction="down"]'));
  pressGroupButton(form, button(second, '[data-direction="down"]'));
  assert.deepEqual(rowsOf(tier).slice(0, 2), [first, second]);
  checkNames(form);
});

test("a tier is removed, the next takes its number, a line stays in its place, and the last tier stays", () => {
  const form = showForm(WHOLE);
  const count = tiers(form).length;
  const second = tiers(form)[1];
  const width = readForm(form)["tiers.1.width"];
  pressGroupButton(form, button(tiers(form)[0], ".pb-remove"));
  assert.equal(tiers(form).length, count - 1);
  assert.equal(tiers(form)[0], second);
  assert.equal(readForm(form)["tiers.0.width"], width);
  assert.equal(document.activeElement?.className, "pb-put-back");
  assert.match(one(".pb-removed", form).textContent, /^Tier 1 removed/);
  checkNames(form);
  const least = Number(one(':scope > [data-group="tiers"]', form).dataset.minimum);
  while (tiers(form).length > least) pressGroupButton(form, button(tiers(form)[0], ".pb-remove"));
  if (least) assert.equal(button(tiers(form)[0], ".pb-remove").disabled, true);
});

test("what was removed comes back to its place with all that was in it, whatever was done since", () => {
  const form = showForm(WHOLE);
  renumber(form);
  const before = readForm(form);
  pressGroupButton(form, button(rowsOf(tiers(form)[0])[1], ".pb-remove"));
  const tip = one('[data-name="tiers.1.width"]', form);
  tip.value = "21 cm";
  assert.equal(pressGroupButton(form, one(".pb-put-back", form)), "Row 2 is back.");
  assert.deepEqual(readForm(form), { ...before, "tiers.1.width": "21 cm" });
  assert.equal(all(".pb-removed", form).length, 0);
  checkNames(form);
});

test("another button is nobody's business here", () => {
  const form = showForm(WHOLE);
  const other = Object.assign(document.createElement("button"), { className: "pb-print" });
  tiers(form)[0].append(other);
  assert.equal(pressGroupButton(form, other), null);
});

test("another order begins without what belongs to this one, and with what does not", () => {
  const form = showForm(WHOLE);
  const before = readForm(form);
  const fresh = begunAnew(form);
  for (const field of all(".pb-field[data-per-order]", form)) {
    const inGroup = field.closest(".pb-items[data-per-order]");
    if (!inGroup) assert.equal(fresh[field.dataset.input], field.dataset.perOrder, field.dataset.input);
  }
  const emptied = all(".pb-items[data-per-order]", form).map((group) => `${group.dataset.input}.`);
  assert.ok(emptied.length && all(".pb-field[data-per-order]", form).length);
  for (const [name, text] of Object.entries(before)) {
    const field = one(`[data-name="${name}"]`, form).closest(".pb-field");
    if (field.dataset.perOrder === undefined && !emptied.some((prefix) => name.startsWith(prefix))) assert.equal(fresh[name], text, name);
  }
  for (const group of all(".pb-items[data-per-order]", form)) {
    const heads = new Set(Object.keys(fresh).filter((name) => name.startsWith(`${group.dataset.input}.`)).map((name) => name.split(".")[1]));
    assert.equal(heads.size, Number(group.dataset.minimum), group.dataset.input);
  }
});

const PROBLEM = { input: "tiers.1.width", message: "Give a width between 8 cm and 80 cm." };

test("a problem stands beside its field, opens what it is folded in and goes again", () => {
  const form = showForm(WHOLE);
  for (const tier of tiers(form)) tier.open = false;
  assert.deepEqual(showProblems(form, [PROBLEM]), []);
  const control = one('[data-name="tiers.1.width"]', form);
  assert.equal(one(".pb-problem", control.closest(".pb-field")).textContent, PROBLEM.message);
  assert.equal(control.getAttribute("aria-invalid"), "true");
  assert.deepEqual(tiers(form).map((tier) => tier.open), tiers(form).map((_, i) => i === 1));
  assert.equal(one(":scope > summary > .pb-wrong", tiers(form)[1]).textContent, "1 to put right");
  showProblems(form, []);
  assert.equal(one(".pb-problem", control.closest(".pb-field")).textContent, "");
  assert.equal(control.hasAttribute("aria-invalid"), false);
  assert.equal(one(":scope > summary > .pb-wrong", tiers(form)[1]).textContent, "");
  assert.equal(all(".pb-problem", form).some((line) => line.textContent), false);
});

test("problems of no field are given back", () => {
  const form = showForm(WHOLE);
  const stray = { input: "record", message: "The file is not an order." };
  assert.deepEqual(showProblems(form, [stray, PROBLEM]), [stray]);
});

test("the summary links each problem to its field and says where that is", () => {
  const form = showForm(WHOLE);
  const summary = one(".pb-summary");
  showSummary(summary, form, [PROBLEM, { input: "nowhere", message: "Something else." }]);
  assert.equal(summary.hidden, false);
  assert.equal(one(".pb-summary-title").textContent, "2 things to put right");
  const [first, second] = all("li", summary);
  assert.equal(first.textContent, `Tier 2: ${PROBLEM.message}`);
  assert.equal(one("a", first).getAttribute("href"), "#pb-form-tiers.1.width");
  assert.ok(form.querySelector(`[id="pb-form-tiers.1.width"]`));
  assert.equal(second.textContent, "Something else.");
  showSummary(summary, form, [PROBLEM]);
  assert.equal(one(".pb-summary-title").textContent, "One thing to put right");
  assert.equal(one("li", summary), first); // a link that is being pressed stays the same element
  showSummary(summary, form, []);
  assert.equal(summary.hidden, true);
});

test("a press sets what it names and clears what it says", () => {
  const form = showForm(WHOLE);
  const before = readForm(form);
  const press = document.createElement("button");
  press.dataset.sets = JSON.stringify({ "tiers.0.repeats": "9", "tiers.1.rows.0.kind": "shell" });
  press.dataset.clears = "tiers.1.rows";
  const after = withPress(before, press);
  assert.equal(after["tiers.0.repeats"], "9");
  assert.deepEqual(Object.keys(after).filter((name) => name.startsWith("tiers.1.rows.")), ["tiers.1.rows.0.kind"]);
  for (const [name, text] of Object.entries(before)) if (!name.startsWith("tiers.1.rows.") && name !== "tiers.0.repeats") assert.equal(after[name], text, name);
  fillForm(form, after);
  assert.equal(rowsOf(tiers(form)[1]).length, 1);
  assert.equal(one('[data-name="tiers.1.rows.0.kind"]', form).value, "shell");
});

test("what is amiss at a row is said there and goes again", () => {
  const form = showForm(WHOLE);
  const row = rowsOf(tiers(form)[0])[1];
  const html = '<p>Too wide. <button type="button" class="pb-press">Take a finer tip</button></p>';
  showCures(form, { "tiers.0.rows.1": html });
  assert.equal(one(":scope > .pb-cures", row).innerHTML, html);
  assert.equal(all(".pb-cures", form).length, 1);
  const pressed = one(".pb-cures .pb-press", row);
  showCures(form, { "tiers.0.rows.1": html, "tiers.1": "<p>Too small.</p>" });
  assert.equal(one(".pb-cures .pb-press", row), pressed); // a button that is being pressed stays the same element
  assert.equal(one(":scope > .pb-cures", tiers(form)[1]).textContent, "Too small.");
  pressGroupButton(form, button(row, ".pb-again"));
  assert.equal(all(":scope > .pb-cures", rowsOf(tiers(form)[0])[2]).length, 0);
  showCures(form, {});
  assert.equal(all(".pb-cures", form).length, 0);
});
