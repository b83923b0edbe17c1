// A link that opens the same calculator on another page, with what stands in the fields of this page.

import { readForm } from "./form.js";
import { linkOf } from "./saved.js";

/** Before the theme reads the address of a pressed link: it changes pages without reloading. @param {Event} event */
function carry(event) {
  const link = /** @type {HTMLAnchorElement | null} */ (/** @type {Element} */ (event.target).closest?.("a.pb-go-on"));
  const root = /** @type {HTMLElement | null} */ (document.querySelector(`.pb-calculator[data-live][data-key="${link?.dataset.for}"]`));
  const form = /** @type {HTMLElement | null} */ (root?.querySelector(".pb-form"));
  if (link && root && form) link.hash = linkOf(link.dataset.for ?? "", { ...readForm(form), units: root.dataset.units ?? "metric" });
}

for (const kind of ["pointerdown", "click", "auxclick"]) addEventListener(kind, carry, true);
