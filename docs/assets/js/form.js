// The form of one calculator: reading it, filling it, its repeating groups, and what is to be put right in it.

import { rememberChoices } from "./choices.js";
import { freeName, nameCopy, titleOf } from "./copies.js";
import { controlOf, updateDerived } from "./derived.js";
import { focusField } from "./flow.js";
import { element, parse, patch } from "./render.js";
import { exampleValue, nameChoices, unitsAt } from "./units.js";

/** @import { Problem } from "./protocol.js" */

/** @import { Control } from "./derived.js" */

/**
 * The controls of a form, by full name. Templates are not part of it.
 * @param {ParentNode} form
 * @returns {Control[]}
 */
export function controls(form) {
  return [...form.querySelectorAll(".pb-field")].map(controlOf);
}

/** The full name of a control, like `tiers.1.width`. It has no `name`, so that no browser can send it. @param {Control} control */
export function nameOf(control) {
  return control.dataset.name ?? "";
}

/** @param {Control} control */
function valueOf(control) {
  if (control instanceof HTMLInputElement && control.type === "checkbox") return control.checked ? "yes" : "no";
  return control.value;
}

/** @param {Control} control @param {string} text */
function setValue(control, text) {
  if (control instanceof HTMLInputElement && control.type === "checkbox") {
    control.checked = text === "yes";
  } else {
    if (control instanceof HTMLSelectElement && ![...control.options].some((option) => option.value === text)) {
      control.append(new Option(text, text)); // never lose what came in; calc says what is wrong with it
    }
    control.value = text;
  }
}

/** What stood in a control when the page was built. @param {Control} control */
function builtValueOf(control) {
  if (control instanceof HTMLSelectElement) {
    const options = [...control.options];
    return (options.find((option) => option.defaultSelected) ?? options[0])?.value ?? "";
  }
  if (control instanceof HTMLInputElement && control.type === "checkbox") return control.defaultChecked ? "yes" : "no";
  return control.defaultValue;
}

/**
 * The page's example: what stood in the form when the page was built, whatever was typed since; in round figures of the reader's units.
 * @param {HTMLElement} form @param {string} [units]
 * @returns {Record<string, string>}
 */
export function readExample(form, units = "metric") {
  return Object.fromEntries(controls(form).map((control) => [nameOf(control), exampleValue(control, builtValueOf(control), units)]));
}

/**
 * What stands in the form, by full name.
 * @param {HTMLElement} form
 * @returns {Record<string, string>}
 */
export function readForm(form) {
  /** @type {Record<string, string>} */
  const values = {};
  for (const control of controls(form)) values[nameOf(control)] = valueOf(control);
  return values;
}

/**
 * The controls that say something else than they did.
 * @param {HTMLElement} form @param {Record<string, string>} before what stood in the form
 */
export function changedControls(form, before) {
  return controls(form).filter((control) => before[nameOf(control)] !== valueOf(control));
}

/**
 * Put texts into the form, by full name, after making as many copies of each group as they speak of.
 * @param {HTMLElement} form @param {Record<string, string>} values
 */
export function fillForm(form, values) {
  const names = Object.keys(values);
  const fit = (/** @type {ParentNode} */ level, /** @type {string} */ path) => {
    for (const group of groupsOf(level)) {
      const prefix = `${path}${group.dataset.group}.`;
      const heads = names.filter((name) => name.startsWith(prefix)).map((name) => name.slice(prefix.length).split(".")[0]);
      const wanted = Math.min(new Set(heads).size, Number(group.dataset.maximum));
      while (copiesOf(group).length > wanted) copiesOf(group).at(-1)?.remove();
      while (copiesOf(group).length < wanted) addCopy(group).toggleAttribute("open", group.dataset.folded === undefined);
      copiesOf(group).forEach((copy, index) => fit(copy, `${prefix}${index}.`));
    }
  };
  for (const line of form.querySelectorAll(".pb-removed")) line.remove();
  fit(form, "");
  renumber(form);
  for (const control of controls(form)) {
    const name = nameOf(control);
    if (name in values && valueOf(control) !== values[name]) setValue(control, values[name]);
  }
  rememberChoices(form);
  updateDerived(form);
}

/**
 * The texts of a form with those that a button sets, after taking away the groups that it replaces.
 * @param {Record<string, string>} values @param {HTMLElement} button
 * @returns {Record<string, string>}
 */
