// The one store of what a reader makes. Records and their steps are in IndexedDB; what is open in this page is in memory too, and memory wins.
// Each change is noted at once in a journal in localStorage, which outlives a closed page, and is written to IndexedDB in a transaction that first
// looks at what is there: where another tab has written meanwhile, this tab's changes go on top of that, so that no tab writes over another.

import { openDB } from "idb";
import { joinedBeside, NAMES } from "./beside.js";
import { JOURNAL, keysOfLocalStorage, markRemoved, notedOf, PREFIX, readJournal, takeMark } from "./journal.js";
import { fromLocalStorage, listed, MOST_RECENT, newRecord, upgraded, wordsOf } from "./records.js";
import { applyChange, lastDone, nextUndone } from "./steps.js";

/** @import { IDBPDatabase } from "idb" */
/** @import { Kept } from "./beside.js" */
/** @import { FiledRecord } from "./files.js" */
/** @import { StoredRecord } from "./records.js" */
/** @import { Change, Step, Texts, Values } from "./steps.js" */

/** @typedef {"" | "full" | "denied"} Trouble why nothing can be kept */

const DATABASE = "piping-bench";
const SCHEMA = 1;
const OPEN = `${PREFIX}open:`;
const LONGEST_OPENING = 10_000; // ms; then the page goes on without, and takes the storage when it does open
const TABLES = /** @type {const} */ (["records", "histories", "current"]);

/** A name that nobody else gives. */
function freshId() {
  return [...crypto.getRandomValues(new Uint8Array(9))].map((byte) => (byte % 36).toString(36)).join("");
}

/** @param {unknown} error @returns {Trouble} */
function troubleOf(error) {
  return error instanceof Error && /quota/i.test(error.name + error.message) ? "full" : "denied";
}

/** @typedef {Partial<Pick<StoredRecord, "title" | "removed" | "text" | "state" | "away">>} About */

/** A record that is open in this page: change it, undo, redo. Tells "followed" after another tab has changed it. */
export class OpenRecord extends EventTarget {
  /** @type {StoredRecord} */ record;
  /** @type {Step[]} */ steps;
  /** @type {number} */ at;
  /** @type {Change[]} */ pending = [];
  isDue = false; // there is something to write beside changes
  /** @type {About} what it says of itself and is not yet written */ about = {};
  #store;
  #isWriting = false;

  /** @param {Store} store @param {StoredRecord} record @param {Step[]} steps @param {number} at */
  constructor(store, record, steps = [], at = 0) {
    super();
    this.#store = store;
    this.record = record;
    this.steps = steps;
    this.at = at;
  }

  get values() {
    return this.record.values;
  }

  get isWritten() {
    return !this.pending.length && !this.isDue;
  }

  get canUndo() {
    return this.at > 0;
  }

  get canRedo() {
    return this.at < this.steps.length;
  }

  /**
   * Something was typed or pressed.
   * @param {Texts} set @param {string} what in words @param {string} visit of one field; "" where each change is a step by itself
   */
  change(set, what, visit = "") {
    return this.#do({ id: this.#store.changeId(), kind: "change", set, what, visit, time: Date.now() });
  }

  /** Take the last step back; gives it, if there was one. */
  undo() {
    const step = lastDone({ values: this.values, steps: this.steps, at: this.at });
    return step && this.#do({ id: this.#store.changeId(), kind: "undo", step: step.id }) ? step : undefined;
  }

  /** Do the next step again; gives it, if there was one. */
  redo() {
    const step = nextUndone({ values: this.values, steps: this.steps, at: this.at });
    return step && this.#do({ id: this.#store.changeId(), kind: "redo", step: step.id }) ? step : undefined;
  }

  /** Write what is not yet written. */
  flush() {
    this.#write();
  }

  /** Change what the record says of itself. What another tab has written meanwhile stays, but for that. @param {About} about */
  async describe(about) {
    Object.assign(this.record, about);
    this.about = { ...this.about, ...about };
    this.isDue = true;
    if (about.removed) markRemoved();
    await this.#write();
  }

