// What a reader made, as one file that a person can read: one record, or all of them, with the version of their shape. A file of an older version is
// brought up as what is stored is; one of a newer version is refused in words; of a damaged one nothing is taken. Pure functions.

import { workRead, workTold } from "./beside.js";
import { newRecord, STATES, upgraded, VERSION } from "./records.js";

/** @import { Kept } from "./beside.js" */
/** @import { StoredRecord } from "./records.js" */
/** @typedef {StoredRecord & { work?: Kept }} FiledRecord a record of a file, with what is kept beside it */

export const LARGEST = 20_000_000; // bytes
const MOST_RECORDS = 10_000;
const MOST_TEXTS = 4000; // in one record
const LONGEST_NAME = 300;
const LONGEST_TEXT = 1_000_000; // of all texts of a record together

const MADE_WITH = "Piping Bench"; // where a file says so it is one of these

/** Why a file was not taken, in words for the reader. */
export class Refused extends Error {}

/** Whether a text is meant to be such a file, and no order. @param {string} text */
export function isKept(text) {
  return /^\uFEFF?\s*\{/.test(text);
}

/**
 * The text of a file. Places are written from the beginning of the handbook, so that another address of it reads them too.
 * @param {StoredRecord[]} records @param {string} base the path of the handbook @param {number} now
 * @param {Record<string, Kept>} [work] what is kept beside them, by their ids
 */
export function written(records, base, now, work = {}) {
  const kept = records.map(({ id, place, calculator, title, text, values, made, changed, state, away }) => ({
    calculator,
    place: place.startsWith(base) ? place.slice(base.length) : place,
    ...(title && { title }),
    made: new Date(made).toISOString(),
    changed: new Date(changed).toISOString(),
    ...(state && { state }),
    ...(away && { putAway: new Date(away).toISOString() }),
    values,
    ...(text && { text }),
    ...(Object.hasOwn(work, id) && workTold(work[id])),
  }));
  return `${JSON.stringify({ madeWith: MADE_WITH, version: VERSION, saved: new Date(now).toISOString(), kept }, null, 1)}\n`;
}

/** @param {unknown} value @returns {value is Record<string, unknown>} */
function isObject(value) {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** @param {unknown} value @param {number} longest @returns {value is string} */
function isText(value, longest) {
  return typeof value === "string" && value.length <= longest;
}

/** @param {unknown} value when something was, as a text @param {number} now */
function timeOf(value, now) {
  const time = typeof value === "string" ? Date.parse(value) : Number.NaN;
  return Number.isFinite(time) ? Math.min(time, now) : now;
}

/** @param {unknown} values @returns {values is Record<string, string>} */
function areTexts(values) {
  if (!isObject(values)) return false;
  const all = Object.entries(values);
  let length = 0;
  for (const [name, text] of all) {
    if (!isText(text, LONGEST_TEXT) || name.length > LONGEST_NAME || name === "__proto__") return false;
    length += text.length;
  }
  return all.length <= MOST_TEXTS && length <= LONGEST_TEXT;
}

/**
 * The records of a file; throws Refused where it cannot be taken whole. Their ids are for whoever keeps them to give.
 * @param {string} text @param {string} base the path of the handbook @param {number} now
 * @param {{ version?: number, up?: (record: any) => StoredRecord | null }} [known] of the shape of records, for tests
 * @returns {FiledRecord[]}
 */
export function read(text, base, now, { version: newest = VERSION, up = upgraded } = {}) {
  const damaged = new Refused("It is incomplete, or was not saved here. Choose another copy of it.");
  let whole;
  try {
    whole = JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch {
    throw damaged;
  }
  if (!isObject(whole) || whole.madeWith !== MADE_WITH) throw new Refused("It is not a file that was saved here.");
  const { version, kept } = whole;
  if (typeof version !== "number" || !Number.isInteger(version) || version < 1) throw damaged;
  if (version > newest) throw new Refused("A newer handbook saved it. Load this page again, so that this one is as new, and open it then.");
  if (!Array.isArray(kept)) throw damaged;
  if (kept.length > MOST_RECORDS) throw new Refused(`It holds more than ${MOST_RECORDS} orders, which is more than anybody keeps.`);
  return kept.map((each) => {
    const isWhole = isObject(each) && isText(each.calculator, LONGEST_NAME) && isText(each.place, LONGEST_NAME) && areTexts(each.values);
    if (!isWhole || !isText(each.title ?? "", LONGEST_NAME) || !isText(each.text ?? "", LONGEST_TEXT)) throw damaged;
    if (![undefined, ...STATES].includes(/** @type {any} */ (each.state)) || !isText(each.putAway ?? "", LONGEST_NAME)) throw damaged;
    const work = workRead(/** @type {Record<string, unknown>} */ (each));
    if (!work) throw damaged;
    const { calculator, place, title, text: words, values, state, putAway } = /** @type {Record<string, any>} */ (each);
    const at = place.includes("#") && !place.startsWith("/") ? base + place : place;
    const record = newRecord({ id: "", place: at, calculator, values, now: timeOf(each.made, now), title, text: words });
    const onShelf = { ...(state && { state }), ...(putAway && { away: timeOf(putAway, now) }) };
    const raised = up({ ...record, ...onShelf, version, changed: timeOf(each.changed, now) });
    if (!raised) throw damaged;
    return Object.keys(work).length ? { ...raised, work } : raised;
  });
}
