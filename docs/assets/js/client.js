// The one client of a tab: starts the worker, gives every request an id and a time limit, starts a dead worker again once.

import { LONGEST_REQUEST, LONGEST_START } from "./protocol.js";

/** @import { Answer, Build, Place, Reply, ShownAnswer } from "./protocol.js" */

/** @typedef {"idle" | "starting" | "ready" | "failed"} ClientState */
/**
 * @typedef {{
 *   send: Record<string, unknown>,
 *   resolve: (reply: any) => void,
 *   reject: (error: Error) => void,
 *   timer: number,
 *   tried: boolean,
 * }} Waiting
 */

const RUNTIME = new URL("../runtime/", import.meta.url).href;

/**
 * The worker that tools/site/early.js has started from the head of the page, once; nothing where it did not, and then it will not.
 * @returns {{ worker: Worker, heard: MessageEvent[] } | null}
 */
function takeEarly() {
  const whole = /** @type {any} */ (window);
  const early = whole.pbEarly;
  whole.pbEarly = { lost: true };
  if (early?.lost) early.worker?.terminate();
  if (!early || early.lost) return null;
  early.worker.onmessage = early.worker.onerror = null;
  return early;
}

/** What became of a request that got no answer. */
export class NoAnswer extends Error {}

class Client extends EventTarget {
  /** @type {ClientState} */
  state = "idle";
  /** Why the last start failed, or a snapshot was not used. */
  why = "";
  /** @type {"" | "snapshot" | "plain"} */
  way = "";
  /** @type {Record<string, number>} */
  marks = {};
  starts = 0;

  /** @type {Worker | null} */
  #worker = null;
  /** @type {Build | null} */
  #build = null;
  /** @type {Map<number, Waiting>} */
  #waiting = new Map();
  #lastId = 0;
  #startTimer = 0;
  #restarts = 0;

  /**
   * Start the worker unless it runs already.
   * @param {Build} build
   */
  start(build) {
    if (this.state === "ready" || this.state === "starting") return;
    this.#build = build;
    this.#restarts = 0;
    this.#launch();
  }

  /**
   * Work a calculator out, to be shown in that place.
   * @overload @param {string} calculator @param {Record<string, string>} inputs @param {Place} place @returns {Promise<ShownAnswer>}
   */
  /**
   * Work a calculator out, as plain data.
   * @overload @param {string} calculator @param {Record<string, string>} inputs @returns {Promise<Answer>}
   */
  /** @param {string} calculator @param {Record<string, string>} inputs @param {Place} [place] */
  async compute(calculator, inputs, place) {
    const reply = await this.#ask({ kind: "compute", calculator, inputs, place });
    return JSON.parse(reply.json);
  }

  /**
   * Draw a sheet as PDF; gives its bytes, or the answer that says why there are none.
   * @param {string} calculator @param {Record<string, string>} inputs @param {string} name @param {string} paper
   * @returns {Promise<Uint8Array<ArrayBuffer> | Answer>}
   */
  async sheet(calculator, inputs, name, paper) {
    const reply = await this.#ask({ kind: "sheet", calculator, inputs, name, paper });
    return reply.bytes ?? JSON.parse(reply.json);
  }

  /** @param {ClientState} state */
  #say(state) {
    this.state = state;
    this.dispatchEvent(new Event("state"));
  }

  #launch() {
    if (!this.#build) return;
    this.starts += 1;
    this.#say("starting");
    const early = takeEarly();
    const worker = early?.worker ?? new Worker(new URL("./worker.js", import.meta.url), { type: "module", name: "calc" });
    this.#worker = worker;
    worker.addEventListener("message", (event) => this.#hear(worker, event.data));
    worker.addEventListener("error", (event) => {
      event.preventDefault();
      this.#lose(worker, event.message || "the worker stopped");
    });
    clearTimeout(this.#startTimer);
    this.#startTimer = setTimeout(() => this.#lose(worker, "starting took too long"), LONGEST_START);
    if (early) for (const event of early.heard) this.#hear(worker, event.data);
    else worker.postMessage({ id: 0, kind: "start", base: RUNTIME, build: this.#build });
  }

  /** @param {Worker} worker @param {Reply} reply */
  #hear(worker, reply) {
    if (worker !== this.#worker) return;
    if (reply.kind === "ready") {
      clearTimeout(this.#startTimer);
      this.way = reply.way;
      this.why = reply.why;
      this.marks = reply.marks;
      for (const [id, waiting] of this.#waiting) this.#post(id, waiting); // before anyone hears of it and asks more
      this.#say("ready");
    } else if (reply.kind === "failed") {
      this.#lose(worker, reply.message);
    } else {
      const waiting = this.#waiting.get(reply.id);
      if (!waiting) return;
      this.#waiting.delete(reply.id);
      clearTimeout(waiting.timer);
      this.#restarts = 0;
      waiting.resolve(reply);
    }
  }

  /** @param {Record<string, unknown>} send @returns {Promise<any>} */
  #ask(send) {
    return new Promise((resolve, reject) => {
      if (this.state === "failed" || this.state === "idle") {
        reject(new NoAnswer(this.why || "Python is not running"));
        return;
      }
      this.#lastId += 1;
      const waiting = { send, resolve, reject, timer: 0, tried: false };
      this.#waiting.set(this.#lastId, waiting);
      if (this.state === "ready") this.#post(this.#lastId, waiting);
    });
  }

  /** @param {number} id @param {Waiting} waiting */
  #post(id, waiting) {
    const worker = this.#worker;
    if (!worker) return;
    clearTimeout(waiting.timer);
    waiting.timer = setTimeout(() => this.#lose(worker, "an answer took too long"), LONGEST_REQUEST);
    worker.postMessage({ id, ...waiting.send });
  }

  /**
   * The worker is dead or stuck: start it again once, and ask again what was being asked, but no request a third time.
   * @param {Worker} worker @param {string} why
   */
  #lose(worker, why) {
    if (worker !== this.#worker) return;
    worker.terminate();
    this.#worker = null;
    clearTimeout(this.#startTimer);
    this.why = why;
    const again = this.#restarts < 1;
    for (const [id, waiting] of this.#waiting) {
      clearTimeout(waiting.timer);
      if (again && !waiting.tried) {
        waiting.tried = true;
      } else {
        this.#waiting.delete(id);
        waiting.reject(new NoAnswer(why));
      }
    }
    if (again) {
      this.#restarts += 1;
      this.#launch();
    } else {
      this.#say("failed");
    }
  }
}

export const client = new Client();
