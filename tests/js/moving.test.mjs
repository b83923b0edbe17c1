// A moving picture plays, rests between its steps, steps, slows down and begins again; each frame writes only what has changed.

import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { all, one, openPage, script, show } from "./page.mjs";

openPage();
const asked = []; // what waits for the next frame
let still = false;
let now = 0;
globalThis.requestAnimationFrame = (act) => asked.push(act);
globalThis.cancelAnimationFrame = () => asked.splice(0);
const waiting = []; // what waits for a time: the time and what is done then
globalThis.setTimeout = (act, ms) => waiting.push([now + ms, act]);
globalThis.clearTimeout = () => waiting.splice(0);
globalThis.matchMedia = (query) => ({ matches: still && query.includes("reduced-motion") });

const { Moving, changed, keyBefore, readKeys, sizeAt, textOf } = await script("moving");

const PICTURE = `<figure class="pb-moving" data-segments="100 squeeze|300 sweep|400 ease off" data-squeeze="0 0 100 100 200 0 100 -100" data-speed="0 0 100 14 200 -9">
  <svg><g id="bag" transform="translate(1.5 -20)" data-keys="0 100 200 100 0 0 200 400 0 100 0 -200"></g>
  <rect id="bar" transform="scale(1 1)" data-of="transform" data-form="scale(# 1)" data-keys="squeeze"/>
  <g data-grow="0 -46 0 0.5 0.25 1 1 1"><path id="a" transform="matrix(1 0 0 1 5 5)" data-t="100 200" display="none"/>
  <path id="b" transform="matrix(1 0 0 1 9 5)" data-t="200 300" display="none"/></g></svg>
  <p class="pb-moving-step"></p><p class="pb-moving-speed"></p>
  <button data-do="play">Play</button><button data-do="step"></button><button data-do="slow" aria-pressed="false"></button><button data-do="again"></button></figure>`;

const of = (id, name = "transform") => one(`#${id}`).getAttribute(name);
/** A track, and its text at a time. */
const trackOf = (words, keys) => ({ words, ...readKeys(keys, words.length - 1), now: new Float64Array(words.length - 1).fill(NaN), at: 0 });
const textAt = (track, time) => (changed(track, time), textOf(track));
const press = (what) => one(`[data-do="${what}"]`).click();
const said = () => one(".pb-moving-step").textContent;

/** Let so many milliseconds pass, in frames of 20 ms. */
function pass(ms) {
  for (let past = 0; past < ms; past += 20) {
    now += 20;
    for (const [due, act] of waiting.splice(0)) {
      if (due <= now) act();
      else waiting.push([due, act]);
    }
    for (const act of asked.splice(0)) act(now);
  }
}

let moving;
beforeEach(() => {
  asked.splice(0);
  waiting.splice(0);
  still = false;
  show(PICTURE);
  moving = new Moving(one(".pb-moving"));
});

test("numbers between two keys lie straight between them", () => {
  const track = trackOf(["translate(", " ", ")"], "0 100 200 100 100 200 0 100 0 100 0 400");
  assert.equal(textAt(track, 0), "translate(10 20)");
  assert.equal(textAt(track, 50), "translate(15 30)");
  assert.equal(textAt(track, 100), "translate(20 40)", "of two keys at one time the earlier holds, so that a step ends as it ended");
  assert.equal(textAt(track, 100.001), "translate(30 40)");
  assert.equal(textAt(track, 150), "translate(30 60)");
  assert.equal(textAt(track, 900), "translate(30 80)");
  assert.equal(changed(track, 950), false, "nothing is written again that stands there");
  assert.equal(textAt(track, 25), "translate(12.5 25)", "and back to an earlier key");
  assert.equal(keyBefore(Float64Array.of(0, 10, 20), 25), 1);
});

test("a single key is where it stands all the time", () => {
  assert.equal(textAt(trackOf(["", ""], "0 70"), 30), "7");
});

test("a piece has its size at each share of its time", () => {
  const profile = [0, 0.2, 0.1, 0.5, 0.6, 1, 1, 1, 1];
  assert.deepEqual(sizeAt(profile, 0), [0.2, 0.1]);
  assert.deepEqual(sizeAt(profile, 0.25).map((size) => Math.round(size * 100)), [40, 55]);
  assert.deepEqual(sizeAt(profile, 0.75), [0.8, 1]);
  assert.deepEqual(sizeAt(profile, 1), [1, 1]);
});

test("it stands until it is asked to play", () => {
  assert.equal(asked.length, 0);
  assert.equal(of("a", "display"), "none");
});

