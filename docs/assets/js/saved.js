// What a reader typed, kept on the device: the forms as they stand, named orders, links and files. Storage may be missing
// (a private window) or full: everything here then still works for as long as the page is open, and says so when asked to keep.

const PREFIX = "piping-bench:";

/** @type {Map<string, string>} */
const memory = new Map();

/** @param {string} key @returns {string | null} */
export function recall(key) {
  try {
    return localStorage.getItem(PREFIX + key) ?? memory.get(key) ?? null;
  } catch {
    return memory.get(key) ?? null;
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

/** The names under a heading of keys, in alphabetical order. @param {string} heading @returns {string[]} */
export function names(heading) {
  const found = new Set([...memory.keys()].filter((key) => key.startsWith(heading)));
  try {
    for (let i = 0; i < localStorage.length; i += 1) {
      const key = localStorage.key(i);
      if (key?.startsWith(PREFIX + heading)) found.add(key.slice(PREFIX.length));
    }
  } catch {
    // no storage
  }
  return [...found].map((key) => key.slice(heading.length)).sort((a, b) => a.localeCompare(b));
}

/** @param {string | null} text @returns {Record<string, string> | null} */
export function readTexts(text) {
  if (text === null) return null;
  try {
    const read = JSON.parse(text);
    if (typeof read !== "object" || read === null) return null;
    return Object.fromEntries(Object.entries(read).filter(([, value]) => typeof value === "string"));
  } catch {
    return null;
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
  for (const pair of fragment.slice(id.length + 2).split("&")) {
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

/** A text packed for a link. @param {string} text @returns {Promise<string>} */
export async function packed(text) {
  const stream = new Blob([text]).stream().pipeThrough(new CompressionStream("deflate-raw"));
  const bytes = new Uint8Array(await new Response(stream).arrayBuffer());
  let binary = "";
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

/** The text that `packed` packed. @param {string} link @returns {Promise<string>} */
export async function unpackedText(link) {
  const binary = atob(link.replaceAll("-", "+").replaceAll("_", "/"));
  const bytes = Uint8Array.from(binary, (letter) => letter.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw"));
  return await new Response(stream).text();
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
