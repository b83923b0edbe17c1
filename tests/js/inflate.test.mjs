// The worker that unpacks beside the other one: it hands bytes over, or nothing, and closes itself.

import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { gzipSync } from "node:zlib";
import { script } from "./page.mjs";

let closed = 0;
/** @type {any} */ const self = { close: () => { closed += 1; } };
/** @type {any} */ (globalThis).self = self;
await script("inflate");

beforeEach(() => {
  closed = 0;
});

/** What it posts when it is asked for an address that answers so. @param {() => Promise<Response>} answer */
async function heard(answer) {
  /** @type {any[]} */ const posted = [];
  globalThis.fetch = answer;
  await self.onmessage({ data: "/runtime/image", ports: [{ postMessage: (/** @type {any} */ sent) => posted.push(sent) }] });
  return posted;
}

test("a packed file is handed over unpacked, after the bytes that came have been told", async () => {
  const packed = gzipSync("a cake ".repeat(1000));
  const posted = await heard(async () => new Response(packed));
  const counts = posted.slice(0, -1);
  assert.equal(counts.reduce((sum, bytes) => sum + bytes, 0), packed.length);
  assert.equal(new TextDecoder().decode(posted.at(-1)), "a cake ".repeat(1000));
  assert.equal(closed, 1);
});

for (const [what, answer] of /** @type {[string, () => Promise<Response>][]} */ ([
  ["a host that has no such file", async () => new Response("", { status: 404 })],
  ["no network", async () => { throw new TypeError("network"); }],
  ["a file that breaks off", async () => new Response(gzipSync("a cake ".repeat(1000)).subarray(0, 20))],
])) {
  test(`${what}: nothing is handed over`, async () => {
    assert.equal((await heard(answer)).at(-1), null);
    assert.equal(closed, 1);
  });
}
