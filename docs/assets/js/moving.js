// Plays the moving pictures of a hand at work. The build has written into each picture what moves and when (tools/site/moving.py): here the
// numbers between two keys are found, and written into an attribute where they have changed.

import { onEachPage } from "./theme.js";

const REST = 700; // ms between two steps, so that each is seen by itself
const FRAMES = [0.5, 1]; // of a step, for readers who ask for less motion
const EVERY = 30; // ms from one drawing to the next at least: a hand moves slowly, and a slow processor draws for half of that

/**
 * @typedef {object} Track one attribute that changes
 * @property {Element} element
 * @property {string} attribute
 * @property {string[]} words what stands between its numbers
 * @property {Float64Array} times in hundredths of a second
 * @property {Float64Array} values as many for each time as there are numbers
 * @property {string} written
 */

/**
 * Which key a time follows: the last before it, so that of two at one time the earlier holds at that time; never the last of all.
 * @param {Float64Array} times
 * @param {number} time
 */
export function keyBefore(times, time) {
  let low = 0;
  let high = times.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (times[middle] < time) low = middle;
    else high = middle;
  }
  return low;
}

/**
 * Read a list of keys: a time and `size` numbers by turns.
 * @param {string} text
 * @param {number} size
 */
export function readKeys(text, size) {
  const all = text.split(" ").map(Number);
  const count = all.length / (size + 1);
  const times = new Float64Array(count);
  const values = new Float64Array(count * size);
  for (let k = 0; k < count; k++) {
    times[k] = all[k * (size + 1)];
    for (let i = 0; i < size; i++) values[k * size + i] = all[k * (size + 1) + 1 + i];
  }
  return { times, values };
}

/**
 * The text of a track at a time.
 * @param {Pick<Track, "words" | "times" | "values">} track
 * @param {number} time
 */
export function textAt({ words, times, values }, time) {
  const size = words.length - 1;
  const k = keyBefore(times, time);
  const span = times[k + 1] - times[k];
  const share = Math.min(1, Math.max(0, span ? (time - times[k]) / span : 1));
  let text = words[0];
  for (let i = 0; i < size; i++) {
    const from = values[k * size + i];
    const to = values[(k + 1) * size + i] ?? from;
    text += Math.round((from + (to - from) * (share || 0)) * 100) / 100 + words[i + 1];
  }
  return text;
}

/**
 * How long and how high a piece is at a share of its time.
 * @param {number[]} profile shares, each with two sizes
 * @param {number} share
 */
export function sizeAt(profile, share) {
  let i = 0;
  while (i + 3 < profile.length - 3 && profile[i + 3] <= share) i += 3;
  const part = Math.min(1, Math.max(0, (share - profile[i]) / (profile[i + 3] - profile[i])));
  return [1, 2].map((k) => profile[i + k] + (profile[i + 3 + k] - profile[i + k]) * part);
}

/** One moving picture. */
export class Moving {
  /** @param {HTMLElement} root */
  constructor(root) {
    this.root = root;
    this.time = 0;
    this.half = false;
    this.stop = Infinity; // where it stops, in hundredths of a second
    this.rest = 0;
    this.before = 0;
    this.frame = 0;
    this.shown = "";
    this.steps = (root.dataset.segments ?? "").split("|").map((each) => {
      const [end, ...name] = each.split(" ");
      return { end: Number(end), name: name.join(" ") };
    });
    this.end = this.steps[this.steps.length - 1].end;
    /** @type {Track[]} */
    this.tracks = [...root.querySelectorAll("[data-keys]")].map((element) => {
      const words = (element.getAttribute("data-form") ?? "").split("#");
      const keys = readKeys(element.getAttribute("data-keys") ?? "", words.length - 1);
      return { element, attribute: element.getAttribute("data-of") ?? "", words, ...keys, written: "" };
    });
    this.pieces = [...root.querySelectorAll("[data-grow] > [data-t]")].map((element) => {
      const [x, y, ...profile] = (element.parentElement?.dataset.grow ?? element.parentElement?.getAttribute("data-grow") ?? "").split(" ").map(Number);
      const [begin, end] = (element.getAttribute("data-t") ?? "").split(" ").map(Number);
      const matrix = (element.getAttribute("transform") ?? "").split(")")[0] + ")";
      return { element, begin, end, x, y, profile, matrix, state: -1 };
    });
    this.speeds = readKeys(root.dataset.speed ?? "", 1);
    for (const button of /** @type {NodeListOf<HTMLButtonElement>} */ (root.querySelectorAll("[data-do]"))) {
      button.onclick = () => this.press(button.dataset.do ?? "");
    }
    root.dataset.live = "";
  }

