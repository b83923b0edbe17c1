// Looks to begin with: a gallery over the page, each look drawn on the reader's own tiers and colours, one after another, so that the page stays
// lively. The one that is chosen fills the form as one step, and the page says what it changed. A reader's own rows can be kept beside them.

import { client } from "./client.js";
import { readForm } from "./form.js";
import { coloursOf, hasRows, ownLook, SHELF, withoutRows } from "./look_values.js";
import { element } from "./render.js";
import { store } from "./store.js";

/** @import { Values } from "./steps.js" */

/**
 * What the calculator does for it.
 * @typedef {{ start: () => void, units: () => string, take: (button: HTMLElement) => void }} Page
 * @typedef {{ key: string, name: string, words: string, own?: Values }} Look
 * @typedef {{ name: string, sets: Values, clears: string[], told: string[], picture: string }} Fitted
 */

const LONGEST = 40; // characters of a name
const WHEN = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short", year: "numeric" });

export class Looks {
  #root;
  #form;
  #page;
  /** @type {HTMLButtonElement} */ #opener;
  /** @type {Look[]} */ #ours;
  /** @type {Look[]} */ #own = [];
  /** @type {HTMLDialogElement | null} */ #dialog = null;
  /** @type {Map<string, { asked: string, fitted: Promise<Fitted> }>} what was asked for last, by look */ #found = new Map();
  /** @type {Map<string, string>} the address of each look's picture */ #pictures = new Map();
  /** @type {string[]} those of rows that a look has taken the place of */ #colours = [];
  #turn = 0; // counts what the gallery was drawn for: only the newest goes on

