// Counts what comes over a line, so that a page can say how much it is and notice when nothing comes any more.

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