export function withPress(values, button) {
  const cleared = (button.dataset.clears ?? "").split(" ").filter(Boolean);
  const kept = Object.entries(values).filter(([name]) => !cleared.some((group) => name.startsWith(`${group}.`)));
  return { ...Object.fromEntries(kept), ...JSON.parse(button.dataset.sets ?? "{}") };
}

/**
 * Which of the names a form has a field for, whether or not there is a copy of its group yet.
 * @param {HTMLElement} form @param {string[]} wanted
 */
export function knownNames(form, wanted) {
  const shape = (/** @type {string} */ name) => name.replace(/\.\d+(?=\.)/g, ".0");
  /** @type {Set<string>} */
  const known = new Set();
  const collect = (/** @type {ParentNode} */ place) => {
    for (const field of /** @type {NodeListOf<HTMLElement>} */ (place.querySelectorAll(".pb-field"))) known.add(shape(field.dataset.input ?? ""));
    for (const template of place.querySelectorAll("template")) collect(template.content);
  };
  collect(form);
  return wanted.filter((name) => known.has(shape(name)));
}

/**
 * What stands in the form, with all that belongs to one order only set back to its beginning; cutters, prices and the like stay.
 * @param {HTMLElement} form
 * @returns {Record<string, string>}
 */
export function begunAnew(form) {
  const values = readForm(form);
  const fields = /** @type {NodeListOf<HTMLElement>} */ (form.querySelectorAll(".pb-field[data-per-order]"));
  for (const field of fields) values[nameOf(controlOf(field))] = field.dataset.perOrder ?? "";
  for (const group of /** @type {NodeListOf<HTMLElement>} */ (form.querySelectorAll(".pb-items[data-per-order]"))) {
    const prefix = `${group.dataset.input}.`;
    for (const name of Object.keys(values)) if (name.startsWith(prefix)) delete values[name];
    const template = /** @type {HTMLTemplateElement} */ (group.querySelector(":scope > template"));
    for (let i = 0; i < Number(group.dataset.minimum); i += 1) {
      for (const control of controls(template.content)) {
        const local = /** @type {HTMLElement} */ (control.closest(".pb-field")).dataset.local ?? "";
        const text = exampleValue(control, valueOf(control), unitsAt(form));
        values[`${prefix}${i}.${local}`] = local === "name" && text === group.dataset.label ? `${text} ${i + 1}` : text;
      }
    }
  }
  return values;
}

// ---- groups that repeat ------------------------------------------------------------------------------------------------

/** The groups of this level, not those inside their copies. @param {ParentNode} level @returns {HTMLElement[]} */
function groupsOf(level) {
  const all = /** @type {HTMLElement[]} */ ([...level.querySelectorAll(".pb-items")]);
  return all.filter((group) => !all.some((other) => other !== group && other.contains(group)));
}

/** @param {HTMLElement} group @returns {HTMLElement[]} */
function copiesOf(group) {
  const place = /** @type {HTMLElement} */ (group.querySelector(":scope > .pb-copies"));
  return /** @type {HTMLElement[]} */ ([...place.children].filter((child) => child.matches(".pb-group")));
}

/** @param {HTMLElement} group @returns {HTMLElement} */
function addCopy(group) {
  const template = /** @type {HTMLTemplateElement} */ (group.querySelector(":scope > template"));
  const copy = /** @type {HTMLElement} */ (document.importNode(template.content, true).firstElementChild);
  for (const line of copy.querySelectorAll(".pb-item-line")) line.textContent = ""; // the template's own, until the answer tells this one's
  const units = unitsAt(group);
  for (const control of controls(copy)) if (control.dataset.us !== undefined) setValue(control, exampleValue(control, valueOf(control), units));
  nameChoices(copy);
  group.querySelector(":scope > .pb-copies")?.append(copy);
  return copy;
}

