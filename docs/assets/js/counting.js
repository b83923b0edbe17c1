// Counts the bytes that arrive, so that a page can show progress and notice when a download stalls.

/**
 * A stream that lets everything through and says how many bytes each piece has.
 * @param {(bytes: number) => void} tell
 * @returns {TransformStream<Uint8Array<ArrayBuffer>, Uint8Array<ArrayBuffer>>}
 */
export function counting(tell) {
  return new TransformStream({
    transform(piece, through) {
      tell(piece.length);
      through.enqueue(piece);
    },
  });
}

/** How much has arrived of the files that a start waits for. */
export class Arrivals {
  /** @type {Record<string, number>} Bytes of each file. */
  #sizes = {};
  /** @type {Record<string, number>} */
  #arrived = {};

  /** Wait for these files, and for no others; what has arrived of them already counts. @param {Record<string, number | undefined>} sizes */
  expect(sizes) {
    this.#sizes = Object.fromEntries(Object.entries(sizes).map(([name, bytes]) => [name, bytes ?? 0]));
  }

  /** @param {string} name of a file @param {number} bytes of it that have arrived now; Infinity when it is complete, whatever its size */
  add(name, bytes) {
    this.#arrived[name] = (this.#arrived[name] ?? 0) + bytes;
  }

  /** Bytes of all the files together. */
  get total() {
    return Object.values(this.#sizes).reduce((sum, bytes) => sum + bytes, 0);
  }

  /** Bytes that have arrived. No file counts for more than its size: a host may compress it in its own way. */
  get soFar() {
    return Object.entries(this.#sizes).reduce((sum, [name, bytes]) => sum + Math.min(this.#arrived[name] ?? 0, bytes), 0);
  }
}
