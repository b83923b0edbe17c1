// What is read of a customer's link, which is a stranger's.

import assert from "node:assert/strict";
import { test } from "node:test";
import { openPage, script } from "./page.mjs";

openPage();
const { readPicture, readTold } = await script("quotation_told");
const told = (/** @type {object} */ more = {}) => JSON.stringify({ version: 1, title: "Supper", parts: [{ h: "Price", p: ["One"], rows: [["To pay", "12.00"]] }], ...more });

test("a quotation is read as it was written", () => {
  assert.deepEqual(readTold(told()), { title: "Supper", parts: [{ h: "Price", p: ["One"], rows: [["To pay", "12.00"]] }] });
});

test("a newer one says so, and what is none is refused", () => {
  assert.throws(() => readTold(told({ version: 2 })), { name: "RangeError", message: "newer" });
  for (const bad of ["", "{", "null", "[]", "7", '"text"', told({ version: "1" }), told({ title: 7 }), told({ parts: {} }), told({ parts: [null] })]) {
    assert.throws(() => readTold(bad), undefined, bad);
  }
  for (const part of [{ h: "a" }, { h: "a", p: "b", rows: [] }, { h: "a", p: [{}], rows: [] }, { h: "a", p: [], rows: [["one"]] }, { h: "a", p: [], rows: ["ab"] }]) {
    assert.throws(() => readTold(told({ parts: [part] })), undefined, JSON.stringify(part));
  }
});

test("lengths are bounded", () => {
  const long = "x".repeat(5000);
  const many = Array.from({ length: 500 }, () => long);
  const parts = Array.from({ length: 50 }, () => ({ h: long, p: many, rows: many.map((text) => [text, text]) }));
  const read = readTold(told({ title: long, parts }));
  assert.equal(read.title.length, 2001);
  assert.equal(read.parts.length, 12);
  assert.deepEqual([read.parts[0].p.length, read.parts[0].rows.length, read.parts[0].h.length], [40, 40, 2001]);
});

test("nothing unseen turns the words round", () => {
  assert.equal(readTold(told({ title: "To pay \u202e00.21\u202c\u0000\n now" })).title, "To pay  00.21  now");
});

test("a picture is one by its first bytes, or none", () => {
  const packed = (/** @type {string} */ bytes) => btoa(bytes).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
  assert.equal(readPicture(packed("RIFF\x10\0\0\0WEBPVP8 "))?.type, "image/webp");
  assert.equal(readPicture(packed("\xff\xd8\xff\xe0 and so on"))?.type, "image/jpeg");
  for (const bad of ["", "%%%", packed("<svg onload='alert(1)'>"), packed("RIFF\x10\0\0\0WAVE"), `${packed("\xff\xd8\xff\xe0")}${"A".repeat(300_000)}`]) {
    assert.equal(readPicture(bad), null);
  }
});
