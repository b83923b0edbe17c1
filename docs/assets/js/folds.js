// A long answer on a narrow page: its parts fold, and all but the first begin closed. What is folded is still found by the browser's search,
// reached by the links of the strip, and printed.

import { onEachPage } from "./theme.js";

const NARROW = matchMedia("(max-width: 44.984375em)");
const SEARCHABLE = "onbeforematch" in document.documentElement; // else nothing is folded: search would not find it

/** Folds the parts of one answer. */
class Folds {
  /** @type {HTMLElement} */ #root;
  /** @type {Set<string>} */ #open = new Set();

  /** @param {HTMLElement} root */
  constructor(root) {
    this.#root = root;
    this.#open.add(this.#parts()[0]?.dataset.section ?? "");
    root.addEventListener("click", (event) => this.#press(/** @type {Element} */ (event.target)), { capture: true }); // before the strip goes there
    root.addEventListener("beforematch", (event) => this.#show(/** @type {Element} */ (event.target).closest(".pb-section")));
    root.addEventListener("pb-answer", () => this.fold());
    NARROW.addEventListener("change", () => this.fold());
    addEventListener("hashchange", () => this.#show(this.#linked()));
    this.#show(this.#linked());
  }

  /** @returns {HTMLElement[]} */
  #parts() {
    return [...this.#root.querySelectorAll(".pb-answer > .pb-section")].map((part) => /** @type {HTMLElement} */ (part));
  }

  #linked() {
    return location.hash.length > 1 ? document.getElementById(location.hash.slice(1)) : null;
  }

  /** @param {Element} target */
  #press(target) {
    const name = /** @type {HTMLElement | null} */ (target.closest(".pb-fold"))?.closest("section")?.dataset.section;
    const link = /** @type {HTMLElement | null} */ (target.closest(".pb-jump a[data-part]"));
    if (name !== undefined) {
      if (!this.#open.delete(name)) this.#open.add(name);
    } else if (link) {
      this.#open.add(link.dataset.part ?? "");
    } else {
      return;
    }
    this.fold();
  }

  /** Open a part. @param {Element | null} part */
  #show(part) {
    if (part instanceof HTMLElement && part.dataset.section) this.#open.add(part.dataset.section);
    this.fold();
  }

  /** Make the parts be as they should. */
  fold() {
    for (const part of this.#parts()) {
      const name = part.dataset.section ?? "";
      const isShut = NARROW.matches && !this.#open.has(name);
      const heading = /** @type {HTMLElement} */ (part.firstElementChild);
      let button = heading.querySelector("button");
      if (NARROW.matches && !button) {
        button = document.createElement("button");
        button.type = "button";
        button.className = "pb-fold";
        button.append(...heading.childNodes);
        heading.append(button);
      } else if (!NARROW.matches && button) {
        button.replaceWith(...button.childNodes);
      }
      button?.setAttribute("aria-expanded", String(!isShut));
      part.toggleAttribute("data-shut", isShut);
      for (const child of part.children) {
        if (child === heading || child.matches(".pb-sheet, .pb-copy-text")) continue;
        if (isShut) child.setAttribute("hidden", "until-found");
        else child.removeAttribute("hidden");
      }
    }
  }
}

/** @type {WeakSet<Element>} */
const folded = new WeakSet();

function mount() {
  for (const root of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".pb-calculator:has(.pb-answer > .pb-section + .pb-section)"))) {
    if (folded.has(root)) continue;
    folded.add(root);
    new Folds(root);
  }
}

if (SEARCHABLE) onEachPage(mount);