/** One more, with what it takes from the last one and a name that no other has. @param {HTMLElement} group */
function addFresh(group) {
  const last = copiesOf(group).at(-1);
  const copy = addCopy(group);
  for (const local of (group.dataset.follows ?? "").split(" ").filter(Boolean)) {
    const [from, to] = [last, copy].map((place) => place?.querySelector(`.pb-field[data-local="${CSS.escape(local)}"]`));
    if (from && to) setValue(controlOf(to), valueOf(controlOf(from)));
  }
  if (group.dataset.folded !== undefined) fold(copiesOf(group).filter((other) => other !== copy));
  const name = nameFieldOf(copy);
  if (name && controlOf(name).value === group.dataset.label) setValue(controlOf(name), freeName(`${controlOf(name).value} ${copiesOf(group).length}`, namesIn(group, copy)));
  return copy;
}

/** The field in which a copy says what it is called. @param {Element} copy */
function nameFieldOf(copy) {
  return copy.querySelector(':scope > .pb-fields > .pb-field[data-local="name"]');
}

/** What the copies of a group are called, but for one. @param {HTMLElement} group @param {Element} but */
function namesIn(group, but) {
  const fields = copiesOf(group).map((copy) => (copy === but ? null : nameFieldOf(copy)));
  return fields.flatMap((field) => (field ? [valueOf(controlOf(field))] : []));
}

/** Fold those with nothing in them to be put right. @param {HTMLElement[]} copies */
function fold(copies) {
  for (const copy of copies) if (!copy.querySelector(":scope > summary > .pb-wrong")?.textContent) copy.removeAttribute("open");
}

/** The same with all that is typed in it, but for what belongs to that one alone. @param {HTMLElement} copy */
function cloneOf(copy) {
  const clone = /** @type {HTMLElement} */ (copy.cloneNode(true));
  for (const own of clone.querySelectorAll(".pb-cures, .pb-removed, .pb-choices")) own.remove();
  for (const open of clone.querySelectorAll('.pb-pick[aria-expanded="true"]')) open.setAttribute("aria-expanded", "false");
  const values = controls(copy).map(valueOf);
  controls(clone).forEach((control, i) => setValue(control, values[i]));
  return clone;
}

/** The same once more, under it, by a name of its own. @param {HTMLElement} group @param {HTMLElement} copy */
function addAgain(group, copy) {
  const again = cloneOf(copy);
  copy.after(again);
  const name = nameFieldOf(again);
  if (name) setValue(controlOf(name), freeName(valueOf(controlOf(name)), namesIn(group, again)));
  again.setAttribute("open", "");
  if (group.dataset.folded !== undefined) fold(copiesOf(group).filter((other) => other !== again));
  return again;
}

/** The same group in each of the others that the group's owner stands among: the rows of the other tiers. @param {HTMLElement} group @returns {HTMLElement[]} */
function likeGroups(group) {
  const owner = /** @type {HTMLElement | null} */ (group.closest(".pb-group"));
  const among = /** @type {HTMLElement | null} */ (owner?.closest(".pb-items") ?? null);
  if (!owner || !among) return [];
  return copiesOf(among).flatMap((copy) => (copy === owner ? [] : groupsOf(copy).filter((other) => other.dataset.group === group.dataset.group)));
}

/**
 * Give every field the name, the id and the label that its place calls for: `tiers.1.rows.0.tip`.
 * @param {HTMLElement} form
 */
export function renumber(form) {
  const identity = form.closest(".pb-calculator")?.id ?? "";
  const level = (/** @type {ParentNode} */ place, /** @type {string} */ path) => {
    const groups = groupsOf(place);
    for (const field of /** @type {NodeListOf<HTMLElement>} */ (place.querySelectorAll(".pb-field"))) {
      if (groups.some((group) => group.contains(field))) continue;
      nameField(field, `${path}${field.dataset.local}`, identity);
    }
    for (const group of groups) {
      const name = `${path}${group.dataset.group}`;
      group.dataset.input = name;
      const problem = group.querySelector(":scope > .pb-problem");
      if (problem) problem.id = `${identity}-${name}-problem`;
      const title = group.querySelector(":scope > .pb-items-title");
      if (title) {
        title.id = `${identity}-${name}-title`;
        nameGroup(group, title);
      }
      const copies = copiesOf(group);
      copies.forEach((copy, index) => nameCopy(group, copy, index, copies.length, likeGroups(group)));
      copies.forEach((copy, index) => level(copy, `${name}.${index}.`));
      const add = /** @type {HTMLButtonElement} */ (group.querySelector(":scope > .pb-add"));
      const owner = group.closest(".pb-group");
      if (owner) add.setAttribute("aria-label", `${add.textContent} to ${titleOf(owner)}`);
      add.disabled = copies.length >= Number(group.dataset.maximum);
    }
  };
  level(form, "");
  rememberChoices(form);
  updateDerived(form);
}

