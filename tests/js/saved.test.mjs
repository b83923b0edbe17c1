// A reader's choices for the whole site, links and files.

import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { openPage, script } from "./page.mjs";

openPage();
const saved = await script("saved");
const storage = globalThis.localStorage;

/** A storage that keeps nothing, as in some private windows. */
const full = new Proxy({}, { get() { throw new Error("QuotaExceededError"); } });

beforeEach(() => {
  globalThis.localStorage = storage;
  for (const key of ["form:x", "form:y", "order:Birthday"]) saved.forget(key);
  storage.clear();
});

test("what is kept is there in the next page", () => {
  assert.equal(saved.keep("form:x", "8 in"), true);
  assert.equal(saved.recall("form:x"), "8 in");
  assert.equal(storage.getItem("piping-bench:form:x"), "8 in");
  storage.setItem("piping-bench:form:y", "from another tab");
  assert.equal(saved.recall("form:y"), "from another tab");
  assert.equal(saved.recall("form:z"), null);
});

test("what is forgotten is gone from both", () => {
  saved.keep("form:x", "8 in");
  saved.forget("form:x");
  assert.equal(saved.recall("form:x"), null);
  assert.equal(storage.length, 0);
});

test("without storage it lasts as long as the page, and says so", () => {
  globalThis.localStorage = full;
  assert.equal(saved.keep("order:Birthday", "{}"), false);
  assert.equal(saved.recall("order:Birthday"), "{}");
  saved.forget("order:Birthday");
  assert.equal(saved.recall("order:Birthday"), null);
});

const TYPED = { "tiers.0.rows.1.tip": "petal 11 mm", note: 'a & b = "c" #1 100 %', empty: "", name: "Crème brûlée 🎂" };

test("a link carries everything that was typed", () => {
  assert.deepEqual(saved.readLink(saved.linkOf("cake", TYPED), "cake"), TYPED);
  assert.match(saved.linkOf("cake", TYPED), /^#cake:[!-~]+$/);
});

test("a link is for the calculator that it names", () => {
  assert.equal(saved.readLink("#cake:side=8", "cak"), null);
  assert.equal(saved.readLink("#other:side=8", "cake"), null);
  assert.equal(saved.readLink("", "cake"), null);
  assert.deepEqual(saved.readLink("#cake:", "cake"), {});
});

test("of a link cut short what can be read is read", () => {
  assert.deepEqual(saved.readLink("#cake:side=8%20in&tall=%E", "cake"), { side: "8 in" });
  assert.deepEqual(saved.readLink("#cake:side=8&=3&rest", "cake"), { side: "8" });
  assert.deepEqual(saved.readLink("#cake:s=1=2", "cake"), { s: "1=2" });
});

test("bytes are written in base64url, without padding", () => {
  for (const bytes of [[], [0], [251, 255], [1, 2, 3], Array.from({ length: 256 }, (_, byte) => byte)]) {
    assert.equal(saved.base64url(Uint8Array.from(bytes)), Buffer.from(bytes).toString("base64url"));
  }
});

test("a packed text is unpacked again, and fits into an address", async () => {
  for (const text of ["", "a", JSON.stringify(TYPED), "swag ".repeat(2000), "\u0000\uffff🎂"]) {
    const link = await saved.packed(text);
    assert.match(link, /^[A-Za-z0-9_-]*$/);
    assert.equal(await saved.unpackedText(link), text);
  }
  assert.ok((await saved.packed("swag ".repeat(2000))).length < 200);
});

test("what this page chose is asked before what is stored, until another tab chooses", () => {
  storage.setItem("piping-bench:form:x", "older");
  globalThis.localStorage = full;
  saved.keep("form:x", "newer");
  globalThis.localStorage = storage;
  assert.equal(saved.recall("form:x"), "newer");
  const told = new Event("storage");
  Object.defineProperty(told, "key", { value: "piping-bench:form:x" });
  dispatchEvent(told);
  assert.equal(saved.recall("form:x"), "older");
});

test("a small link that unpacks to a great text is refused before it is all there", async () => {
  const bomb = await saved.packed("a.".repeat(20_000_000));
  assert.ok(bomb.length < 60_000);
  await assert.rejects(saved.unpackedText(bomb), RangeError);
  await assert.rejects(saved.unpackedText("A".repeat(2_000_000)), RangeError);
});

test("what is packed is given to the browser a slice at a time, for one that unpacks all that it is given at once", async () => {
  const bomb = await saved.packed("a.".repeat(20_000_000));
  const Whole = globalThis.DecompressionStream;
  let largest = 0;
  globalThis.DecompressionStream = /** @type {any} */ (
    function (/** @type {CompressionFormat} */ kind) {
      const counted = new TransformStream({
        transform(chunk, controller) {
          largest = Math.max(largest, chunk.length);
          controller.enqueue(chunk);
        },
      });
      return { writable: counted.writable, readable: counted.readable.pipeThrough(new Whole(kind)) };
    }
  );
  try {
    await assert.rejects(saved.unpackedText(bomb), RangeError);
  } finally {
    globalThis.DecompressionStream = Whole;
  }
  assert.ok(largest > 0 && largest <= 1000, `${largest} bytes of ${bomb.length} letters at once`);
});

test("a packed text that is broken is refused", async () => {
  await assert.rejects(saved.unpackedText("!!"));
  await assert.rejects(saved.unpackedText((await saved.packed("something longer than nothing")).slice(0, 8)));
});
