// The memory of a snapshot as it is shipped: without what every fresh start brings by itself, and without the stretches that are empty.
//
// Words of 32 bits: how many stretches there are, how long the head is, then of each stretch where in memory it begins and how long it is.
// After these the head, which is the runtime's own, and the stretches one after the other.

/**
 * One number over the start of a memory (FNV-1a over words): equal memories have the same.
 * @param {Uint8Array} memory @param {number} length in bytes
 */
export function checksum(memory, length) {
  let sum = 0x811c9dc5;
  for (const word of new Uint32Array(memory.buffer, memory.byteOffset, length / 4)) sum = Math.imul(sum ^ word, 0x01000193);
  return sum >>> 0;
}

/**
 * Put a snapshot's memory into a freshly made runtime; gives the snapshot's head.
 *
 * What a fresh start has brought by itself is left out of the first `data` bytes, by combining the two (exclusive or); `sum` is a checksum over it. A fresh
 * start that differs from the one that the snapshot was made from is an error.
 * @param {any} module the runtime's module
 * @param {Uint8Array} shipped @param {{ image: number, data: number, sum: number }} build
 */
export function putBack(module, shipped, build) {
  const { buffer, byteOffset } = shipped;
  const [count, headLength] = new Uint32Array(buffer, byteOffset, 2);
  const places = new Uint32Array(buffer, byteOffset + 8, 2 * count);
  const head = shipped.subarray(8 + 8 * count, 8 + 8 * count + headLength);
  const size = build.image - headLength;
  if (size > module.HEAPU8.length) module.growMemory(size);

  const memory = module.HEAPU8;
  if (checksum(memory, build.data) !== build.sum) throw new Error("a fresh start differs here from the one that the snapshot was made for");

  const used = module._sbrk(0); // a fresh start has written nothing above
  const own = new Uint32Array(memory.buffer, 0, build.data / 4);
  let from = 8 + 8 * count + headLength;
  let done = build.data; // from there on what is between two stretches has to be empty
  for (let i = 0; i < count; i += 1) {
    const at = places[2 * i];
    const length = places[2 * i + 1];
    const combined = Math.max(0, Math.min(length, build.data - at));
    const words = new Uint32Array(buffer, byteOffset + from, combined / 4);
    for (let word = 0, to = at / 4; word < words.length; word += 1, to += 1) own[to] ^= words[word];
    memory.fill(0, done, Math.min(at, used));
    memory.set(shipped.subarray(from + combined, from + length), at + combined);
    from += length;
    done = Math.max(done, at + length);
  }
  memory.fill(0, done, used);
  return head;
}
