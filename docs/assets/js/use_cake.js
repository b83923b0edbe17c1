// "Use my cake": a calculator filled from a tier of a kept order. Python says what the tiers hold for it; each choice is a press that sets the fields as
// one step.

import { client } from "./client.js";
import { kitchen } from "./kitchen.js";
import { titleOf } from "./records.js";
import { element } from "./render.js";
import { withKitchen } from "./starts.js";
import { store } from "./store.js";

/** @import { StoredRecord } from "./records.js" */
/** @import { Values } from "./steps.js" */

const ORDER = "order";
const ANY_PAPER = "A4";
const NONE = "No order of yours is kept yet. Plan one on the page The whole cake, and its tiers can be taken from there.";

/**
 * What the tiers of an order hold for a calculator.
 * @param {StoredRecord} record @param {string} calculator @param {string} units
 * @returns {Promise<{ words: string, sets: Values }[]>} none where the order does not work out
 */
async function choicesOf(record, calculator, units) {
  const texts = record.text ? { order: record.text } : withKitchen(record.values, kitchen.values);
  const made = await client.sheet(ORDER, texts, `tiers for ${JSON.stringify({ calculator, units })}`, ANY_PAPER);
  return made instanceof Uint8Array ? JSON.parse(new TextDecoder().decode(made)) : [];
}

export class UseCake {
  #root;
  #page;
  #turn = 0;

  /** @param {HTMLElement} root @param {{ start: () => void, units: () => string, say: (text: string) => void }} page */
  constructor(root, page) {
    this.#root = root;
    this.#page = page;
  }

  /** @param {HTMLElement} button that was pressed */
  async press(button) {
    const isOpen = button.getAttribute("aria-expanded") === "true";
    this.close();
    if (isOpen) return;
    this.#page.start();
    const orders = await store.list(ORDER, ORDER);
    if (!orders.length) {
      this.#page.say(NONE);
      return;
    }
    button.setAttribute("aria-expanded", "true");
    const options = orders.map((order) => element("option", { value: order.id }, titleOf(order).slice(0, 80)));
    const select = /** @type {HTMLSelectElement} */ (element("select", {}, ...options));
    const list = element("div", { class: "pb-cake-tiers" });
    const place = element("div", { class: "pb-cake-choices" }, element("label", {}, "Order", select), list);
    button.after(place);
    const show = () => this.#show(list, /** @type {StoredRecord} */ (orders.find((order) => order.id === select.value) ?? orders[0]));
    select.addEventListener("input", (event) => event.stopPropagation()); // it is no field of the calculator
    select.addEventListener("change", (event) => {
      event.stopPropagation();
      show();
    });
    await show();
    /** @type {HTMLElement | null} */ (orders.length > 1 ? select : list.querySelector("button"))?.focus();
  }

  /** Put the choices of an order into the list. @param {HTMLElement} list @param {StoredRecord} order */
  async #show(list, order) {
    this.#turn += 1;
    const turn = this.#turn;
    list.replaceChildren(element("p", {}, "Working the order out."));
    const choices = await choicesOf(order, this.#root.dataset.calculator ?? "", this.#page.units()).catch(() => []);
    if (turn !== this.#turn) return;
    const title = titleOf(order).slice(0, 80);
    const buttons = choices.map(({ words, sets }) =>
      element("button", { type: "button", class: "pb-press", "data-sets": JSON.stringify(sets), "data-done": `Filled from ${title}, ${words}.` }, words),
    );
    const none = element("p", {}, "This order has something to put right first. Open it on the page The whole cake.");
    list.replaceChildren(...(buttons.length ? buttons : [none]));
  }

  /** Take the choices away. */
  close() {
    this.#turn += 1;
    const button = /** @type {HTMLElement | null} */ (this.#root.querySelector(".pb-use-cake"));
    if (button?.getAttribute("aria-expanded") !== "true") return;
    button.setAttribute("aria-expanded", "false");
    const place = this.#root.querySelector(".pb-cake-choices");
    const isInside = place?.contains(document.activeElement);
    place?.remove();
    if (isInside) button.focus();
  }
}