  /** @param {Change} change */
  #do(change) {
    if (!this.#apply(change)) return false;
    this.record.changed = Date.now();
    if (this.record.removed) this.about = { ...this.about, removed: 0 };
    this.record.removed = 0; // somebody works at it
    this.pending.push(change);
    this.#store.note();
    this.#write();
    return true;
  }

  /** @param {Change} change */
  #apply(change) {
    const history = { values: this.record.values, steps: this.steps, at: this.at };
    if (!applyChange(history, change)) return false;
    this.at = history.at;
    this.record.recent.push(change.id);
    this.record.recent.splice(0, this.record.recent.length - MOST_RECENT);
    return true;
  }

  /**
   * Take over what is stored, with what is not yet written on top.
   * @param {StoredRecord} record @param {Step[]} steps @param {number} at
   */
  take(record, steps, at) {
    this.record = Object.assign(record, this.about);
    this.steps = steps;
    this.at = at;
    this.pending = this.pending.filter((change) => !record.recent.includes(change.id));
    for (const change of this.pending) this.#apply(change);
    this.dispatchEvent(new Event("followed"));
  }

  async #write() {
    if (this.#isWriting) return;
    this.#isWriting = true;
    try {
      while (!this.isWritten) if (!(await this.#store.write(this))) break;
    } finally {
      this.#isWriting = false;
    }
  }
}

class Store extends EventTarget {
  /** @type {Trouble} */
  trouble = "";
  /** Whether other tabs can tell this one of their changes. */
  isToldOfTabs = typeof BroadcastChannel === "function";
  /** @type {IDBPDatabase | null} */ #database = null;
  /** @type {Promise<void>} */ #ready;
  /** @type {Map<string, OpenRecord>} */ #opened = new Map();
  /** @type {BroadcastChannel | null} */ #channel = null;
  page = freshId(); // of this page, as long as it is open
  #changes = 0;
  #asked = false; // for storage that lasts
  /** @type {Map<string, string>} the record that is shown at each place */ #shown = new Map();

  constructor() {
    super();
    this.#ready = this.#start();
    if (this.isToldOfTabs) {
      this.#channel = new BroadcastChannel(DATABASE);
      this.#channel.onmessage = (event) => this.#hear(event.data);
    }
    addEventListener("pagehide", () => this.#flush());
    document.addEventListener("visibilitychange", () => {
      this.#flush();
      if (document.visibilityState === "visible") for (const open of this.#opened.values()) this.#refresh(open);
    });
  }

  changeId() {
    this.#changes += 1;
    return `${this.page}-${this.#changes}`;
  }

  // ---- finding records -------------------------------------------------------------------------------------------------

  /**
   * The record that this tab shows at a place: the one it showed last, else the one that any tab opened last, else a new one, which is kept from
   * its first change on.
   * @param {string} place @param {string} calculator @param {Values} example
   */
  async open(place, calculator, example) {
    await this.#ready;
    for (const id of [this.#shownHere(place), await this.#get("current", place)]) {
      const open = id ? await this.openById(id) : null;
      if (open && !open.record.removed && open.record.place === place) return open;
    }
    return this.begin(place, calculator, { ...example });
  }

  /** A record that is kept, by its id. @param {string} id */
  async openById(id) {
    await this.#ready;
    const known = this.#opened.get(id);
    if (known) return known;
    const [stored, history] = [await this.#get("records", id), await this.#get("histories", id)];
    const record = stored && upgraded(stored);
    if (!record) return null;
    const again = this.#opened.get(id); // opened meanwhile
    if (again) return again;
    const open = new OpenRecord(this, record, history?.steps ?? [], history?.at ?? 0);
    this.#opened.set(id, open);
    return open;
  }

  /**
   * A new record beside the others. It is kept from its first change on, or at once with `keep`.
   * @param {string} place @param {string} calculator @param {Values} values @param {{ title?: string, text?: string }} [more]
   */
  begin(place, calculator, values, more = {}) {
    const record = newRecord({ id: freshId(), place, calculator, values, now: Date.now(), ...more });
    const open = new OpenRecord(this, record);
    this.#opened.set(record.id, open);
    return open;
  }

  /** What is kept beside a record under a name, such as how far the work is. It goes into no list. @param {string} id @param {string} name */
  async beside(id, name) {
    const own = `${name}:${id}`;
    const known = await this.openById(own);
    if (known) return known;
    const open = new OpenRecord(this, newRecord({ id: own, place: `${name}:`, calculator: name, values: {}, now: Date.now() }));
    this.#opened.set(own, open);
    return open;
  }

  /** What is kept beside records of the work on them, by their ids, in one read. @param {string[]} ids */
  async workBeside(ids) {
    await this.#ready;
    const stored = await this.#attempt((database) => {
      const records = database.transaction("records").store;
      return Promise.all(ids.map((id) => Promise.all(NAMES.map((name) => records.get(`${name}:${id}`)))));
    });
    /** @type {Record<string, Kept>} */
    const work = {};
    for (const [i, id] of ids.entries()) {
      const kept = NAMES.map((name, at) => [name, this.#opened.get(`${name}:${id}`)?.values ?? upgraded(stored?.[i][at])?.values ?? {}]);
      work[id] = Object.fromEntries(kept);
    }
    return work;
  }

  /** Add what a file says of the work on a record to what is kept of it here. @param {string} id @param {Kept} work */
  async joinBeside(id, work) {
    for (const [name, theirs] of Object.entries(work)) {
      const open = await this.beside(id, name);
      open.change(joinedBeside(name, open.values, theirs), "Open a file");
    }
  }

  /** The one record of a name, such as the kitchen. @param {string} name */
  async only(name) {
    const known = await this.openById(name);
    if (known) return known;
    const open = new OpenRecord(this, newRecord({ id: name, place: name, calculator: name, values: {}, now: Date.now() }));
    this.#opened.set(name, open);
    return open;
  }

  /** Show this record at its place from now on, in this tab and in tabs that are opened later. @param {OpenRecord} open */
  async show(open) {
    this.showNext(open.record.place, open.record.id);
    if (open.record.revision) await this.#attempt((database) => database.put("current", open.record.id, open.record.place));
  }

  /** Show a record at its place when a page with that place is opened in this tab. @param {string} place @param {string} id */
  showNext(place, id) {
    this.#shown.set(place, id);
    try {
      sessionStorage.setItem(OPEN + place, id);
    } catch {
      // then the one that was opened last is shown
    }
  }

  /** Keep a record that nothing was changed in yet. @param {OpenRecord} open */
  async keep(open) {
    await open.describe({});
    this.askToLast();
  }

  /** The records of a calculator at a place, the newest first. @param {string} place @param {string} calculator */
  async list(place, calculator) {
    await this.#ready;
    const stored = /** @type {any[]} */ ((await this.#attempt((database) => database.getAllFromIndex("records", "calculator", calculator))) ?? []);
    return this.#withOpened(stored, (record) => record.place === place && record.calculator === calculator);
  }

  /** The records of several calculators, in one read; each list has the newest first. @param {string[]} calculators */
  async lists(...calculators) {
    await this.#ready;
    const stored = await this.#attempt((database) => {
      const index = database.transaction("records").store.index("calculator");
      return Promise.all(calculators.map((calculator) => index.getAll(calculator)));
    });
    return calculators.map((calculator, i) => this.#withOpened(stored?.[i] ?? [], (record) => record.calculator === calculator));
  }

  /** The texts that are kept beside some records under a name, in one read; "" where there is none. @param {string} name @param {string[]} ids */
  async textsBeside(name, ids) {
    await this.#ready;
    const stored = await this.#attempt((database) => {
      const records = database.transaction("records").store;
      return Promise.all(ids.map((id) => records.get(`${name}:${id}`)));
    });
    return ids.map((_, i) => upgraded(stored?.[i])?.text ?? "");
  }

  /**
   * Keep beside a record what is worked out from it, as texts by name. They take the place of what stands there, since whoever finds them out of
   * date works them out again. Gives whether they could be kept.
   * @param {string} id @param {Record<string, string>} texts
   */
  async putBeside(id, texts) {
    await this.#ready;
    const isWritten = await this.#attempt(async (database) => {
      const transaction = database.transaction("records", "readwrite", { durability: "relaxed" });
      for (const [name, text] of Object.entries(texts)) {
        const made = newRecord({ id: `${name}:${id}`, place: `${name}:`, calculator: name, values: {}, now: Date.now(), text });
        transaction.store.put({ ...made, revision: 1 });
      }
      await transaction.done;
      return true;
    });
    if (isWritten) for (const name of Object.keys(texts)) this.#channel?.postMessage({ id: `${name}:${id}`, revision: 0 });
    return Boolean(isWritten);
  }

  /**
   * What is stored, and what is open in this page in place of what is stored of it.
   * @param {any[]} stored @param {(record: StoredRecord) => boolean} isWanted
   */
  #withOpened(stored, isWanted) {
    /** @type {Map<string, StoredRecord>} */
    const found = new Map();
    for (const each of stored) {
      const record = upgraded(each);
      if (record && isWanted(record)) found.set(record.id, record);
    }
    for (const { record, isDue } of this.#opened.values()) {
      if (isWanted(record) && (record.revision || record.recent.length || isDue)) found.set(record.id, record);
    }
    return listed([...found.values()]);
  }

  /** All that is kept of every calculator of this handbook, the newest first. @param {string} base the path of the handbook */
  async everything(base) {
    await this.#ready;
    const stored = /** @type {any[]} */ ((await this.#attempt((database) => database.getAll("records"))) ?? []);
    return this.#withOpened(stored, (record) => !record.place.endsWith(":") && (!record.place.startsWith("/") || record.place.startsWith(base)));
  }

  /**
   * Take over records from a file, beside what is there; what says the same already is left out, but for the work on it. Gives the records as they are
   * kept now.
   * @param {FiledRecord[]} records
   */
  async takeOver(records) {
    await this.#ready;
    const there = new Map((await this.everything("/")).map((record) => [wordsOf(record), record]));
    /** @type {StoredRecord[]} */
    const fresh = [];
    /** @type {Map<string, Kept[]>} */
    const works = new Map();
    const kept = records.map(({ work, ...record }) => {
      const words = wordsOf(record);
      const same = there.get(words);
      if (work && same) works.set(same.id, [...(works.get(same.id) ?? []), work]);
      if (same) return same;
      const taken = { ...record, id: freshId() };
      there.set(words, taken);
      if (work) works.set(taken.id, [work]);
      fresh.push(taken);
      return taken;
    });
    const isWritten = await this.#attempt(async (database) => {
      const transaction = database.transaction(["records", "histories"], "readwrite", { durability: "strict" });
      for (const record of fresh) {
        transaction.objectStore("records").put({ ...record, revision: 1 });
        transaction.objectStore("histories").put({ id: record.id, steps: [], at: 0 });
      }
      await transaction.done;
      return true;
    });
    for (const record of fresh) {
      if (isWritten) continue;
      const open = new OpenRecord(this, record); // lasts as long as the page
      open.isDue = true;
      this.#opened.set(record.id, open);
    }
    for (const [id, its] of works) for (const work of its) await this.joinBeside(id, work);
    if (isWritten) this.#channel?.postMessage({ id: "", revision: 1 });
    this.dispatchEvent(new Event("list"));
    if (fresh.length) this.askToLast();
    return { kept, fresh: fresh.length };
  }

  /** Ask the browser not to clear what is kept, once. */
  askToLast() {
    if (this.#asked) return;
    this.#asked = true;
    navigator.storage?.persist?.().catch(() => {});
  }

  // ---- writing -----------------------------------------------------------------------------------------------------------

  /** Write one open record; gives whether that could be done. @param {OpenRecord} open */
  async write(open) {
    if (!this.#database) await this.#ready;
    /** @type {Set<string>} */
    let written = new Set();
    let about = open.about;
    const revision = await this.#attempt(async (database) => {
      const { id, place } = open.record;
      const transaction = database.transaction(TABLES, "readwrite", { durability: "relaxed" });
      const [records, histories, current] = TABLES.map((name) => transaction.objectStore(name));
      const stored = await records.get(id);
      if (stored && stored.revision !== open.record.revision) {
        const theirs = upgraded(stored);
        if (!theirs) throw new Error("a newer handbook wrote this");
        const history = await histories.get(id);
        open.take(theirs, history?.steps ?? [], history?.at ?? 0);
      }
      const next = open.record.revision + 1;
      written = new Set(open.pending.map((change) => change.id));
      about = open.about;
      open.isDue = false;
      await Promise.all([
        records.put({ ...open.record, revision: next }),
        histories.put({ id, steps: open.steps, at: open.at }),
        next === 1 && current.put(id, place),
        transaction.done,
      ]);
      return next;
    });
    if (revision === null) {
      open.isDue = true;
      return false;
    }
    open.record.revision = Math.max(open.record.revision, revision);
    open.pending = open.pending.filter((change) => !written.has(change.id));
    if (open.about === about) open.about = {};
    this.note();
    this.#say("");
    this.#channel?.postMessage({ id: open.record.id, revision });
    if (revision === 1) this.dispatchEvent(new Event("list"));
    if (open.record.calculator === "order" && open.steps.length > 4) this.askToLast();
    return true;
  }

  /** Note in the journal what is not yet in the database. */
  note() {
    const noted = notedOf(this.#opened.values());
    try {
      if (noted.length) localStorage.setItem(JOURNAL + this.page, JSON.stringify(noted));
      else localStorage.removeItem(JOURNAL + this.page);
    } catch {
      // the database alone then
    }
  }

  #flush() {
    for (const open of this.#opened.values()) open.flush();
  }

  /**
   * Do something with the database; null where there is none, or it fails, and then it is said.
   * @template T @param {(database: IDBPDatabase) => Promise<T>} act @returns {Promise<T | null>}
   */
  async #attempt(act) {
    if (!this.#database) return null;
    try {
      return await act(this.#database);
    } catch (error) {
      this.#say(troubleOf(error));
      return null;
    }
  }

  /** @param {"records" | "histories" | "current"} table @param {string} key @returns {Promise<any>} */
  #get(table, key) {
    return this.#attempt((database) => database.get(table, key));
  }

  /** @param {Trouble} trouble */
  #say(trouble) {
    if (this.trouble === trouble) return;
    this.trouble = trouble;
    this.dispatchEvent(new Event("trouble"));
  }

  // ---- other tabs --------------------------------------------------------------------------------------------------------

  /** @param {{ id: string, revision: number }} told */
  async #hear({ id, revision }) {
    const open = this.#opened.get(id);
    if (revision === 1) this.dispatchEvent(new Event("list"));
    if (open && revision > open.record.revision) await this.#refresh(open);
    this.dispatchEvent(new CustomEvent("told", { detail: id }));
  }

  /** @param {OpenRecord} open */
  async #refresh(open) {
    const { id } = open.record;
    const both = await this.#attempt(async (database) => {
      const transaction = database.transaction(TABLES);
      return Promise.all([transaction.objectStore("records").get(id), transaction.objectStore("histories").get(id)]);
    });
    const record = both?.[0] && upgraded(both[0]);
    if (record && record.revision > open.record.revision) open.take(record, both?.[1]?.steps ?? [], both?.[1]?.at ?? 0);
  }

  /** @param {string} place */
  #shownHere(place) {
    try {
      return this.#shown.get(place) ?? sessionStorage.getItem(OPEN + place);
    } catch {
      return null;
    }
  }

  // ---- opening, and what was kept before -----------------------------------------------------------------------------------

  async #start() {
    try {
      const opening = openDB(DATABASE, SCHEMA, {
        upgrade(database) {
          database.createObjectStore("records", { keyPath: "id" }).createIndex("calculator", "calculator");
          database.createObjectStore("histories", { keyPath: "id" });
          database.createObjectStore("current");
        },
        blocking: (_now, _then, event) => /** @type {any} */ (event.target).close(), // a newer handbook in another tab changes the tables
        terminated: () => {
          this.#database = null;
          this.#say("denied");
        },
      });
      opening.then(
        (database) => {
          this.#database = database;
          this.#flush();
        },
        () => {},
      );
      await Promise.race([opening, new Promise((_, reject) => setTimeout(() => reject(new Error("the storage does not open")), LONGEST_OPENING))]);
    } catch (error) {
      this.#say(troubleOf(error));
      return;
    }
    await this.#attempt((database) => this.#clear(database));
    await this.#attempt((database) => this.#bringOver(database));
    await this.#attempt((database) => this.#replay(database));
  }

  /** Take away what the reader removed on an earlier page, with what is kept beside it. @param {IDBPDatabase} database */
  async #clear(database) {
    if (!takeMark()) return;
    const transaction = database.transaction(["records", "histories"], "readwrite");
    const records = transaction.objectStore("records");
    const removed = new Set((await records.getAll()).filter((record) => upgraded(record)?.removed).map(({ id }) => id));
    if (removed.size) {
      for (const key of await records.getAllKeys()) {
        const owner = String(key).split(":").at(-1) ?? "";
        if (!removed.has(owner)) continue;
        records.delete(key);
        transaction.objectStore("histories").delete(key);
      }
    }
    await transaction.done;
  }

  /**
   * Bring over what earlier handbooks kept in localStorage; it is taken away there once it is in the database for certain.
   * @param {IDBPDatabase} database
   */
  async #bringOver(database) {
    const keys = keysOfLocalStorage().filter((key) => /^(typed|order):/.test(key.slice(PREFIX.length)));
    if (!keys.length) return;
    const transaction = database.transaction(TABLES, "readwrite", { durability: "strict" });
    const [records, , current] = TABLES.map((name) => transaction.objectStore(name));
    const taken = [];
    for (const key of keys) {
      const record = fromLocalStorage(key.slice(PREFIX.length), localStorage.getItem(key) ?? "", { id: freshId(), now: Date.now() });
      if (!record) continue;
      await records.put({ ...record, revision: 1 });
      if (!record.text && !(await current.get(record.place))) await current.put(record.id, record.place);
      taken.push(key);
    }
    await transaction.done;
    for (const key of taken) localStorage.removeItem(key);
  }

  /** Do again what journals say that never came into the database. @param {IDBPDatabase} database */
  async #replay(database) {
    for (const key of keysOfLocalStorage().filter((each) => each.startsWith(JOURNAL))) {
      /** @type {OpenRecord[]} */
      const again = [];
      const text = localStorage.getItem(key) ?? "[]";
      const noted = readJournal(text);
      const transaction = database.transaction(TABLES, "readwrite", { durability: "strict" });
      const [records, histories, current] = TABLES.map((name) => transaction.objectStore(name));
      try {
        for (const { record, changes, steps, at } of noted) {
          const stored = await records.get(record.id);
          const base = stored ? upgraded(stored) : record.revision ? null : record;
          if (!base) continue;
          const history = stored ? await histories.get(record.id) : { steps, at };
          const open = new OpenRecord(this, base, history?.steps ?? [], history?.at ?? 0);
          open.pending = stored ? changes : []; // what was never written was noted whole, with its changes in it
          open.take(base, open.steps, open.at);
          again.push(open);
          await records.put({ ...open.record, revision: base.revision + 1 });
          await histories.put({ id: base.id, steps: open.steps, at: open.at });
          if (!stored) await current.put(base.id, base.place);
        }
        await transaction.done;
      } catch (error) {
        this.#holdOn(again);
        throw error;
      }
      if (localStorage.getItem(key) === text) localStorage.removeItem(key); // else its tab is open and has noted more
    }
  }

  /** Show what is in a journal and cannot be written now; it is tried again. @param {OpenRecord[]} unwritten */
  #holdOn(unwritten) {
    for (const open of unwritten) {
      open.isDue = true;
      this.#opened.set(open.record.id, open);
      this.#shown.set(open.record.place, open.record.id);
    }
  }
}

export const store = new Store();
