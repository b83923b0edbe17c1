// What a choice brings to the fields beside it: a kind of row brings its place, its tip and a drop that suits.

import { controlOf, fieldOf } from "./derived.js";

/** @typedef {{ name: string, text: string, suits?: string[], within?: [string, number, number], alike?: string, after?: string }} Brought */

/** @type {WeakMap<Element, Record<string, Brought[]>>} */
const read = new WeakMap();

/** What the choices of a field bring with them; null where they bring nothing. @param {HTMLElement} form @param {HTMLElement} field */
export function broughtBy(form, field) {
  const group = /** @type {HTMLElement | null} */ (field.closest(".pb-items"))?.dataset.group ?? "";
  const told = form.querySelector(`template.pb-brings[data-group="${CSS.escape(group)}"][data-for="${CSS.escape(field.dataset.local ?? "")}"]`);
  if (!(told instanceof HTMLElement)) return null;
  if (!read.has(told)) read.set(told, JSON.parse(told.dataset.brings ?? "{}"));
  return read.get(told) ?? null;
}

/** Whether what stands in a field suits what the choice brings to it. @param {string} text @param {Brought} brought @param {Brought | undefined} before */
function suits(text, brought, before) {
  if (!text.trim()) return brought.text === "";
  if (brought.alike !== undefined) return before?.alike === brought.alike;
  const words = text.toLowerCase().split(/\s+/).join(" ");
  if (!brought.suits?.some((word) => words.includes(word))) return false;
  const [family, low, high] = brought.within ?? ["", 0, 0];
  const opening = Number(/\d+(?:[.,]\d+)?/.exec(words)?.[0].replace(",", "."));
  if (!family || !words.includes(family) || !opening || /\bin|"|\//.test(words)) return true;
  return low <= opening && opening <= high;
}

/**
 * A choice was made: fill the fields beside it with what it brings, where what stands there does not suit. Gives back what was done, in words.
 * @param {HTMLElement} form @param {EventTarget | null} target
 */
export function followChoice(form, target) {
  if (!(target instanceof HTMLSelectElement)) return "";
  const field = /** @type {HTMLElement | null} */ (target.closest(".pb-field"));
  const choices = field && broughtBy(form, field);
  const copy = field?.closest(".pb-group");
  const was = target.dataset.was;
  if (!choices || !copy || was === undefined || was === target.value) return "";
  target.dataset.was = target.value;
  /** @type {Set<string>} */
  const changed = new Set();
  /** @type {string[]} */
  const done = [];
  for (const brought of choices[target.value] ?? []) {
    const beside = fieldOf(copy, brought.name);
    if (!beside) continue;
    const control = controlOf(beside);
    const before = choices[was]?.find((each) => each.name === brought.name);
    if (control.value === brought.text || (brought.after ? !changed.has(brought.after) : suits(control.value, brought, before))) continue;
    control.value = brought.text;
    changed.add(brought.name);
    const label = beside.querySelector("label")?.firstChild?.textContent ?? "";
    const says = control instanceof HTMLSelectElement ? (control.options[control.selectedIndex]?.textContent ?? "") : brought.text || "its own";
    done.push(`${label}: ${says[0].toLowerCase()}${says.slice(1)}`);
  }
  return done.length ? `${target.options[target.selectedIndex]?.textContent ?? ""}. ${done.join("; ")}.` : "";
}

/** Remember what is chosen where a choice brings something with it. @param {HTMLElement} form */
export function rememberChoices(form) {
  for (const told of /** @type {NodeListOf<HTMLElement>} */ (form.querySelectorAll("template.pb-brings"))) {
    const fields = `.pb-items[data-group="${told.dataset.group}"] > .pb-copies > .pb-group > .pb-fields > .pb-field[data-local="${told.dataset.for}"]`;
    for (const select of form.querySelectorAll(`${fields} select`)) {
      const choice = /** @type {HTMLSelectElement} */ (select);
      if (choice.dataset.was !== choice.value) choice.dataset.was = choice.value;
    }
  }
}
