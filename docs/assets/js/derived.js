// What a form derives from what is filled in: the summary line of each tier, row or pack, the colour of each name, the fields that are asked
// only with some choice. The build writes the same into the page (tools/site/pages.py).

import { groupName } from "./copies.js";
import { showLook } from "./render.js";

const LONGEST_OFFER = 40; // characters of a text that is offered in other fields too
const HEX = /^#[0-9a-f]{6}$/;
const US_MOMENT = /^([A-Z][a-z]+) (\d{1,2}), (\d{4}),? (\d{1,2}):(\d\d) ([AP])M$/;
const MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
const MOMENT = /^(\d{4}-\d\d-\d\d)[ T](\d\d:\d\d)$/;

/** @typedef {HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement} Control */

/** @param {ParentNode} place @param {string} selector */
function all(place, selector) {
  return /** @type {HTMLElement[]} */ ([...place.querySelectorAll(selector)]);
}

/** The control of a field. @param {Element} field @returns {Control} */
export function controlOf(field) {
  return /** @type {Control} */ (field.querySelector("input, select, textarea"));
}

/** The field of that name in this copy of a group, not in a group inside it. @param {Element} copy @param {string} name */
export function fieldOf(copy, name) {
  return all(copy, `.pb-field[data-local="${CSS.escape(name)}"]`).find((field) => field.closest(".pb-group") === copy) ?? null;
}

/** How a form shows colours by their names: the reader's own first, then the palette; "" for a name that neither knows. @param {HTMLElement} form */
export function lookIn(form) {
  const own = ownLooks(form);
  const palette = paletteOf(form);
  return (/** @type {string} */ text) => {
    const name = text.toLowerCase().trim().split(/\s+/).join(" ");
    return own.get(name) ?? palette.get(name) ?? (HEX.test(name) ? name : "");
  };
}

/** Update the colours, pickers, lists and conditional fields of a form. @param {HTMLElement} form */
export function updateDerived(form) {
  const look = lookIn(form);
  for (const field of all(form, ".pb-field[data-only]")) {
    const [name, words] = (field.dataset.only ?? "").split("=");
    const beside = field.parentElement?.querySelector(`:scope > .pb-field[data-local="${CSS.escape(name)}"]`);
    const isWanted = beside && words.split(" ").includes(controlOf(beside).value);
    field.hidden = !isWanted && !field.querySelector(".pb-problem")?.textContent;
  }
  for (const dot of all(form, ".pb-entry > .pb-dot")) show(dot, look(controlOf(/** @type {Element} */ (dot.parentElement)).value));
  for (const picker of /** @type {HTMLInputElement[]} */ (all(form, ".pb-look"))) {
    const shown = look(controlOf(/** @type {Element} */ (picker.parentElement)).value);
    if (shown && picker.value !== shown) picker.value = shown;
  }
  for (const picker of /** @type {HTMLInputElement[]} */ (all(form, ".pb-when"))) {
    const value = pickedValue(controlOf(/** @type {Element} */ (picker.parentElement)).value.trim());
    if (picker.value !== value) picker.value = value;
  }
  for (const group of all(form, ".pb-items")) {
    for (const copy of all(group, ":scope > .pb-copies > .pb-group")) {
      const dot = copy.querySelector(":scope > summary > .pb-dot");
      const shade = dot && fieldOf(copy, copy.dataset.shade ?? "");
      if (dot && shade) show(dot, look(controlOf(shade).value));
      const first = copy.querySelector(":scope > .pb-fields > .pb-field");
      const name = groupName(copy, first && controlOf(first));
      if (copy.getAttribute("aria-label") !== name) copy.setAttribute("aria-label", name);
    }
  }
  offer(form);
}

/** What a calendar shows for a day and hour as the page writes them, in either region; "" for any other text. @param {string} text */
function pickedValue(text) {
  const found = MOMENT.exec(text);
  if (found) return `${found[1]}T${found[2]}`;
  const named = US_MOMENT.exec(text);
  const month = named ? MONTHS.indexOf(named[1].slice(0, 3).toLowerCase()) + 1 : 0;
  if (!named || !month) return "";
  const hour = (Number(named[4]) % 12) + (named[6] === "P" ? 12 : 0);
  return `${named[3]}-${twoDigits(month)}-${twoDigits(Number(named[2]))}T${twoDigits(hour)}:${named[5]}`;
}

