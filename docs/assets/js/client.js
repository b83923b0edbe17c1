// The one client of a tab: starts the worker, gives every request an id and a time limit, starts a dead worker again once. A start may last as
// long as bytes come; only one that stands still is given up.

import { LONGEST_REQUEST, LONGEST_SHEET, LONGEST_WORK, SLOW, STANDS_STILL } from "./protocol.js";

/** @import { Answer, Build, Comparison, Lack, Place, Reply, ShownAnswer } from "./protocol.js" */

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

const MOST_RESTARTS = 3; // of a worker that has been ready, before anything was answered again; one that never was is tried twice

const RUNTIME = new URL("../runtime/", import.meta.url).href;

/**
 * The worker that tools/site/early.js has started from the head of the page, once; nothing where it did not, and then it will not.
 * @returns {{ worker: Worker, beside: Worker | null, heard: MessageEvent[] } | null}
 */
function takeEarly() {
  const whole = /** @type {any} */ (window);
  const early = whole.pbEarly;
  whole.pbEarly = { lost: true };
  if (early?.lost) {
    early.worker?.terminate();
    early.beside?.terminate();
  }
  if (!early || early.lost) return null;
  early.worker.onmessage = early.worker.onerror = null;
  return early;
}

/** What became of a request that got no answer. */
export class NoAnswer extends Error {
  /** @param {string} message @param {Lack} [lacks] the file that could not be fetched */
  constructor(message, lacks) {
    super(message);
    this.lacks = lacks;
  }
}

