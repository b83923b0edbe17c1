// Names of copies: one that is not taken yet.

import assert from "node:assert/strict";
import { test } from "node:test";
import { script } from "./page.mjs";

const { freeName } = await script("copies");

test("a name that nobody has stays as it is", () => {
  assert.equal(freeName("Middle", []), "Middle");
  assert.equal(freeName("Tier 2", ["Tier 1", "Tier 3"]), "Tier 2");
  assert.equal(freeName("Tier", ["Tier 1"]), "Tier");
});

test("a name that is taken gets the next free number", () => {
  assert.equal(freeName("Middle", ["Middle"]), "Middle 2");
  assert.equal(freeName("Middle", ["Middle", "Middle 2", "Middle 4"]), "Middle 3");
  assert.equal(freeName("Tier 2", ["Tier 2"]), "Tier 3");
  assert.equal(freeName("Tier 9", ["Tier 9", "Tier 10"]), "Tier 11");
  assert.equal(freeName("Tier 2", ["Tier 1", "Tier 2", "Tier 3"]), "Tier 4");
});

test("names are told apart by their letters, not by case or by the space round them", () => {
  assert.equal(freeName("middle", [" MIDDLE "]), "middle 2");
  assert.equal(freeName(" Middle ", ["middle", "Middle 2"]), "Middle 3");
});

test("a number alone, and a number that ends a word, count on", () => {
  assert.equal(freeName("7", ["7"]), "8");
  assert.equal(freeName("Tier2", ["tier2"]), "Tier 3");
});
