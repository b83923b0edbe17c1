// What looks to begin with take from a form: the tiers without their rows, the colours of the rows, and what is kept as a look of one's own.

import assert from "node:assert/strict";
import { test } from "node:test";
import { openPage, script, showForm } from "./page.mjs";

openPage();
const { coloursOf, hasRows, ownLook, withoutRows } = await script("look_values");
const { fillForm, readForm, withPress } = await script("form");

const WHOLE = "harvest-supper";

test("a look is fitted to all of a form but its rows", () => {
  const values = readForm(showForm(WHOLE));
  const bare = withoutRows(values);
  assert.ok(hasRows(values) && !hasRows(bare));
  assert.equal(bare["tiers.1.width"], values["tiers.1.width"]);
  assert.equal(bare.guests, values.guests);
  assert.deepEqual(Object.keys(values).filter((name) => !(name in bare) && !name.includes(".rows.")), []);
});

test("colours come in the order in which they first appear, and those of before last", () => {
  const values = { "tiers.0.rows.0.colour": "Russet", "tiers.0.rows.1.colour": " cream ", "tiers.0.rows.2.colour": "", "tiers.1.rows.0.colour": "russet" };
  assert.deepEqual(coloursOf({ ...values, "tiers.0.colour": "ivory" }, ["blush", "cream"]), ["russet", "cream", "blush"]);
});

test("of an order only tiers, rows and units are kept as a look", () => {
  const values = { ...readForm(showForm(WHOLE)), units: "us" };
  const own = ownLook(values);
  assert.ok(hasRows(own));
  assert.equal(own.units, "us");
  assert.deepEqual(Object.keys(own).filter((name) => !name.startsWith("tiers.") && name !== "units"), []);
});

test("rows that a look sets leave nothing of those that stood there", () => {
  const form = showForm(WHOLE);
  fillForm(form, { ...readForm(form), "tiers.0.rows.0.drop": "2 cm", "tiers.0.rows.0.layers": "2" });
  const sets = { "tiers.0.rows.0.kind": "bead", "tiers.0.rows.0.drop": "", "tiers.0.rows.0.layers": "" };
  const look = { dataset: { sets: JSON.stringify(sets), clears: "tiers.0.rows tiers.1.rows" } };
  fillForm(form, withPress(readForm(form), /** @type {any} */ (look)));
  const rows = Object.entries(readForm(form)).filter(([name]) => name.includes(".rows."));
  assert.deepEqual([...new Set(rows.map(([name]) => name.split(".").slice(0, 4).join(".")))], ["tiers.0.rows.0"]);
  const now = Object.fromEntries(rows);
  assert.deepEqual([now["tiers.0.rows.0.kind"], now["tiers.0.rows.0.drop"], now["tiers.0.rows.0.layers"]], ["bead", "", ""]);
});
