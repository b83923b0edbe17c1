// Two versions of an order side by side: the one in the form, and one that is kept here or as it was before the last steps. Python says what
// differs; either can be taken up, and nothing is lost by it.

import { client } from "./client.js";
import { titleOf } from "./records.js";
import { element, parse } from "./render.js";

/** @import { Values } from "./steps.js" */
/** @import { OpenRecord } from "./store.js" */
/** @import { StoredRecord } from "./records.js" */
/** @import { Comparison } from "./protocol.js" */

/**
 * What the keeping of records does for it.
 * @typedef {{
 *   open: () => OpenRecord | null,
 *   others: () => Promise<StoredRecord[]>,
 *   inputs: (values?: Values) => Values,
 *   takeUp: (id: string) => Promise<Values | null>,
 *   change: (values: Values, what: string) => void,
 *   say: (text: string) => void,
 *   start: () => void,
 * }} Orders
 * `others` are those kept here beside the one shown, `inputs` what is asked of Python for what stands in the form or for other values, `takeUp`
 * shows another record and gives what it says, `change` makes the form say something else as one step.
 */
/** @typedef {{ id: string, title: string, values: Values }} Version a version that stands beside the form; `id` where it is a record */

const STEPS = 6; // so many of the last steps are offered
const LATER = 500; // ms after an answer; what is typed meanwhile goes first
const HERE = "In the form";

/** What the values were before the step at an index. @param {OpenRecord} open @param {number} at @returns {Values} */
export function valuesBefore(open, at) {
  const values = { ...open.values };
  for (const step of open.steps.slice(at, open.at).reverse()) {
    for (const [name, text] of Object.entries(step.before)) {
      if (text === null) delete values[name];
      else values[name] = text;
    }
  }
  return values;
}

export class Versions {
  #root;
  #orders;
  /** @type {Version | null} */ #other = null;
  /** @type {HTMLElement | null} */ #place = null;
  /** @type {string[]} */ #addresses = [];
  #asked = ""; // what the comparison on the page belongs to
  #turn = 0;
  #timer = 0;

