// The drawings of an answer that come after its words and figures: those that the page shows already and that differ now. The main one is asked
// for at once, and is drawn while the words are being shown. The others stay as they were until the reader pauses; then they are asked for one
// by one, so that what is typed next waits for one drawing at most.

/** @import { ShownAnswer } from "./protocol.js" */

const PAUSE = 150; // ms without another answer

/** The drawings of an answer that the page shows, by name. @param {Element} shown @returns {string[]} */
export function shownDrawings(shown) {
  const figures = /** @type {NodeListOf<HTMLElement>} */ (shown.querySelectorAll(".pb-drawing[data-drawing]"));
  return [...figures].filter((figure) => figure.querySelector(":scope > svg")).map((figure) => figure.dataset.drawing ?? "");
}

/** The names of the drawings of an answer, in order. @param {string} html */
const namesIn = (html) => [...html.matchAll(/<figure class="pb-drawing" data-drawing="([^"]*)"/g)].map(([, name]) => name);

/**
 * An answer with the drawings put in that came as `true`: those that are as the page shows them. What the page showed is what it showed when it
 * asked, so that nothing that happens meanwhile can put another drawing there.
 * @param {ShownAnswer} answer @param {Map<string, { svg: string }>} known
 */
export function withKnown(answer, known) {
  if (!answer.drawings) return answer;
  const names = namesIn(answer.html);
  answer.drawings = answer.drawings.map((drawing, i) => (/** @type {unknown} */ (drawing) === true ? (known.get(names[i])?.svg ?? null) : drawing));
  return answer;
}

/** The drawings that an answer has come without, by name, each with its place among them. @param {ShownAnswer} answer @returns {[string, number][]} */
export function drawingsLeft({ html, drawings }) {
  return namesIn(html).flatMap((name, i) => (drawings[i] === null ? [/** @type {[string, number]} */ ([name, i])] : []));
}

/** The main drawing among those that an answer has come without. @param {ShownAnswer} answer */
export function mainDrawingLeft(answer) {
  const main = /<figure class="pb-drawing" data-drawing="([^"]*)" data-stays/.exec(answer.html)?.[1];
  return drawingsLeft(answer).find(([name]) => name === main);
}

/** Has them drawn. One for each calculator. */
export class LaterDrawings {
  #timer = 0;
  #round = 0;

  /** Another answer is wanted, or the page is left. */
  stop() {
    clearTimeout(this.#timer);
    this.#round += 1;
  }

  /**
   * Complete an answer. `drawn` takes each drawing as it comes; it is `done` when all are there, unless it was stopped; `broken` when one of
   * them could not be fetched.
   * @param {ShownAnswer} answer @param {(name: string) => Promise<string>} draw
   * @param {{ drawn: (name: string, svg: string) => void, done: () => void, broken: () => void }} then
   */
  async begin(answer, draw, { drawn, done, broken }) {
    this.stop();
    const round = this.#round;
    const main = mainDrawingLeft(answer);
    const others = drawingsLeft(answer).filter(([name]) => name !== main?.[0]);
    const isOver = () => round !== this.#round;
    const bring = async (/** @type {[string, number]} */ [name, i]) => {
      const svg = await draw(name);
      if (isOver()) return;
      answer.drawings[i] = svg;
      drawn(name, svg);
    };
    try {
      if (main) await bring(main);
      if (isOver()) return;
      if (others.length) {
        await new Promise((after) => {
          this.#timer = setTimeout(after, PAUSE);
        });
      }
      for (const each of others) {
        if (isOver()) return;
        await bring(each);
      }
    } catch {
      if (!isOver()) broken();
      return;
    }
    if (!isOver() && (main || others.length)) done();
  }
}
