// What the page does by itself waits for the end of a press.

import assert from "node:assert/strict";
import { beforeEach, mock, test } from "node:test";
import { openPage, script } from "./page.mjs";

const window = openPage();
/** @type {() => void} */ let afterListeners = () => {}; // what was posted to come after all that listens to a click
globalThis.MessageChannel = /** @type {any} */ (class {
  port1 = { onmessage: () => {} };
  port2 = { postMessage: () => { afterListeners = this.port1.onmessage; } };
});
mock.timers.enable({ apis: ["setTimeout"] });
const { afterPress, pressOver } = await script("pressed");

/** @type {string[]} */ let done = [];
const act = (/** @type {string} */ name) => afterPress(() => done.push(name));
const press = (/** @type {string} */ kind) => window.dispatchEvent(new Event(kind));

beforeEach(() => {
  press("pointercancel"); // nothing is left of another test
  done = [];
  afterListeners = () => {};
});

test("with no press under way everything is done at once", () => {
  act("a");
  assert.deepEqual(done, ["a"]);
});

test("what comes during a press is done after its click, and after all that listens to the click", () => {
  press("pointerdown");
  act("a");
  press("pointerup");
  act("b");
  press("click");
  assert.deepEqual(done, []);
  afterListeners();
  assert.deepEqual(done, ["a", "b"]);
  act("c");
  assert.deepEqual(done, ["a", "b", "c"]);
});

test("a press without a click is over a moment after the finger was lifted", () => {
  press("pointerdown");
  act("a");
  mock.timers.tick(900);
  press("pointerup");
  mock.timers.tick(299);
  assert.deepEqual(done, []);
  mock.timers.tick(1);
  assert.deepEqual(done, ["a"]);
});

test("a hold of a second is no press, and one that the browser takes for scrolling is none at once", () => {
  press("pointerdown");
  act("a");
  mock.timers.tick(999);
  assert.deepEqual(done, []);
  mock.timers.tick(1);
  assert.deepEqual(done, ["a"]);
  press("pointerdown");
  act("b");
  press("pointercancel");
  assert.deepEqual(done, ["a", "b"]);
});

test("a click without a press, as from the keyboard, holds nothing up", () => {
  press("click");
  press("pointerup");
  act("a");
  assert.deepEqual(done, ["a"]);
  mock.timers.tick(1000);
  assert.deepEqual(done, ["a"]);
});

test("each press is waited for once", async () => {
  press("pointerdown");
  const over = pressOver().then(() => done.push("over"));
  press("pointercancel");
  await over;
  press("pointerdown");
  press("pointercancel");
  assert.deepEqual(done, ["over"]);
});