/** What this browser lacks that the calculators need, in words, or nothing. */
function missing() {
  const lacks = [];
  if (typeof Worker === "undefined") lacks.push("workers");
  if (typeof WebAssembly === "undefined") lacks.push("WebAssembly");
  if (typeof DecompressionStream === "undefined") lacks.push("unpacking of files");
  return lacks.length ? `This browser, or a setting of it, lacks ${lacks.join(" and ")}` : "";
}

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
  /** How much of what a start waits for has come, in bytes; nothing of nothing before it is known. */
  come = { bytes: 0, of: 0 };
  /** A request has been waiting for longer than it should. */
  isSlow = false;
  /** The worker was ended because it did not answer, and is started again. */
  isAgain = false;
  /** @type {Lack | undefined} The file for want of which the last start failed. */
  lacks;

  /** @type {Worker | null} */
  #worker = null;
  /** @type {Worker | null} The one that unpacks beside it; what it is still fetching would hold up whoever asks for the same. */
  #beside = null;
  /** @type {Build | null} */
  #build = null;
  /** @type {Map<number, Waiting>} */
  #waiting = new Map();
  #lastId = 0;
  #startTimer = 0;
  #slowTimer = 0;
  #restarts = 0;

  /**
   * Start the worker unless it runs already.
   * @param {Build} build
   */
  start(build) {
    if (this.state === "ready" || this.state === "starting") return;
    const lacks = missing();
    if (lacks) {
      if (this.state === "failed") return;
      this.why = lacks;
      this.#say("failed");
      return;
    }
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
   * One drawing of an answer that came without it.
   * @param {string} calculator @param {Record<string, string>} inputs @param {Place} place @param {string} draw its name @returns {Promise<string>}
   */
  async drawing(calculator, inputs, place, draw) {
    const reply = await this.#ask({ kind: "compute", calculator, inputs, place: { ...place, draw } });
    const { svg } = JSON.parse(reply.json);
    if (typeof svg !== "string") throw new NoAnswer(`${draw} could not be drawn`);
    return svg;
  }

  /**
   * Compare two versions of what was typed, by their names.
   * @param {string} calculator @param {Record<string, string>} inputs @param {Record<string, string>} other @param {string[]} names
   * @returns {Promise<Comparison>}
   */
  async compare(calculator, inputs, other, names) {
    const reply = await this.#ask({ kind: "compute", calculator, inputs, other, names });
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

  /** The reader will not wait: end the worker and start another. */
  restart() {
    if (this.#worker && this.state === "ready") this.#lose(this.#worker, "it was started again by hand");
  }

  /** Whether anything that could be run is lacking here: then trying again is of no use. */
  get cannot() {
    return missing() !== "";
  }

  /** @param {ClientState} state */
  #say(state) {
    this.state = state;
    this.dispatchEvent(new Event("state"));
  }

  #launch() {
    if (!this.#build) return;
    this.starts += 1;
    this.come = { bytes: 0, of: 0 };
    this.lacks = undefined;
    this.#say("starting");
    const early = takeEarly();
    /** @type {Worker} */
    let worker;
    try {
      worker = early?.worker ?? new Worker(new URL("./worker.js", import.meta.url), { type: "module", name: "calc" });
    } catch (error) {
      this.why = String(error);
      this.#say("failed");
      return;
    }
    this.#worker = worker;
    this.#beside = early?.beside ?? null;
    worker.addEventListener("message", (event) => this.#hear(worker, event.data));
    worker.addEventListener("error", (event) => {
      event.preventDefault();
      this.#lose(worker, event.message || "the worker stopped");
    });
    this.#watchStart(worker);
    if (early) for (const event of early.heard) this.#hear(worker, event.data);
    else worker.postMessage({ id: 0, kind: "start", base: RUNTIME, build: this.#build });
  }

  /** A start may stand still for so long and no longer. @param {Worker} worker */
  #watchStart(worker) {
    clearTimeout(this.#startTimer);
    const { bytes, of } = this.come;
    const isWork = of > 0 && bytes >= of;
    const why = isWork ? "starting took too long" : "the files that it needs stopped coming";
    this.#startTimer = setTimeout(() => this.#lose(worker, why), isWork ? LONGEST_WORK : STANDS_STILL);
  }

  /** Say it when the oldest request waits longer than it should, and when none does any more. */
  #watchRequests() {
    clearTimeout(this.#slowTimer);
    if (this.isSlow) {
      this.isSlow = false;
      this.dispatchEvent(new Event("slow"));
    }
    if (this.state !== "ready" || !this.#waiting.size) return;
    this.#slowTimer = setTimeout(() => {
      this.isSlow = true;
      this.dispatchEvent(new Event("slow"));
    }, SLOW);
  }

  /** @param {Worker} worker @param {Reply} reply */
  #hear(worker, reply) {
    if (worker !== this.#worker) return;
    if (reply.kind === "coming") {
      this.come = { bytes: reply.bytes, of: reply.of };
      if (this.state === "starting") this.#watchStart(worker);
      this.dispatchEvent(new Event("coming"));
    } else if (reply.kind === "ready") {
      clearTimeout(this.#startTimer);
      this.isAgain = false;
      this.way = reply.way;
      this.why = reply.why;
      this.marks = reply.marks;
      for (const [id, waiting] of this.#waiting) this.#post(id, waiting); // before anyone hears of it and asks more
      this.#say("ready");
      this.#watchRequests();
    } else if (reply.kind === "failed") {
      this.#lose(worker, reply.message, reply.lacks);
    } else {
      const waiting = this.#waiting.get(reply.id);
      if (!waiting) return;
      this.#waiting.delete(reply.id);
      clearTimeout(waiting.timer);
      this.#watchRequests();
      this.#restarts = 0;
      if (reply.kind === "lacking") waiting.reject(new NoAnswer(`${reply.lacks.address} could not be fetched`, reply.lacks));
      else waiting.resolve(reply);
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
    const longest = waiting.send.kind === "sheet" ? LONGEST_SHEET : LONGEST_REQUEST;
    waiting.timer = setTimeout(() => this.#lose(worker, "an answer took too long"), longest);
    worker.postMessage({ id, ...waiting.send });
    if (this.#waiting.size === 1) this.#watchRequests();
  }

  /**
   * The worker is dead or stuck: start it again, and ask again what was being asked, but no request a third time.
   * @param {Worker} worker @param {string} why @param {Lack} [lacks]
   */
  #lose(worker, why, lacks) {
    if (worker !== this.#worker) return;
    worker.terminate();
    this.#beside?.terminate();
    this.#worker = this.#beside = null;
    clearTimeout(this.#startTimer);
    this.why = why;
    const again = this.#restarts < (this.state === "ready" ? MOST_RESTARTS : 1);
    this.isAgain = this.state === "ready" && again;
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
      this.lacks = lacks;
      this.#say("failed");
    }
    this.#watchRequests();
  }
}

export const client = new Client();
