// The hours that the orders of the shelf ask for, week by week, and where two of them want the same hands or the same oven at one time. Pure functions.

/** @import { Entry } from "./shelf_orders.js" */

/**
 * `sure` and `asked` are minutes: of orders that are promised, and of those that are only asked for.
 * @typedef {{ sure: number, asked: number }} Load
 * @typedef {Load & { monday: string, days: Load[] }} Week
 * @typedef {{ kind: "hands" | "oven", entries: [Entry, Entry], begin: string, end: string, minutes: number, spells: number }} Clash `begin` and `end` are of the first spell
 */

const DAY_MS = 86_400_000;
const MOST_CLASHES = 200; // pairs that are told apart; a shelf with more has its answer
const LOOKED_AHEAD = 84; // days in which clashes are looked for
const MOST_AT_ONCE = 20; // spells that one is compared with

/** A local time as a number, without a time zone [ms]. @param {string} time as ISO 8601 has it */
const at = (time) => Date.parse(`${time}Z`);

/** @param {number} ms */
const dayAt = (ms) => new Date(ms).toISOString().slice(0, 10);

/** The Monday of the week of a day, as numbers [ms]. @param {number} day */
function mondayOf(day) {
  return day - ((new Date(day).getUTCDay() + 6) % 7) * DAY_MS;
}

/** Orders whose work is still to be done. @param {Entry[]} entries */
function open(entries) {
  return entries.filter(({ card, isFresh, state, away }) => card && isFresh && !away && state !== "made");
}

/**
 * The weeks from today on in which there is work, in order, with the minutes of each day from Monday on.
 * @param {Entry[]} entries @param {string} today @returns {Week[]}
 */
export function weeks(entries, today) {
  const begin = Date.parse(today);
  /** @type {Map<number, Week>} */
  const known = new Map();
  for (const { card, state } of open(entries)) {
    for (const [from, to] of card?.hands ?? []) {
      for (let now = at(from); now < at(to); ) {
        const day = now - (now % DAY_MS);
        const end = Math.min(at(to), day + DAY_MS);
        if (day >= begin) add(known, day, state === "asked" ? "asked" : "sure", (end - now) / 60_000);
        now = end;
      }
    }
  }
  return [...known.values()].sort((a, b) => (a.monday < b.monday ? -1 : 1));
}

/** @param {Map<number, Week>} known @param {number} day @param {"sure" | "asked"} kind @param {number} minutes */
function add(known, day, kind, minutes) {
  const monday = mondayOf(day);
  let week = known.get(monday);
  if (!week) {
    week = { monday: dayAt(monday), days: Array.from({ length: 7 }, () => ({ sure: 0, asked: 0 })), sure: 0, asked: 0 };
    known.set(monday, week);
  }
  week[kind] += minutes;
  week.days[(day - monday) / DAY_MS][kind] += minutes;
}

/**
 * Pairs of orders that want the same hands, or the same oven, at one time in the coming weeks, the earliest first.
 * @param {Entry[]} entries @param {string} today @returns {Clash[]}
 */
export function clashes(entries, today) {
  /** @type {Clash[]} */
  const all = [];
  const until = dayAt(Date.parse(today) + LOOKED_AHEAD * DAY_MS);
  for (const kind of /** @type {const} */ (["hands", "oven"])) {
    const spells = open(entries)
      .flatMap((entry) => (entry.card?.[kind] ?? []).map(([begin, end]) => ({ entry, begin, end })))
      .filter(({ begin, end }) => end > today && begin < until)
      .sort((a, b) => (a.begin < b.begin ? -1 : 1));
    /** @type {Map<string, Clash>} */
    const pairs = new Map();
    /** @type {typeof spells} */
    let going = [];
    for (const spell of spells) {
      going = going.filter(({ end }) => end > spell.begin).slice(-MOST_AT_ONCE);
      for (const other of going) {
        if (other.entry.id === spell.entry.id) continue;
        const [one, two] = [other.entry.id, spell.entry.id];
        const key = one < two ? `${one} ${two}` : `${two} ${one}`;
        const end = other.end < spell.end ? other.end : spell.end;
        const minutes = (at(end) - at(spell.begin)) / 60_000;
        const pair = pairs.get(key);
        if (pair) {
          pair.minutes += minutes;
          pair.spells += 1;
        } else if (pairs.size < MOST_CLASHES) pairs.set(key, { kind, entries: [other.entry, spell.entry], begin: spell.begin, end, minutes, spells: 1 });
      }
      going.push(spell);
    }
    all.push(...pairs.values());
  }
  return all.sort((a, b) => (a.begin < b.begin ? -1 : a.begin > b.begin ? 1 : 0));
}

/** Minutes in words. @param {number} minutes */
export function hoursWords(minutes) {
  const whole = Math.round(minutes);
  const [hours, rest] = [Math.floor(whole / 60), whole % 60];
  return [hours && `${hours} h`, rest && `${rest} min`].filter(Boolean).join(" ") || "0 min";
}

/** A number of hours for a narrow cell: to the half, at least a half. @param {number} minutes */
export function hoursShort(minutes) {
  const halves = Math.max(1, Math.round(minutes / 30));
  return `${halves === 1 ? "" : Math.floor(halves / 2)}${halves % 2 ? "½" : ""}`;
}
