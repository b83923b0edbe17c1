// The files of the handbook as the build listed them: reading the list, fetching a file and checking that it is the one that was built.

import { Changed, Short, Stopped } from "./offline_words.js";

/** @import { Line, List } from "./offline_words.js" */

const VERSIONED = /^assets\/(js-|css-|runtime\/|javascripts\/|fonts\/)/;
const TRIES = 3;

/** @type {Record<string, string>} Content types by the ending of a file's name; a page has none. */
const TYPES = {
  "": "text/html; charset=utf-8",
  html: "text/html; charset=utf-8",
  css: "text/css; charset=utf-8",
  js: "text/javascript; charset=utf-8",
  mjs: "text/javascript; charset=utf-8",
  json: "application/json",
  svg: "image/svg+xml",
  png: "image/png",
  toml: "text/plain; charset=utf-8",
  wasm: "application/wasm",
  webmanifest: "application/manifest+json",
  woff2: "font/woff2",
};

/** The content type that every host should send with a file, and that is kept with it. @param {string} path */
export function typeOf(path) {
  return TYPES[/\.([^./]+)$/.exec(path)?.[1] ?? ""] ?? "application/octet-stream";
}

/** Read the list that the build wrote. @param {string} text @returns {List} */
export function parseList(text) {
  /** @type {List} */
  let list;
  try {
    list = JSON.parse(text);
  } catch {
    throw new Stopped("The list of what to save came only in part, or is not the handbook’s.");
  }
  const isLine = (/** @type {unknown} */ line) => Array.isArray(line) && typeof line[0] === "string" && typeof line[1] === "string" && line[2] >= 0;
  if (typeof list?.build === "string" && typeof list.code === "string" && Array.isArray(list.files) && list.files.every(isLine)) return list;
  throw new Stopped("The list of what to save is not the handbook’s.");
}

/**
 * The bytes of a file, which must be those that the build wrote.
 * @param {string} base @param {Line} line @param {AbortSignal} signal @param {(count: number) => void} progress
 * @returns {Promise<Uint8Array<ArrayBuffer>>}
 */
export async function fetchChecked(base, [path, hash, bytes], signal, progress) {
  let told = 0; // what progress has heard of this file
  for (let attempt = 1; ; attempt += 1) {
    try {
      // a path with a version may come from the browser's own store; after a try that went wrong nothing may
      const cache = attempt > 1 ? "reload" : VERSIONED.test(path) ? "default" : "no-cache";
      const response = await fetch(base + path, { cache, signal, mode: "same-origin" }); // by which sw.js knows that no saved copy will do
      const isGone = response.status === 404 || response.status === 410;
      if (isGone && attempt > 1) throw new Stopped(`The host does not have ${path || "the first page"}.`);
      if (!response.ok && attempt === TRIES) throw new Stopped(`The host does not send ${path || "the first page"}: it answered ${response.status}.`);
      if (!response.ok || !response.body) throw new TypeError(`${path} answered ${response.status}`);
      const data = new Uint8Array(bytes);
      let at = 0;
      for (let reader = response.body.getReader(); ; ) {
        const { done, value } = await reader.read();
        if (done) break;
        if (at + value.length > bytes) throw new Changed(path);
        data.set(value, at);
        at += value.length;
        progress(value.length);
        told += value.length;
      }
      if (at < bytes) throw new Short(path, at, bytes);
      if ((await sha256(data)) !== hash) throw new Changed(path);
      return data;
    } catch (error) {
      progress(-told);
      told = 0;
      if (signal.aborted || error instanceof Stopped || attempt === TRIES) throw error;
      await new Promise((resolve) => setTimeout(resolve, attempt * attempt * 500));
    }
  }
}

/** @param {Uint8Array<ArrayBuffer>} data */
async function sha256(data) {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", data));
  return btoa(String.fromCharCode(...hash));
}
