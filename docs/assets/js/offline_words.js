// What the reader is told about offline use: how things stand, what stopped, what is gone. offline.js shows it.

/** @typedef {[path: string, hash: string, bytes: number]} Line */
/** @typedef {{ build: string, code: string, bytes: number, fetched: number, files: Line[] }} List What the build wrote. */
/**
 * What is noted of the saved copy. Copies that were saved before there were `sizes` lack them.
 * @typedef {{
 *   cache: string,
 *   build: string,
 *   code: string,
 *   bytes: number,
 *   date: string,
 *   hashes: Record<string, string>,
 *   sizes?: Record<string, number>,
 *   checked?: string,
 * }} Saved
 */
/** @typedef {"checking" | "unsaved" | "saving" | "saved" | "newer" | "damaged" | "failed" | "impossible"} OfflineState */

/** Why saving stopped, in words for the reader. */
export class Stopped extends Error {}

/** A file is not the one that the list names. */
export class Changed extends Error {}

/** A file ended before it was whole. */
export class Short extends Error {
  /** @param {string} path @param {number} come @param {number} bytes */
  constructor(path, come, bytes) {
    super(`${path || "The first page"} came only in part (${come} of ${bytes} bytes)`);
  }
}

const megabytes = (/** @type {number} */ bytes) => (bytes / 1e6).toFixed(1);

/** Whether the device has no more room. @param {unknown} error */
export function isFull(error) {
  return error instanceof Error && /quota/i.test(error.name + error.message);
}

/** What is gone, in words. @param {string[]} gone */
export function describeGone(gone) {
  const first = gone[0] || "the first page";
  const what = gone.length === 1 ? `${first} is` : `${gone.length} things, ${first} among them, are`;
  return `${what} no longer in the saved copy: a browser clears what it keeps, or something cleared it. The rest works without a network; mend it while there is one.`;
}

/** Why saving stopped, for the reader. @param {unknown} error @param {List | null} list @param {string} [still] */
export function describeStop(error, list, still = "What was saved before is still there.") {
  if (error instanceof Stopped) return `${error.message} ${still}`.trim();
  if (error instanceof Short) return `${error.message}: the line broke off, or the host has only a part of it. Try again, or later. ${still}`.trim();
  if (error instanceof Changed) {
    return `The host sends ${error.message || "the first page"} changed from how it was built; it may be in the middle of an update. ${still}`.trim();
  }
  if (isFull(error)) {
    const room = list ? `It takes ${megabytes(list.bytes)} MB. ` : "";
    return `There is not enough room on this device. ${room}Make room and try again. ${still}`;
  }
  if (error instanceof TypeError) return "The network went away. What has come so far is kept, and saving goes on when the network is back.";
  const name = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  return `The browser would not keep the files (${name}); this may be a private window. ${still}`;
}

/** @type {Record<OfflineState, string>} */
export const HEAD = {
  checking: "Offline use",
  unsaved: "Not saved for offline use",
  saving: "Saving for offline use",
  saved: "Saved for offline use",
  newer: "A newer handbook is saved",
  damaged: "The saved copy is damaged",
  failed: "Saving stopped",
  impossible: "Cannot be saved here",
};

export const NEWER = "A newer handbook is saved. It opens with the next page that you load.";
/** How the host answers, where the saved copy has to stand in for it. */
export const describeHost = (/** @type {string} */ how) => `The host does not answer as it should (${how}), so pages come from the saved copy.`;
export const NO_CHANNEL = "Other tabs hear of a newer handbook only when they are loaded again: this browser lacks the means to tell them.";

/** @param {string} date */
function day(date) {
  return new Date(date).toLocaleDateString("en-GB", { day: "numeric", month: "long", year: "numeric" });
}

/**
 * How things stand, a sentence or two in each line.
 * @param {OfflineState} state @param {Saved | null} saved @param {List | null} list @param {number} done @param {string} why
 */
export function describeState(state, saved, list, done, why) {
  if (state === "saving") return [list ? `${megabytes(done)} of ${megabytes(list.bytes)} MB` : "Finding what to save."];
  if (state === "failed" || state === "damaged" || state === "impossible") return [why];
  if (state === "newer") return ["It opens with the next page that you load. What you typed stays."];
  if (state === "saved" && saved) {
    return [
      `${day(saved.date)}, ${megabytes(saved.bytes)} MB`,
      "Every page, calculator and sheet works without a network. It is updated when there is a newer handbook.",
      "A browser may clear what a site keeps, some after seven days without a visit: save your orders as files too.",
    ];
  }
  const size = list ? ` About ${megabytes(list.fetched)} MB to fetch, ${megabytes(list.bytes)} MB on this device.` : "";
  return [`Every page, calculator and sheet, for a kitchen without a network.${size}`];
}
