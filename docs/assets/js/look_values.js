// What looks take from the texts of a form, and where a reader's own are kept. Pure functions.

/** @import { Values } from "./steps.js" */

export const SHELF = "look"; // place and calculator of the records of a reader's own looks

const ROW = /^tiers\.\d+\.rows\.\d+\./;
const COLOUR = /^tiers\.\d+\.rows\.\d+\.(?:colour|second)$/;
const TIER = /^tiers\./;

/** A form without its rows: what a look is fitted to. @param {Values} values @returns {Values} */
export function withoutRows(values) {
  return Object.fromEntries(Object.entries(values).filter(([name]) => !ROW.test(name)));
}

/** Whether there are any rows in a form. @param {Values} values */
export function hasRows(values) {
  return Object.keys(values).some((name) => ROW.test(name));
}

/**
 * The colours of the rows, in the order in which they first appear, then those of rows that were there before.
 * @param {Values} values @param {string[]} before
 */
export function coloursOf(values, before) {
  const now = Object.entries(values).flatMap(([name, text]) => (COLOUR.test(name) && text.trim() ? [text.trim().toLowerCase()] : []));
  return [...new Set([...now, ...before])];
}

/** What is kept of a form as a look: its tiers with their rows, and the units that they are written in. @param {Values} values @returns {Values} */
export function ownLook(values) {
  return Object.fromEntries(Object.entries(values).filter(([name]) => TIER.test(name) || name === "units"));
}
