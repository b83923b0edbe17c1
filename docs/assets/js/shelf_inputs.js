// What is asked of Python for an order that is kept, as the page of the whole cake would ask it: what the order leaves open begins as it does in
// that page's form, from the kitchen or from the page's example. The form is read from the page once, when something is to be drawn.

import { readExample } from "./form.js";
import { isOpen, startsOf, tiedOf, without } from "./starts.js";

/** @import { Kept } from "./starts.js" */
/** @import { Values } from "./steps.js" */

/**
 * The form of an order in a page. @param {string} html of the page
 * @returns {HTMLElement | null}
 */
export function formIn(html) {
  return new DOMParser().parseFromString(html, "text/html").querySelector(".pb-calculator[data-record] > .pb-form");
}

/**
 * All that is asked for an order.
 * @param {HTMLElement} form @param {Kept} kept @param {Values} kitchen
 * @returns {Values}
 */
export function inputsOf(form, kept, kitchen) {
  const { units = "metric", ...values } = kept.values;
  const tied = tiedOf(form, false);
  const open = tied.filter((each) => isOpen(kept, each));
  const starts = startsOf(open, kitchen, values, readExample(form, units), units);
  const asked = Object.assign(without(values, open), ...[...starts.values()].map(({ texts }) => texts));
  for (const { name, isGroup } of tied) if (isGroup) delete asked[name]; // says that there is to be none of it
  return { ...asked, units };
}
