// The shelf of orders: each order that is kept here with its picture, its day and how far it has come, and the hours that all of them ask for. What calc
// tells of an order, and its picture, are kept beside it (store.putBeside) and go into no file, since they are worked out again from the order at any
// time: with them there, a shelf is shown without Python. What is missing or out of date is drawn while nobody does anything, one order at a time.

import { client } from "./client.js";
import { freeName } from "./copies.js";
import { LARGEST, isKept, read, Refused, written } from "./files.js";
import { BASE } from "./keeping.js";
import { kitchen } from "./kitchen.js";
import { KITCHEN, STATES, titleOf } from "./records.js";
import { element } from "./render.js";
import { handOver, recall } from "./saved.js";
import { clashes, hoursShort, hoursWords, weeks } from "./shelf_hours.js";
import { formIn, inputsOf } from "./shelf_inputs.js";
import { entryOf, first, found, joined, readCard, sameIn, sorted, stampOf } from "./shelf_orders.js";
import { store } from "./store.js";
import { onEachPage } from "./theme.js";

/** @import { FiledRecord } from "./files.js" */
/** @import { Build } from "./protocol.js" */
/** @import { StoredRecord } from "./records.js" */
/** @import { Card, Entry } from "./shelf_orders.js" */
/** @import { Clash, Week } from "./shelf_hours.js" */

const ORDER = "order";
const CARD = "shelf";
const PICTURE = "shelf-picture";
const ASKED_AS = "on-the-shelf"; // of calc/page/shelf_card.py
const MOST_AT_FIRST = 24; // orders that are built at once
const MOST_WEEKS = 8;
const MOST_TOLD = 5; // pairs of orders
const BUSY_DAY = 480; // minutes that fill a day's bar
const AT_REST = 1200; // ms without a touch, before anything is drawn
const WIDE = 280; // px of a kept picture

const SHORT = new Intl.DateTimeFormat("en-GB", { weekday: "short", day: "numeric", month: "short", year: "numeric", timeZone: "UTC" });
const WEEK = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short", timeZone: "UTC" });
const DAYS = ["Mo", "Tu", "We", "Th", "Fr", "Sa", "Su"];
const FULL = "This browser has no room left. What was changed here lasts only as long as this page is open.";
const DENIED = "This browser keeps nothing for this site: it may be a private window, or storage may be switched off.";

/** Today, as ISO 8601 has it, by the reader's clock. */
function today() {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}

/** @param {number} count @param {string} what */
const counted = (count, what) => `${count} ${what}${count === 1 ? "" : "s"}`;

/** @param {string} words */
const capital = (words) => words[0].toUpperCase() + words.slice(1);

/** @param {string} day @param {string} time */
const whenWords = (day, time) => (day ? `${SHORT.format(Date.parse(day))}${time && `, ${time}`}` : "No day yet");

/** @param {string} guests as they were typed */
const guestsWords = (guests) => (Number(guests) > 0 ? counted(Number(guests), "guest") : "");

/** A small copy of a drawing, as an address that holds it. @param {string} svg */
async function smallPicture(svg) {
  const [, , wide, high] = (/viewBox="([^"]*)"/.exec(svg)?.[1] ?? "0 0 1 1").split(" ").map(Number);
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [WIDE, Math.round((WIDE * high) / wide)];
  const sized = svg.replace("<svg ", `<svg width="${canvas.width}" height="${canvas.height}" `);
  const address = URL.createObjectURL(new Blob([sized], { type: "image/svg+xml" }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    canvas.getContext("2d")?.drawImage(image, 0, 0, canvas.width, canvas.height);
    return canvas.toDataURL("image/webp", 0.8);
  } finally {
    URL.revokeObjectURL(address);
  }
}

/**
 * Put children in their places. Those that stand there already are not touched: one that is taken out and put in again under a finger is not pressed.
 * @param {Element} parent @param {Element[]} children
 */
function arrange(parent, children) {
  for (const there of [...parent.childNodes]) if (!children.includes(/** @type {Element} */ (there))) there.remove();
  children.forEach((child, i) => parent.childNodes[i] !== child && parent.insertBefore(child, parent.childNodes[i] ?? null));
}

/** @typedef {{ words: string, press: string, back: () => void }} Gone what stands in the place of an order that was taken off */

