// Units. A number without one is in the unit that stands beside its field; when the reader switches, what was typed keeps its meaning: the unit is
// then written out. A form in which nothing was typed shows the page's example in round figures of the reader's units.

import { controlOf } from "./derived.js";
import { recall } from "./saved.js";
import { onEachPage } from "./theme.js";

/** @import { Control } from "./derived.js" */

/** The event that tells that units or paper were chosen, for the whole site. */
export const CHOSEN = "pb-chosen";

const SIZES = new Set(["length", "lengths", "pair", "mass", "volume", "duration"]);
const VULGAR = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞";
const NUMBER = `(?:(?:\\d+(?:[.,]\\d+)*|[.,]\\d+)(?:\\s*[${VULGAR}]|\\s*[/⁄]\\s*\\d+|(?:\\s+|-)\\d+\\s*[/⁄]\\s*\\d+)?|[${VULGAR}])`;
const UNIT =
  "(?:[mc]m|m|metres?|meters?|millimet\\w+|centimet\\w+|in|ins|inch|inches|ft|foot|feet|yds?|yards?|k?g|gms?|grams?|kilos?|oz|ozs|ounces?|lbs?|pounds?|sticks?" +
  "|m?l|mls|cl|lit\\w+|cups?|tsps?|teaspoons?|tbsp?s?|tablespoons?|fl|pts?|pints?|qts?|quarts?|gals?|gallons?|s|secs?|min|mins|minutes?|h|hrs?|hours?|d|days?)(?![a-z])";
const LAST_NUMBER = new RegExp(`(.*?)(${NUMBER})(?!.*[\\d${VULGAR}])`, "is");
const WITH_UNIT = new RegExp(`^\\s*-?\\s*(?:${UNIT}|["'″”“′’])`, "i");

/**
 * A text with the unit after its last number, where none is there; a unit written once holds for what stands before it.
 * @param {string} text @param {string} unit
 */
export function spelledOut(text, unit) {
  const found = LAST_NUMBER.exec(text);
  if (!found || !unit) return text;
  const after = text.slice(found[0].length);
  return WITH_UNIT.test(after) ? text : `${found[0]} ${unit}${after.trimEnd()}`;
}

/**
 * What stands in a control, with the unit written out.
 * @param {Control} control @param {string} units
 */
export function spelledValue(control, units) {
  const field = /** @type {HTMLElement | null} */ (control.closest(".pb-field"));
  const unit = (units === "us" ? field?.dataset.unitUs : field?.dataset.unitMetric) ?? "";
  if (!field || !unit) return control.value;
  if (SIZES.has(field.dataset.field ?? "")) return spelledOut(control.value, unit);
  if (field.dataset.counts !== undefined && /^\s*\d+\s*$/.test(control.value)) return control.value;
  return control.value.split(/([;\n])/).map((piece) => spelledOut(piece, unit)).join("");
}

/** Write out the unit of every number that has none. @param {ParentNode} form @param {string} units in which they were typed */
export function spellOut(form, units) {
  for (const field of form.querySelectorAll(".pb-field[data-unit-us]")) {
    const control = controlOf(field);
    const text = spelledValue(control, units);
    if (text !== control.value) control.value = text;
  }
}

/** The system that a calculator shows. @param {Element} place in it @returns {string} */
export function unitsAt(place) {
  return /** @type {HTMLElement | null} */ (place.closest(".pb-calculator"))?.dataset.units ?? "metric";
}

/** What a control holds in the page's example, in some units. @param {Control} control @param {string} built @param {string} units */
export function exampleValue(control, built, units) {
  return (units === "us" ? control.dataset.us : undefined) ?? built;
}

/** Name the choices of lists in the reader's words. @param {ParentNode} place */
export function nameChoices(place) {
  const isUs = document.documentElement.dataset.units === "us";
  for (const option of /** @type {NodeListOf<HTMLOptionElement>} */ (place.querySelectorAll("option[data-us]"))) {
    option.dataset.metric ??= option.text;
    option.text = (isUs ? option.dataset.us : option.dataset.metric) ?? "";
  }
}

/** The units of pages and tables: the reader's last choice. */
function showUnits() {
  document.documentElement.dataset.units = recall("units") === "us" ? "us" : "metric";
  nameChoices(document);
}

/** On paper the unit beside a field would repeat the one that was typed: note which do (print.css leaves them out). */
function noteSaidUnits() {
  for (const unit of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".pb-field .pb-unit"))) {
    const field = /** @type {HTMLElement} */ (unit.closest(".pb-field"));
    const typed = controlOf(field).value;
    unit.toggleAttribute("data-said", spelledOut(typed, "mm") === typed);
  }
}

onEachPage(showUnits);
addEventListener(CHOSEN, showUnits);
addEventListener("beforeprint", noteSaidUnits);
