// A page for scripts of docs/assets/js to run in, without a browser: happy-dom's window with its names made global. It lays nothing out, so
// a test says itself where elements are. One page for each test file, since a module is evaluated once.

import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";

const packages = createRequire(new URL("../../build/npm/", import.meta.url));
const { Window } = await import(pathToFileURL(packages.resolve("happy-dom")).href);

const SHARED = [
  ...["document", "location", "history", "localStorage", "navigator", "matchMedia", "CSS", "addEventListener", "removeEventListener", "dispatchEvent"],
  ...["Node", "Element", "HTMLElement", "HTMLInputElement", "HTMLSelectElement", "HTMLTextAreaElement", "HTMLButtonElement", "HTMLDetailsElement"],
  ...["HTMLTemplateElement", "DocumentFragment", "Option", "Event", "KeyboardEvent", "MouseEvent", "CustomEvent", "DOMParser", "getComputedStyle"],
];

/** Open a page at an address; its names become global. @param {{ url?: string, width?: number }} [how] */
export function openPage({ url = "https://handbook.example/plan/", width = 1280 } = {}) {
  const window = new Window({ url, width, height: 800 });
  for (const name of SHARED) {
    const value = window[name];
    const isMethod = typeof value === "function" && /^[a-z]/.test(name);
    Object.defineProperty(globalThis, name, { value: isMethod ? value.bind(window) : value, configurable: true, writable: true });
  }
  Object.defineProperty(globalThis, "window", { value: window, configurable: true, writable: true });
  globalThis.innerHeight = 800;
  globalThis.Option = optionOf;
  return window;
}

/** What `new Option` makes; happy-dom has none. @this {any} @param {string} text @param {string} value */
function optionOf(text, value) {
  const made = document.createElement("option");
  made.text = text;
  made.value = value;
  return made;
}

/** Put something into the page. @param {string} html */
export function show(html) {
  document.body.innerHTML = html;
  for (const select of all("select")) {
    const chosen = select.querySelector("option[selected]") ?? select.options[0];
    if (chosen) select.value = chosen.value; // happy-dom may choose another
  }
}

/** The first element of a selector. @param {string} selector @param {ParentNode} [place] @returns {any} */
export function one(selector, place = document) {
  const found = place.querySelector(selector);
  if (!found) throw new Error(`nothing matches ${selector}`);
  return found;
}

/** All of them. @param {string} selector @param {ParentNode} [place] @returns {any[]} */
export function all(selector, place = document) {
  return [...place.querySelectorAll(selector)];
}

/** A script of the handbook. @param {string} name */
export function script(name) {
  return import(new URL(`../../docs/assets/js/${name}.js`, import.meta.url).href);
}

/** The form of a calculator as the build writes it, in the page. @param {string} name a calculator, or "harvest-supper" for a whole order */
export function showForm(name) {
  show(FORMS[name]);
  return one(".pb-form");
}

/** The forms that there are, by name. @type {Record<string, string>} */
export const FORMS = JSON.parse(readFileSync(new URL("../../build/forms.json", import.meta.url), "utf8"));
