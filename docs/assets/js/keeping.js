// What a reader made with one calculator: which record its form shows, undo and redo, the list of what is kept, links and files.

import { fieldsOf, workIn, workRead, workTold } from "./beside.js";
import { client } from "./client.js";
import { LARGEST as LARGEST_KEPT, isKept, read, Refused, written } from "./files.js";
import { focusField } from "./flow.js";
import { begunAnew, changedControls, controls, fillForm, knownNames, nameOf, readForm } from "./form.js";
import { kitchen } from "./kitchen.js";
import { SHELF } from "./look_values.js";
import { KITCHEN, newRecord, placeOf, titleOf } from "./records.js";
import { element } from "./render.js";
import { forget, handOver, keep, linkOf, packed, readLink, recall, unpackedText } from "./saved.js";
import { isOpen, offerOwn, showKept, showStarts, startsOf, textsOf, tiedOf, without } from "./starts.js";
import { difference } from "./steps.js";
import { store } from "./store.js";
import { CHOSEN, spellOut, spelledValue } from "./units.js";
import { Versions } from "./versions.js";

/** @import { Kept } from "./beside.js" */
/** @import { Problem } from "./protocol.js" */
/** @import { Values } from "./steps.js" */
/** @import { StoredRecord } from "./records.js" */
/** @import { OpenRecord } from "./store.js" */

/**
 * What the calculator does for it.
 * @typedef {{
 *   say: (text: string) => void,
 *   did: (text: string) => void,
 *   refresh: (changed: Element[]) => void,
 *   opened: () => void,
 *   start: () => void,
 *   units: () => string,
 *   setUnits: (units: string) => void,
 *   showProblems: (problems: Problem[], summary?: boolean) => void,
 *   fail: (message: string, details: string) => void,
 * }} Page
 * `did` says what was done, and once more with the answer to it; `refresh` after the form was filled, `opened` once what was kept is in the form, `fail` for a fault of ours.
 */

const LARGEST_ORDER = 200_000; // bytes of an order as a file
export const BASE = new URL("../../", import.meta.url).pathname; // of the handbook
const WHEN = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short", hour: "2-digit", minute: "2-digit" });

const TROUBLE = {
  full: "This browser has no room left. What you type lasts only as long as this page is open.",
  denied: "This browser keeps nothing for this site: it may be a private window, or storage may be switched off. What you type lasts only as long as this page is open.",
};

/** How many of what, in words. @param {StoredRecord[]} records */
function counted(records) {
  const orders = records.filter((record) => record.calculator === "order").length;
  const looks = records.filter((record) => record.calculator === SHELF).length;
  const kitchens = records.filter((record) => record.calculator === KITCHEN).length;
  const others = records.length - orders - looks - kitchens;
  const of = (/** @type {number} */ count, /** @type {string} */ what) => `${count} ${what}${count === 1 ? "" : "s"}`;
  return [orders && of(orders, "order"), others && of(others, "calculator"), looks && of(looks, "look"), kitchens && "your kitchen"].filter(Boolean).join(" and ") || "nothing";
}

export class Keeping {
  /** Whether what was kept is in the form. */
  isOpen = false;
  #root;
  #form;
  #example;
  #page;
  #slug;
  #name; // of the calculator on its page, in links
  #place;
  #isOrder;
  #isKitchen;
  /** @type {import("./starts.js").Tied[]} */ #tied = []; // what can start from the kitchen
  /** @type {ReturnType<typeof startsOf>} */ #starts = new Map(); // of what is open, as it was last shown
  /** @type {OpenRecord | null} */ #open = null;
  /** @type {OpenRecord | null} */ #removed = null;
  /** @type {EventTarget | null} */ #visited = null;
  #visits = 0;
  #turn = 0; // counts what was asked to be shown in the form: what was asked last is shown, however long the others take
  #versions;
  #links = Promise.resolve(); // taken one after another

