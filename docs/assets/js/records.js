// What is kept of one order or one calculator on a page, and the way up to it from everything that was ever kept before. Pure functions.

/** @import { Values } from "./steps.js" */

/**
 * One record. `place` is the page and the calculator on it; `text` is an order as it was kept or sent, until it has been read into `values`.
 * `revision` counts how often it was written, `recent` are the ids of the last changes in it, `removed` is when the reader removed it, or 0.
 * Of an order on the shelf, `state` is how far it has come, and `away` when it was put away; both may be missing.
 * @typedef {{
 *   version: number, id: string, place: string, calculator: string, title: string, values: Values, text: string,
 *   made: number, changed: number, removed: number, revision: number, recent: string[], state?: string, away?: number,
 * }} StoredRecord
 */

export const VERSION = 1;
export const STATES = ["asked", "promised", "paid", "made"]; // how far an order on the shelf has come
export const MOST_RECENT = 500; // more than the steps that are kept, so that no journal is done twice

const ORDER = "order";
export const KITCHEN = "kitchen"; // place, calculator and id of the one kitchen

/**
 * Where a record belongs: orders on one shelf, everything else to its calculator on its page.
 * @param {string} page @param {string} name of the calculator on the page @param {boolean} isOrder
 */
export function placeOf(page, name, isOrder) {
  return isOrder ? ORDER : `${page}#${name}`;
}

/** A new record. @param {{ id: string, place: string, calculator: string, values: Values, now: number, title?: string, text?: string }} given @returns {StoredRecord} */
export function newRecord({ id, place, calculator, values, now, title = "", text = "" }) {
  return { version: VERSION, id, place, calculator, title, values, text, made: now, changed: now, removed: 0, revision: 0, recent: [] };
}

/**
 * How to get from each older version to the next.
 * @type {Record<number, (record: any) => any>}
 */
const UPGRADES = {};

/**
 * A record of any version as one of this version; null where a newer handbook wrote it, which then must not be touched, or none that there was.
 * @param {any} record @returns {StoredRecord | null}
 */
export function upgraded(record) {
  let now = record;
  while (now?.version < VERSION) now = UPGRADES[now.version]?.(now);
  return now?.version === VERSION ? now : null;
}

/** @param {unknown} value @returns {value is Values} */
function isTexts(value) {
  return typeof value === "object" && value !== null && !Array.isArray(value) && Object.values(value).every((text) => typeof text === "string");
}

/**
 * The record of what an earlier handbook kept in localStorage; null where the key is none of those.
 * `typed:PAGE:CALCULATOR` held a form as it stood, as JSON; `order:NAME` held an order under a name, as TOML.
 * @param {string} key without the handbook's prefix @param {string} text @param {{ id: string, now: number }} given
 * @returns {StoredRecord | null}
 */
export function fromLocalStorage(key, text, { id, now }) {
  const typed = /^typed:(.*):([\w-]+)$/.exec(key);
  if (typed) {
    try {
      const values = JSON.parse(text);
      if (!isTexts(values)) return null;
      const calculator = typed[2].replace(/-\d+$/, "");
      return newRecord({ id, place: placeOf(typed[1], typed[2], calculator === ORDER), calculator, values, now });
    } catch {
      return null;
    }
  }
  if (!key.startsWith("order:")) return null;
  return newRecord({ id, place: ORDER, calculator: ORDER, values: {}, title: key.slice("order:".length), text, now });
}

/** What a record says, as one text: two that say the same have the same, whenever they were made. @param {StoredRecord} record */
export function wordsOf({ place, calculator, title, text, values }) {
  return JSON.stringify([place, calculator, title, text, Object.entries(values).sort(([one], [other]) => (one < other ? -1 : 1))]);
}

/** What a record is called in the list. @param {StoredRecord} record */
export function titleOf(record) {
  return record.title || record.values.name?.trim() || (record.calculator === ORDER ? "Order without a name" : record.calculator === KITCHEN ? "My kitchen" : "What you typed");
}

/** The records to choose from, the newest first. @param {StoredRecord[]} records */
export function listed(records) {
  return records.filter((record) => !record.removed).sort((a, b) => b.changed - a.changed || (a.id < b.id ? 1 : -1));
}
