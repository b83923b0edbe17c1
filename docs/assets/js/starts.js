// Where a field begins that its reader has set nothing in: from the kitchen, or from the page's example. What a record holds no text for is open; the
// form says beside it where it comes from. Pure functions over the form and the texts, and one that writes those words.

import { controlOf } from "./derived.js";
import { element } from "./render.js";
import { spelledOut } from "./units.js";

/** @import { Step, Values } from "./steps.js" */

/** A field or a group at the head of a form that can start from the kitchen. @typedef {{ name: string, key: string, isGroup: boolean, place: HTMLElement }} Tied */
/** @typedef {{ values: Values, steps: Step[], at: number }} Kept */

const MOST_TIPS = 40;
const PARTS = /\s*(?:;|\band\b|\bor\b|&|\n|,(?!\d)|,(?=\s)|(?<=[A-Za-z"]),)\s*/; // of a list; a comma between digits is a decimal one
const UNIT = /("|''|[a-z]+)\.?$/i;
const DAY = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short", year: "numeric" });

/** @param {HTMLElement} form @param {boolean} isKitchen every field of it may be open @returns {Tied[]} */
export function tiedOf(form, isKitchen) {
  const which = isKitchen ? ".pb-field, .pb-items" : ".pb-field[data-kitchen], .pb-items[data-kitchen]";
  return /** @type {HTMLElement[]} */ ([...form.querySelectorAll(which)])
    .filter((place) => !place.parentElement?.closest(".pb-items"))
    .map((place) => ({ name: place.dataset.input ?? "", key: place.dataset.kitchen ?? "", isGroup: place.matches(".pb-items"), place }));
}

/** Whether a name belongs to something tied. @param {Tied} tied @param {string} name */
function belongsTo(tied, name) {
  return name === tied.name || (tied.isGroup && name.startsWith(`${tied.name}.`));
}

/** @param {Tied} tied @param {Values} values @returns {Values} */
export function textsOf(tied, values) {
  return Object.fromEntries(Object.entries(values).filter(([name]) => belongsTo(tied, name)));
}

/** @param {Values} values @param {Tied[]} tied @returns {Values} */
export function without(values, tied) {
  return Object.fromEntries(Object.entries(values).filter(([name]) => !tied.some((each) => belongsTo(each, name))));
}

/**
 * Whether a record says nothing of it. An empty text says something where the reader emptied the field; an order of an earlier handbook held one for
 * each field that was left open. A group of which there is to be none is kept as an empty text under its own name.
 * @param {Kept} kept @param {Tied} tied
 */
export function isOpen({ values, steps, at }, tied) {
  if (tied.isGroup) return !Object.keys(values).some((name) => belongsTo(tied, name));
  if (!(tied.name in values)) return true;
  return values[tied.name] === "" && tied.key !== "" && !steps.slice(0, at).some((step) => step.after[tied.name] === "");
}

/** A text of the kitchen as a field of this page reads it. @param {HTMLElement} field @param {string} text @param {Values} kitchen @param {string} units */
function written(field, text, kitchen, units) {
  const its = kitchen.units ?? "metric";
  if (field.dataset.field === "money") {
    const isBare = /^\s*[\d.,]/.test(text) && !/[^\d.,\s]/.test(text);
    const isSign = kitchen.currency && !/\d/.test(kitchen.currency); // a digit would be one of the amount's
    return isBare && isSign ? `${kitchen.currency}${text.trim()}` : text;
  }
  const unit = its === "us" ? field.dataset.unitUs : field.dataset.unitMetric;
  return its !== units && unit ? text.split(PARTS).map((part) => spelledOut(part, unit)).join(", ") : text;
}

/** How many copies of a group the kitchen has, as its texts. @param {Values} kitchen @param {string} group @returns {Values[]} */
function copiesIn(kitchen, group) {
  /** @type {Values[]} */
  const found = [];
  for (const [name, text] of Object.entries(kitchen)) {
    const [head, index, local, more] = name.split(".");
    if (head === group && local && more === undefined) (found[Number(index)] ??= {})[local] = text;
  }
  return found.filter(Boolean);
}

/** A list of the kitchen, one entry each; a unit written once holds for those before it. @param {Values} kitchen @param {string} list @returns {string[]} */
export function entriesIn(kitchen, list) {
  if (list === "tips") return copiesIn(kitchen, "tips").map((copy) => (copy.tip ?? "").trim()).filter(Boolean).slice(0, MOST_TIPS);
  const parts = (kitchen[list] ?? "").split(PARTS).filter((part) => part.trim());
  const unit = UNIT.exec(parts.at(-1) ?? "")?.[0] ?? "";
  return parts.map((part) => (unit && !/["'a-z]/i.test(part) ? `${part} ${unit}` : part));
}

/** The texts of an order, with the cutters and tips of the kitchen where it leaves them open. @param {Values} values @param {Values} kitchen @returns {Values} */
export function withKitchen(values, kitchen) {
  const unit = kitchen.units === "us" ? "in" : "cm";
  const texts = { ...values };
  if (!texts.cutters) texts.cutters = entriesIn(kitchen, "cutters").map((cutter) => spelledOut(cutter, unit)).join(", ");
  if (!texts.tips) texts.tips = entriesIn(kitchen, "tips").join(", ");
  return texts;
}

/** The opening that a tip's text names. @param {string} tip */
function openingOf(tip) {
  return Number(/\d+(?:[.,]\d+)?/.exec(tip)?.[0].replace(",", ".") ?? Number.NaN);
}

/** Of the maker's tips, that of the same family whose opening is nearest; "" where there is none. @param {string[]} own @param {string} wanted */
export function nearestTip(own, wanted) {
  const family = (/** @type {string} */ tip) => tip.toLowerCase().split(/\d/)[0].trim();
  const away = (/** @type {string} */ tip) => Math.abs(openingOf(tip) - openingOf(wanted));
  return own.filter((tip) => family(tip) === family(wanted)).sort((one, other) => away(one) - away(other))[0] ?? "";
}

/**
 * What the kitchen gives to a field; "" where it says nothing.
 * @param {Tied} tied @param {Values} kitchen @param {Values} values what the form says besides @param {Values} example @param {string} units
 */
function startOfField(tied, kitchen, values, example, units) {
  const { place: field, key, name } = tied;
  if (key === "tips") {
    const own = entriesIn(kitchen, "tips");
    return field.dataset.field === "tips" ? own.join(", ") : nearestTip(own, example[name] ?? "");
  }
  const [group, local] = key.split(".");
  if (local) return stripOf(field, copiesIn(kitchen, group), values)[local] ?? "";
  const text = field.dataset.field === "length" ? (entriesIn(kitchen, key)[0] ?? "") : (kitchen[key] ?? "");
  const control = controlOf(field);
  if (control instanceof HTMLSelectElement && ![...control.options].some((option) => option.value === text)) return ""; // the timetable tells apart what the kitchen does not
  if (!text.trim() && field.dataset.field === "money" && kitchen.currency) return /^\d/.test(example[name] ?? "") ? written(field, example[name], kitchen, units) : "";
  return text.trim() ? written(field, text, kitchen, units) : "";
}

/** The weighed strip for the tip and the kind of row of a form: of that row first, else a plain line. @param {HTMLElement} field @param {Values[]} strips @param {Values} values */
function stripOf(field, strips, values) {
  const words = (/** @type {string | undefined} */ text) => (text ?? "").toLowerCase().split(/\s+/).join(" ").trim();
  const { pipes = "", plain = "" } = /** @type {HTMLElement} */ (field.closest(".pb-calculator")).dataset;
  const kind = values.kind ?? pipes;
  const own = strips.filter((strip) => words(strip.tip) === words(values.tip));
  return own.find((strip) => strip.kind === kind) ?? own.find((strip) => strip.mass && plain.split(" ").includes(strip.kind)) ?? {};
}

/** @param {Tied} tied @param {Values} kitchen @param {string} units @returns {Values} */
function startOfGroup(tied, kitchen, units) {
  const template = /** @type {HTMLTemplateElement} */ (tied.place.querySelector(":scope > template")).content;
  const single = Object.entries(kitchen).filter(([name, text]) => name.startsWith(`${tied.key}_`) && text.trim());
  const copies = single.length ? [Object.fromEntries(single.map(([name, text]) => [name.slice(tied.key.length + 1), text]))] : copiesIn(kitchen, tied.key);
  const from = Number(tied.place.dataset.maximum);
  /** @type {Values} */
  const found = {};
  copies.slice(0, from).forEach((copy, index) => {
    for (const [local, text] of Object.entries(copy)) {
      const field = /** @type {HTMLElement | null} */ (template.querySelector(`.pb-field[data-local="${CSS.escape(local)}"]`));
      if (field) found[`${tied.name}.${index}.${local}`] = written(field, text, kitchen, units);
    }
  });
  return found;
}

/**
 * What everything open begins with, by the name of what is tied: its texts, and whether they are the kitchen's.
 * @param {Tied[]} open @param {Values} kitchen @param {Values} values what the record says @param {Values} example @param {string} units
 * @returns {Map<string, { texts: Values, isKitchen: boolean }>}
 */
export function startsOf(open, kitchen, values, example, units) {
  const known = { ...values };
  return new Map(
    open.map((tied) => {
      const text = tied.key && !tied.isGroup ? startOfField(tied, kitchen, known, example, units) : "";
      const mine = tied.isGroup ? (tied.key ? startOfGroup(tied, kitchen, units) : {}) : text ? { [tied.name]: text } : {};
      const isKitchen = Object.keys(mine).length > 0;
      const texts = isKitchen ? mine : textsOf(tied, example);
      Object.assign(known, texts);
      return [tied.name, { texts, isKitchen }];
    }),
  );
}

/** When the reader last set something, as a day. @param {Kept & { record: { made: number } }} kept @param {Tied} tied */
function dayOf({ steps, at, record }, tied) {
  const step = steps.slice(0, at).findLast((each) => Object.keys(each.after).some((name) => belongsTo(tied, name)));
  return DAY.format(step?.time ?? record.made);
}

/** Put words at a field or a group, in place of those that stood there. @param {Tied} tied @param {(string | Node)[]} words */
function say(tied, words) {
  const shown = words.length ? element("p", { class: "pb-from" }, ...words) : null;
  const before = tied.place.querySelector(":scope > .pb-from");
  if (before?.outerHTML === shown?.outerHTML) return;
  before?.remove();
  if (!shown) return;
  if (tied.isGroup) tied.place.querySelector(":scope > .pb-copies")?.before(shown);
  else tied.place.querySelector(":scope > .pb-problem")?.before(shown);
}

/**
 * Say beside each field where it comes from.
 * @param {Tied[]} all @param {Map<string, { texts: Values, isKitchen: boolean }>} starts of what is open @param {(tied: Tied) => Values} ofKitchen what it gives otherwise
 * @param {Values} values what the record says @param {string} address of the page of the kitchen
 */
export function showStarts(all, starts, ofKitchen, values, address) {
  for (const tied of all) {
    const link = (/** @type {string} */ text) => element("a", { href: `${address}#pb-kitchen-${tied.key.split(".")[0]}` }, text);
    const start = starts.get(tied.name);
    if (start) {
      say(tied, start.isKitchen ? ["from ", link("My kitchen")] : []);
      continue;
    }
    const mine = ofKitchen(tied);
    const isOther = Object.keys(mine).some((name) => mine[name] !== values[name]);
    const button = element("button", { type: "button", class: "pb-take-kitchen", "data-tied": tied.name }, "Take it from there");
    say(tied, isOther ? [link("My kitchen"), " has another. ", button] : []);
  }
}

/** On the page of the kitchen: say of each field since when it is kept. @param {Tied[]} all @param {Kept & { record: { made: number } }} kept */
export function showKept(all, kept) {
  for (const tied of all) {
    const isEmpty = tied.isGroup || !controlOf(tied.place).value;
    const none = tied.isGroup ? "" : isEmpty ? "Nothing kept yet" : "The handbook’s own start";
    const words = isOpen(kept, tied) ? none : `Kept by you on ${dayOf(kept, tied)}`;
    say(tied, words ? [words] : []);
  }
}

/** Offer what the kitchen has in the lists of a form. @param {HTMLElement} form @param {Values} kitchen */
export function offerOwn(form, kitchen) {
  const identity = form.closest(".pb-calculator")?.id.replace(/^pb-/, "") ?? "";
  const fields = /** @type {HTMLElement[]} */ ([...form.querySelectorAll(".pb-field[data-offers]")]);
  for (const template of form.querySelectorAll("template")) fields.push(.../** @type {any} */ (template.content.querySelectorAll(".pb-field[data-offers]")));
  for (const name of new Set(fields.map((field) => field.dataset.offers ?? ""))) {
    const id = name === "tips" ? `pb-${identity}--tips` : `pb-${identity}--own-${name}`;
    let list = form.querySelector(`datalist[id="${CSS.escape(id)}"]`);
    const own = entriesIn(kitchen, name);
    if (!list && own.length) form.append((list = element("datalist", { id })));
    for (const option of list?.querySelectorAll("[data-own]") ?? []) option.remove();
    list?.prepend(...own.map((text) => element("option", { value: text, "data-own": "" })));
    if (list && name !== "tips") for (const field of fields.filter((each) => each.dataset.offers === name)) controlOf(field).setAttribute("list", id);
  }
}
