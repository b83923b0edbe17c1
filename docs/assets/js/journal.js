// What the store keeps in localStorage, which outlives a page that is closed at once: a journal of what is not yet in the database, and whether
// something was removed. What earlier handbooks kept is there too.

/** @import { StoredRecord } from "./records.js" */
/** @import { Change, Step } from "./steps.js" */

/**
 * What the journal holds of one record: what was done since it was last written, and the whole of it where it never was.
 * @typedef {{ record: StoredRecord, changes: Change[], steps: Step[], at: number }} Noted
 */

export const PREFIX = "piping-bench:";
export const JOURNAL = `${PREFIX}journal:`;
const REMOVED = `${PREFIX}removed`; // says that something removed is still in the database

/**
 * What to note of the records that are open: those with something that is not yet written.
 * @param {Iterable<{ record: StoredRecord, pending: Change[], steps: Step[], at: number }>} opened @returns {Noted[]}
 */
export function notedOf(opened) {
  /** @type {Noted[]} */
  const noted = [];
  for (const { record, pending, steps, at } of opened) {
    if (!pending.length) continue;
    if (record.revision) noted.push({ record: { ...record, values: {} }, changes: pending, steps: [], at: 0 });
    else noted.push({ record, changes: pending, steps, at });
  }
  return noted;
}

/** Note that something was removed. */
export function markRemoved() {
  try {
    localStorage.setItem(REMOVED, "yes");
  } catch {
    // then every page looks
  }
}

/** Whether something may have been removed since a page last looked. */
export function takeMark() {
  try {
    const isMarked = localStorage.getItem(REMOVED) !== null;
    if (isMarked) localStorage.removeItem(REMOVED);
    return isMarked;
  } catch {
    return true;
  }
}

/** What a journal says; nothing where it was damaged, so that the others are read all the same. @param {string} text @returns {Noted[]} */
export function readJournal(text) {
  try {
    return JSON.parse(text);
  } catch {
    return [];
  }
}

/** The keys of this handbook. @returns {string[]} */
export function keysOfLocalStorage() {
  try {
    return Array.from({ length: localStorage.length }, (_, i) => localStorage.key(i) ?? "").filter((key) => key.startsWith(PREFIX));
  } catch {
    return [];
  }
}