  /** @param {HTMLElement} root @param {HTMLElement} form @param {(units: string) => Values} example in some units @param {Page} page */
  constructor(root, form, example, page) {
    this.#root = root;
    this.#form = form;
    this.#example = example;
    this.#page = page;
    this.#slug = root.dataset.calculator ?? "";
    this.#name = root.dataset.key ?? "";
    this.#isOrder = root.hasAttribute("data-record");
    this.#isKitchen = root.hasAttribute("data-is-kitchen");
    this.#place = this.#isKitchen ? KITCHEN : placeOf(location.pathname, this.#name, this.#isOrder);
    form.addEventListener("focusin", (event) => {
      if (event.target !== this.#visited) this.#visits += 1;
      this.#visited = event.target;
    });
    root.addEventListener("keydown", (event) => this.#pressKey(event));
    this.#find(".pb-kept")?.addEventListener("change", () => this.#openKept());
    this.#find(".pb-kept")?.addEventListener("pointerdown", () => this.#showList());
    this.#find(".pb-file")?.addEventListener("change", () => this.#openFile());
    this.#versions = new Versions(root, {
      open: () => this.#open,
      others: async () => (await store.list(this.#place, this.#slug)).filter((record) => record.id !== this.#open?.record.id && !record.text),
      inputs: (values) => (values ? this.#inUnits(values) : { ...readForm(form), units: page.units() }),
      takeUp: async (id) => {
        const [before, next] = [this.#open, await store.openById(id)];
        if (!next) return null;
        if (before && !before.record.revision) await store.keep(before); // so that it can be taken up again
        this.#use(next);
        return next.values;
      },
      change: (values, what) => {
        this.#change(difference(this.#open?.values ?? {}, values), what);
        this.#fill();
      },
      say: (text) => page.say(text),
      start: () => page.start(),
    });
    kitchen.addEventListener("changed", this.#onKitchen);
    addEventListener("hashchange", this.#onLink);
    store.addEventListener("trouble", this.#showTrouble);
    store.addEventListener("list", this.#showList);
  }

  /** Put what was kept into the form. What was typed before that stays on top of it. */
  async begin() {
    this.#tied = this.#root.hasAttribute("data-by-itself") ? [] : tiedOf(this.#form, this.#isKitchen);
    const its = await kitchen.begin();
    const kept = this.#isKitchen ? its : await store.open(this.#place, this.#slug, this.#exampleNow());
    if (!this.#root.isConnected) return;
    const open = kept.record.text ? store.begin(this.#place, this.#slug, this.#exampleNow()) : kept; // until it has been read
    const example = this.#example(this.#page.units());
    if ((open.values.units ?? this.#page.units()) !== this.#page.units()) spellOut(this.#form, this.#page.units()); // it joins what was typed in others
    const early = difference(example, readForm(this.#form));
    const names = Object.keys(early);
    if (names.every((name) => early[name] !== null && (name in open.values || this.#tied.some((tied) => tied.name === name)))) {
      if (names.length) open.change(early, "What you typed while the page was loading");
      this.#use(open);
    } else {
      await this.#beginWith(readForm(this.#form)); // a tier or a row was added, removed or typed into that the kept one does not have
      this.#page.say("What you typed while the page was loading is kept separately. What was here before is under “Kept here”.");
    }
    this.isOpen = true;
    this.#page.opened();
    if (!store.isToldOfTabs) this.#page.say("In this browser, tabs cannot tell each other what changed: a change made in another tab shows when you come back to this one.");
    this.#onLink();
    if (kept !== open) await this.#openRecord(kept);
  }

  /** The page was swapped for another. */
  leave() {
    kitchen.removeEventListener("changed", this.#onKitchen);
    removeEventListener("hashchange", this.#onLink);
    store.removeEventListener("trouble", this.#showTrouble);
    store.removeEventListener("list", this.#showList);
    this.#open?.removeEventListener("followed", this.#onFollowed);
    this.#open?.flush();
  }

  /** The id of what is shown, "" where nothing is kept of it yet. */
  get id() {
    return this.#open?.record.revision ? this.#open.record.id : "";
  }

  /** The id under which something can be kept beside it: from now on it is kept itself. */
  async identity() {
    const open = this.#open;
    if (!open) return "";
    if (!open.record.revision) await store.keep(open);
    await store.show(open);
    return open.record.id;
  }

  /** The page's example in the reader's units, as a record holds it: what the kitchen may say is left open. @returns {Values} */
  #exampleNow() {
    const units = this.#page.units();
    return { ...without(this.#example(units), this.#tied), units };
  }

  // ---- what starts from the kitchen ----------------------------------------------------------------------------------------

  /** What a record says nothing of. @param {import("./starts.js").Kept} kept */
  #openIn(kept) {
    return this.#tied.filter((tied) => isOpen(kept, tied));
  }

  /** What it begins with. @param {import("./starts.js").Tied[]} open @param {Values} values what stands beside it */
  #startsOf(open, values) {
    const units = this.#page.units();
    return startsOf(open, this.#isKitchen ? {} : kitchen.values, values, this.#example(units), units);
  }

  #onKitchen = () => {
    if (this.isOpen && !this.#isKitchen) this.#fill();
  };

  /** Say beside the fields where they come from, and offer what the kitchen has. */
  #showStarts() {
    if (!this.#open) return;
    if (this.#isKitchen) {
      showKept(this.#tied, this.#open);
      this.#choosePaper();
    } else {
      const ofKitchen = (/** @type {import("./starts.js").Tied} */ tied) => {
        const start = this.#startsOf([tied], this.#open?.values ?? {}).get(tied.name);
        return start?.isKitchen ? start.texts : {};
      };
      showStarts(this.#tied, this.#starts, ofKitchen, this.#open.values, `${BASE}plan/my-kitchen/`);
      offerOwn(this.#form, kitchen.values);
    }
  }

  /** The paper that the kitchen names holds for the whole site. */
  #choosePaper() {
    const { paper } = this.#open?.values ?? {};
    if (paper === undefined || paper === (recall("paper") ?? "")) return;
    if (paper) keep("paper", paper);
    else forget("paper");
    dispatchEvent(new CustomEvent(CHOSEN));
  }

  /**
   * What a change in the form sets in the record: nothing of what is still as it began.
   * @param {Record<string, string | null>} set @param {Values} values what stands in the form
   */
  #leaveOpen(set, values) {
    for (const tied of this.#tied) {
      const { name, isGroup } = tied;
      const kept = this.#open?.values ?? {};
      const now = textsOf(tied, values);
      const begun = this.#starts.get(name)?.texts;
      if (begun) {
        const names = Object.keys({ ...now, ...begun });
        if (names.every((each) => now[each] === begun[each])) for (const each of names) delete set[each];
        else if (isGroup && !Object.keys(now).length) set[name] = ""; // none, though the kitchen has some
        else if (!isGroup && now[name] === kept[name]) set[name] = " "; // emptied where an earlier handbook kept an empty text
      } else if (isGroup && kept[name] === "" && Object.keys(now).length) {
        set[name] = null;
      }
    }
  }

  /**
   * The reader chose other units. An example is shown in round figures of theirs; what was typed keeps its meaning, with the units written out.
   * @param {string} before
   */
  switched(before) {
    const open = this.#open;
    if (!open) return; // begin() fills the form
    const begun = Object.assign({}, ...[...this.#starts.values()].map((start) => start.texts));
    const isExample = !Object.keys(difference({ ...without(this.#example(before), this.#openIn(open)), ...begun }, readForm(this.#form))).length;
    if (isExample) fillForm(this.#form, this.#example(this.#page.units()));
    else spellOut(this.#form, before);
    const isStill = (/** @type {import("./starts.js").Tied} */ tied) => isExample || this.#isKitchen || this.#starts.get(tied.name)?.isKitchen;
    const values = { ...without(readForm(this.#form), this.#openIn(open).filter(isStill)), units: this.#page.units() };
    if (isExample && !open.record.revision && !open.canUndo && !open.canRedo) open.record.values = values; // nothing of the reader's yet
    else this.#change(difference(open.values, values, (name) => knownNames(this.#form, [name]).length > 0), "Units");
    if (this.#tied.length) this.#fill();
  }

  /** @param {string} selector */
  #find(selector) {
    return /** @type {HTMLElement | null} */ (this.#root.querySelector(selector));
  }

  // ---- changes -------------------------------------------------------------------------------------------------------------

  /**
   * Something was typed, or a button of a group was pressed.
   * @param {Values} values what stands in the form now @param {EventTarget | null} source
   */
  typed(values, source) {
    const open = this.#open;
    if (!open) return; // begin() takes it over
    const set = difference(open.values, values, (name) => knownNames(this.#form, [name]).length > 0);
    this.#leaveOpen(set, values);
    if (!Object.keys(set).length) return;
    const field = source instanceof Element ? source.closest(".pb-field") : null;
    const button = source instanceof HTMLButtonElement ? source : null;
    if (field) {
      const what = field.querySelector("label")?.firstChild?.textContent ?? "";
      this.#change(set, what, `${store.page}:${this.#visits}:${/** @type {HTMLElement} */ (field).dataset.input}`);
    } else {
      this.#change(set, button?.getAttribute("aria-label") ?? button?.textContent ?? "");
    }
  }

  /** @param {Record<string, string | null>} set @param {string} what @param {string} [visit] */
  #change(set, what, visit) {
    this.#open?.change(set, what, visit);
    this.#showSteps();
    this.#showTrouble();
    this.#follow();
  }

  /**
   * Act on a press of one of its buttons. Gives back whether it was one.
   * @param {HTMLElement} button
   */
  press(button) {
    if (button.matches(".pb-undo")) this.#step("undo");
    else if (button.matches(".pb-redo")) this.#step("redo");
    else if (button.matches(".pb-copy:not(.pb-copy-details)")) this.#copyLink(button);
    else if (button.matches(".pb-reset")) this.#backToExample();
    else if (button.matches(".pb-another")) this.#beginAnother();
    else if (button.matches(".pb-take-kitchen")) this.#takeFromKitchen(button);
    else if (button.matches(".pb-keep")) this.#keepCopy();
    else if (button.matches(".pb-branch")) this.#tryAnotherWay();
    else if (button.matches(".pb-forget")) this.#remove();
    else if (button.matches(".pb-back")) this.#bringBack();
    else if (button.matches(".pb-everything")) this.#saveEverything();
    else if (button.matches(".pb-export")) this.#saveFile();
    else if (button.matches(".pb-import")) this.#find(".pb-file")?.click();
    else return false;
    return true;
  }

  /** Let a field follow the kitchen again. @param {HTMLElement} button */
  #takeFromKitchen(button) {
    const tied = this.#tied.find((each) => each.name === button.dataset.tied);
    if (!tied || !this.#open) return;
    const names = Object.keys(textsOf(tied, this.#open.values));
    this.#change(Object.fromEntries(names.map((name) => [name, null])), "From My kitchen");
    this.#fill();
    this.#reveal([tied.name]);
    this.#page.did("Taken from My kitchen.");
  }

  /** @param {KeyboardEvent} event */
  #pressKey(event) {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    const kind = key === "z" ? (event.shiftKey ? "redo" : "undo") : key === "y" ? "redo" : null;
    if (!kind) return;
    event.preventDefault(); // the browser's own knows nothing of rows and tiers
    this.#step(kind);
  }

  /** @param {"undo" | "redo"} kind */
  #step(kind) {
    const step = this.#open?.[kind]();
    if (!step) {
      this.#page.say(`There is nothing ${kind === "undo" ? "more to undo" : "to redo"}.`);
      return;
    }
    this.#fill();
    this.#reveal(Object.keys(step.after));
    this.#page.did(`${kind === "undo" ? "Undone" : "Done again"}: ${step.what}.`);
    this.#showTrouble();
  }

  /** Bring the first field of a change into view, and the focus back into the form where it was lost. @param {string[]} names */
  #reveal(names) {
    const control = controls(this.#form).find((each) => names.includes(nameOf(each)));
    if (control && names.length <= 3) {
      for (let fold = control.closest("details"); fold; fold = fold.parentElement?.closest("details") ?? null) fold.open = true;
      control.scrollIntoView({ block: "nearest" });
    }
    if (document.activeElement === document.body) (control ?? this.#find(".pb-undo"))?.focus({ preventScroll: true });
  }

  /** Show whether there is something to undo and to redo. */
  #showSteps() {
    for (const [selector, isThere] of /** @type {const} */ ([[".pb-undo", this.#open?.canUndo], [".pb-redo", this.#open?.canRedo]])) {
      this.#find(selector)?.setAttribute("aria-disabled", String(!isThere));
    }
  }

  // ---- which record is shown -------------------------------------------------------------------------------------------------

  #onFollowed = () => this.#fill();

  /** After a change, what is open may begin otherwise: a strip goes by its tip. */
  #follow() {
    if (!this.#open || !this.#tied.length) return;
    const starts = this.#startsOf(this.#openIn(this.#open), this.#open.values);
    const begun = Object.entries(Object.assign({}, ...[...starts.values()].map((start) => start.texts)));
    const shown = readForm(this.#form);
    this.#starts = starts;
    if (begun.every(([name, text]) => shown[name] === text)) this.#showStarts();
    else this.#fill();
  }

  /** Show another record. @param {OpenRecord} open */
  #use(open) {
    this.#open?.removeEventListener("followed", this.#onFollowed);
    this.#open = open;
    open.addEventListener("followed", this.#onFollowed);
    store.show(open);
    this.#fill();
    this.#showList();
    this.#showTrouble();
  }

  #fill() {
    if (!this.#open) return;
    const before = readForm(this.#form);
    const { units, ...values } = this.#open.values;
    const open = this.#openIn(this.#open);
    this.#starts = this.#startsOf(open, values);
    const begun = Object.assign({}, ...[...this.#starts.values()].map((start) => start.texts));
    if (units && units !== this.#page.units()) {
      fillForm(this.#form, values);
      spellOut(this.#form, units); // it was typed in the other units
      if (open.length) fillForm(this.#form, { ...without(readForm(this.#form), open), ...begun });
    } else {
      fillForm(this.#form, { ...without(values, open), ...begun });
    }
    this.#showStarts();
    this.#showSteps();
    this.#page.refresh(changedControls(this.#form, before));
  }

  /**
   * Begin a record beside the others and show it; one that says the same already is shown instead. Gives it, or null where the page is gone.
   * @param {Values} values @param {string} [title]
   */
  async #beginWith(values, title = "") {
    this.#turn += 1;
    const turn = this.#turn;
    values = { units: this.#page.units(), ...values };
    const same = (await store.list(this.#place, this.#slug)).find((record) => !record.text && !Object.keys(difference(record.values, values)).length);
    const there = same && (await store.openById(same.id));
    if (!this.#root.isConnected) return null; // the theme has replaced the page, and its calculator takes the link
    const open = there ?? store.begin(this.#place, this.#slug, values, { title });
    store.show(open);
    if (!there) await store.keep(open);
    if (!this.#root.isConnected) return null;
    if (turn === this.#turn) this.#use(open);
    return open;
  }

  #showList = async () => {
    const select = /** @type {HTMLSelectElement | null} */ (this.#find(".pb-kept"));
    if (!select) return;
    const records = await store.list(this.#place, this.#slug);
    const shown = this.#open?.record.id ?? "";
    const options = records.map((record) => new Option(`${titleOf(record).slice(0, 80)} · ${WHEN.format(record.changed)}`, record.id));
    if (!records.some((record) => record.id === shown)) options.unshift(new Option("The page’s example", ""));
    const isSame = options.length === select.options.length && options.every((option, i) => option.text === select.options[i].text && option.value === select.options[i].value);
    if (!isSame) select.replaceChildren(...options);
    select.value = records.some((record) => record.id === shown) ? shown : "";
    const label = select.closest("label");
    if (label && !this.#isOrder) label.hidden = options.length < 2;
  };

  async #openKept() {
    const select = /** @type {HTMLSelectElement} */ (this.#find(".pb-kept"));
    this.#turn += 1;
    const turn = this.#turn;
    const open = select.value ? await store.openById(select.value) : null;
    if (turn !== this.#turn) return;
    if (open) await this.#openRecord(open);
    else this.#showList();
  }

  /** Show another record, and say so. One that is still the text of an order is read first. @param {OpenRecord} open */
  async #openRecord(open) {
    this.#turn += 1;
    const turn = this.#turn;
    if (open.record.text) {
      const read = await this.#readOrder(open.record.text, titleOf(open.record));
      if (read) {
        open.record.values = { ...this.#valuesOf(read.fields, true), units: this.#page.units() };
        await open.describe({ text: "" });
        if (turn !== this.#turn) return;
        this.#use(open);
        this.#sayOpened(titleOf(open.record), read.problems);
        return;
      }
    } else {
      this.#use(open);
      this.#page.say(`Opened ${titleOf(open.record)}.`);
      return;
    }
    this.#showList();
  }

  /** What the form says with some texts in it. @param {Values} texts @param {boolean} [isAnew] they are of an order that says all that belongs to it alone */
  #valuesOf(texts, isAnew = false) {
    const before = readForm(this.#form);
    if (isAnew) fillForm(this.#form, begunAnew(this.#form));
    fillForm(this.#form, texts);
    const values = readForm(this.#form);
    fillForm(this.#form, before);
    return values;
  }

  async #beginAnother() {
    await this.#beginWith(this.#open ? without(begunAnew(this.#form), this.#openIn(this.#open)) : begunAnew(this.#form));
    const first = controls(this.#form)[0];
    if (first) focusField(first);
    this.#page.say("A new order is started: one tier, no rows. Cutters, hours, prices and measured tips stay. The other one is under “Kept here”.");
  }

  async #backToExample() {
    if (this.#isOrder) {
      await this.#beginWith(this.#exampleNow());
      this.#page.say("The page’s example is back, beside your orders. They are under “Kept here”.");
    } else if (this.#open) {
      this.#change(difference(this.#open.values, this.#exampleNow()), this.#isKitchen ? "Empty the kitchen" : "Back to the page’s example");
      this.#fill();
      this.#page.say(this.#isKitchen ? "The kitchen is empty. Undo brings back what was in it." : "The page’s example is back. Undo brings back what you typed.");
    }
  }

  async #keepCopy() {
    if (!this.#open) return;
    const title = `${titleOf(this.#open.record)} (copy)`.slice(0, 80);
    await store.keep(store.begin(this.#place, this.#slug, { ...this.#open.values }, { title }));
    this.#showList();
    this.#page.say(
      store.trouble
        ? `${title} lasts only as long as this page: the browser keeps nothing here. Save it as a file.`
        : `${title} is kept on this device as it stands. Save it as a file too: a browser may clear what it keeps.`,
    );
  }

  /** Keep the order as it stands and show it beside the form, which goes on from there. */
  async #tryAnotherWay() {
    if (!this.#open) return;
    const title = `${titleOf(this.#open.record).slice(0, 66)}, as it was`;
    const values = { ...this.#open.values };
    const kept = store.begin(this.#place, this.#slug, { ...values }, { title });
    await store.keep(kept);
    this.#showList();
    this.#versions.show({ id: kept.record.id, title, values }, `Kept as “${title}”. Change what you like above: what differs is shown here.`);
  }

  /** Other values as they are asked of Python, with units written out where they were typed in the other ones. @param {Values} values @returns {Values} */
  #inUnits({ units, ...kept }) {
    const mine = this.#page.units();
    const open = this.#openIn({ values: kept, steps: [], at: 0 });
    const values = Object.assign(without(kept, open), ...[...this.#startsOf(open, kept).values()].map((start) => start.texts));
    if (!units || units === mine) return { ...values, units: mine };
    const before = readForm(this.#form);
    fillForm(this.#form, values);
    spellOut(this.#form, units);
    const spelled = readForm(this.#form);
    fillForm(this.#form, before);
    return { ...spelled, units: mine };
  }

  async #remove() {
    const open = this.#open;
    if (!open?.record.revision) {
      this.#page.say("This is the page’s example; there is nothing of yours to remove.");
      return;
    }
    await open.describe({ removed: Date.now() });
    this.#removed = open;
    const [next] = await store.list(this.#place, this.#slug);
    const other = next && !next.text ? await store.openById(next.id) : null;
    this.#use(other ?? store.begin(this.#place, this.#slug, this.#exampleNow()));
    const back = this.#find(".pb-back");
    if (back) back.hidden = false;
    this.#page.say(`${titleOf(open.record)} is removed from this device. Until you leave this page it can be brought back.`);
  }

  async #bringBack() {
    const open = this.#removed;
    const back = this.#find(".pb-back");
    if (back) back.hidden = true;
    if (!open) return;
    await open.describe({ removed: 0 });
    this.#use(open);
    this.#page.say(`${titleOf(open.record)} is back.`);
  }

  /** Say at the form that nothing can be kept, and offer another way. */
  #showTrouble = () => {
    let box = this.#find(".pb-trouble");
    const isLost = store.trouble && this.#open && !this.#open.isWritten;
    if (!isLost) {
      box?.remove();
    } else if (!box || box.dataset.trouble !== store.trouble) {
      box?.remove();
      const words = store.trouble ? TROUBLE[store.trouble] : "";
      box = element("div", { class: "pb-trouble", role: "alert", "data-trouble": store.trouble });
      box.append(element("p", {}, words), element("button", { type: "button", class: "pb-save pb-export" }, "Save as a file"));
      this.#form.before(box);
    }
  };

  // ---- links and files ---------------------------------------------------------------------------------------------------------

  #onLink = () => {
    if (this.isOpen) this.#links = this.#links.then(() => this.#takeLink()).catch((error) => this.#page.fail("The link was not opened.", String(error)));
  };

  async #takeLink() {
    const { hash } = location;
    const linked = readLink(hash, this.#name);
    if (!linked) return;
    const { units, order, ...values } = linked;
    const mine = this.#page.units();
    const inItsUnits = () => units && units !== mine && ["metric", "us"].includes(units) && this.#page.setUnits(units); // its numbers are in these
    if (order === undefined) {
      inItsUnits();
      const known = Object.fromEntries(knownNames(this.#form, Object.keys(values)).map((name) => [name, values[name]]));
      const left = this.#tied.filter((tied) => !Object.keys(textsOf(tied, known)).length); // a link of ours carries all of them
      if (!(await this.#beginWith(without(this.#valuesOf({ ...this.#example(this.#page.units()), ...known }), left)))) {
        this.#page.setUnits(mine);
        return;
      }
      this.#page.say("The link is opened. What was here before is under “Kept here”.");
    } else {
      let text;
      try {
        text = await unpackedText(order);
      } catch {
        this.#page.say("The link is incomplete, so nothing was changed. Ask for it to be sent again.");
        return;
      }
      inItsUnits();
      if (!(await this.#bringIn(text, "the link"))) {
        this.#page.setUnits(mine);
        return;
      }
    }
    if (location.hash === hash) history.replaceState(history.state, "", location.pathname + location.search); // else another has come meanwhile
  }

  /** @param {HTMLElement} button */
  async #copyLink(button) {
    const values = { ...this.#spelled(), units: this.#page.units() };
    const record = this.#isOrder ? await this.#written() : null;
    if (this.#isOrder && record === null) return;
    const carried = record === null ? values : { order: await packed(record), units: values.units };
    const { place, for: other, names, holds = "It carries all that you typed." } = button.dataset;
    const wanted = names?.split(" ") ?? []; // of a link for others
    const passed = Object.fromEntries(Object.entries(values).filter(([name]) => name === "units" || wanted.includes(name)));
    const page = new URL(place ?? "", location.origin + location.pathname).href;
    const address = page + (other ? linkOf(other, passed) : linkOf(this.#name, carried));
    this.#find(".pb-link")?.remove();
    try {
      await navigator.clipboard.writeText(address);
      this.#page.say(`The link is copied. ${holds}`);
      button.focus();
    } catch {
      const field = element("input", { type: "text", readonly: "", "aria-label": "Link" });
      field.setAttribute("value", address);
      this.#find(".pb-tools > .pb-status")?.after(element("div", { class: "pb-link" }, field));
      /** @type {HTMLInputElement} */ (field).select();
      this.#page.say(`Copy the link from here. ${holds}`);
    }
  }

  /** What stands in the form, with every unit written out: whoever opens it elsewhere may have other units. @returns {Values} */
  #spelled() {
    const values = readForm(this.#form);
    for (const control of controls(this.#form)) if (control.type === "text") values[nameOf(control)] = spelledValue(control, this.#page.units());
    return values;
  }

  /** The order as text, mistakes and all; null, and said, where Python does not run. @param {Values} [beside] what else stands in it */
  async #written(beside = {}) {
    this.#page.start();
    try {
      const spelled = this.#spelled();
      const kept = this.#isKitchen && this.#open ? without(spelled, this.#openIn(this.#open)) : spelled;
      const answer = await client.compute(this.#slug, { ...kept, ...beside, units: this.#page.units() });
      if (typeof answer.record === "string") {
        this.#page.showProblems(answer.problems);
        return answer.record;
      }
      this.#page.say(`The ${this.#slug} could not be written out. What you typed is kept on this page.`);
    } catch {
      this.#page.say("The calculator does not run, so nothing was saved. What you typed is kept on this page.");
    }
    return null;
  }

  async #saveFile() {
    if (!this.#isOrder && !this.#isKitchen) {
      const values = { ...readForm(this.#form), units: this.#page.units() };
      const title = this.#open?.record.title ?? "";
      const record = newRecord({ id: "", place: this.#place, calculator: this.#slug, values, now: Date.now(), title });
      await this.#handOver([record], this.#slug);
      return;
    }
    const id = this.#isOrder ? this.id : "";
    const beside = id ? fieldsOf(workTold((await store.workBeside([id]))[id])) : {};
    const record = await this.#written(beside);
    if (record === null) return;
    const title = this.#form.querySelector('[data-name="name"]');
    const words = (title && "value" in title ? String(title.value) : "").replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "");
    const name = this.#isKitchen ? "my-kitchen.toml" : `${words.toLowerCase().slice(0, 60) || this.#slug}.toml`;
    handOver(name, record, "text/plain");
    this.#page.say(`${name} is saved with your downloads.${this.#leftToDo()}`);
  }

  /** All orders and calculators, as one file. */
  async #saveEverything() {
    const records = await store.everything(BASE);
    if (!records.length) this.#page.say("There is nothing of yours to save yet.");
    else await this.#handOver(records, "everything", `It holds ${counted(records)}. Open it here or on another device: what is in it is added to what is there.`);
  }

  /** @param {StoredRecord[]} records @param {string} what @param {string} [more] in words */
  async #handOver(records, what, more = "") {
    const now = Date.now();
    const name = `piping-bench-${what}-${new Date(now).toISOString().slice(0, 10)}.json`;
    const work = await store.workBeside(records.flatMap(({ id, calculator }) => (id && calculator === "order" ? [id] : [])));
    handOver(name, written(records, BASE, now, work), "application/json");
    this.#page.say(`${name} is saved with your downloads. ${more}`.trim());
  }

  /** What is still to be put right, in words. @param {number} [count] */
  #leftToDo(count = this.#form.querySelectorAll(".pb-problem:not(:empty)").length) {
    return count ? ` ${count === 1 ? "One thing in it is" : `${count} things in it are`} still to be put right.` : "";
  }

  async #openFile() {
    const input = /** @type {HTMLInputElement} */ (this.#find(".pb-file"));
    const file = input.files?.[0];
    if (!file) return;
    input.value = ""; // the same file may be chosen again
    if (file.size > LARGEST_KEPT) {
      this.#page.say(`${file.name} is too large to be one of these. Choose a file that was saved here.`);
      return;
    }
    const text = await file.text().catch(() => null);
    if (text === null) this.#page.say(`${file.name} was not opened, and nothing was changed: it could not be read.`);
    else if (isKept(text)) await this.#takeOver(text, file.name);
    else if (this.#isKitchen) await this.#bringKitchen(text, file.name);
    else if (!this.#isOrder) this.#page.say(`${file.name} was not opened, and nothing was changed: an order is opened on the page of the whole cake.`);
    else if (file.size > LARGEST_ORDER) this.#page.say(`${file.name} is too large to be an order. Choose the file that was saved here.`);
    else await this.#bringIn(text, file.name);
  }

  /** Take over all that a file holds, beside what is there. @param {string} text @param {string} from */
  async #takeOver(text, from) {
    this.#turn += 1;
    const turn = this.#turn;
    let records;
    try {
      records = read(text, BASE, Date.now());
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.#page.say(`${from} was not opened, and nothing was changed: ${error.message}`);
      return;
    }
    const held = records.find((record) => record.calculator === KITCHEN);
    const isTaken = held && (await this.#takeKitchen(held.values));
    if (records.length === 1 && held) {
      this.#page.say(isTaken ? `Opened ${from}: your kitchen.` : `${from} has a kitchen, and there is one here already. Empty this one first to take it.`);
      return;
    }
    const { kept, fresh } = await store.takeOver(records.filter((record) => record !== held));
    const [only] = kept;
    const open = kept.length === 1 && only.place === this.#place ? await store.openById(only.id) : null;
    if (open && !open.record.text && turn === this.#turn) this.#use(open);
    const brought = `Opened ${from}: ${counted(held && isTaken ? [...kept, held] : kept)}${fresh < kept.length ? `, ${kept.length - fresh} of them here already` : ""}.`;
    const where = open ? "What was here before is under “Kept here”." : "They are under “Kept here”, each at its calculator; the form above is as it was.";
    this.#page.say(`${brought} ${store.trouble ? "This browser keeps nothing: they last only as long as this page." : where}`);
  }

  /** Take over a kitchen where none is kept. @param {Values} values */
  async #takeKitchen(values) {
    const open = await kitchen.begin();
    if (Object.keys(open.values).some((name) => name !== "units")) return false;
    open.change(values, "Open a file");
    kitchen.dispatchEvent(new Event("changed"));
    if (this.#isKitchen) this.#fill();
    return true;
  }

  /** The kitchen of a file in place of what stands here, as one step. @param {string} text @param {string} from */
  async #bringKitchen(text, from) {
    const read = await this.#readOrder(text, from);
    if (!read || !this.#open) return;
    const { units = this.#open.values.units ?? "metric", ...fields } = read.fields;
    this.#change(difference(this.#open.values, { ...fields, units }), "Open a file");
    if (units !== this.#page.units() && ["metric", "us"].includes(units)) {
      keep("units", units);
      this.#page.setUnits(units);
      dispatchEvent(new CustomEvent(CHOSEN));
    }
    this.#fill();
    this.#page.showProblems(read.problems, read.problems.length > 0);
    this.#page.say(`Opened ${from}.${this.#leftToDo(read.problems.length)} It stands in place of what was here; Undo brings that back.`);
  }

  /** Begin a record from the text of an order; gives whether it could be read. @param {string} text @param {string} from */
  async #bringIn(text, from) {
    const read = await this.#readOrder(text, from);
    if (!read || !this.#root.isConnected) return false;
    const left = this.#tied.filter((tied) => !Object.keys(textsOf(tied, read.fields)).length);
    const begun = await this.#beginWith(without(this.#valuesOf(read.fields, true), left));
    if (!begun) return false;
    await store.joinBeside(begun.record.id, read.work);
    this.#sayOpened(from, read.problems, read.strange);
    return true;
  }

  /** @param {string} from @param {Problem[]} problems @param {string[]} [strange] */
  #sayOpened(from, problems, strange = []) {
    this.#page.showProblems(problems, problems.length > 0);
    const more = strange.length ? ` It also holds what this form has no place for: ${strange.slice(0, 5).join(", ")}.` : "";
    this.#page.say(`Opened ${from}.${this.#leftToDo(problems.length)}${more} What was here before is under “Kept here”.`);
  }

  /**
   * The fields of an order's text; null, and said, where it cannot be read.
   * @param {string} text @param {string} from
   */
  async #readOrder(text, from) {
    this.#page.start();
    try {
      const answer = await client.compute(this.#slug, { [this.#slug]: text, units: this.#page.units() }); // its input for that has its own name
      const { order: fields, told } = this.#isOrder ? workIn(answer.fields ?? {}) : { order: answer.fields ?? {}, told: {} };
      const held = Object.keys(fields);
      const known = knownNames(this.#form, held);
      const unreadable = answer.problems.find((/** @type {Problem} */ problem) => problem.input === this.#slug);
      /** @type {Kept | null} */
      const work = workRead(told);
      if (known.length && !unreadable && !work) {
        this.#page.say(`${from} was not opened, and nothing was changed: what it says of the work at the bench is damaged. Choose another copy of it.`);
        return null;
      }
      if (work && known.length && !unreadable) return { work, fields, problems: answer.problems, strange: held.filter((name) => !known.includes(name)) };
      this.#page.say(`${from} was not opened, and nothing was changed: ${unreadable?.message ?? `There is no ${this.#slug} in it. Choose a file that was saved here.`}`);
    } catch (error) {
      this.#page.fail(`${from} was not opened, and nothing was changed.`, String(error));
    }
    return null;
  }
}