class Shelf {
  #root;
  /** @type {Build} */ #build;
  /** @type {Record<string, HTMLElement>} */ #place = {};
  /** @type {Map<string, StoredRecord>} */ #records = new Map();
  /** @type {Map<string, Card | null>} */ #cards = new Map();
  /** @type {Map<string, string>} */ #pictures = new Map();
  /** @type {Map<string, Entry>} */ #entries = new Map();
  /** @type {Map<string, { said: string, item: HTMLElement }>} what is built */ #built = new Map();
  /** @type {Map<string, HTMLElement>} the boards that are built, by their titles */ #boards = new Map();
  #head = element("h2", {}, "Orders");
  /** @type {Map<string, Gone>} taken off the shelf on this page, to be brought back */ #gone = new Map();
  #most = MOST_AT_FIRST;
  #kitchen = 0; // when it was changed: orders begin with what is in it
  /** @type {Promise<HTMLElement | null> | null} of the page that an order is opened on */ #form = null;
  /** @type {Set<string>} what could not be drawn on this page */ #failed = new Set();
  #isDrawing = false;
  #touched = 0;
  #reading = Promise.resolve();

  /** @param {HTMLElement} root */
  constructor(root) {
    this.#root = root;
    this.#build = JSON.parse(root.dataset.build ?? "{}");
    root.dataset.live = "";
    this.#lay();
    root.addEventListener("click", (event) => this.#press(event));
    root.addEventListener("auxclick", (event) => this.#open(event));
    root.addEventListener("change", (event) => this.#choose(/** @type {HTMLInputElement} */ (event.target)));
    root.addEventListener("input", (event) => event.target === this.#place.find && this.#searched());
    for (const kind of ["pointerdown", "keydown", "wheel"]) {
      root.addEventListener(kind, () => (this.#touched = performance.now()), { passive: true });
    }
    store.addEventListener("list", this.#follow);
    store.addEventListener("told", this.#hear);
    store.addEventListener("trouble", this.#showTrouble);
    addEventListener("beforeprint", this.#writePrinted);
    this.#follow();
  }

  get isOnPage() {
    return this.#root.isConnected;
  }

  leave() {
    store.removeEventListener("list", this.#follow);
    store.removeEventListener("told", this.#hear);
    store.removeEventListener("trouble", this.#showTrouble);
    removeEventListener("beforeprint", this.#writePrinted);
  }

  // ---- its parts -----------------------------------------------------------------------------------------------------------

  #lay() {
    /** @param {string} name @param {string} tag @param {Record<string, string | boolean>} more @param {(Node | string)[]} children */
    const part = (name, tag, more = {}, ...children) => {
      this.#place[name] = element(tag, { class: `pb-shelf-${name}`, ...more }, ...children);
      return this.#place[name];
    };
    /** @param {string} name @param {[string, string][]} options */
    const choice = (name, options) => part(name, "select", {}, ...options.map(([value, words]) => element("option", { value }, words)));
    const button = (/** @type {string} */ press, /** @type {string} */ words) => element("button", { type: "button", class: "pb-button", "data-press": press }, words);
    const file = part("file", "input", { type: "file", accept: ".json,application/json", hidden: true, "aria-label": "Shelf file" });
    this.#root.replaceChildren(
      element(
        "div",
        { class: "pb-tools", role: "search", "aria-label": "Orders on the shelf" },
        element("label", {}, "Find", part("find", "input", { type: "text", autocomplete: "off", placeholder: "name, customer, colour, day" })),
        element("label", {}, "In order", choice("order", [["date", "of date"], ["name", "of name"], ["changed", "of last change"]])),
        element("label", {}, "Show", choice("which", [["shelf", "on the shelf"], ["away", "put away"], ["all", "all"]])),
        part("said", "p", { role: "status" }),
      ),
      part("trouble", "div"),
      part("load", "details", { open: innerWidth > 760 }),
      part("orders", "div"),
      part("more", "p"),
      element(
        "div",
        { class: "pb-shelf-files", role: "group", "aria-label": "The shelf as a file" },
        button("save", "Save the shelf as one file"),
        button("file", "Open a shelf file"),
        file,
        element("p", {}, "All orders, put away or not. Opened here or on another device, they come in beside what is there."),
      ),
      part("printed", "ol"),
    );
  }

  /** @param {string} text */
  #say(text) {
    this.#place.said.textContent = text;
  }

  #showTrouble = () => {
    const { trouble } = store;
    const there = this.#place.trouble;
    if (there.dataset.trouble === trouble) return;
    there.dataset.trouble = trouble;
    const words = trouble === "full" ? FULL : trouble ? DENIED : "";
    const save = element("button", { type: "button", class: "pb-button", "data-press": "save" }, "Save the shelf as one file");
    there.replaceChildren(...(words ? [element("div", { class: "pb-trouble", role: "alert" }, element("p", {}, words), save)] : []));
  };

  // ---- reading -------------------------------------------------------------------------------------------------------------

  /** Read everything again: what is kept of the orders and beside them, in one go. */
  #follow = () => {
    this.#reading = this.#reading.then(async () => {
      const [orders, cards, [its]] = await store.lists(ORDER, CARD, KITCHEN);
      if (!this.isOnPage) return;
      this.#kitchen = its?.changed ?? 0;
      this.#records = new Map(orders.map((record) => [record.id, record]));
      this.#cards = new Map(cards.map(({ id, text }) => [id.slice(CARD.length + 1), readCard(text)]));
      this.#entries = new Map(orders.map((record) => [record.id, entryOf(record, this.#cards.get(record.id) ?? null)]));
      this.#showLoad(); // before the orders below it, which it would push down
      await this.#show();
      this.#root.dataset.state = "ready";
      this.#showTrouble();
      this.#drawLater();
    });
    return this.#reading;
  };

  /** Another tab has changed something. @param {Event} event */
  #hear = async (event) => {
    const [name, id] = /** @type {CustomEvent<string>} */ (event).detail.split(":");
    if (name === KITCHEN) await this.#follow();
    else if (id === undefined) {
      const open = name ? await store.openById(name) : null;
      if (open && this.isOnPage) await this.#changed(open.record);
    } else if (name === CARD && this.#records.has(id)) {
      const [text] = await store.textsBeside(CARD, [id]);
      this.#cards.set(id, readCard(text));
      this.#pictures.delete(id);
      await this.#changed(this.#records.get(id));
    }
  };

  /** An order says something else. @param {StoredRecord} [record] */
  async #changed(record) {
    if (!record) return;
    if (record.removed) {
      this.#records.delete(record.id);
      this.#entries.delete(record.id);
    } else {
      if (record.calculator !== ORDER) return;
      this.#records.set(record.id, record);
      this.#entries.set(record.id, entryOf(record, this.#cards.get(record.id) ?? null));
    }
    this.#showLoad();
    await this.#show();
    this.#drawLater();
  }

  // ---- showing -------------------------------------------------------------------------------------------------------------

  #shown() {
    const which = /** @type {HTMLSelectElement} */ (this.#place.which).value;
    const asked = /** @type {HTMLInputElement} */ (this.#place.find).value;
    const by = /** @type {HTMLSelectElement} */ (this.#place.order).value;
    const all = [...this.#entries.values()].filter(({ away, id }) => this.#gone.has(id) || which === "all" || away === (which === "away"));
    return { shelves: sorted(found(all, asked), by, today()), isAll: !asked.trim() };
  }

  /** Another question was asked of the shelf. */
  #searched() {
    this.#most = MOST_AT_FIRST;
    this.#gone.clear();
    this.#show();
    const { shelves } = this.#shown();
    const count = shelves.reduce((sum, { entries }) => sum + entries.length, 0);
    this.#say(count ? `${counted(count, "order")}.` : "No order like that.");
  }

  /** Build what is to be seen; what is built already stays the same element, and the focus stays. */
  async #show() {
    const { shelves, isAll } = this.#shown();
    const count = shelves.reduce((sum, { entries }) => sum + entries.length, 0);
    const some = first(shelves, this.#most);
    const focus = /** @type {HTMLElement | null} */ (this.#root.contains(document.activeElement) ? document.activeElement : null);
    const id = /** @type {HTMLElement | null} */ (focus?.closest("[data-order]"))?.dataset.order ?? "";
    const ids = new Set();
    const boards = some.map(({ title, entries }, board) => {
      const items = entries.map((entry) => {
        ids.add(entry.id);
        return this.#item(entry);
      });
      return this.#board(title, `pb-shelf-board-${board}`, items);
    });
    for (const each of this.#built.keys()) if (!ids.has(each)) this.#built.delete(each);
    const none = isAll && !this.#entries.size ? "Nothing stands here yet. An order is kept from the first thing that you change in it." : "No order like that.";
    arrange(this.#place.orders, [this.#head, ...(boards.length ? boards : [element("p", {}, none)])]);
    const left = count - ids.size;
    const more = element("button", { type: "button", class: "pb-button", "data-press": "more" }, `Show ${Math.min(left, MOST_AT_FIRST)} more of ${left}`);
    this.#place.more.replaceChildren(...(left ? [more] : []));
    if (focus && !focus.isConnected) {
      const item = this.#built.get(id)?.item;
      const again = focus.dataset.press ? `[data-press="${focus.dataset.press}"]` : focus.matches("input") ? "input:checked" : "a, button";
      /** @type {HTMLElement | null} */ (item?.querySelector(again) ?? item?.querySelector("a, button") ?? null)?.focus({ preventScroll: true });
    } else if (focus && document.activeElement !== focus) focus.focus({ preventScroll: true });
    await this.#showPictures([...ids]);
  }

  /** @param {string} title @param {string} name its id @param {HTMLElement[]} items */
  #board(title, name, items) {
    const board = this.#boards.get(title) ?? element("section", { class: "pb-shelf-board" }, element("h3", {}, title), element("ul", {}));
    this.#boards.set(title, board);
    board.setAttribute("aria-labelledby", name);
    /** @type {Element} */ (board.firstElementChild).id = name;
    arrange(/** @type {Element} */ (board.lastElementChild), items);
    return board;
  }

  /** @param {Entry} entry */
  #item(entry) {
    const gone = this.#gone.get(entry.id);
    const { name, day, time, guests, customer, state, away, card, isFresh } = entry;
    const said = JSON.stringify([name, day, time, guests, customer, state, away, gone?.words, card, isFresh]);
    const there = this.#built.get(entry.id);
    if (there?.said === said) return there.item;
    const item = gone ? this.#goneItem(entry, gone) : this.#orderItem(entry, there?.item.querySelector("img") ?? null);
    this.#built.set(entry.id, { said, item });
    return item;
  }

  /** @param {Entry} entry @param {Gone} gone */
  #goneItem({ id }, { words, press }) {
    return element("li", { class: "pb-shelf-gone", "data-order": id }, words, " ", element("button", { type: "button", class: "pb-button", "data-press": "back" }, press));
  }

  /** @param {Entry} entry @param {HTMLElement | null} picture */
  #orderItem({ id, name, day, time, guests, customer, state, away, card, isFresh }, picture) {
    const button = (/** @type {string} */ press, /** @type {string} */ words) =>
      element("button", { type: "button", class: "pb-button", "data-press": press, "aria-label": `${words} ${name}` }, words);
    const hands = isFresh ? (card?.hands ?? []).reduce((sum, [from, to]) => sum + (Date.parse(`${to}Z`) - Date.parse(`${from}Z`)) / 60_000, 0) : 0;
    const facts = [guestsWords(guests), customer, hands && `${hoursWords(hands)} of work`];
    const choices = STATES.map((each) =>
      element("label", {}, element("input", { type: "radio", name: `state-${id}`, value: each, checked: each === state }), element("span", {}, capital(each))),
    );
    const frame = element("div", { class: "pb-shelf-picture" }, picture ?? element("span", {}, card?.problem ? "Not drawn: open it to see what is to be put right" : "Not drawn yet"));
    return element(
      "li",
      { "data-order": id, "data-state": state, "data-away": away },
      frame,
      element(
        "div",
        { class: "pb-shelf-ticket" },
        element("h4", {}, element("a", { href: this.#root.dataset.order ?? "", "data-open": true }, name)),
        element("p", {}, element("strong", {}, whenWords(day, time)), element("br"), facts.filter(Boolean).join(" · ")),
        element("fieldset", {}, element("legend", {}, `How far ${name} has come`), ...choices),
        element("div", { class: "pb-shelf-acts" }, button("copy", "Copy"), button("away", away ? "Take out" : "Put away"), button("delete", "Delete")),
      ),
    );
  }

  /** @param {string[]} ids of what is built */
  async #showPictures(ids) {
    const wanted = ids.filter((id) => !this.#pictures.has(id) && this.#cards.get(id));
    if (wanted.length) {
      const texts = await store.textsBeside(PICTURE, wanted);
      wanted.forEach((id, i) => this.#pictures.set(id, texts[i]));
    }
    for (const id of ids) {
      const address = this.#pictures.get(id);
      const frame = this.#built.get(id)?.item.querySelector(".pb-shelf-picture");
      if (!frame || !address?.startsWith("data:image/")) continue;
      const image = frame.querySelector("img");
      if (image?.src !== address) frame.replaceChildren(element("img", { src: address, alt: "" }));
    }
  }

  /** The hours of the coming weeks, and where two orders are in each other's way. */
  #showLoad() {
    const all = [...this.#entries.values()].filter(({ id }) => !this.#gone.has(id));
    const found = weeks(all, today());
    const told = clashes(all, today());
    const [sure, asked] = [found.reduce((sum, week) => sum + week.sure, 0), found.reduce((sum, week) => sum + week.asked, 0)];
    const head = found.length
      ? `Hours ahead: ${hoursWords(sure + asked)} in ${counted(found.length, "week")}${asked ? `, ${hoursWords(asked)} of it only asked for` : ""}${told.length ? `. ${told.length} clash${told.length > 1 ? "es" : ""}` : ""}`
      : "Hours ahead: none yet";
    const summary = this.#place.load.querySelector("summary") ?? element("summary", {});
    if (summary.textContent !== head) summary.textContent = head;
    arrange(this.#place.load, [
      summary,
      ...(found.length ? [this.#weekTable(found)] : [element("p", {}, "Hours come from the timetable of each order, once it has been drawn.")]),
      ...(told.length ? [this.#clashList(told)] : []),
    ]);
  }

  /** @param {Week[]} found */
  #weekTable(found) {
    const cell = ({ sure, asked } = { sure: 0, asked: 0 }) => {
      const minutes = sure + asked;
      const made = element("td", {}, minutes ? element("span", {}, hoursShort(minutes)) : "");
      made.style.setProperty("--pb-full", `${Math.min(100, Math.round((100 * minutes) / BUSY_DAY))}%`);
      return made;
    };
    const rows = found.slice(0, MOST_WEEKS).map(({ monday, days, sure, asked }) => {
      const total = element("td", { class: "pb-shelf-total" }, `${hoursShort(sure + asked)} h`);
      return element("tr", {}, element("th", { scope: "row" }, WEEK.format(Date.parse(monday))), ...days.map((day) => cell(day)), total);
    });
    const heads = ["Week of", ...DAYS, "In all"].map((words) => element("th", { scope: "col" }, words));
    const later = found.slice(MOST_WEEKS).reduce((sum, week) => sum + week.sure + week.asked, 0);
    return element(
      "div",
      { class: "pb-shelf-weeks" },
      element("table", { class: "pb-shelf-table" }, element("caption", {}, "Hours of work, to the half hour; a full bar is 8 h"), element("thead", {}, element("tr", {}, ...heads)), element("tbody", {}, ...rows)),
      ...(later ? [element("p", {}, `Later: ${hoursWords(later)}.`)] : []),
    );
  }

  /** @param {Clash[]} told */
  #clashList(told) {
    const clock = (/** @type {string} */ time) => time.slice(11);
    const lines = told.slice(0, MOST_TOLD).map(({ kind, entries: [one, other], begin, end, minutes, spells }) => {
      const when = `${SHORT.format(Date.parse(begin.slice(0, 10)))}, ${clock(begin)} to ${clock(end)}`;
      const more = spells > 1 ? `, and ${counted(spells - 1, "time")} more: ${hoursWords(minutes)} in all` : "";
      const words = kind === "oven" ? "both want the oven" : "both want your hands";
      return element("li", {}, element("strong", {}, one.name), " and ", element("strong", {}, other.name), ` ${words} on ${when}${more}.`);
    });
    const left = told.length - lines.length;
    return element(
      "div",
      { class: "pb-shelf-clashes" },
      element("p", {}, "At the same time. Change the working hours of one, bake on another day, or have somebody help:"),
      element("ul", {}, ...lines, ...(left > 0 ? [element("li", {}, `${counted(left, "pair")} more, later.`)] : [])),
    );
  }

  #writePrinted = () => {
    const lines = this.#shown().shelves.flatMap(({ entries }) => entries).filter(({ id }) => !this.#gone.has(id));
    this.#place.printed.replaceChildren(
      ...lines.map(({ name, day, time, guests, customer, state }) =>
        element("li", {}, [whenWords(day, time), name, customer, guestsWords(guests), state].filter(Boolean).join(", ")),
      ),
    );
  };

  // ---- presses -------------------------------------------------------------------------------------------------------------

  /** @param {Event} event */
  #entryAt(event) {
    const item = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-order]"));
    return this.#entries.get(item?.dataset.order ?? "");
  }

  /** A link to an order: the page it leads to shows this one. @param {Event} event */
  #open(event) {
    const entry = this.#entryAt(event);
    if (!entry || !(/** @type {Element} */ (event.target).closest("[data-open]"))) return;
    store.showNext(ORDER, entry.id);
    store.openById(entry.id).then((open) => open && store.show(open)); // for a tab that is opened now
  }

  /** @param {Event} event */
  #press(event) {
    this.#open(event);
    const press = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-press]"))?.dataset.press;
    const entry = this.#entryAt(event);
    if (press === "more") this.#showMore();
    else if (press === "save") this.#save();
    else if (press === "file") this.#place.file.click();
    else if (!entry) return;
    else if (press === "copy") this.#copy(entry);
    else if (press === "away") this.#putAway(entry);
    else if (press === "delete") this.#delete(entry);
    else if (press === "back") this.#gone.get(entry.id)?.back();
  }

  /** @param {HTMLInputElement} field */
  #choose(field) {
    if (field === this.#place.file) this.#openFile(field);
    else if (field.type === "radio") this.#setState(field);
    else if (field !== this.#place.find) this.#searched();
  }

  async #showMore() {
    const before = this.#built.size;
    this.#most += MOST_AT_FIRST;
    await this.#show();
    const links = /** @type {NodeListOf<HTMLElement>} */ (this.#place.orders.querySelectorAll("h4 > a"));
    links[before]?.focus();
    this.#say(`${counted(this.#built.size, "order")} shown.`);
    this.#drawLater();
  }

  /** Change what an order says of itself, and show it. @param {Entry} entry @param {import("./store.js").About} about */
  async #describe(entry, about) {
    const open = await store.openById(entry.id);
    if (!open) return;
    const done = open.describe(about);
    this.#records.set(entry.id, open.record);
    this.#entries.set(entry.id, entryOf(open.record, this.#cards.get(entry.id) ?? null));
    this.#showLoad();
    await this.#show();
    await done;
    this.#showTrouble();
  }

  /** @param {HTMLInputElement} field */
  async #setState(field) {
    const entry = this.#entries.get(/** @type {HTMLElement | null} */ (field.closest("[data-order]"))?.dataset.order ?? "");
    if (!entry) return;
    await this.#describe(entry, { state: field.value });
    this.#say(`${entry.name}: ${field.value}.`);
  }

  /** @param {Entry} entry */
  async #putAway(entry) {
    const { name, away } = entry;
    const back = () => this.#bringBack(entry, { away: 0 }, `${name} is back on the shelf.`);
    if (away) return back();
    const told = `${name} is put away. “Show: put away” has it.`;
    await this.#takeOff(entry, { away: Date.now() }, { words: `${name} is put away.`, press: "Take out again", back }, told);
  }

  /** @param {Entry} entry */
  async #delete(entry) {
    const { name } = entry;
    const back = () => this.#bringBack(entry, { removed: 0 }, `${name} is back.`);
    const told = `${name} is deleted. Until you leave this page it can be brought back.`;
    await this.#takeOff(entry, { removed: Date.now() }, { words: `${name} is deleted.`, press: "Undo", back }, told);
  }

  /**
   * Take an order off the shelf and go to the button that brings it back; not where that was pressed while it was being written down.
   * @param {Entry} entry @param {import("./store.js").About} about @param {Gone} gone @param {string} told
   */
  async #takeOff(entry, about, gone, told) {
    this.#gone.set(entry.id, gone);
    await this.#describe(entry, about);
    if (this.#gone.get(entry.id) !== gone) return;
    /** @type {HTMLElement | null} */ (this.#built.get(entry.id)?.item.querySelector("button") ?? null)?.focus({ preventScroll: true });
    this.#say(told);
  }

  /** @param {Entry} entry @param {import("./store.js").About} about @param {string} told */
  async #bringBack(entry, about, told) {
    this.#gone.delete(entry.id);
    await this.#describe(entry, about);
    if (this.#gone.has(entry.id)) return; // taken off again meanwhile
    this.#built.get(entry.id)?.item.querySelector("a")?.focus();
    this.#say(told);
  }

  /** @param {Entry} entry */
  async #copy({ id, name, record, card, isFresh }) {
    const title = freeName(`${name.slice(0, 70)} (copy)`, [...this.#entries.values()].map((each) => each.name));
    const values = record.text ? {} : { ...record.values, name: title };
    const open = store.begin(ORDER, ORDER, values, record.text ? { title, text: record.text } : {});
    await store.keep(open);
    if (card && isFresh) {
      const [picture] = await store.textsBeside(PICTURE, [id]);
      await this.#keepCard(open.record, { ...card, name: title }, picture);
    }
    await this.#changed(open.record);
    this.#built.get(open.record.id)?.item.querySelector("a")?.focus();
    this.#say(`${title} stands beside it.`);
    this.#showTrouble();
  }

  // ---- the shelf as a file -------------------------------------------------------------------------------------------------

  async #save() {
    const [orders] = await store.lists(ORDER);
    if (!orders.length) {
      this.#say("There is no order to save yet.");
      return;
    }
    const now = Date.now();
    const name = `piping-bench-shelf-${new Date(now).toISOString().slice(0, 10)}.json`;
    handOver(name, written(orders, BASE, now, await store.workBeside(orders.map(({ id }) => id))), "application/json");
    this.#say(`${name} is saved with your downloads: ${counted(orders.length, "order")}.`);
  }

  /** @param {HTMLInputElement} input */
  async #openFile(input) {
    const file = input.files?.[0];
    if (!file) return;
    input.value = ""; // the same file may be chosen again
    const refuse = (/** @type {string} */ why) => this.#say(`${file.name} was not opened, and nothing was changed: ${why}`);
    if (file.size > LARGEST) return refuse("It is too large to be a shelf.");
    const text = await file.text().catch(() => null);
    if (text === null) return refuse("It could not be read.");
    if (!isKept(text)) return refuse("It is no shelf file. One order by itself is opened on the page of the whole cake.");
    /** @type {FiledRecord[]} */
    let records;
    try {
      records = read(text, BASE, Date.now());
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      return refuse(error.message);
    }
    const others = records.filter(({ calculator }) => calculator !== ORDER);
    const [there] = await store.lists(ORDER);
    const { fresh, versions, same } = joined(there, records.filter(({ calculator }) => calculator === ORDER));
    const taken = await store.takeOver([...fresh, ...versions, ...others]);
    const sameAs = sameIn(there);
    for (const record of records) {
      const same = record.work && sameAs(record);
      if (record.work && same) await store.joinBeside(same.id, record.work);
    }
    const more = taken.fresh - fresh.length - versions.length;
    await this.#follow();
    const told = [
      fresh.length && `${counted(fresh.length, "order")} came in`,
      same && `${counted(same, "order")} ${same === 1 ? "was" : "were"} here already, the same`,
      versions.length && `${counted(versions.length, "order")} ${versions.length === 1 ? "differs from one" : "differ from those"} here and ${versions.length === 1 ? "is" : "are"} kept beside it: ${versions.slice(0, 3).map(titleOf).join("; ")}${versions.length > 3 ? " and others" : ""}`,
      more && `${counted(more, "other record")} of calculators and looks came in too`,
    ].filter(Boolean);
    this.#say(`Opened ${file.name}. ${told.length ? `${told.join(". ")}.` : "There is no order in it."}${store.trouble ? ` ${store.trouble === "full" ? FULL : DENIED} Save the shelf as a file.` : ""}`);
  }

  // ---- drawing what is missing ---------------------------------------------------------------------------------------------

  /** The order to be drawn next: of those that are built first. */
  #undrawn() {
    const isToCome = (/** @type {Entry} */ { away, state, day }) => !away && state !== "made" && (!day || day >= today());
    const built = [...this.#built.keys()].flatMap((id) => this.#entries.get(id) ?? []);
    return built.find(this.#isDue) ?? [...this.#entries.values()].find((entry) => isToCome(entry) && this.#isDue(entry));
  }

  /** @param {Entry} entry */
  #isDue = ({ id, record, card, isFresh }) => {
    const isCurrent = isFresh && (card?.kitchen ?? 0) === this.#kitchen;
    return !isCurrent && !this.#gone.has(id) && !this.#failed.has(`${id} ${stampOf(record)} ${this.#kitchen}`);
  };

  /** What is asked for an order; null where the page with its form cannot be had. @param {StoredRecord} record */
  async #inputs({ id, text, values }) {
    if (text) return { order: text, units: recall("units") ?? "metric" };
    this.#form ??= fetch(this.#root.dataset.order ?? "")
      .then(async (page) => (page.ok ? formIn(await page.text()) : null))
      .catch(() => null);
    const [form, open] = [await this.#form, await store.openById(id), await kitchen.begin()];
    if (!form) this.#form = null; // asked for again with the next order
    return form && inputsOf(form, open ?? { values, steps: [], at: 0 }, kitchen.values);
  }

  async #drawLater() {
    if (this.#isDrawing) return;
    this.#isDrawing = true;
    try {
      for (let next = this.#undrawn(); next && !store.trouble; next = this.#undrawn()) {
        await this.#rest();
        if (!this.isOnPage) return;
        client.start(this.#build);
        if (client.state === "failed") return;
        const now = this.#entries.get(next.id);
        if (now && this.#isDue(now)) await this.#draw(now.record);
      }
    } finally {
      this.#isDrawing = false;
    }
  }

  /** Wait until nobody does anything here. */
  async #rest() {
    for (let left = AT_REST; left > 0; left = this.#touched + AT_REST - performance.now()) {
      if (this.#touched || left < AT_REST) await new Promise((done) => setTimeout(done, left));
      await new Promise((done) => ("requestIdleCallback" in window ? requestIdleCallback(done) : setTimeout(done, 100)));
      if (!this.#touched) return;
    }
  }

  /** @param {StoredRecord} record */
  async #draw(record) {
    const { id } = record;
    const ofKitchen = this.#kitchen;
    const fail = () => this.#failed.add(`${id} ${stampOf(record)} ${ofKitchen}`);
    try {
      const inputs = await this.#inputs(record);
      if (!inputs) return void fail();
      const made = await client.sheet(ORDER, inputs, ASKED_AS, "A4");
      if (made instanceof Uint8Array) {
        const { picture, ...card } = JSON.parse(new TextDecoder().decode(made));
        await this.#keepCard(record, { ...card, kitchen: ofKitchen }, await smallPicture(picture));
      } else if (made.problems?.length) await this.#keepCard(record, { problem: made.problems[0].message, kitchen: ofKitchen }, "");
      else fail();
    } catch {
      fail();
    }
    if (this.isOnPage) await this.#changed(this.#records.get(id));
  }

  /** Keep what was told of an order as it is in a record. @param {StoredRecord} record @param {Omit<Card, "of">} card @param {string} picture */
  async #keepCard(record, card, picture) {
    const whole = { ...card, of: stampOf(record) };
    this.#cards.set(record.id, whole);
    this.#pictures.set(record.id, picture);
    await store.putBeside(record.id, { [CARD]: JSON.stringify(whole), [PICTURE]: picture });
  }
}

/** @type {Set<Shelf>} */
const shelves = new Set();

onEachPage(() => {
  for (const shelf of shelves) {
    if (shelf.isOnPage) continue;
    shelf.leave();
    shelves.delete(shelf);
  }
  for (const root of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".pb-shelf:not([data-live])"))) shelves.add(new Shelf(root));
});
