// The orders of the shelf as lists: what is shown of each, finding, sorting, and joining those of a file with those that are there. Pure functions.

import { freeName } from "./copies.js";
import { STATES, titleOf, wordsOf } from "./records.js";

/** @import { StoredRecord } from "./records.js" */

/**
 * What calc tells of an order for the shelf (calc/page/shelf_card.py), without its picture, as it is kept beside the order. `of` says of which state of the
 * order, and `kitchen` when that was changed last; `problem` why there is no more.
 * @typedef {{
 *   of: string, kitchen?: number, problem?: string, name?: string, ready?: string, guests?: number, customer?: string, colours?: string[],
 *   hands?: [string, string][], oven?: [string, string][],
 * }} Card
 * @typedef {{
 *   id: string, record: StoredRecord, card: Card | null, isFresh: boolean, name: string, customer: string, guests: string, day: string, time: string,
 *   state: string, away: boolean, words: string,
 * }} Entry `day` is a day as ISO 8601 has it, or ""; `words` are what it is found by
 * @typedef {{ title: string, entries: Entry[] }} Shelf
 */

const ISO = /\b(20\d\d)-(\d\d)-(\d\d)(?:[T ](\d\d:\d\d))?/;
const COLOUR = /(?:^|\.)(?:colour|second|bands|striped)$/;
const CARD_VERSION = 1; // goes up when older cards lack something
const LONGEST_TITLE = 80;
const DAY = new Intl.DateTimeFormat("en-GB", { weekday: "long", day: "numeric", month: "long", year: "numeric", timeZone: "UTC" });
const MONTH = new Intl.DateTimeFormat("en-GB", { month: "long", year: "numeric", timeZone: "UTC" });

/** Which state of an order a card belongs to. @param {StoredRecord} record */
export function stampOf({ changed }) {
  return `${CARD_VERSION}:${changed}`;
}

/** A card as it is kept; null where there is none, or it does not read. @param {string} text @returns {Card | null} */
export function readCard(text) {
  try {
    const card = JSON.parse(text);
    return typeof card?.of === "string" ? card : null;
  } catch {
    return null;
  }
}

/** A day in words. @param {string} day as ISO 8601 has it */
function dayWords(day) {
  return DAY.format(Date.parse(day));
}

/** What is shown of an order. @param {StoredRecord} record @param {Card | null} card @returns {Entry} */
export function entryOf(record, card) {
  const { values } = record;
  const isFresh = card?.of === stampOf(record);
  const typed = ISO.exec(values.ready_at ?? "");
  const ready = (isFresh && card.ready) || (typed && typed[0].replace(" ", "T")) || card?.ready || "";
  const found = ISO.exec(ready);
  const day = found && !Number.isNaN(Date.parse(`${found[1]}-${found[2]}-${found[3]}`)) ? `${found[1]}-${found[2]}-${found[3]}` : "";
  const name = record.title || values.name?.trim() || card?.name || titleOf(record);
  const customer = values["quote.0.customer"]?.trim() || (record.text && card?.customer) || "";
  /** @type {string | undefined} */
  let words; // put together when something is looked for: on a shelf of a thousand that is most of the work
  return {
    id: record.id,
    record,
    card,
    isFresh,
    name,
    customer,
    guests: values.guests?.trim() || String(card?.guests ?? ""),
    day,
    time: (day && found?.[4]) || "",
    state: STATES.includes(record.state ?? "") ? (record.state ?? "") : STATES[0],
    away: Boolean(record.away),
    get words() {
      if (words !== undefined) return words;
      const colours = Object.entries(values).flatMap(([key, text]) => (COLOUR.test(key) ? [text] : []));
      words = plain([name, customer, day, day && dayWords(day), ...colours, ...(record.text ? (card?.colours ?? []) : [])].join(" "));
      return words;
    },
  };
}

/** A text without capitals and accents. @param {string} text */
function plain(text) {
  return text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
}

