// What a customer's link carries: the words of a quotation and a small picture. It is a stranger's, so nothing of it is taken for granted: it is
// read as text, and as much of it as a quotation can hold. Pure functions.

/** @typedef {{ h: string, p: string[], rows: [string, string][] }} Part a heading, paragraphs, and lines of a label and a text
 * @typedef {{ title: string, parts: Part[] }} Told */

export const VERSION = 1;
const MOST_PARTS = 12;
const MOST_LINES = 40; // of a part
const LONGEST = 2000; // characters of a line
const LARGEST_PICTURE = 200_000; // characters
const UNSEEN = /[\p{Cc}\u202a-\u202e\u2066-\u2069]+/gu; // control characters, and those that turn the direction of what follows

/** A text of the link, without what cannot be seen, no longer than a line. @param {unknown} value */
function line(value) {
  if (typeof value !== "string") throw new TypeError("a text is wanted");
  const text = value.slice(0, LONGEST + 1).replace(UNSEEN, " ").trim();
  return text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text;
}

/** @param {unknown} value @param {number} most @returns {unknown[]} */
function list(value, most) {
  if (!Array.isArray(value)) throw new TypeError("a list is wanted");
  return value.slice(0, most);
}

/**
 * The words of a quotation; throws where they are none, and a RangeError where a newer handbook wrote them.
 * @param {string} text @returns {Told}
 */
export function readTold(text) {
  const whole = JSON.parse(text);
  if (typeof whole?.version !== "number") throw new TypeError("no quotation");
  if (whole.version > VERSION) throw new RangeError("newer");
  const parts = list(whole.parts, MOST_PARTS).map((/** @type {any} */ part) => ({
    h: line(part.h),
    p: list(part.p, MOST_LINES).map(line),
    rows: list(part.rows, MOST_LINES).map((row) => /** @type {[string, string]} */ ([line(list(row, 2)[0]), line(list(row, 2)[1])])),
  }));
  return { title: line(whole.title), parts };
}

/** The picture of a link as an image; null where it is none. @param {string} text @returns {Blob | null} */
export function readPicture(text) {
  if (!text || text.length > LARGEST_PICTURE) return null;
  try {
    const bytes = Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), (letter) => letter.charCodeAt(0));
    const head = String.fromCharCode(...bytes.subarray(0, 12));
    const type = /^RIFF....WEBP/s.test(head) ? "image/webp" : head.startsWith("\xff\xd8\xff") ? "image/jpeg" : "";
    return type ? new Blob([bytes], { type }) : null;
  } catch {
    return null;
  }
}
