// The shopping list of an order, to be taken along on a telephone: what is in the basket is ticked, and what is at hand is taken off. Both are kept
// beside the order and are there again after a reload.

import { UNKEPT } from "./bench_state.js";
import { client } from "./client.js";
import { element, patch } from "./render.js";
import { handOver } from "./saved.js";
import { countIn, GOT, HAVE, haveIn, isGot, listText } from "./shop_state.js";
import { store } from "./store.js";

/** @import { Group, Line } from "./shop_state.js" */
/** @import { OpenRecord } from "./store.js" */
/** @typedef {{ inputs: () => Record<string, string>, identity: () => Promise<string>, start: () => void, paper: () => string }} Page what the calculator does for it */

const NAME = "to-the-shop";

export class Shop {
  #page;
  /** @type {HTMLDialogElement} */ #dialog;
  #count = element("h2", {});
  #said = element("p", { class: "pb-shop-said", role: "status" });
  #list = element("div", { class: "pb-shop-list" });
  #title = "";
  /** @type {Group[]} */ #groups = [];
  /** @type {OpenRecord | null} */ #kept = null;
  #asked = 0;

  /** @param {HTMLElement} root @param {Page} page */
  constructor(root, page) {
    this.#page = page;
    /** @param {string} words @param {() => void} act */
    const button = (words, act) => {
      const made = element("button", { type: "button" }, words);
      made.addEventListener("click", act);
      return made;
    };
    const close = button("Close", () => this.#dialog.close());
    this.#dialog = /** @type {HTMLDialogElement} */ (
      element(
        "dialog",
        { class: "pb-shop", "aria-label": "To the shop" },
        element("header", {}, this.#count, close),
        this.#said,
        this.#list,
        element("footer", {}, button("Copy what is left", () => this.#copy()), button("Print it", () => this.#print()), button("Untick all", () => this.#clear())),
      )
    );
    this.#dialog.addEventListener("close", () => {
      this.#set({ open: "" }, "Closed the shopping list");
      /** @type {HTMLElement | null} */ (root.querySelector(".pb-to-shop"))?.focus();
    });
    this.#dialog.addEventListener("keydown", (event) => event.stopPropagation()); // the order's undo would take back a step unseen
    this.#list.addEventListener("change", (event) => this.#changed(/** @type {HTMLInputElement} */ (event.target)));
    root.append(this.#dialog);
    root.addEventListener("pb-answer", this.#follow);
    store.addEventListener("trouble", this.#sayTrouble);
  }

  get #values() {
    return this.#kept?.values ?? {};
  }

  async open() {
    const id = await this.#page.identity();
    this.#kept?.removeEventListener("followed", this.#follow);
    this.#kept = await store.beside(id, NAME);
    this.#kept.addEventListener("followed", this.#follow);
    if (!this.#dialog.open) this.#dialog.showModal();
    this.#set({ open: "yes" }, "Opened the shopping list");
    this.#say("Writing the list.");
    await this.#load();
  }

  /** Open it again after a reload, where it was open. @param {string} id of the order */
  async resume(id) {
    if ((await store.beside(id, NAME)).values.open === "yes") await this.open();
  }

  leave() {
    this.#kept?.removeEventListener("followed", this.#follow);
    store.removeEventListener("trouble", this.#sayTrouble);
  }

  #follow = () => {
    if (this.#dialog.open) this.#load();
  };

  /** @param {Record<string, string>} values @param {string} what */
  #set(values, what) {
    this.#kept?.change(values, what);
    this.#sayTrouble();
  }

  /** @param {string} text */
  #say(text) {
    this.#said.textContent = text;
  }

  #sayTrouble = () => {
    if (store.trouble && this.#dialog.open) this.#say(UNKEPT[store.trouble]);
  };

  async #load() {
    this.#asked += 1;
    const asked = this.#asked;
    this.#page.start();
    try {
      const made = await client.sheet("order", this.#page.inputs(), `${NAME}:${JSON.stringify(haveIn(this.#values))}`, "A4");
      if (asked !== this.#asked) return;
      if (!(made instanceof Uint8Array)) {
        this.#say(made.problems?.[0]?.message ?? "The list could not be written. Close this and look at the order.");
        return;
      }
      ({ title: this.#title, groups: this.#groups } = JSON.parse(new TextDecoder().decode(made)));
      this.#say("");
      this.#show();
      this.#sayTrouble();
    } catch {
      if (asked === this.#asked) this.#say("The calculator did not answer. What is ticked is kept; what you see is from before.");
    }
  }

  #show() {
    const { all, got } = countIn(this.#groups, this.#values);
    this.#count.textContent = all ? `${got} of ${all} in the basket` : "Nothing to buy";
    const fresh = document.createDocumentFragment();
    for (const { title, lines } of this.#groups) fresh.append(element("h3", {}, title), element("ul", {}, ...lines.map((line) => this.#line(line))));
    patch(this.#list, fresh);
    for (const box of /** @type {NodeListOf<HTMLInputElement>} */ (this.#list.querySelectorAll("input"))) {
      if (box.type === "checkbox") box.checked = box.hasAttribute("data-got");
      else if (document.activeElement !== box) box.value = box.dataset.typed ?? "";
    }
  }

  /** @param {Line} line */
  #line(line) {
    const words = [element("b", {}, line.what), " ", element("span", { class: "pb-shop-buy" }, line.buy), " ", element("small", {}, line.use)];
    const got = isGot(this.#values, line);
    const box = line.isThere ? null : element("input", { type: "checkbox", "data-key": line.key, "data-need": String(line.need || 1), "data-got": got });
    const typed = this.#values[HAVE + line.key] ?? "";
    const have =
      line.reads &&
      element(
        "label",
        { class: "pb-shop-have" },
        "I have",
        element("input", { type: "text", "data-have": line.key, "data-typed": typed, "aria-label": `I have, ${line.what}`, autocomplete: "off", enterkeyhint: "done", "aria-invalid": line.problem ? "true" : null }),
      );
    const wrong = line.problem && element("p", { class: "pb-problem" }, line.problem);
    return element("li", { "data-there": line.isThere, "data-got": got }, element("label", {}, box, element("span", {}, ...words)), have || null, wrong || null);
  }

  /** Something was ticked, or is at hand. @param {HTMLInputElement} input */
  #changed(input) {
    const { key, have, need = "" } = input.dataset;
    if (key) {
      this.#set({ [GOT + key]: input.checked ? need : "" }, input.checked ? "In the basket" : "Out of the basket");
      this.#show();
    } else if (have) {
      this.#set({ [HAVE + have]: input.value.slice(0, 40) }, "At hand");
      this.#load();
    }
  }

  #clear() {
    const ticks = Object.keys(this.#values).filter((name) => name.startsWith(GOT));
    this.#set(Object.fromEntries(ticks.map((name) => [name, ""])), "All out of the basket");
    this.#show();
  }

  async #copy() {
    try {
      await navigator.clipboard.writeText(listText(this.#title, this.#groups, this.#values));
      this.#say("The list is copied.");
    } catch {
      this.#say("This browser does not let the page copy: print the list, or select it and copy it by hand.");
    }
  }

  async #print() {
    this.#say("Drawing the sheet.");
    try {
      const made = await client.sheet("order", this.#page.inputs(), `shopping-list:${JSON.stringify(haveIn(this.#values))}`, this.#page.paper());
      if (made instanceof Uint8Array) handOver("shopping-list.pdf", made, "application/pdf");
      this.#say(made instanceof Uint8Array ? "shopping-list.pdf is saved." : (made.problems?.[0]?.message ?? "The sheet could not be drawn."));
    } catch {
      this.#say("The sheet could not be drawn.");
    }
  }
}