  /** @param {string} selector */
  part(selector) {
    return /** @type {HTMLElement} */ (this.root.querySelector(selector));
  }

  get isPlaying() {
    return this.frame !== 0;
  }

  /** The step that a time lies in; its end belongs to it. @param {number} time */
  stepAt(time) {
    const found = this.steps.findIndex((step) => time <= step.end);
    return found < 0 ? this.steps.length - 1 : found;
  }

  /** @param {string} key */
  press(key) {
    if (key === "slow") {
      this.half = !this.half;
      this.part('[data-do="slow"]').setAttribute("aria-pressed", String(this.half));
    } else if (key === "play" && this.isPlaying) {
      this.pause();
    } else if (key === "again") {
      this.pause();
      this.show(0);
      if (!wantsStillness()) this.play(Infinity);
    } else {
      if (this.time >= this.end || !this.shown) this.show(0);
      const step = this.stepAt(this.time + 1);
      if (key === "play") this.play(Infinity);
      else if (wantsStillness()) this.show(this.nextFrame());
      else this.play(this.steps[step].end);
    }
  }

  /** The next frame for readers who ask for less motion. */
  nextFrame() {
    let begin = 0;
    for (const { end } of this.steps) {
      for (const share of FRAMES) {
        const time = Math.round(begin + (end - begin) * share);
        if (time > this.time) return time;
      }
      begin = end;
    }
    return this.end;
  }

  /** Play until a time. @param {number} stop */
  play(stop) {
    this.stop = Math.min(stop, this.end);
    this.rest = 0;
    this.before = 0;
    if (!this.isPlaying) this.frame = requestAnimationFrame((now) => this.tick(now));
    this.name();
  }

  pause() {
    cancelAnimationFrame(this.frame);
    this.frame = 0;
    this.name();
  }

  /** Say on the button what it does. */
  name() {
    this.part('[data-do="play"]').textContent = this.isPlaying ? "Pause" : "Play";
  }

  /** @param {number} now */
  tick(now) {
    if (!this.root.isConnected) return;
    this.frame = requestAnimationFrame((then) => this.tick(then));
    this.before ||= now;
    const passed = now - this.before;
    if (passed < EVERY) return;
    this.before = now;
    if (this.rest > 0) {
      this.rest -= passed;
      return;
    }
    const end = Math.min(this.stop, this.steps[this.stepAt(this.time + 1e-6)].end);
    const time = Math.min(end, this.time + (passed / 10) * (this.half ? 0.5 : 1));
    this.show(time);
    if (time >= this.stop) this.pause();
    else if (time >= end) this.rest = REST;
  }

  /** Show the picture at a time. @param {number} time */
  show(time) {
    this.time = time;
    for (const track of this.tracks) {
      const text = textAt(track, time);
      if (text === track.written) continue;
      track.element.setAttribute(track.attribute, text);
      track.written = text;
    }
    for (const piece of this.pieces) this.grow(piece, time);
    this.say(time);
  }

  /**
   * Hide, grow or finish a piece. Its state is how much of its time is over.
   * @param {Moving["pieces"][number]} piece
   * @param {number} time
   */
  grow(piece, time) {
    const share = time <= piece.begin ? 0 : time >= piece.end ? 1 : (time - piece.begin) / (piece.end - piece.begin);
    if (share === piece.state) return;
    const { element, matrix, x, y } = piece;
    if (share === 0) element.setAttribute("display", "none");
    else {
      if (piece.state <= 0) element.removeAttribute("display");
      const [long, high] = sizeAt(piece.profile, share);
      element.setAttribute("transform", share === 1 ? matrix : `${matrix}translate(${x} ${y})scale(${long.toFixed(3)} ${high.toFixed(3)})translate(${-x} ${-y})`);
    }
    piece.state = share;
  }

  /** Name the step and the speed, where they have changed. @param {number} time */
  say(time) {
    const step = this.stepAt(time || 1);
    const words = `${step + 1} of ${this.steps.length}: ${this.steps[step].name}`;
    if (words !== this.shown) {
      this.part(".pb-moving-step").textContent = words;
      this.shown = words;
    }
    const { times, values } = this.speeds;
    let k = keyBefore(times, time);
    if (times[k + 1] < time) k += 1;
    const speed = `${time >= this.end ? 0 : values[k].toFixed(1)} cm/s`;
    const place = this.part(".pb-moving-speed");
    if (place.textContent !== speed) place.textContent = speed;
  }
}

function wantsStillness() {
  return matchMedia("(prefers-reduced-motion: reduce)").matches;
}

function mount() {
  for (const root of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".pb-moving:not([data-live])"))) new Moving(root);
}

onEachPage(mount);