/** A group inside another is called after both: "Rows, Tier 2". @param {HTMLElement} group @param {Element} title */
function nameGroup(group, title) {
  const owner = group.closest(".pb-group");
  if (owner) group.setAttribute("aria-label", `${title.textContent}, ${titleOf(owner)}`);
  if (owner) group.removeAttribute("aria-labelledby");
  else group.setAttribute("aria-labelledby", title.id);
}

/** @param {HTMLElement} field @param {string} name @param {string} identity */
function nameField(field, name, identity) {
  const control = controlOf(field);
  const id = `${identity}-${name}`;
  if (control.id === id && field.dataset.input === name) return;
  field.dataset.input = name;
  control.dataset.name = name;
  control.id = id;
  field.querySelector("label")?.setAttribute("for", id);
  const described = [];
  for (const part of ["unit", "help", "problem"]) {
    const place = field.querySelector(`.pb-${part}`);
    if (!place) continue;
    place.id = `${id}-${part}`;
    described.push(place.id);
  }
  control.setAttribute("aria-describedby", described.join(" "));
}

/** @type {WeakMap<Element, HTMLElement>} */
const removed = new WeakMap();

/** Take one of a group away, and leave a line in its place that brings it back. @param {HTMLElement} form @param {HTMLElement} copy */
function remove(form, copy) {
  const title = titleOf(copy);
  const button = element("button", { type: "button", class: "pb-put-back", "aria-label": `Undo: bring ${title} back` }, "Undo");
  const line = element("p", { class: "pb-removed" }, `${title} removed. `, button); // read out with the answer to it
  removed.set(line, copy);
  copy.replaceWith(line);
  renumber(form);
  button.focus();
  return `${title} removed.`;
}

/** @param {HTMLElement} form @param {HTMLElement} group @param {HTMLElement} button */
function putBack(form, group, button) {
  const line = /** @type {HTMLElement} */ (button.closest(".pb-removed"));
  const copy = removed.get(line);
  if (!copy) return "";
  if (copiesOf(group).length >= Number(group.dataset.maximum)) return `There are as many as there may be: ${group.dataset.maximum}.`;
  line.replaceWith(copy);
  renumber(form);
  copy.querySelector("summary")?.focus();
  return `${titleOf(copy)} is back.`;
}

/** Put the same at the end of that group of another tier. @param {HTMLElement} form @param {HTMLElement} copy @param {HTMLElement} other */
function copyTo(form, copy, other) {
  const clone = cloneOf(copy);
  clone.removeAttribute("open");
  other.querySelector(":scope > .pb-copies")?.append(clone);
  renumber(form);
  return `${titleOf(copy)} copied to ${titleOf(/** @type {HTMLElement} */ (other.closest(".pb-group")))}, as ${titleOf(clone)} there.`;
}

/**
 * Act on a press of one of the group buttons. Gives back what it did, in words; null where it was none of them.
 * @param {HTMLElement} form @param {HTMLElement} button
 * @returns {string | null}
 */
export function pressGroupButton(form, button) {
  const group = /** @type {HTMLElement | null} */ (button.closest(".pb-items"));
  if (!group || !button.matches(".pb-add, .pb-again, .pb-copy-to, .pb-move, .pb-remove, .pb-put-back")) return null;
  if (button.matches(".pb-put-back")) return putBack(form, group, button);
  const copy = /** @type {HTMLElement} */ (button.closest(".pb-group"));
  const title = button.matches(".pb-add") ? "" : titleOf(copy);
  if (button.matches(".pb-copy-to")) return copyTo(form, copy, likeGroups(group)[Number(button.dataset.to)]);
  if (button.matches(".pb-add, .pb-again")) {
    const fresh = title ? addAgain(group, copy) : addFresh(group);
    renumber(form);
    const first = controls(fresh)[0];
    if (first) focusField(first);
    return title ? `${title} once more, as ${titleOf(fresh)}.` : `${titleOf(fresh)} added.`;
  }
  if (button.matches(".pb-remove")) return remove(form, copy);
  const up = button.dataset.direction === "up";
  const all = copiesOf(group);
  const other = all[all.indexOf(copy) + (up ? -1 : 1)];
  if (up) other?.before(copy);
  else other?.after(copy);
  renumber(form);
  const still = button instanceof HTMLButtonElement && button.disabled ? copy.querySelector(":scope > .pb-group-tools > .pb-move:not(:disabled)") : button;
  /** @type {HTMLElement | null} */ (still)?.focus();
  return `${title} is now ${titleOf(copy)}.`;
}

