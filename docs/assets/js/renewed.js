// When a file cannot be had: whether the handbook was renewed on its host since this page was loaded, and what helps.

/** @import { Lack } from "./protocol.js" */

const LIST = new URL("../../offline.json", import.meta.url).href;
const CODE = document.querySelector('meta[name="pb-build"]')?.getAttribute("content") ?? "";

/** Whether the host has other scripts than those that run on this page. */
async function isRenewed() {
  try {
    const response = await fetch(LIST, { cache: "no-cache" });
    const code = response.ok ? (await response.json()).code : CODE;
    return typeof code === "string" && code !== CODE;
  } catch {
    return false;
  }
}

/**
 * What to say, and whether to load the page again helps; nothing where no file was lacking.
 * @param {Lack | undefined} lacks
 * @returns {Promise<{ text: string, reload: boolean } | null>}
 */
export async function adviceOn(lacks) {
  if (await isRenewed()) {
    const text = "The handbook was renewed on its host since this page was loaded, and what it needs from there is gone. Load the page again: what you typed is kept.";
    return { text, reload: true };
  }
  if (!lacks) return null;
  if (!lacks.status) return { text: "A file that it needs could not be fetched: there is no network, or the host does not answer. Try again when it does.", reload: false };
  return { text: `A file that it needs is no longer on the host, which answered ${lacks.status}. Load the page again, or try later.`, reload: true };
}
