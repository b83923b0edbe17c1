// Kinds of rows, tips and colours chosen by eye: a button beside the field opens pictures or swatches to press. What is chosen is written into
// the field as if it had been typed there; the field stays what is stored.

import { broughtBy } from "./choices.js";
import { controlOf, fieldOf, lookIn } from "./derived.js";
import { element, parse } from "./render.js";

/** @typedef {{ value: string, name: string, picture: Element | null, look?: string }} Choice what can be pressed */
/** @typedef {{ title: string, choices: Choice[] }} Part some of them under a title, which may be empty */

const TECHNIQUES = new URL("../../techniques/", import.meta.url); // the list with a drawing of each kind
const WIDEST = 26; // mm of a tip's opening that fills its picture

/** @type {Promise<Map<string, Element>> | null} */
let drawn = null;

/** The drawings of kinds in the list of techniques, by kind; none where the page cannot be had. */
function drawings() {
  drawn ??= fetch(TECHNIQUES)
    .then((reply) => reply.text())
    .then((text) => {
      const page = new DOMParser().parseFromString(text, "text/html");
      return new Map([...page.querySelectorAll(".pb-gallery [data-kind]")].map((item) => [item.getAttribute("data-kind") ?? "", /** @type {Element} */ (item.querySelector("svg"))]));
    })
    .catch(() => {
      drawn = null; // the next time it may be there
      return new Map();
    });
  return drawn;
}

/** The pictures of what can be chosen in a field. @param {HTMLElement} form @param {HTMLElement} field @returns {Promise<Part[]>} */
async function partsOf(form, field) {
  const control = controlOf(field);
  const list = control instanceof HTMLInputElement ? control.list : control;
  const options = /** @type {HTMLOptionElement[]} */ ([...(list?.querySelectorAll("option") ?? [])]);
  if (control instanceof HTMLSelectElement) {
    const known = await drawings();
    const own = /** @type {HTMLTemplateElement | null} */ (form.querySelector(`template.pb-brings[data-for="${field.dataset.local}"]`));
    const picture = (/** @type {string} */ value) => known.get(value) ?? own?.content.querySelector(`[data-choice="${CSS.escape(value)}"] svg`) ?? null;
    return [{ title: "", choices: options.map((option) => ({ value: option.value, name: option.textContent ?? "", picture: picture(option.value) })) }];
  }
  if (field.dataset.field === "tip") {
    const kind = fieldOf(/** @type {Element} */ (field.closest(".pb-group")), "kind");
    const suits = kind && broughtBy(form, kind)?.[controlOf(kind).value]?.find((each) => each.name === field.dataset.local)?.suits;
    const tips = options.filter((option) => option.dataset.opening).map((option) => ({ value: option.value, name: option.value, picture: opening(option.dataset.opening ?? "") }));
    const isSuited = (/** @type {Choice} */ tip) => !suits || suits.some((family) => tip.value.startsWith(family));
    const none = suits ? [{ value: "", name: "Its own", picture: null }] : [];
    return [
      { title: suits ? "These suit it" : "", choices: [...none, ...tips.filter(isSuited)] },
      { title: "Others", choices: tips.filter((tip) => !isSuited(tip)) },
    ].filter((part) => part.choices.length);
  }
  const look = lookIn(form);
  const names = [...new Set(options.map((option) => option.value.trim().toLowerCase()))].filter(Boolean);
  const used = new Set(options.filter((option) => option.dataset.used !== undefined).map((option) => option.value.trim().toLowerCase()));
  if (control.value.trim()) used.add(control.value.trim().toLowerCase());
  const shade = (/** @type {string} */ name) => ({ value: name, name, picture: null, look: look(name) });
  return [
    { title: "In this order", choices: [...used].map(shade) },
    { title: "Palette", choices: names.filter((name) => !used.has(name)).map(shade) },
  ].filter((part) => part.choices.length);
}

/** The opening of a tip, to the same scale as all others. @param {string} path */
function opening(path) {
  const half = WIDEST / 2;
  return parse(`<svg class="pb-opening" viewBox="${-half} ${-half} ${WIDEST} ${WIDEST}"><path d="${path}"/></svg>`).firstElementChild;
}

/** @param {Choice} choice @param {boolean} isChosen */
function buttonOf(choice, isChosen) {
  const button = element("button", { type: "button", class: "pb-choice", "data-value": choice.value, "aria-pressed": String(isChosen), tabindex: "-1" });
  if (choice.look !== undefined) {
    const known = choice.look ? `fill="${choice.look}"` : "";
    button.append(parse(`<svg class="pb-shade" viewBox="0 0 40 28"><rect x="1" y="1" width="38" height="26" rx="4" ${known}/></svg>`));
  } else if (choice.picture) {
    const picture = /** @type {Element} */ (document.importNode(choice.picture, true));
    for (const words of picture.querySelectorAll("title, desc")) words.remove(); // the button has its name
    for (const told of ["role", "aria-labelledby", "aria-describedby"]) picture.removeAttribute(told);
    picture.setAttribute("aria-hidden", "true");
    button.append(picture);
  }
  button.append(element("span", {}, choice.name));
  return button;
}

