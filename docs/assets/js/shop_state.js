// What is in the basket and what is at hand, as it is kept beside an order. Pure functions.

/**
 * One line of the list, as calc/calculators/order_shop.py writes it.
 * @typedef {{ key: string, what: string, buy: string, use: string, need: number, reads: string, have: string, problem: string, isThere: boolean }} Line
 * @typedef {{ title: string, lines: Line[] }} Group
 * @typedef {Record<string, string>} Values
 */

export const GOT = "got:"; // before the key of a line: how much was needed when it was ticked
export const HAVE = "have:"; // before the key of a line: what is at hand, as it was typed

/** Whether a line is in the basket: for no more than was needed when it was ticked. @param {Values} values @param {Line} line */
export function isGot(values, line) {
  const got = values[GOT + line.key];
  return Boolean(got) && Number(got) >= line.need;
}

/** What is at hand, by the key of its line. @param {Values} values */
export function haveIn(values) {
  const typed = Object.entries(values).filter(([name, text]) => name.startsWith(HAVE) && text.trim());
  return Object.fromEntries(typed.map(([name, text]) => [name.slice(HAVE.length), text]));
}

/** How many lines are to buy, and how many of them are in the basket. @param {Group[]} groups @param {Values} values */
export function countIn(groups, values) {
  const lines = groups.flatMap((group) => group.lines).filter((line) => !line.isThere);
  return { all: lines.length, got: lines.filter((line) => isGot(values, line)).length };
}

/** What is still to be bought, as plain text. @param {string} title @param {Group[]} groups @param {Values} values */
export function listText(title, groups, values) {
  const parts = groups.map((group) => {
    const lines = group.lines.filter((line) => !line.isThere && !isGot(values, line));
    return lines.length ? [group.title, ...lines.map((line) => `- ${line.what}: ${line.buy} (${line.use})`)].join("\n") : "";
  });
  return `${[title, ...parts].filter(Boolean).join("\n\n")}\n`;
}

// ---- in a file -----------------------------------------------------------------------------------------------------------

const LONGEST_HAVE = 40; // characters, as many as the list takes
const LONGEST_KEY = 300; // the longest holds the name of a colour
const MOST_LINES = 1000;

/**
 * What a file says of it, line by line: which one, how much of it is in the basket, and what is at hand. The key of a line is a text there and no name,
 * because it may hold whatever a colour is called.
 * @param {Values} values @returns {Values[]}
 */
export function shopTold(values) {
  const said = Object.entries(values).filter(([name, text]) => (name.startsWith(GOT) || name.startsWith(HAVE)) && text.trim());
  const keys = new Set(said.map(([name]) => name.slice(name.indexOf(":") + 1)));
  return [...keys].map((line) => {
    const [got, have] = [values[GOT + line] ?? "", values[HAVE + line] ?? ""];
    return { line, ...(got.trim() && { got }), ...(have.trim() && { have }) };
  });
}

/** What is kept of what a file says; null where that is damaged. @param {Values[]} told @returns {Values | null} */
export function shopRead(told) {
  if (told.length > MOST_LINES) return null;
  /** @type {Values} */
  const values = {};
  for (const { line = "", got = "", have = "", ...strange } of told) {
    const isNumber = !got || (Number(got) > 0 && Number.isFinite(Number(got)));
    if (!line || line.length > LONGEST_KEY || have.length > LONGEST_HAVE || !isNumber || Object.keys(strange).length) return null;
    if (got) values[GOT + line] = got;
    if (have) values[HAVE + line] = have;
  }
  return values;
}

/** What is ticked or typed here stays as it is. @param {Values} here @param {Values} theirs @returns {Values} */
export function joinedInShop(here, theirs) {
  return { ...theirs, ...here };
}
