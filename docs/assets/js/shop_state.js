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
const LONGEST_KEY = 200;

/** What a file says of it: how much of what is in the basket, and what is at hand. @param {Values} values @returns {Values} */
export function shopTold(values) {
  const said = Object.entries(values).filter(([name, text]) => /^(got|have):/.test(name) && text.trim());
  return Object.fromEntries(said.map(([name, text]) => [name.replace(":", "."), text]));
}

/** What is kept of what a file says; null where that is damaged. @param {Values} told @returns {Values | null} */
export function shopRead(told) {
  /** @type {Values} */
  const values = {};
  for (const [name, text] of Object.entries(told)) {
    const [, what, key] = /^(got|have)\.(.+)$/s.exec(name) ?? [];
    const isWhole = key && key.length <= LONGEST_KEY && (what === "got" ? Number(text) > 0 && Number.isFinite(Number(text)) : text.length <= LONGEST_HAVE);
    if (!isWhole) return null;
    values[`${what}:${key}`] = text;
  }
  return values;
}

/** What is ticked or typed here stays as it is. @param {Values} here @param {Values} theirs @returns {Values} */
export function joinedInShop(here, theirs) {
  return { ...theirs, ...here };
}