/** @param {Element} picker @returns {HTMLElement[]} */
function choicesIn(picker) {
  return [...picker.querySelectorAll(".pb-choice")].map((choice) => /** @type {HTMLElement} */ (choice));
}

/** @param {HTMLElement} choice */
function focusChoice(choice) {
  for (const other of choicesIn(/** @type {Element} */ (choice.closest(".pb-choices")))) other.tabIndex = other === choice ? 0 : -1;
  choice.focus();
}

/** @param {HTMLElement} form @param {HTMLElement} button */
async function open(form, button) {
  const field = /** @type {HTMLElement} */ (button.closest(".pb-field"));
  const control = controlOf(field);
  const label = field.querySelector("label")?.firstChild?.textContent?.trim() ?? "";
  button.setAttribute("aria-expanded", "true");
  const place = element("div", { class: "pb-choices", role: "group", "aria-label": label, "data-of": field.dataset.field ?? "" });
  field.append(place);
  const parts = await partsOf(form, field);
  if (button.getAttribute("aria-expanded") !== "true") return; // closed meanwhile
  const now = control.value.trim().toLowerCase();
  for (const part of parts) {
    if (part.title) place.append(element("p", { class: "pb-choices-title" }, part.title));
    place.append(element("div", {}, ...part.choices.map((choice) => buttonOf(choice, choice.value.toLowerCase() === now))));
  }
  const all = choicesIn(place);
  const chosen = all.find((choice) => choice.getAttribute("aria-pressed") === "true") ?? all[0];
  if (chosen) focusChoice(chosen);
  place.scrollIntoView({ block: "nearest" });
}

/** Close what is open. Gives back the button that opened it. @param {HTMLElement} form */
export function closePicker(form) {
  const button = /** @type {HTMLElement | null} */ (form.querySelector('.pb-pick[aria-expanded="true"]'));
  button?.setAttribute("aria-expanded", "false");
  button?.closest(".pb-field")?.querySelector(".pb-choices")?.remove();
  return button;
}

/**
 * Act on a press of a button that opens pictures, or of a picture. Gives back what was chosen, in words; null where it was neither.
 * @param {HTMLElement} form @param {HTMLElement} button
 */
export function pressPicker(form, button) {
  if (button.matches(".pb-pick")) {
    if (closePicker(form) !== button) open(form, button);
    return "";
  }
  if (!button.matches(".pb-choice")) return null;
  const field = /** @type {HTMLElement} */ (button.closest(".pb-field"));
  const control = controlOf(field);
  const label = field.querySelector("label")?.firstChild?.textContent?.trim() ?? "";
  const value = button.dataset.value ?? "";
  closePicker(form)?.focus();
  if (control.value === value) return "";
  control.value = value;
  control.dispatchEvent(new Event("input", { bubbles: true }));
  control.dispatchEvent(new Event("change", { bubbles: true }));
  return `${label}: ${button.textContent}.`;
}

/** Arrows, Home and End go through the pictures, Escape and Tab close them. @param {HTMLElement} form @param {KeyboardEvent} event */
export function steerPicker(form, event) {
  const target = /** @type {HTMLElement} */ (event.target);
  if (event.key === "Escape" && target.closest(".pb-choices, .pb-pick")) {
    const button = closePicker(form);
    button?.focus();
    return button !== null;
  }
  if (!target.matches(".pb-choice")) return false;
  if (event.key === "Tab") {
    closePicker(form)?.focus(); // and on from there, or back to the field
    return false;
  }
  const all = choicesIn(/** @type {Element} */ (target.closest(".pb-choices")));
  const next = nextChoice(all, target, event.key);
  if (next) focusChoice(next);
  return next !== null;
}

/** @param {HTMLElement[]} all @param {HTMLElement} from @param {string} key @returns {HTMLElement | null} */
function nextChoice(all, from, key) {
  const at = all.indexOf(from);
  if (key === "Home") return all[0];
  if (key === "End") return all[all.length - 1];
  if (key === "ArrowRight") return all[at + 1] ?? from;
  if (key === "ArrowLeft") return all[at - 1] ?? from;
  if (key !== "ArrowDown" && key !== "ArrowUp") return null;
  const { left, top } = from.getBoundingClientRect();
  const ahead = key === "ArrowDown" ? all.slice(at + 1) : all.slice(0, at).reverse();
  const lines = ahead.map((choice) => ({ choice, box: choice.getBoundingClientRect() })).filter(({ box }) => Math.abs(box.top - top) > 4);
  const line = lines.filter(({ box }) => Math.abs(box.top - (lines[0]?.box.top ?? 0)) <= 4);
  return line.sort((a, b) => Math.abs(a.box.left - left) - Math.abs(b.box.left - left))[0]?.choice ?? from;
}

/** What is open closes when something beside it is pressed. @param {HTMLElement} form @param {Element} target */
export function leavePicker(form, target) {
  const field = form.querySelector(".pb-choices")?.closest(".pb-field");
  if (field && !field.contains(target)) closePicker(form);
}
