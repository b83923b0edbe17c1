// What is said when a file cannot be had: whether the handbook on the host is another by now, and whether loading the page again helps.

import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { openPage, script } from "./page.mjs";

openPage();
document.head.innerHTML = '<meta name="pb-build" content="code of this page">';
const { adviceOn } = await script("renewed");

/** What the host gives for its list. @type {any} */ let list;
/** @type {{ address: string, cache: string }[]} */ let asked = [];
globalThis.fetch = /** @type {any} */ (async (/** @type {string} */ address, /** @type {{ cache: string }} */ { cache }) => {
  asked.push({ address, cache });
  if (list instanceof Error) throw list;
  return list;
});
const listOf = (/** @type {unknown} */ code) => ({ ok: true, json: async () => ({ code }) });

beforeEach(() => {
  list = listOf("code of this page");
  asked = [];
});

test("where no file was lacking and the handbook is the same there is nothing to say", async () => {
  assert.equal(await adviceOn(undefined), null);
});

test("the list is asked for from the host, not from what the browser has", async () => {
  await adviceOn(undefined);
  assert.deepEqual(asked.map(({ cache }) => cache), ["no-cache"]);
  assert.match(asked[0].address, /\/offline\.json$/);
});

test("after the handbook was renewed the page is to be loaded again, whatever was lacking", async () => {
  list = listOf("code of another");
  for (const lacks of [undefined, { file: "a", status: 404 }, { file: "a", status: 0 }]) {
    const advice = await adviceOn(lacks);
    assert.match(advice.text, /renewed on its host/);
    assert.equal(advice.reload, true);
  }
});

test("without an answer there is no network, and loading again would lose the page", async () => {
  list = new TypeError("no network");
  const advice = await adviceOn({ file: "a", status: 0 });
  assert.match(advice.text, /no network/);
  assert.equal(advice.reload, false);
});

test("a file that the host no longer has is named with its answer", async () => {
  const advice = await adviceOn({ file: "a", status: 404 });
  assert.match(advice.text, /which answered 404\./);
  assert.equal(advice.reload, true);
});

test("a host without a list, or with one that names no code, is not taken for a newer handbook", async () => {
  for (const other of [{ ok: false, json: async () => ({ code: "of an error page" }) }, listOf(undefined), listOf(7), { ok: true, json: async () => JSON.parse("<html>") }]) {
    list = other;
    assert.equal(await adviceOn(undefined), null);
  }
});