/** Those in which every word that is asked for stands. @param {Entry[]} entries @param {string} asked */
export function found(entries, asked) {
  const wanted = plain(asked).split(/[\s,]+/).filter(Boolean);
  return entries.filter(({ words }) => wanted.every((word) => words.includes(word)));
}

/**
 * Orders as they stand on the shelf: by the day they are for (the next one first, a month on each board; those without a day; those gone by, the
 * last one first), by name, or by when they were changed.
 * @param {Entry[]} entries @param {string} by @param {string} today as ISO 8601 has it @returns {Shelf[]}
 */
export function sorted(entries, by, today) {
  const named = (/** @type {Entry} */ a, /** @type {Entry} */ b) => a.name.localeCompare(b.name, "en") || (a.id < b.id ? -1 : 1);
  if (by === "name") return filled([{ title: "By name", entries: [...entries].sort(named) }]);
  if (by === "changed") return filled([{ title: "Last changed first", entries: [...entries].sort((a, b) => b.record.changed - a.record.changed || named(a, b)) }]);
  const dated = entries.filter(({ day }) => day).sort((a, b) => (a.day + a.time).localeCompare(b.day + b.time) || named(a, b));
  /** @type {Map<string, Entry[]>} */
  const months = new Map();
  for (const entry of dated) {
    if (entry.day < today) continue;
    const month = MONTH.format(Date.parse(entry.day));
    months.set(month, [...(months.get(month) ?? []), entry]);
  }
  return filled([
    ...[...months].map(([title, inIt]) => ({ title, entries: inIt })),
    { title: "No day yet", entries: entries.filter(({ day }) => !day).sort(named) },
    { title: "Gone by", entries: dated.filter(({ day }) => day < today).reverse() },
  ]);
}

/** @param {Shelf[]} shelves */
function filled(shelves) {
  return shelves.filter(({ entries }) => entries.length);
}

/** As many as may be built at first, in their order. @param {Shelf[]} shelves @param {number} most @returns {Shelf[]} */
export function first(shelves, most) {
  let left = most;
  return filled(
    shelves.map(({ title, entries }) => {
      const some = entries.slice(0, left);
      left -= some.length;
      return { title, entries: some };
    }),
  );
}

/** What an order says, whatever it is called in the list. @param {StoredRecord} record */
function contents(record) {
  return `${record.made} ${wordsOf({ ...record, title: "" })}`;
}

/** By what two versions of one order are known, besides the moment it was begun. @param {StoredRecord} record */
function occasion(record) {
  return `${plain(titleOf(record))} ${record.values.ready_at ?? ""}`;
}

/**
 * Finds the record that says the same as one of a file, whatever it is called.
 * @param {StoredRecord[]} there @returns {(record: StoredRecord) => StoredRecord | undefined}
 */
export function sameIn(there) {
  const known = new Map(there.flatMap((record) => [[wordsOf(record), record], [contents(record), record]]));
  return (record) => known.get(wordsOf(record)) ?? known.get(contents(record));
}

/**
 * What of a file is new beside what is there. An order that says the same is left out, whatever it is called or how far it has come; another version of one that is
 * there is kept beside it, under a name of its own.
 * @param {StoredRecord[]} there @param {StoredRecord[]} incoming
 */
export function joined(there, incoming) {
  const known = new Set(there.flatMap((record) => [wordsOf(record), contents(record)]));
  const begun = new Set(there.map(({ made }) => made));
  const occasions = new Set(there.map(occasion));
  const titles = there.map(titleOf);
  /** @type {StoredRecord[]} */
  const fresh = [];
  /** @type {StoredRecord[]} */
  const versions = [];
  let same = 0;
  for (const record of incoming) {
    if (known.has(wordsOf(record)) || known.has(contents(record))) {
      same += 1;
      continue;
    }
    known.add(wordsOf(record)).add(contents(record));
    if (begun.has(record.made) || occasions.has(occasion(record))) {
      const title = freeName(`${titleOf(record).slice(0, LONGEST_TITLE - 20)}, version 2`, titles);
      titles.push(title);
      versions.push({ ...record, title });
    } else fresh.push(record);
  }
  return { fresh, versions, same };
}
