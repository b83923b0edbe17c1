// The client of a tab: one worker, an id for each request, a limit for each wait, a dead worker started again.

import assert from "node:assert/strict";
import { beforeEach, mock, test } from "node:test";
import { script } from "./page.mjs";

/** @type {any} */ const window = {};
/** @type {any} */ (globalThis).window = window;
const { client, NoAnswer } = await script("client");
const { LONGEST_REQUEST, LONGEST_SHEET, LONGEST_WORK, SLOW, STANDS_STILL } = await script("protocol");
const Client = client.constructor;

/** @type {FakeWorker[]} Those that were started. */ let workers = [];

class FakeWorker extends EventTarget {
  /** @type {any[]} */ sent = [];
  isEnded = false;

  constructor() {
    super();
    workers.push(this);
  }

  /** @param {any} message */
  postMessage(message) {
    this.sent.push(message);
  }

  terminate() {
    this.isEnded = true;
  }

  /** Say something to the page. @param {any} data */
  says(data) {
    this.dispatchEvent(Object.assign(new Event("message"), { data }));
  }

  isReady() {
    this.says({ kind: "ready", way: "snapshot", why: "", marks: { ready: 5 } });
  }

  /** The requests that it was sent, without what starts it. */
  get requests() {
    return this.sent.filter(({ kind }) => kind !== "start");
  }
}

/** @type {any} */ let mine;
/** @type {string[]} */ let heard = [];
const BUILD = /** @type {any} */ ({ pyodide: "pyodide/" });

beforeEach(() => {
  mock.timers.reset();
  mock.timers.enable({ apis: ["setTimeout"] });
  workers = [];
  heard = [];
  window.pbEarly = undefined;
  /** @type {any} */ (globalThis).Worker = FakeWorker;
  mine = new Client();
  for (const kind of ["state", "slow", "coming"]) mine.addEventListener(kind, () => heard.push(kind === "state" ? mine.state : `${kind} ${mine.isSlow}`));
});

const last = () => /** @type {FakeWorker} */ (workers.at(-1));

/** A client whose worker is ready. */
function ready() {
  mine.start(BUILD);
  last().isReady();
}

/** What became of a promise. @param {Promise<any>} promise */
async function outcome(promise) {
  return Promise.race([promise.catch((error) => error), new Promise((resolve) => setImmediate(() => resolve("waits")))]);
}

test("a worker is started once and told where its files are", () => {
  mine.start(BUILD);
  mine.start(BUILD);
  assert.equal(workers.length, 1);
  assert.equal(last().sent[0].kind, "start");
  assert.match(last().sent[0].base, /\/docs\/assets\/runtime\/$/);
  last().isReady();
  assert.deepEqual([mine.state, mine.way, mine.marks, mine.starts], ["ready", "snapshot", { ready: 5 }, 1]);
  assert.deepEqual(heard, ["starting", "ready"]);
});

test("a worker that was started from the head of the page is taken over, with what it has said", () => {
  const worker = new FakeWorker();
  const beside = new FakeWorker();
  window.pbEarly = { worker, beside, heard: [{ data: { kind: "coming", bytes: 3, of: 9 } }, { data: { kind: "ready", way: "snapshot", why: "", marks: {} } }] };
  mine.start(BUILD);
  assert.equal(workers.length, 2);
  assert.deepEqual([mine.state, mine.come, worker.sent], ["ready", { bytes: 3, of: 9 }, []]);
  mine.restart();
  assert.deepEqual([worker.isEnded, beside.isEnded, workers.length], [true, true, 3]);
});

test("answers find their requests, whatever their order", async () => {
  ready();
  const first = mine.compute("swags", { side: "66 cm" });
  const second = mine.compute("tint", {});
  const [one, two] = last().requests;
  assert.deepEqual([one.calculator, one.inputs, two.calculator], ["swags", { side: "66 cm" }, "tint"]);
  last().says({ kind: "answer", id: two.id, json: '{"calculator":"tint"}' });
  last().says({ kind: "answer", id: 99, json: "{}" }); // nobody asked
  assert.equal(await outcome(first), "waits");
  last().says({ kind: "answer", id: one.id, json: '{"calculator":"swags"}' });
  assert.deepEqual([await first, await second], [{ calculator: "swags" }, { calculator: "tint" }]);
});

test("what is asked while it starts is sent when it is ready", async () => {
  mine.start(BUILD);
  const answer = mine.compute("tint", {});
  assert.deepEqual(last().requests, []);
  last().isReady();
  last().says({ kind: "answer", id: last().requests[0].id, json: "{}" });
  assert.deepEqual(await answer, {});
});

test("before a start and after a failed one nothing is asked", async () => {
  assert.ok((await outcome(mine.compute("tint", {}))) instanceof NoAnswer);
});

