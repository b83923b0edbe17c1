// What a screen reader is told of an answer: the figures that differ from those it was told last, the one most come for first.

import { titleOf } from "./copies.js";

/** @import { Problem } from "./protocol.js" */

const MOST = 4; // figures in one sentence
const FIRST = ["repeats", "buttercream", "price", "portions"]; // named before the others, in this order

/** What stands in the figures of an answer, by name. @param {ParentNode} answer @returns {Map<string, string>} */
export function figuresIn(answer) {
  const found = new Map();
  for (const figure of /** @type {NodeListOf<HTMLElement>} */ (answer.querySelectorAll(".pb-figure[data-figure]"))) {
    const [label, value] = [figure.querySelector("dt"), figure.querySelector("dd")].map((part) => part?.firstChild?.textContent?.trim() ?? "");
    found.set(figure.dataset.figure ?? "", `${label}: ${value}`);
  }
  return found;
}

/**
 * The figures that differ, in words.
 * @param {Map<string, string>} before @param {Map<string, string>} now
 */
export function changesOf(before, now) {
  const place = (/** @type {string} */ name) => (FIRST.includes(name) ? FIRST.indexOf(name) : FIRST.length);
  const names = [...now.keys()].filter((name) => now.get(name) !== before.get(name)).sort((a, b) => place(a) - place(b));
  if (!names.length) return "The figures stay as they were.";
  const more = names.length - MOST;
  const said = names.slice(0, MOST).map((name) => now.get(name));
  return `${said.join(". ")}.${more > 0 ? ` ${more} more ${more === 1 ? "figure has" : "figures have"} changed.` : ""}`;
}

/**
 * What is to be put right, in words that name each field: "Height, Row 2, Tier 1: Height must be ...".
 * @param {HTMLElement} form @param {Problem[]} problems
 */
export function problemsInWords(form, problems) {
  const named = problems.map((problem) => {
    const field = form.querySelector(`.pb-field[data-input="${CSS.escape(problem.input)}"]`);
    const label = field?.querySelector("label")?.firstChild?.textContent?.trim() ?? "";
    const within = [];
    for (let copy = field?.closest(".pb-group"); copy; copy = copy.parentElement?.closest(".pb-group")) within.push(titleOf(copy));
    return [label, ...within].filter(Boolean).join(", ");
  });
  if (problems.length === 1) {
    const { message } = problems[0];
    const told = !named[0] || message.startsWith(`${named[0]} `) ? message : `${named[0]}: ${message}`; // most begin with the field's name
    return /[.!?]$/.test(told) ? told : `${told}.`;
  }
  return `${problems.length} things to put right: ${[...new Set(named.filter(Boolean))].slice(0, MOST).join("; ")}.`;
}
