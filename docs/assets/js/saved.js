// A reader's choices for the whole site, and what goes out and comes in: links and files. What a reader makes is in store.js. Storage may be
// missing (a private window) or full: a choice then holds for as long as the page is open.

const PREFIX = "piping-bench:";
const LONGEST_TEXT = 1_000_000; // bytes of an order as text
const SLICE = 512; // bytes of what is packed; they unpack to half a megabyte at most
const MOST_PAIRS = 2000; // texts in a link to a calculator

/** @type {Map<string, string>} */
const memory = new Map();
addEventListener("storage", (event) => memory.delete((event.key ?? "").slice(PREFIX.length))); // another tab chose otherwise

/** @param {string} key @returns {string | null} */
export function recall(key) {
  const chosen = memory.get(key); // in this page, so it is the newest
  if (chosen !== undefined) return chosen;
  try {
    return localStorage.getItem(PREFIX + key);
  } catch {
    return null;
  }
}

/** Keep a text; false where it lasts only as long as the page. @param {string} key @param {string} text */
export function keep(key, text) {
  memory.set(key, text);
  try {
    localStorage.setItem(PREFIX + key, text);
    return true;
  } catch {
    return false;
  }
}

/** @param {string} key */
export function forget(key) {
  memory.delete(key);
  try {
    localStorage.removeItem(PREFIX + key);
  } catch {
    // nothing was kept
  }
}

// ---- links: everything stands after the #, which browsers never send ------------------------------------------------------

/** The part after the # that carries what was typed. @param {string} id @param {Record<string, string>} values */
export function linkOf(id, values) {
  const pairs = Object.entries(values).map(([name, text]) => `${encodeURIComponent(name)}=${encodeURIComponent(text)}`);
  return `#${id}:${pairs.join("&")}`;
}

/** What a link carries for one calculator, or null. @param {string} fragment @param {string} id */
export function readLink(fragment, id) {
  if (!fragment.startsWith(`#${id}:`)) return null;
  /** @type {Record<string, string>} */
  const values = {};
  for (const pair of fragment.slice(id.length + 2, LONGEST_TEXT).split("&", MOST_PAIRS)) {
    const at = pair.indexOf("=");
    if (at < 1) continue;
    try {
      values[decodeURIComponent(pair.slice(0, at))] = decodeURIComponent(pair.slice(at + 1));
    } catch {
      // a link cut short in the post: what can be read is read
    }
  }
  return values;
}

/** Bytes in base64url without padding, as a link carries them. @param {Uint8Array} bytes */
export function base64url(bytes) {
  let binary = "";
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

/** A text packed for a link. @param {string} text @returns {Promise<string>} */
export async function packed(text) {
  const stream = new Blob([text]).stream().pipeThrough(new CompressionStream("deflate-raw"));
  const bytes = new Uint8Array(await new Response(stream).arrayBuffer());
  return base64url(bytes);
}

/**
 * Bytes a slice at a time, as they are wanted: some browsers unpack all that they are given before they say how much it is.
 * @param {Uint8Array<ArrayBuffer>} bytes @returns {ReadableStream<Uint8Array<ArrayBuffer>>}
 */
function inSlices(bytes) {
  let at = 0;
  return new ReadableStream({
    pull(controller) {
      controller.enqueue(bytes.subarray(at, at + SLICE));
      at += SLICE;
      if (at >= bytes.length) controller.close();
    },
  });
}

/**
 * The text that `packed` packed. A link can be made that unpacks to a thousand times its length, so it is counted while it is unpacked.
 * @param {string} link @returns {Promise<string>}
 */
export async function unpackedText(link) {
  if (link.length > LONGEST_TEXT) throw new RangeError("the link is too long");
  const binary = atob(link.replaceAll("-", "+").replaceAll("_", "/"));
  const bytes = Uint8Array.from(binary, (letter) => letter.charCodeAt(0));
  const reader = inSlices(bytes).pipeThrough(new DecompressionStream("deflate-raw")).getReader();
  const decoder = new TextDecoder();
  let text = "";
  let length = 0;
  for (let part = await reader.read(); !part.done; part = await reader.read()) {
    length += part.value.length;
    if (length > LONGEST_TEXT) {
      await reader.cancel();
      throw new RangeError("the link unpacks to more than an order can be");
    }
    text += decoder.decode(part.value, { stream: true });
  }
  return text + decoder.decode();
}

// ---- files -------------------------------------------------------------------------------------------------------------------

/** Hand the reader a file. @param {string} name @param {BlobPart} content @param {string} type */
export function handOver(name, content, type) {
  const address = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