  /** @param {HTMLElement} root @param {HTMLElement} form @param {Page} page */
  constructor(root, form, page) {
    this.#root = root;
    this.#form = form;
    this.#page = page;
    this.#opener = /** @type {HTMLButtonElement} */ (root.querySelector(".pb-begin-look"));
    const listed = /** @type {[string, string, string][]} */ (JSON.parse(this.#opener.dataset.looks ?? "[]"));
    this.#ours = listed.map(([key, name, words]) => ({ key, name, words }));
    this.#opener.addEventListener("click", () => this.open());
    store.addEventListener("list", this.#follow);
  }

  /** The page was swapped for another. */
  leave() {
    store.removeEventListener("list", this.#follow);
    this.#turn += 1;
    for (const address of this.#pictures.values()) URL.revokeObjectURL(address);
  }

  /** The form was filled with something else: what a look changed is no longer told. */
  forget() {
    this.#colours = [];
    const told = this.#find(".pb-begin-told");
    if (told) told.hidden = true;
  }

  /** @param {string} selector */
  #find(selector) {
    return /** @type {HTMLElement | null} */ (this.#root.querySelector(selector));
  }

  #values() {
    return { ...readForm(this.#form), units: this.#page.units() };
  }

  // ---- the gallery -------------------------------------------------------------------------------------------------------

  async open() {
    this.#page.start();
    const dialog = (this.#dialog ??= this.#built());
    this.#say("");
    this.#showCards();
    if (!dialog.open) dialog.showModal();
    await this.#readOwn();
    this.#draw();
  }

  #built() {
    const title = `${this.#root.id}--looks`;
    const dialog = /** @type {HTMLDialogElement} */ (element("dialog", { class: "pb-looks", "aria-labelledby": title }));
    const close = element("button", { type: "button", class: "pb-looks-close" }, "Close");
    const name = element("input", { type: "text", maxlength: String(LONGEST), autocomplete: "off", class: "pb-looks-name" });
    dialog.append(
      element("div", { class: "pb-looks-head" }, element("h2", { id: title }, "Begin with a look"), close, element("p", { class: "pb-looks-said", role: "status" })),
      element(
        "p",
        {},
        "Each is drawn on your tiers, in your colours. The one you choose replaces all your rows; guests, day, tins, coats and cutters stay. Undo brings the old rows back.",
      ),
      element("ul", { class: "pb-looks-list" }),
      element(
        "form",
        { class: "pb-looks-keep" },
        element("label", {}, "A name for your own rows", name),
        element("button", { class: "pb-save" }, "Keep my rows as a look"),
      ),
    );
    close.addEventListener("click", () => dialog.close());
    dialog.addEventListener("click", (event) => this.#press(event));
    dialog.addEventListener("keydown", (event) => event.stopPropagation()); // neither the form's undo nor the theme's keys
    dialog.addEventListener("close", () => {
      this.#turn += 1;
    });
    dialog.querySelector("form")?.addEventListener("submit", (event) => {
      event.preventDefault();
      this.#keep(/** @type {HTMLInputElement} */ (name));
    });
    this.#root.append(dialog);
    return dialog;
  }

  /** @param {string} text */
  #say(text) {
    const said = this.#dialog?.querySelector(".pb-looks-said");
    if (said && said.textContent !== text) said.textContent = text;
  }

  /** Put a card for each look into the gallery; those that are there stay, with the focus that one may have. */
  #showCards() {
    const list = this.#dialog?.querySelector(".pb-looks-list");
    if (!list) return;
    const there = new Map([...list.children].map((item) => [/** @type {HTMLElement} */ (item).dataset.look ?? "", item]));
    const looks = [...this.#own, ...this.#ours];
    const items = looks.map((look) => there.get(look.key) ?? this.#card(look));
    for (const item of there.values()) if (!items.includes(item)) item.remove();
    items.forEach((item, at) => {
      if (list.children[at] !== item) list.insertBefore(item, list.children[at] ?? null);
    });
  }

  /** @param {Look} look */
  #card(look) {
    const card = element(
      "button",
      { type: "button", class: "pb-card" },
      element("span", { class: "pb-card-picture" }),
      element("strong", {}, look.name),
      element("span", { class: "pb-card-words" }, look.words),
    );
    const item = element("li", { "data-look": look.key }, card);
    if (look.own) item.append(element("button", { type: "button", class: "pb-remove pb-card-remove", "aria-label": `Remove your look ${look.name}` }, "Remove"));
    return item;
  }

  /** @param {string} key @returns {HTMLElement | null} */
  #item(key) {
    return this.#dialog?.querySelector(`.pb-looks-list > [data-look="${CSS.escape(key)}"]`) ?? null;
  }

  /** Draw each look on the tiers as they stand, one after another. */
  async #draw() {
    this.#turn += 1;
    const turn = this.#turn;
    for (const look of [...this.#own, ...this.#ours]) {
      if (turn !== this.#turn) return;
      try {
        const fitted = await this.#fitted(look);
        if (turn !== this.#turn) return;
        this.#showPicture(look, fitted);
      } catch (error) {
        if (turn !== this.#turn) return;
        if (look.own) this.#item(look.key)?.setAttribute("data-failed", "");
        else {
          this.#say(String(error instanceof Error ? error.message : error));
          return; // what keeps one from being drawn keeps all
        }
      }
    }
  }

  /**
   * A look on the tiers as they stand.
   * @param {Look} look @returns {Promise<Fitted>}
   */
  #fitted(look) {
    const values = this.#values();
    const colours = coloursOf(values, this.#colours);
    const inputs = withoutRows(values);
    const asked = JSON.stringify([inputs, colours]);
    const there = this.#found.get(look.key);
    if (there?.asked === asked) return there.fitted;
    const wish = look.own ? { own: look.own, name: look.name, colours } : { key: look.key, colours };
    const fitted = this.#ask(inputs, `look ${JSON.stringify(wish)}`);
    this.#found.set(look.key, { asked, fitted });
    fitted.catch(() => this.#found.delete(look.key)); // asked again the next time
    return fitted;
  }

  /** @param {Values} inputs @param {string} name @returns {Promise<Fitted>} */
  async #ask(inputs, name) {
    let made;
    try {
      made = await client.sheet(this.#root.dataset.calculator ?? "", inputs, name, "A4");
    } catch {
      throw new Error("The calculator does not run, so no look can be fitted. Try again in a moment.");
    }
    if (made instanceof Uint8Array) return JSON.parse(new TextDecoder().decode(made));
    if (made.bug) throw new Error("The calculator met a fault of its own over this. What you typed is kept.");
    throw new Error(`To be put right first: ${made.problems[0]?.message ?? "something in the order"}.`.replace(/\.\.$/, "."));
  }

  /** @param {Look} look @param {Fitted} fitted */
  #showPicture(look, fitted) {
    const place = this.#item(look.key)?.querySelector(".pb-card-picture");
    if (!place) return;
    const old = this.#pictures.get(look.key);
    const address = URL.createObjectURL(new Blob([fitted.picture], { type: "image/svg+xml" }));
    this.#pictures.set(look.key, address);
    place.replaceChildren(element("img", { src: address, alt: "" }));
    if (old) URL.revokeObjectURL(old);
  }

  // ---- presses -----------------------------------------------------------------------------------------------------------

  /** @param {Event} event */
  #press(event) {
    event.stopPropagation();
    const target = /** @type {Element} */ (event.target);
    const item = /** @type {HTMLElement | null} */ (target.closest("[data-look]"));
    const look = [...this.#own, ...this.#ours].find(({ key }) => key === item?.dataset.look);
    if (target.closest(".pb-card") && look) this.#choose(look);
    else if (target.closest(".pb-card-remove") && look) this.#remove(look);
    else if (target.closest(".pb-card-back") && item) this.#bringBack(item.dataset.look ?? "");
  }

  /** Put a look into the form, as one step, and tell what it changed. @param {Look} look */
  async #choose(look) {
    const dialog = this.#dialog;
    this.#say(`Fitting ${look.name} to your tiers.`);
    let fitted;
    try {
      fitted = await this.#fitted(look);
    } catch (error) {
      this.#say(String(error instanceof Error ? error.message : error));
      return;
    }
    if (!dialog?.open) return; // the reader has gone on
    const colours = coloursOf(this.#values(), this.#colours);
    dialog.close();
    const step = element(
      "button",
      { "data-sets": JSON.stringify(fitted.sets), "data-clears": fitted.clears.join(" "), "data-done": `${look.name} is on your tiers.` },
      `the look ${look.name}`,
    );
    this.#page.take(step);
    this.#colours = colours; // the next look begins with the same colours as this one
    this.#tell(look, fitted.told);
    this.#opener.focus();
  }

  /** @param {Look} look @param {string[]} sentences */
  #tell(look, sentences) {
    const told = this.#find(".pb-begin-told");
    if (!told) return;
    const lines = sentences.map((sentence) => element("li", {}, sentence));
    told.replaceChildren(element("p", {}, element("strong", {}, look.name), ", on your tiers:"), element("ul", {}, ...lines));
    told.hidden = false;
  }

  // ---- a reader's own ----------------------------------------------------------------------------------------------------

  #follow = async () => {
    if (!this.#dialog?.open) return;
    await this.#readOwn();
  };

  async #readOwn() {
    const kept = await store.list(SHELF, SHELF);
    this.#own = kept.map((record) => ({ key: record.id, name: record.title, words: `Your own, kept on ${WHEN.format(record.made)}.`, own: record.values }));
    this.#showCards();
  }

  /** @param {HTMLInputElement} field */
  async #keep(field) {
    const values = ownLook(this.#values());
    if (!hasRows(values)) {
      this.#say("There are no rows to keep yet. Add some to a tier, or choose a look.");
      return;
    }
    const title = field.value.trim().slice(0, LONGEST);
    if (!title) {
      this.#say("Give your look a name first.");
      field.focus();
      return;
    }
    await store.keep(store.begin(SHELF, SHELF, values, { title }));
    field.value = "";
    await this.#readOwn();
    this.#say(
      store.trouble
        ? `${title} lasts only as long as this page: the browser keeps nothing here.`
        : `${title} is kept on this device, first in the row. “Save all as one file” includes it.`,
    );
    this.#draw();
  }

  /** @param {Look} look */
  async #remove(look) {
    const item = this.#item(look.key);
    const open = await store.openById(look.key);
    if (!open || !item) return;
    const back = element("button", { type: "button", class: "pb-back pb-card-back", "aria-label": `Undo: bring ${look.name} back` }, "Undo");
    const line = element("li", { class: "pb-card-gone", "data-look": look.key }, `${look.name} removed. `, back);
    item.replaceWith(line);
    this.#own = this.#own.filter(({ key }) => key !== look.key);
    back.focus();
    this.#say(`${look.name} is removed from this device.`);
    await open.describe({ removed: Date.now() });
  }

  /** @param {string} key */
  async #bringBack(key) {
    const open = await store.openById(key);
    if (!open) return;
    await open.describe({ removed: 0 });
    this.#item(key)?.remove();
    await this.#readOwn();
    this.#item(key)?.querySelector("button")?.focus();
    this.#say(`${open.record.title} is back.`);
    this.#draw();
  }
}
