// What is kept beside an order, what is done at the bench and what is in the basket, as it stands in a file, and back. Pure functions.

import { benchRead, benchTold, joinedAtBench } from "./bench_state.js";
import { joinedInShop, shopRead, shopTold } from "./shop_state.js";

/** @typedef {Record<string, string>} Values */
/** @typedef {Record<string, Values>} Kept what is kept beside one order, by the name under which the store has it */
/** @typedef {Record<string, Values | Values[]>} Told the same as texts for a file, by what it is about: a table of them, or a list of tables */

const LONGEST = 200_000; // characters of a text
const MOST = 2000; // texts in a table, tables in a list

/**
 * How each is told, read and joined; what is told as a list is read from one.
 * @typedef {{ name: string, isList: boolean, told: (values: Values) => Values | Values[], read: (told: any) => Values | null, joined: (here: Values, theirs: Values) => Values }} Kind
 */

/** @type {Record<string, Kind>} */
const KINDS = {
  bench: { name: "at-the-bench", isList: false, told: benchTold, read: benchRead, joined: joinedAtBench },
  shop: { name: "to-the-shop", isList: true, told: shopTold, read: shopRead, joined: joinedInShop },
};

export const NAMES = Object.values(KINDS).map(({ name }) => name);

/** @param {unknown} told @returns {told is Values} */
function areTexts(told) {
  if (typeof told !== "object" || told === null || Array.isArray(told)) return false;
  const all = Object.entries(told);
  return all.length <= MOST && all.every(([name, text]) => typeof text === "string" && name !== "__proto__" && name.length + text.length <= LONGEST);
}

/** What a file says of it; nothing of what nothing is kept of. @param {Kept} kept @returns {Told} */
export function workTold(kept) {
  const told = Object.entries(KINDS).map(([kind, { name, told }]) => /** @type {const} */ ([kind, told(kept[name] ?? {})]));
  return Object.fromEntries(told.filter(([, texts]) => Object.keys(texts).length));
}

/** What the store keeps of what a file says; null where that is damaged. @param {Record<string, unknown>} told @returns {Kept | null} */
export function workRead(told) {
  /** @type {Kept} */
  const kept = {};
  for (const [kind, { name, isList, read }] of Object.entries(KINDS)) {
    const texts = told[kind];
    if (texts === undefined) continue;
    const isWhole = isList ? Array.isArray(texts) && texts.length <= MOST && [...texts].every(areTexts) : areTexts(texts);
    const values = isWhole ? read(texts) : null;
    if (!values) return null;
    kept[name] = values;
  }
  return kept;
}

/** As names and texts that stand in an order's own file. @param {Told} told @returns {Values} */
export function fieldsOf(told) {
  const named = (/** @type {string} */ path, /** @type {Values} */ texts) => Object.entries(texts).map(([name, text]) => [`${path}.${name}`, text]);
  const all = Object.entries(told).flatMap(([kind, texts]) =>
    Array.isArray(texts) ? texts.flatMap((line, at) => named(`${kind}.${at}`, line)) : named(kind, texts),
  );
  return Object.fromEntries(all);
}

/** The fields of an order's own file, and what it says of the work beside it. @param {Values} fields */
export function workIn(fields) {
  /** @type {Values} */
  const order = {};
  /** @type {Record<string, unknown>} */
  const told = {};
  for (const [field, text] of Object.entries(fields)) {
    const [kind, ...path] = field.split(".");
    if (!Object.hasOwn(KINDS, kind)) {
      order[field] = text;
      continue;
    }
    const { isList } = KINDS[kind];
    const name = path.pop();
    const isAsTold = isList ? path.length === 1 && /^\d{1,3}$/.test(path[0]) : path.length === 0;
    if (name === undefined || !isAsTold) told[kind] = text; // no such table, so it is damaged
    else if (typeof told[kind] !== "string") {
      const tables = /** @type {any} */ (told[kind] ??= isList ? [] : {});
      if (isList) tables[path[0]] = { ...tables[path[0]], [name]: text };
      else told[kind] = { ...tables, [name]: text };
    }
  }
  return { order, told };
}

/** What is kept under a name once something from a file is added to it. @param {string} name @param {Values} here @param {Values} theirs */
export function joinedBeside(name, here, theirs) {
  const kind = Object.values(KINDS).find((each) => each.name === name);
  return kind ? kind.joined(here, theirs) : here;
}
