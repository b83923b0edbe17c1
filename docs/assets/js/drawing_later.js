// The drawings of an answer that come after it. Those that the page shows already, but for the main one, stay as they were until the reader
// pauses; then they are asked for one by one, so that what is typed next waits for one of them at most.

/** @import { ShownAnswer } from "./protocol.js" */

const PAUSE = 150; // ms without another answer

/** The drawings of an answer that the page shows, by name. @param {Element} shown @returns {string[]} */
export function shownDrawings(shown) {
  const figures = /** @type {NodeListOf<HTMLElement>} */ (shown.querySelectorAll(".pb-drawing[data-drawing]"));
  return [...figures].filter((figure) => figure.querySelector(":scope > svg")).map((figure) => figure.dataset.drawing ?? "");
}

/** The drawings that an answer has come without, by name, each with its place among them. @param {ShownAnswer} answer @returns {[string, number][]} */
export function drawingsLeft({ html, drawings }) {
  const names = [...html.matchAll(/<figure class="pb-drawing" data-drawing="([^"]*)"/g)].map(([, name]) => name);
  return names.flatMap((name, i) => (drawings[i] === null ? [/** @type {[string, number]} */ ([name, i])] : []));
}

/** Has them drawn when the reader pauses. One for each calculator. */
export class LaterDrawings {
  #timer = 0;
  #round = 0;

  /** Another answer is wanted, or the page is left. */
  stop() {
    clearTimeout(this.#timer);
    this.#round += 1;
  }

  /**
   * Complete an answer. It is `done` when all its drawings are there, unless it was stopped; `broken` when one of them could not be had.
   * @param {ShownAnswer} answer @param {(name: string) => Promise<string>} draw @param {() => void} done @param {() => void} broken
   */
  begin(answer, draw, done, broken) {
    this.stop();
    const round = this.#round;
    const left = drawingsLeft(answer);
    if (!left.length) return;
    this.#timer = setTimeout(async () => {
      try {
        for (const [name, i] of left) {
          const svg = await draw(name);
          if (round !== this.#round) return;
          answer.drawings[i] = svg;
        }
      } catch {
        if (round === this.#round) broken();
        return;
      }
      done();
    }, PAUSE);
  }
}