/** @param {number} value */
function twoDigits(value) {
  return String(value).padStart(2, "0");
}

/** @param {Element} dot @param {string} look */
function show(dot, look) {
  if ((dot.getAttribute("data-look") ?? "") !== look) showLook(dot, look);
}

/**
 * Write the summary line of each copy of a group, in the words of calc/page/lines.py. A copy that is not among `lines` has its line emptied.
 * @param {HTMLElement} form @param {Record<string, string>} lines by path, such as `tiers.1.rows.0.`
 */
export function showLines(form, lines) {
  for (const copy of all(form, ".pb-copies > .pb-group")) {
    const group = /** @type {HTMLElement} */ (copy.parentElement?.parentElement);
    const index = [...(copy.parentElement?.children ?? [])].indexOf(copy);
    const line = copy.querySelector(":scope > summary > .pb-item-line");
    const text = lines[`${group.dataset.input}.${index}.`] ?? "";
    if (line && line.textContent !== text) line.textContent = text;
  }
}

/** Empty the summary lines of the copies that a control is in: Python does not know yet what was typed there. @param {EventTarget | null} control */
export function emptyLines(control) {
  if (!(control instanceof Element)) return;
  for (let copy = control.closest(".pb-group"); copy; copy = copy.parentElement?.closest(".pb-group") ?? null) {
    const line = copy.querySelector(":scope > summary > .pb-item-line");
    if (line) line.textContent = "";
  }
}

// ---- colours and lists --------------------------------------------------------------------------------------------------

/** The colours that the reader gave names of their own. @param {HTMLElement} form */
function ownLooks(form) {
  /** @type {Map<string, string>} */
  const own = new Map();
  for (const copy of all(form, '.pb-items[data-group="colours"] > .pb-copies > .pb-group')) {
    const [name, look] = ["name", "look"].map((local) => fieldOf(copy, local)).map((field) => (field ? controlOf(field).value.trim().toLowerCase() : ""));
    if (HEX.test(look)) own.set(name, look);
  }
  return own;
}

/** @param {HTMLElement} form */
function paletteOf(form) {
  const options = /** @type {HTMLOptionElement[]} */ (all(form, "datalist > option[data-look]"));
  return new Map(options.map((option) => [option.value, option.dataset.look ?? ""]));
}

/** Put what the order uses already first in the lists that its fields offer. @param {HTMLElement} form */
function offer(form) {
  for (const list of all(form, "datalist")) {
    const used = new Set();
    for (const control of /** @type {HTMLInputElement[]} */ (all(form, `input[list="${CSS.escape(list.id)}"]`))) {
      const text = control.value.trim();
      if (text && text.length <= LONGEST_OFFER && control !== document.activeElement) used.add(text);
    }
    if (list.id.endsWith("--colours")) for (const name of ownLooks(form).keys()) if (name) used.add(name);
    const before = all(list, "[data-used]").map((option) => /** @type {HTMLOptionElement} */ (option).value);
    if (before.length === used.size && before.every((text) => used.has(text))) continue;
    for (const option of all(list, "[data-used]")) option.remove();
    list.prepend(
      ...[...used].map((text) => {
        const option = new Option(text, text);
        option.dataset.used = "";
        return option;
      }),
    );
  }
}

/**
 * A colour or a day was chosen by eye: write it into its field, as if it had been typed.
 * @param {EventTarget | null} target
 */
export function takeChoice(target) {
  if (!(target instanceof HTMLInputElement) || !target.matches(".pb-look, .pb-when") || !target.value) return;
  const control = controlOf(/** @type {Element} */ (target.parentElement));
  control.value = target.matches(".pb-when") ? target.value.slice(0, 16).replace("T", " ") : target.value;
}