test("it plays each step, rests after it, and stops at the end", () => {
  press("play");
  assert.equal(one('[data-do="play"]').textContent, "Pause");
  assert.ok(one(".pb-moving").hasAttribute("data-playing"), "its views are layers of their own meanwhile");
  pass(1020);
  assert.equal(said(), "1 of 3: squeeze");
  assert.equal(of("bag"), "translate(10 20)");
  pass(660);
  assert.equal(of("bag"), "translate(10 20)", "it rests");
  pass(1160);
  assert.equal(said(), "2 of 3: sweep");
  assert.equal(one(".pb-moving-speed").textContent, "1.4 cm/s");
  assert.equal(of("a"), "matrix(1 0 0 1 5 5)", "the first piece is whole");
  assert.match(of("b"), /^matrix\(1 0 0 1 9 5\)translate\(0 -46\)scale\(0\.\d+ 0\.\d+\)translate\(0 46\)$/, "the second grows");
  pass(4000);
  assert.equal(moving.time, 400);
  assert.equal(one('[data-do="play"]').textContent, "Play");
  assert.equal(asked.length, 0, "nothing runs on");
  assert.ok(!one(".pb-moving").hasAttribute("data-playing"));
  assert.equal(of("bar"), "scale(0 1)");
  press("play");
  assert.equal(of("b", "display"), "none", "played once more, it begins at the beginning");
});

test("a pause holds it where it is, and play goes on from there", () => {
  press("play");
  pass(500);
  press("play");
  const held = moving.time;
  pass(500);
  assert.equal(moving.time, held);
  press("play");
  pass(100);
  assert.ok(moving.time > held && moving.time < held + 12);
});

test("a step plays one segment and stops at its end", () => {
  press("step");
  pass(3000);
  assert.equal(moving.time, 100);
  press("step");
  pass(5000);
  assert.equal(moving.time, 300);
  assert.equal(said(), "2 of 3: sweep");
});

test("half speed takes twice as long, and its button says that it is on", () => {
  press("slow");
  assert.equal(one('[data-do="slow"]').getAttribute("aria-pressed"), "true");
  press("play");
  pass(1020);
  assert.equal(Math.round(moving.time), 50);
});

test("again begins at the beginning, whatever was shown", () => {
  press("play");
  pass(3500);
  press("again");
  assert.equal(moving.time, 0);
  assert.equal(of("a", "display"), "none");
  pass(220);
  assert.equal(Math.round(moving.time), 20);
});

test("after a drawing no frame is asked for until the next is nearly due", () => {
  press("play");
  pass(60);
  assert.deepEqual([asked.length, waiting.length], [0, 1], "it has drawn");
  assert.equal(waiting[0][0], now + 20);
  press("play");
  assert.deepEqual([asked.length, waiting.length], [0, 0], "and nothing is left of it when it is paused");
  const place = of("bag");
  pass(200);
  assert.equal(of("bag"), place);
});

test("for a reader who asks for less motion nothing runs: each press shows the next frame", () => {
  still = true;
  const times = [];
  for (let k = 0; k < 6; k++) {
    press("step");
    times.push(moving.time);
  }
  assert.deepEqual(times, [50, 100, 200, 300, 350, 400]);
  press("again");
  assert.equal(moving.time, 0);
  assert.equal(asked.length, 0);
});

test("the step is announced once and not at each frame", () => {
  let written = 0;
  const place = one(".pb-moving-step");
  const text = Object.getOwnPropertyDescriptor(Node.prototype, "textContent") ?? { set: () => {} };
  Object.defineProperty(place, "textContent", { set: (words) => { written += 1; text.set?.call(place, words); }, get: () => "" });
  press("step");
  pass(2000);
  assert.equal(written, 1);
});

test("a frame writes a few attributes, and none that has not changed", () => {
  press("play");
  pass(2300);
  let writes = 0;
  for (const element of all("[data-keys], [data-t]")) {
    const set = element.setAttribute.bind(element);
    element.setAttribute = (name, value) => {
      assert.notEqual(element.getAttribute(name), value, `${element.id} ${name}`);
      writes += 1;
      set(name, value);
    };
  }
  pass(40);
  assert.ok(writes > 0 && writes <= 2, `${writes}: the bag and one piece; the squeeze stays`);
});

test("it draws 30 times a second at most, whatever the screen does", () => {
  press("play");
  pass(1000);
  let draws = 0;
  const show = moving.show.bind(moving);
  moving.show = (time) => { draws += 1; show(time); };
  pass(1700);
  draws = 0;
  pass(1000);
  assert.equal(draws, 25, "frames come each 20 ms, and every other one is drawn");
});

test("a picture that has left the page stops", () => {
  press("play");
  show("");
  pass(40);
  assert.equal(asked.length, 0);
});

test("a picture in which nothing is squeezed plays without its bar", () => {
  show(PICTURE.replace(/ data-squeeze="[^"]*"/, "").replace(/<rect id="bar".*\/>/, ""));
  moving = new Moving(one(".pb-moving"));
  press("play");
  pass(1020);
  assert.equal(said(), "1 of 3: squeeze");
  assert.notEqual(of("bag"), "translate(1.5 -20)");
  assert.equal(all("#bar").length, 0);
});
