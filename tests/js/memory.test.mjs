// The memory of a snapshot: what is put back is what was frozen, whatever the fresh start has written meanwhile.

import assert from "node:assert/strict";
import { test } from "node:test";
import { script } from "./page.mjs";

const { checksum, putBack } = await script("memory");

const PAGE = 4096;
const HEAD = [11, 22, 33]; // words of the runtime's own

/** Numbers that are the same in every run. @param {number} seed */
function numbers(seed) {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0; // Numerical Recipes, 7.1
    return state >>> 8;
  };
}

/** FNV-1a over words, in whole numbers of any length. @param {number[]} words */
function fnv1a(words) {
  return words.reduce((sum, word) => ((sum ^ BigInt(word)) * 0x01000193n) & 0xffffffffn, 0x811c9dc5n);
}

/** A runtime's module as a fresh start leaves it. @param {Uint8Array} start @param {number} size @param {number} used */
function freshModule(start, size, used) {
  const module = {
    HEAPU8: new Uint8Array(size),
    grown: 0,
    _sbrk: () => used,
    growMemory(/** @type {number} */ to) {
      const larger = new Uint8Array(to);
      larger.set(module.HEAPU8);
      module.HEAPU8 = larger;
      module.grown = to;
    },
  };
  module.HEAPU8.set(start);
  module.HEAPU8.fill(0x5a, start.length, used); // what a fresh start has put above its data: to be written over
  return module;
}

/** What the build ships of an image: stretches that are not empty, with the start of a fresh memory combined into it. */
function ship(/** @type {Uint8Array} */ image, /** @type {Uint8Array} */ start) {
  const combined = image.slice();
  start.forEach((byte, i) => { combined[i] ^= byte; });
  const stretches = [];
  for (let at = 0; at < combined.length; at += PAGE) {
    const block = combined.subarray(at, at + PAGE);
    if (block.every((byte) => byte === 0)) continue;
    const last = stretches.at(-1);
    if (last && last[0] + last[1] === at) last[1] += PAGE;
    else stretches.push([at, PAGE]);
  }
  const words = Uint32Array.from([stretches.length, 4 * HEAD.length, ...stretches.flat(), ...HEAD]);
  const bytes = Buffer.concat([new Uint8Array(words.buffer), ...stretches.map(([at, length]) => combined.subarray(at, at + length))]);
  return new Uint8Array(bytes); // aligned, as what a stream gives is
}

function example(/** @type {number} */ seed, { pages = 12, empty = 3 } = {}) {
  const next = numbers(seed);
  const image = new Uint8Array(pages * PAGE);
  for (let page = 0; page < pages; page += 1) {
    if (next() % empty === 0) continue;
    for (let i = 0; i < 40; i += 1) image[page * PAGE + (next() % PAGE)] = next() % 256;
  }
  const start = new Uint8Array(2 * PAGE);
  for (let i = 0; i < 200; i += 1) start[next() % start.length] = next() % 256;
  const build = { image: image.length + 4 * HEAD.length, data: start.length, sum: checksum(start, start.length) };
  return { image, start, build, shipped: ship(image, start) };
}

test("the checksum is FNV-1a over words", () => {
  assert.equal(checksum(new Uint8Array(8), 0), 0x811c9dc5); // the offset basis that Fowler, Noll and Vo give for 32 bits
  for (const words of [[0], [1], [0xffffffff], [1, 2, 3], [3, 2, 1], [0x12345678, 0x9abcdef0]]) {
    const memory = new Uint8Array(Uint32Array.from(words).buffer);
    assert.equal(BigInt(checksum(memory, memory.length)), fnv1a(words));
  }
});

test("the checksum looks at so many bytes and no more", () => {
  const memory = new Uint8Array(16);
  const before = checksum(memory, 8);
  memory[8] = 1;
  assert.equal(checksum(memory, 8), before);
  memory[7] = 1;
  assert.notEqual(checksum(memory, 8), before);
});

for (const seed of [1, 2, 3, 4, 5, 6, 7, 8]) {
  test(`what is put back is what was frozen (${seed})`, () => {
    const { image, start, build, shipped } = example(seed);
    const module = freshModule(start, 16 * PAGE, 7 * PAGE);
    const head = putBack(module, shipped, build);
    assert.deepEqual(module.HEAPU8.slice(0, image.length), image);
    assert.deepEqual([...new Uint32Array(head.slice().buffer)], HEAD);
    assert.equal(module.grown, 0);
  });
}

test("an image with nothing in it empties what the fresh start has used", () => {
  const { start, build } = example(9);
  const image = new Uint8Array(12 * PAGE);
  const module = freshModule(start, 16 * PAGE, 9 * PAGE);
  putBack(module, ship(image, start), build);
  assert.deepEqual(module.HEAPU8.slice(2 * PAGE), new Uint8Array(14 * PAGE));
});

test("a memory that is too small grows to the image", () => {
  const { image, start, build, shipped } = example(10);
  const module = freshModule(start, 4 * PAGE, 3 * PAGE);
  putBack(module, shipped, build);
  assert.equal(module.grown, image.length);
  assert.deepEqual(module.HEAPU8, image);
});

test("a fresh start that differs is refused before anything is written", () => {
  const { start, build, shipped } = example(11);
  const module = freshModule(start, 16 * PAGE, 7 * PAGE);
  module.HEAPU8[5] ^= 1;
  const before = module.HEAPU8.slice();
  assert.throws(() => putBack(module, shipped, build), /differs/);
  assert.deepEqual(module.HEAPU8, before);
});
