// Drawings that come after the answer: which they are, and when they are asked for.

import assert from "node:assert/strict";
import { beforeEach, mock, test } from "node:test";
import { one, openPage, script, show } from "./page.mjs";

openPage();
const { LaterDrawings, drawingsLeft, mainDrawingLeft, shownDrawings, withKnown } = await script("drawing_later");

const figure = (/** @type {string} */ name) => `<figure class="pb-drawing" data-drawing="${name}"><figcaption>x</figcaption></figure>`;
const answer = (/** @type {(string | null)[]} */ ...drawings) => ({ html: ["tilted", "side", "top"].map(figure).join(""), drawings });

/** @type {string[]} */ let asked;
const draw = async (/** @type {string} */ name) => {
  asked.push(name);
  return `<svg>${name}</svg>`;
};
const settle = async () => {
  for (let i = 0; i < 9; i += 1) await null;
};
const nothing = () => {};
const withMain = (/** @type {(string | null)[]} */ ...drawings) => {
  const given = answer(...drawings);
  return { ...given, html: given.html.replace('"tilted"', '"tilted" data-stays=""') };
};

beforeEach(() => {
  asked = [];
  mock.timers.reset();
  mock.timers.enable({ apis: ["setTimeout"] });
});

test("only drawings that are on the page may come later", () => {
  show(`<div class="pb-answer">${figure("side")}<figure class="pb-drawing" data-drawing="top"><svg></svg></figure></div>`);
  assert.deepEqual(shownDrawings(one(".pb-answer")), ["top"]);
});

test("what an answer came without is found by its place in the HTML", () => {
  assert.deepEqual(drawingsLeft(answer("<svg/>", null, null)), [["side", 1], ["top", 2]]);
  assert.deepEqual(drawingsLeft(answer("a", "b", "c")), []);
});

test("they are asked for one by one after a pause, and then the answer is whole", async () => {
  const given = answer("<svg/>", null, null);
  let done = 0;
  new LaterDrawings().begin(given, draw, { drawn: nothing, done: () => (done += 1), broken: nothing });
  await settle();
  assert.deepEqual(asked, []);
  mock.timers.tick(1000);
  await settle();
  assert.deepEqual([asked, done], [["side", "top"], 1]);
  assert.deepEqual(given.drawings, ["<svg/>", "<svg>side</svg>", "<svg>top</svg>"]);
});

test("another edit before the pause is over, or between two of them, ends it", async () => {
  const later = new LaterDrawings();
  const failed = () => assert.fail("it was stopped");
  later.begin(answer("a", null, null), draw, { drawn: failed, done: failed, broken: failed });
  later.stop();
  mock.timers.tick(1000);
  await settle();
  assert.deepEqual(asked, []);
  const stopping = async (/** @type {string} */ name) => {
    later.stop();
    return draw(name);
  };
  later.begin(answer("a", null, null), stopping, { drawn: failed, done: failed, broken: failed });
  mock.timers.tick(1000);
  await settle();
  assert.deepEqual(asked, ["side"]);
});

test("one that cannot be had is told, once", async () => {
  let broken = 0;
  const lost = () => Promise.reject(new Error("lost"));
  new LaterDrawings().begin(answer("a", null, null), lost, { drawn: nothing, done: () => assert.fail("not whole"), broken: () => (broken += 1) });
  mock.timers.tick(1000);
  await settle();
  assert.equal(broken, 1);
});

test("the main drawing is asked for at once, and the others after the pause", async () => {
  const given = withMain(null, "<svg/>", null);
  assert.deepEqual([mainDrawingLeft(given), mainDrawingLeft(withMain("<svg/>", null, null))], [["tilted", 0], undefined]);
  /** @type {string[]} */ const came = [];
  new LaterDrawings().begin(given, draw, { drawn: (name, svg) => came.push(`${name} ${svg}`), done: () => came.push("done"), broken: nothing });
  await settle();
  assert.deepEqual(came, ["tilted <svg>tilted</svg>"]);
  mock.timers.tick(1000);
  await settle();
  assert.deepEqual(came.slice(1), ["top <svg>top</svg>", "done"]);
});

test("an answer that lacks only its main drawing is whole without a pause", async () => {
  let done = 0;
  new LaterDrawings().begin(withMain(null, "a", "b"), draw, { drawn: nothing, done: () => (done += 1), broken: nothing });
  await settle();
  assert.equal(done, 1);
});

test("a main drawing that comes after the next key is not shown", async () => {
  const later = new LaterDrawings();
  const failed = () => assert.fail("it was stopped");
  const given = withMain(null, "a", null);
  later.begin(given, draw, { drawn: failed, done: failed, broken: failed });
  later.stop();
  mock.timers.tick(1000);
  await settle();
  assert.deepEqual([asked, given.drawings], [["tilted"], [null, "a", null]]);
});

test("a drawing that came as true is the one that the page showed when it asked", () => {
  const known = new Map([["tilted", { svg: "<svg>1</svg>" }]]);
  const given = withKnown(answer(/** @type {any} */ (true), null, "<svg>2</svg>"), known);
  assert.deepEqual(given.drawings, ["<svg>1</svg>", null, "<svg>2</svg>"]);
  assert.equal(withKnown(/** @type {any} */ ({ problems: [1] }), known).drawings, undefined);
});