test("a sheet is its bytes, or the answer that says why there is none", async () => {
  ready();
  const [drawn, refused] = [mine.sheet("order", {}, "bench-sheet", "A4"), mine.sheet("order", {}, "bench-sheet", "A5")];
  const [one, two] = last().requests;
  assert.deepEqual([one.kind, one.name, one.paper], ["sheet", "bench-sheet", "A4"]);
  last().says({ kind: "sheet", id: one.id, bytes: new Uint8Array([37]), json: "" });
  last().says({ kind: "sheet", id: two.id, bytes: null, json: '{"problems":[]}' });
  assert.deepEqual([await drawn, await refused], [new Uint8Array([37]), { problems: [] }]);
});

test("a request that lacks a file is refused with its address, and the worker goes on", async () => {
  ready();
  const answer = mine.compute("order", {});
  last().says({ kind: "lacking", id: last().requests[0].id, lacks: { address: "/stdlib", status: 404 } });
  const error = await outcome(answer);
  assert.deepEqual([error.message, error.lacks.status, mine.state], ["/stdlib could not be fetched", 404, "ready"]);
});

test("an answer that takes too long ends the worker; it is asked once more of another, and no third time", async () => {
  ready();
  const answer = mine.compute("tint", {});
  mock.timers.tick(LONGEST_REQUEST - 1);
  assert.equal(last().isEnded, false);
  mock.timers.tick(1);
  assert.deepEqual([workers[0].isEnded, workers.length, mine.state, mine.isAgain], [true, 2, "starting", true]);
  last().isReady();
  assert.equal(mine.isAgain, false);
  assert.equal(last().requests.length, 1);
  mock.timers.tick(LONGEST_REQUEST);
  const error = await outcome(answer);
  assert.deepEqual([error instanceof NoAnswer, error.message, workers.length], [true, "an answer took too long", 3]);
  last().isReady();
  assert.deepEqual(last().requests, []);
});

test("a sheet may take longer than an answer", () => {
  assert.ok(LONGEST_SHEET > LONGEST_REQUEST);
  ready();
  mine.sheet("order", {}, "bench-sheet", "A4").catch(() => {});
  mock.timers.tick(LONGEST_SHEET - 1);
  assert.equal(last().isEnded, false);
  mock.timers.tick(1);
  assert.equal(workers[0].isEnded, true);
});

test("a worker that dies again and again is started three times more, and an answer in between sets the count back", async () => {
  ready();
  const dies = () => {
    last().dispatchEvent(Object.assign(new Event("error", { cancelable: true }), { message: "out of memory" }));
    if (mine.state === "starting") last().isReady();
  };
  dies();
  dies();
  const answer = mine.compute("tint", {});
  last().says({ kind: "answer", id: last().requests[0].id, json: "{}" });
  await answer;
  for (let i = 0; i < 3; i += 1) dies();
  assert.deepEqual([mine.state, workers.length], ["ready", 6]);
  dies();
  assert.deepEqual([mine.state, mine.why, workers.length], ["failed", "out of memory", 6]);
  mine.start(BUILD); // asked for again by hand
  assert.deepEqual([mine.state, workers.length], ["starting", 7]);
});

test("a start that fails is tried once more, and then given up with the file that it lacks", async () => {
  mine.start(BUILD);
  const answer = mine.compute("tint", {});
  const lacks = { address: "/wasm", status: 404 };
  last().says({ kind: "failed", message: "no wasm", lacks });
  assert.deepEqual([mine.state, workers.length, mine.isAgain], ["starting", 2, false]);
  last().says({ kind: "failed", message: "no wasm", lacks });
  assert.deepEqual([mine.state, mine.why, mine.lacks], ["failed", "no wasm", lacks]);
  assert.equal((await outcome(answer)).message, "no wasm");
});

test("a start lasts as long as bytes come, and no longer", () => {
  mine.start(BUILD);
  for (let bytes = 1; bytes < 9; bytes += 1) {
    mock.timers.tick(STANDS_STILL - 1);
    last().says({ kind: "coming", bytes, of: 9 });
  }
  assert.equal(workers.length, 1);
  mock.timers.tick(STANDS_STILL);
  assert.deepEqual([workers.length, mine.why], [2, "the files that it needs stopped coming"]);
  last().says({ kind: "coming", bytes: 9, of: 9 });
  mock.timers.tick(LONGEST_WORK);
  assert.deepEqual([mine.state, mine.why], ["failed", "starting took too long"]);
});

test("what a worker says after its end is not heard", () => {
  ready();
  const before = last();
  mine.restart();
  before.isReady();
  assert.equal(mine.state, "starting");
});

test("a wait that is too long is told, until nothing waits any more", async () => {
  ready();
  const answer = mine.compute("tint", {});
  mock.timers.tick(SLOW - 1);
  assert.equal(mine.isSlow, false);
  mock.timers.tick(1);
  assert.equal(mine.isSlow, true);
  last().says({ kind: "answer", id: last().requests[0].id, json: "{}" });
  await answer;
  assert.equal(mine.isSlow, false);
  assert.deepEqual(heard.slice(2), ["slow true", "slow false"]);
});

test("a browser without workers says so and starts nothing", () => {
  /** @type {any} */ (globalThis).Worker = undefined;
  mine.start(BUILD);
  assert.deepEqual([mine.state, mine.cannot], ["failed", true]);
  assert.match(mine.why, /lacks workers/);
});