  /** @param {HTMLElement} root @param {Orders} orders */
  constructor(root, orders) {
    this.#root = root;
    this.#orders = orders;
    const select = this.#select;
    select?.addEventListener("pointerdown", () => this.offer());
    select?.addEventListener("focus", () => this.offer());
    select?.addEventListener("change", () => this.#choose(select.value));
    root.addEventListener("pb-answer", () => this.#later());
  }

  get #select() {
    return /** @type {HTMLSelectElement | null} */ (this.#root.querySelector(".pb-compare"));
  }

  /** Put into the list what there is to compare with. */
  async offer() {
    const select = this.#select;
    const open = this.#orders.open();
    if (!select || !open) return;
    const kept = (await this.#orders.others()).map((record) => new Option(titleOf(record).slice(0, 80), `kept:${record.id}`));
    const from = Math.max(0, open.at - STEPS);
    const earlier = open.steps.slice(from, open.at).map((step, i) => new Option(`before: ${step.what.slice(0, 60)}`, `before:${from + i}`));
    const said = [...kept, ...earlier].map((option) => `${option.value}|${option.text}`).join();
    if (select.dataset.said === said) return;
    select.dataset.said = said;
    const groups = [];
    for (const [label, options] of /** @type {const} */ ([["Kept on this device", kept], ["This order, before its last steps", earlier.reverse()]])) {
      if (!options.length) continue;
      const group = element("optgroup", { label });
      group.append(...options);
      groups.push(group);
    }
    select.replaceChildren(new Option(groups.length ? "Choose one" : "No other is kept yet", ""), ...groups);
  }

  /** @param {string} value of the list */
  async #choose(value) {
    const open = this.#orders.open();
    const [kind, key] = value.split(/:(.*)/s);
    if (!open || !key) return;
    if (kind === "kept") {
      const record = (await this.#orders.others()).find((each) => each.id === key);
      if (record) this.show({ id: record.id, title: titleOf(record), values: record.values });
    } else {
      const what = open.steps[Number(key)]?.what ?? "";
      this.show({ id: "", title: `Before: ${what}`, values: valuesBefore(open, Number(key)) });
    }
  }

  /** Show a version beside the form. @param {Version} version @param {string} [told] said beside what differs */
  show(version, told = "") {
    this.#other = version;
    this.#asked = "";
    if (!this.#place) {
      const level = Math.max(2, Number(this.#root.dataset.level ?? 4) - 1);
      const title = element(`h${level}`, { class: "pb-versions-title", tabindex: "-1" }, "Two versions");
      const end = element("button", { type: "button", class: "pb-versions-end" }, "Close");
      const pictures = [HERE, ""].map((words) => element("figure", {}, element("img", { alt: "" }), element("figcaption", {}, element("span", {}, words))));
      pictures[1].querySelector("figcaption")?.append(element("button", { type: "button", class: "pb-versions-take" }, "Carry on with this one"));
      this.#place = element(
        "section",
        { class: "pb-versions", "aria-label": "Two versions", "data-search-exclude": "" },
        element("div", { class: "pb-versions-head" }, title, end),
        element("div", { class: "pb-versions-pictures" }, ...pictures),
        element("div", { class: "pb-versions-told" }),
      );
      end.addEventListener("click", () => this.#end());
      this.#find(".pb-versions-take").addEventListener("click", () => this.#take());
      this.#root.querySelector(".pb-answer")?.before(this.#place);
    }
    this.#find("figure:last-child span").textContent = version.title;
    this.#find(".pb-versions-title").focus({ preventScroll: true });
    this.#place.scrollIntoView({ block: "start", behavior: "instant" });
    this.#orders.start();
    this.#compare(told);
  }

  /** @param {string} selector */
  #find(selector) {
    return /** @type {HTMLElement} */ (this.#place?.querySelector(selector));
  }

  #end() {
    this.#place?.remove();
    this.#place = this.#other = null;
    this.#turn += 1;
    for (const address of this.#addresses.splice(0)) URL.revokeObjectURL(address);
    const select = this.#select;
    if (select) select.value = "";
    /** @type {HTMLElement | null} */ (select?.closest("details")?.querySelector("summary"))?.focus();
  }

  /** The form has been answered: compare again, once nothing else is typed. */
  #later() {
    clearTimeout(this.#timer);
    if (this.#other) this.#timer = window.setTimeout(() => this.#compare(), LATER);
  }

  /** @param {string} [told] */
  async #compare(told) {
    const other = this.#other;
    if (!other || !this.#place) return;
    const inputs = this.#orders.inputs();
    const beside = this.#orders.inputs(other.values);
    const asked = JSON.stringify([inputs, beside]);
    if (asked === this.#asked && told === undefined) return;
    this.#turn += 1;
    const turn = this.#turn;
    try {
      const found = await client.compare(this.#root.dataset.calculator ?? "", inputs, beside, [HERE, other.title]);
      if (turn !== this.#turn || !this.#place) return;
      this.#asked = asked;
      this.#write(found, told);
    } catch (error) {
      if (turn === this.#turn) this.#orders.say(`The two could not be compared: ${error instanceof Error ? error.message : error}.`);
    }
  }

  /** @param {Comparison} found @param {string} [told] */
  #write(found, told) {
    const place = this.#find(".pb-versions-told");
    const wrong = found.bug ? "The two could not be compared. Both are kept as they are." : found.problems[0]?.message;
    if (wrong) place.replaceChildren(element("p", {}, wrong));
    else place.replaceChildren(...parse(found.html).childNodes);
    for (const address of this.#addresses.splice(0)) URL.revokeObjectURL(address);
    (found.pictures ?? []).forEach((svg, at) => {
      const image = /** @type {HTMLImageElement} */ (this.#place?.querySelectorAll("img")[at]);
      const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
      this.#addresses.push(address);
      image.src = address;
      image.alt = `The cake, ${at ? this.#other?.title : HERE.toLowerCase()}`;
    });
    if (told !== undefined) this.#orders.say([told, wrong ?? found.spoken].filter(Boolean).join(" "));
  }

  async #take() {
    const other = this.#other;
    const open = this.#orders.open();
    if (!other || !open) return;
    const before = { id: open.record.id, title: titleOf(open.record), values: { ...open.values } };
    if (other.id) {
      const values = await this.#orders.takeUp(other.id);
      if (!values) return;
      this.show(before.title === other.title ? { ...before, title: `${before.title}, the other` } : before, `${other.title} is the one you carry on with. The other one is kept, and shown beside it.`);
    } else {
      this.#orders.change(other.values, "Going back to the earlier version");
      this.show({ id: "", title: "As it was until now", values: before.values }, "The earlier version is back. Undo brings back the later one.");
    }
    this.#find(".pb-versions-take").focus();
  }
}