/**
 * Say at each copy of a group what is amiss there, with what mends it, and take away what no longer holds.
 * @param {HTMLElement} form @param {Record<string, string>} cures the HTML for each copy, by its name, as calc/page wrote it
 */
export function showCures(form, cures) {
  for (const group of /** @type {NodeListOf<HTMLElement>} */ (form.querySelectorAll(".pb-items"))) {
    copiesOf(group).forEach((copy, index) => {
      const html = cures[`${group.dataset.input}.${index}`] ?? "";
      const place = copy.querySelector(":scope > .pb-cures");
      if (html) patch(place ?? placeForCures(copy), parse(html));
      else place?.remove();
    });
  }
}

/** @param {HTMLElement} copy @returns {HTMLElement} */
function placeForCures(copy) {
  const place = element("div", { class: "pb-cures" });
  copy.querySelector(":scope > summary")?.after(place);
  return place;
}

// ---- what is to be put right ---------------------------------------------------------------------------------------------

/**
 * Write each problem beside its field and take away the others. Gives the problems that belong to no field of the form.
 * @param {HTMLElement} form @param {Problem[]} problems
 * @returns {Problem[]}
 */
export function showProblems(form, problems) {
  if (!problems.length && !form.querySelector(".pb-problem:not(:empty), .pb-wrong:not(:empty), [aria-invalid]")) return [];
  const left = new Map(problems.map((problem) => [problem.input, problem]));
  for (const place of /** @type {NodeListOf<HTMLElement>} */ (form.querySelectorAll(".pb-field, .pb-items"))) {
    const problem = left.get(place.dataset.input ?? "");
    left.delete(place.dataset.input ?? "");
    const line = place.querySelector(":scope > .pb-problem");
    const message = problem?.message ?? "";
    if (line && line.textContent !== message) line.textContent = message;
    if (!place.matches(".pb-field")) continue;
    const control = controlOf(place);
    if (problem) control.setAttribute("aria-invalid", "true");
    else control.removeAttribute("aria-invalid");
  }
  for (const details of /** @type {NodeListOf<HTMLDetailsElement>} */ (form.querySelectorAll("details"))) {
    const count = [...details.querySelectorAll(".pb-problem")].filter((line) => line.textContent).length;
    const said = details.querySelector(":scope > summary > .pb-wrong");
    const text = count ? `${count} to put right` : "";
    if (said && said.textContent !== text) {
      said.textContent = text;
      if (count) details.open = true;
    } else if (count && !said) {
      details.open = true;
    }
  }
  updateDerived(form);
  return [...left.values()];
}

/** Which of several a field belongs to: "Tier 2, Row 4: ". @param {Element | null} field */
function whereIn(field) {
  const lines = [];
  for (let item = field?.closest(".pb-group"); item; item = item.parentElement?.closest(".pb-group")) {
    lines.unshift(titleOf(item));
  }
  return lines.length ? `${lines.join(", ")}: ` : "";
}

/**
 * Fill the summary with all that is to be put right, each a link to its field.
 * @param {HTMLElement} summary @param {HTMLElement} form @param {Problem[]} problems
 */
export function showSummary(summary, form, problems) {
  const identity = form.closest(".pb-calculator")?.id ?? "";
  const lines = problems.map((problem) => {
    const target = form.querySelector(`[id="${CSS.escape(`${identity}-${problem.input}`)}"]`);
    return element("li", {}, whereIn(target), target ? element("a", { href: `#${target.id}` }, problem.message) : problem.message);
  });
  const title = problems.length === 1 ? "One thing to put right" : `${problems.length} things to put right`;
  const fresh = document.createDocumentFragment();
  fresh.append(element("p", { class: "pb-summary-title" }, title), element("ul", {}, ...lines));
  patch(summary, fresh); // a link that is being pressed must not be replaced under the finger
  summary.hidden = problems.length === 0;
}
