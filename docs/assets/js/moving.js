// Plays the moving pictures of a hand at work. The build has written into each picture what moves and when (tools/films/moving_markup.py): here the
// numbers between two keys are found, and written into an attribute where they have changed.

import { onEachPage } from "./theme.js";

const REST = 700; // ms between two steps, so that each is seen by itself
const FRAMES = [0.5, 1]; // of a step, for readers who ask for less motion
const NUMBERS = /-?\d*\.?\d+/g;
const EVERY = 30; // ms from one drawing to the next at least: a hand moves slowly, and a slow processor draws for half of that
const PAUSE = 20; // ms for which no frame is asked for after a drawing: the browser goes through the page for each frame, drawn or not

/**
 * @typedef {object} Track one attribute that changes
 * @property {Element} element
 * @property {string} attribute
 * @property {string[]} words what stands between its numbers
 * @property {Float64Array} times in hundredths of a second
 * @property {Float64Array} values as many for each time as there are numbers
 * @property {Float64Array} now the numbers that are written, in hundredths
 * @property {number} at the key that they follow
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
 * Read a list of keys: a time and `size` numbers by turns, each as what it is more than that of the key before, the numbers in parts of one.
 * @param {string} text
 * @param {number} size
 * @param {number} parts
 */
export function readKeys(text, size, parts = 10) {
  const all = text.split(" ").map(Number);
  const row = size + 1;
  for (let k = row; k < all.length; k++) all[k] += all[k - row];
  const count = all.length / row;
  const times = new Float64Array(count);
  const values = new Float64Array(count * size);
  for (let k = 0; k < count; k++) {
    times[k] = all[k * row];
    for (let i = 0; i < size; i++) values[k * size + i] = all[k * row + 1 + i] / parts;
  }
  return { times, values };
}

/**
 * Find the numbers of a track at a time, in hundredths; whether one of them has changed.
 * @param {Pick<Track, "words" | "times" | "values" | "now" | "at">} track
 * @param {number} time
 */
export function changed(track, time) {
  const { times, values, now } = track;
  const size = now.length;
  let k = track.at;
  if (!(times[k] < time && time <= times[k + 1])) track.at = k = keyBefore(times, time);
  const span = times[k + 1] - times[k];
  const share = (span ? Math.min(1, Math.max(0, (time - times[k]) / span)) : 1) || 0;
  let differs = false;
  for (let i = 0; i < size; i++) {
    const from = values[k * size + i];
    const to = values[(k + 1) * size + i] ?? from;
    const value = Math.round((from + (to - from) * share) * 100);
    if (value === now[i]) continue;
    now[i] = value;
    differs = true;
  }
  return differs;
}

/**
 * The text of a track whose numbers have been found.
 * @param {Pick<Track, "words" | "now">} track
 */
export function textOf({ words, now }) {
  let text = words[0];
  for (let i = 0; i < now.length; i++) text += now[i] / 100 + words[i + 1];
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
    this.frame = 0; // the frame that has been asked for
    this.wait = 0; // for the time to ask for the next
    this.isPlaying = false;
    this.shown = -1; // the step
    this.speed = NaN;
    this.steps = (root.dataset.segments ?? "").split("|").map((each) => {
      const [end, ...name] = each.split(" ");
      return { end: Number(end), name: name.join(" ") };
    });
    this.end = this.steps[this.steps.length - 1].end;
    const squeeze = readKeys(root.dataset.squeeze ?? "0 0", 1, 100); // none where nothing is squeezed
    /** @type {Track[]} */
    this.tracks = [...root.querySelectorAll("[data-keys]")].map((element) => {
      const attribute = element.getAttribute("data-of") ?? "transform";
      const words = (element.getAttribute("data-form") ?? (element.getAttribute(attribute) ?? "").replace(NUMBERS, "#")).split("#");
      const said = element.getAttribute("data-keys") ?? "";
      const keys = said === "squeeze" ? squeeze : readKeys(said, words.length - 1);
      const now = new Float64Array(words.length - 1).fill(NaN);
      return { element, attribute, words, ...keys, now, at: 0 };
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
      if (this.time >= this.end || this.shown < 0) this.show(0);
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
    if (!this.isPlaying) this.ask();
    this.isPlaying = true;
    this.root.dataset.playing = "";
    this.name();
  }

  pause() {
    cancelAnimationFrame(this.frame);
    clearTimeout(this.wait);
    this.isPlaying = false;
    delete this.root.dataset.playing;
    this.name();
  }

  /** Say on the button what it does. */
  name() {
    this.part('[data-do="play"]').textContent = this.isPlaying ? "Pause" : "Play";
  }

  /** Ask for the next frame. */
  ask() {
    this.frame = requestAnimationFrame((now) => this.tick(now));
  }

  /** @param {number} now */
  tick(now) {
    if (!this.root.isConnected) return;
    this.before ||= now;
    const passed = now - this.before;
    if (passed < EVERY) {
      this.ask();
      return;
    }
    this.before = now;
    this.wait = setTimeout(() => this.ask(), PAUSE);
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
      if (changed(track, time)) track.element.setAttribute(track.attribute, textOf(track));
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
    if (step !== this.shown) {
      this.part(".pb-moving-step").textContent = `${step + 1} of ${this.steps.length}: ${this.steps[step].name}`;
      this.shown = step;
    }
    const { times, values } = this.speeds;
    let k = keyBefore(times, time);
    if (times[k + 1] < time) k += 1;
    const speed = time >= this.end ? 0 : values[k];
    if (speed === this.speed) return;
    this.part(".pb-moving-speed").textContent = `${speed ? speed.toFixed(1) : 0} cm/s`;
    this.speed = speed;
  }
}

function wantsStillness() {
  return matchMedia("(prefers-reduced-motion: reduce)").matches;
}

function mount() {
  for (const root of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".pb-moving:not([data-live])"))) new Moving(root);
}

onEachPage(mount);
