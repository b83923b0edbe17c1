// The order at the bench: one task fills the screen, to be read from a step away and moved on with a knuckle. What is done, and what is being
// waited for, is kept beside the order and is there again after a reload.

import { doneIn, remaining, UNKEPT, WAIT, waitsIn } from "./bench_state.js";
import { client } from "./client.js";
import { element, parse, patch } from "./render.js";
import { recall, keep } from "./saved.js";
import { store } from "./store.js";

/** @import { OpenRecord } from "./store.js" */

/**
 * One task, as calc/page/bench_view.py writes it.
 * @typedef {{ key: string, title: string, when: string, tier: string, html: string, plan: string, part: string, measures: string, typed: string, wait: number, waits: string }} Task
 * @typedef {{ title: string, drawing: string, bags: string, tasks: Task[] }} Work
 * What the calculator does for it: what stands in the form, a name for the order under which what is done can be kept, and typing into a field.
 * @typedef {{ inputs: () => Record<string, string>, identity: () => Promise<string>, start: () => void, type: (name: string, text: string) => void }} Page
 */

const NAME = "at-the-bench";
const EVENING = "bench-evening";
const DARK = "This screen may go dark. Set it to stay on longer.";
const TICK = 1000; // ms

/** A time of day, as the tasks beside it have theirs. @param {number} time @param {boolean} isUs */
const clock = (time, isUs) => new Date(time).toLocaleTimeString(isUs ? "en-US" : "en-GB", { hour: isUs ? "numeric" : "2-digit", minute: "2-digit" });

export class Bench {
  #root;
  #page;
  /** @type {HTMLDialogElement} */ #dialog;
  /** @type {Record<string, HTMLElement>} */ #place = {};
  /** @type {Work | null} */ #work = null;
  /** @type {OpenRecord | null} */ #kept = null;
  /** @type {WakeLockSentinel | null} */ #awake = null;
  #at = 0;
  #timer = 0;
  #due = ""; // the wait that was told to be over
  #asked = 0;
  #drawn = ""; // the drawing that is shown
  #ofLoad = ""; // what was said of fetching the work, until that has come

  /** @param {HTMLElement} root @param {Page} page */
  constructor(root, page) {
    this.#root = root;
    this.#page = page;
    this.#dialog = this.#build();
    root.append(this.#dialog);
    root.addEventListener("pb-answer", () => this.#dialog.open && this.#load());
    store.addEventListener("trouble", this.#sayTrouble);
  }

  get #values() {
    return this.#kept?.values ?? {};
  }

  /** Open it over the page, where it was left. */
  async open() {
    this.#sayOfLoad("Getting the work ready.");
    const id = await this.#page.identity();
    this.#kept?.removeEventListener("followed", this.#follow);
    this.#kept = await store.beside(id, NAME);
    this.#kept.addEventListener("followed", this.#follow);
    this.#evening(recall(EVENING) === "yes");
    if (!this.#dialog.open) this.#dialog.showModal();
    this.#set({ open: "yes" }, "Opened at the bench");
    this.#keepAwake();
    clearInterval(this.#timer);
    this.#timer = window.setInterval(() => this.#showWaits(), TICK);
    await this.#load();
    if (!this.#ofLoad) this.#sayTrouble();
  }

  /** Open it again after a reload, where it was open. @param {string} id of the order */
  async resume(id) {
    const kept = await store.beside(id, NAME);
    if (kept.values.open === "yes") await this.open();
  }

  leave() {
    this.#kept?.removeEventListener("followed", this.#follow);
    store.removeEventListener("trouble", this.#sayTrouble);
    clearInterval(this.#timer);
    this.#awake?.release();
  }

  /** Say where what is done cannot be kept, and where the screen may go dark. */
  #sayTrouble = () => {
    const told = [store.trouble && UNKEPT[store.trouble], this.#dialog.dataset.awake === "no" && DARK].filter(Boolean);
    if (told.length && this.#dialog.open) this.#say(told.join(" "));
  };

  // ---- its parts -----------------------------------------------------------------------------------------------------------

  #build() {
    /** @param {string} name @param {string} tag @param {Record<string, string>} [more] */
    const part = (name, tag, more = {}) => {
      this.#place[name] = element(tag, { class: `pb-bench-${name}`, ...more });
      return this.#place[name];
    };
    /** @param {string} name @param {string} words @param {() => void} act */
    const button = (name, words, act) => {
      const made = part(name, "button", { type: "button" });
      made.append(words);
      made.addEventListener("click", act);
      return made;
    };
    const list = element("details", { class: "pb-bench-all" }, element("summary", {}, "All tasks"), part("tasks", "ol"));
    const dialog = /** @type {HTMLDialogElement} */ (
      element(
        "dialog",
        { class: "pb-bench", "aria-label": "At the bench" },
        element(
          "header",
          {},
          part("count", "p"),
          list,
          button("evening", "Evening", () => this.#evening(this.#dialog.dataset.mdColorScheme !== "slate", true)),
          button("close", "Close", () => this.#close()),
        ),
        part("waits", "div"),
        part("said", "p", { role: "status" }),
        element(
          "div",
          { class: "pb-bench-main" },
          element("div", { class: "pb-bench-seen" }, part("picture", "div"), part("plan", "div")),
          element("div", { class: "pb-bench-words" }, part("tier", "p"), part("title", "h2", { tabindex: "-1" }), part("measure", "div"), part("task", "div")),
          part("bags", "section", { "aria-label": "Left in the bags" }),
        ),
        element("footer", {}, button("back", "Back", () => this.#go(-1)), button("next", "Done, next", () => this.#finish())),
      )
    );
    this.#place.task.addEventListener("click", (event) => /** @type {Element} */ (event.target).closest(".pb-bench-untick") && this.#task && this.#untick(this.#task));
    this.#place.tasks.addEventListener("click", (event) => this.#pick(/** @type {Element} */ (event.target).closest("li")));
    dialog.addEventListener("cancel", () => this.#set({ open: "" }, "Closed at the bench"));
    dialog.addEventListener("close", () => this.#closed());
    dialog.addEventListener("keydown", (event) => event.stopPropagation()); // the order's undo would take back a step unseen; nor the theme's keys
    document.addEventListener("visibilitychange", () => dialog.open && document.visibilityState === "visible" && this.#keepAwake());
    return dialog;
  }

  #close() {
    this.#set({ open: "" }, "Closed at the bench");
    this.#dialog.close();
  }

  #closed() {
    clearInterval(this.#timer);
    this.#awake?.release();
    this.#awake = null;
    /** @type {HTMLElement | null} */ (this.#root.querySelector(".pb-at-bench"))?.focus();
  }

  /** @param {boolean} isOn @param {boolean} [isChosen] */
  #evening(isOn, isChosen = false) {
    if (isOn) this.#dialog.dataset.mdColorScheme = "slate";
    else delete this.#dialog.dataset.mdColorScheme;
    this.#place.evening.setAttribute("aria-pressed", String(isOn));
    if (isChosen) keep(EVENING, isOn ? "yes" : "no");
  }

  /** Keep the screen awake, and say where the browser cannot. */
  async #keepAwake() {
    try {
      this.#awake = await navigator.wakeLock.request("screen");
      this.#dialog.dataset.awake = "yes";
      this.#awake.addEventListener?.("release", () => this.#dialog.open && document.visibilityState === "visible" && this.#sayDark());
    } catch {
      this.#sayDark();
    }
  }

  #sayDark() {
    this.#dialog.dataset.awake = "no";
    this.#sayTrouble();
  }

  // ---- the work ------------------------------------------------------------------------------------------------------------

  /** Fetch the tasks as they are now; the newest request wins. */
  async #load() {
    this.#asked += 1;
    const asked = this.#asked;
    this.#page.start();
    try {
      const made = await client.sheet("order", this.#page.inputs(), `${NAME}:${doneIn(this.#values).join(",")}`, "A4");
      if (asked !== this.#asked) return;
      if (made instanceof Uint8Array) {
        const key = this.#task?.key ?? this.#values.at;
        this.#work = JSON.parse(new TextDecoder().decode(made));
        const tasks = this.#work?.tasks ?? [];
        const found = tasks.findIndex((task) => task.key === key);
        const done = doneIn(this.#values);
        this.#at = found >= 0 ? found : Math.max(0, tasks.findIndex((task) => !done.includes(task.key)));
        this.#sayOfLoad("");
        this.#show();
      } else {
        this.#sayOfLoad(made.problems?.[0]?.message ?? "The work could not be written. Close this and look at the order.");
      }
    } catch {
      if (asked === this.#asked) this.#sayOfLoad("The calculator did not answer. What is done is kept; what you see is from before.");
    }
  }

  get #task() {
    return this.#work?.tasks[this.#at];
  }

  /** @param {Record<string, string>} values @param {string} what */
  #set(values, what) {
    this.#kept?.change(values, what);
  }

  #follow = () => {
    if (this.#dialog.open) this.#load();
  };

  /** Go some tasks on or back. @param {number} by */
  #go(by) {
    const count = this.#work?.tasks.length ?? 0;
    this.#at = Math.min(Math.max(this.#at + by, 0), Math.max(count - 1, 0));
    this.#set({ at: this.#task?.key ?? "" }, "Moved on at the bench");
    this.#show();
    this.#place.title.focus({ preventScroll: true });
    this.#dialog.querySelector(".pb-bench-main")?.scrollTo(0, 0);
  }

  /** This task is done: tick it, begin its wait, and go on. */
  #finish() {
    const task = this.#task;
    if (!task || !this.#work) return;
    const done = doneIn(this.#values);
    if (!done.includes(task.key)) {
      const values = { done: [...done, task.key].join(",") };
      this.#set(task.wait ? { ...values, [WAIT + task.key]: String(Date.now() + task.wait * 60_000) } : values, `Done: ${task.title}`);
    }
    if (this.#at + 1 < this.#work.tasks.length) this.#go(1);
    else this.#show();
    this.#load(); // what is left in the bags
  }

  /** Take a tick back. @param {Task} task */
  #untick(task) {
    this.#set({ done: doneIn(this.#values).filter((key) => key !== task.key).join(","), [WAIT + task.key]: "" }, `Not done: ${task.title}`);
    this.#show();
    this.#load();
  }

  // ---- showing -------------------------------------------------------------------------------------------------------------

  /** @param {string} text */
  #say(text) {
    if (this.#place.said.textContent !== text) this.#place.said.textContent = text;
  }

  /** Say how fetching the work went; a word about something else stays. @param {string} text */
  #sayOfLoad(text) {
    if (text || this.#place.said.textContent === this.#ofLoad) this.#say(text);
    this.#ofLoad = text;
  }

  #show() {
    const [work, task] = [this.#work, this.#task];
    if (!work || !task) return;
    const done = doneIn(this.#values);
    const isDone = done.includes(task.key);
    const count = work.tasks.length;
    this.#place.count.textContent = `${this.#at + 1} of ${count} · ${task.when}`;
    this.#place.tier.textContent = task.tier;
    this.#place.title.textContent = task.title;
    const words = parse(task.html);
    if (isDone) words.prepend(element("p", { class: "pb-bench-done" }, "Done. ", element("button", { type: "button", class: "pb-bench-untick" }, "Not done after all")));
    patch(this.#place.task, words);
    this.#showMeasure(task);
    if (this.#drawn !== work.drawing) {
      this.#drawn = work.drawing;
      this.#place.picture.replaceChildren(parse(work.drawing));
    }
    this.#place.plan.replaceChildren(parse(task.plan));
    const later = new Set(work.tasks.slice(this.#at + 1).map((each) => each.part));
    for (const part of /** @type {NodeListOf<SVGElement>} */ (this.#place.picture.querySelectorAll('[data-part*=".rows."]'))) {
      part.dataset.turn = part.dataset.part === task.part ? "now" : later.has(part.dataset.part ?? "") ? "later" : "before";
    }
    this.#place.picture.toggleAttribute("data-piping", task.part.includes(".rows."));
    patch(this.#place.bags, parse(work.bags));
    this.#place.next.textContent = isDone ? "Next" : this.#at + 1 < count ? "Done, next" : "Done";
    /** @type {HTMLButtonElement} */ (this.#place.back).disabled = this.#at === 0;
    const tasks = document.createDocumentFragment(); // patched in: what a finger is on stays the same button
    tasks.append(...work.tasks.map((each, i) => this.#line(each, i, done.includes(each.key))));
    patch(this.#place.tasks, tasks);
    this.#showWaits();
  }

  /** One task in the list of all. @param {Task} task @param {number} at @param {boolean} isDone */
  #line(task, at, isDone) {
    const words = `${task.title}${task.tier ? `, ${task.tier}` : ""}${isDone ? ", done" : ""}`;
    return element("li", { "data-done": isDone }, element("button", { type: "button", "aria-current": at === this.#at ? "step" : null }, words));
  }

  /** Go to a task of the list. @param {Element | null} line */
  #pick(line) {
    if (!line) return;
    /** @type {HTMLDetailsElement | null} */ (this.#dialog.querySelector(".pb-bench-all"))?.removeAttribute("open");
    this.#at = [...this.#place.tasks.children].indexOf(line);
    this.#go(0);
  }

  /** What the tape says is asked where it is read; it goes into its field of the order, and everything after follows. @param {Task} task */
  #showMeasure(task) {
    const place = this.#place.measure;
    if (!task.measures) {
      place.replaceChildren();
      return;
    }
    const there = /** @type {HTMLInputElement | null} */ (place.querySelector("input"));
    if (there?.dataset.measures === task.measures) {
      if (document.activeElement !== there) there.value = task.typed;
      return;
    }
    const field = /** @type {HTMLInputElement} */ (
      element("input", { type: "text", "data-measures": task.measures, autocomplete: "off", enterkeyhint: "done", id: "pb-bench-tape" })
    );
    field.value = task.typed;
    field.addEventListener("change", () => {
      this.#page.type(task.measures, field.value);
      this.#load(); // what does not read as a length is said here, too
    });
    place.replaceChildren(element("label", { for: field.id }, "The tape says"), field);
  }

  /** What is waited for: the next that is due, in words when it is, and folded under it the others, which would push the task out of sight. */
  #showWaits() {
    const now = Date.now();
    const isUs = this.#root.dataset.units === "us";
    const waits = waitsIn(this.#values);
    const lines = waits.map(({ key, until }) => {
      const task = this.#work?.tasks.find((each) => each.key === key);
      const what = task ? `${task.title}${task.tier ? `, ${task.tier}` : ""}` : key;
      const isDue = until <= now;
      const text = isDue ? `Now: ${what}. ${task?.waits ?? ""} is over.` : `${task?.waits ?? "Wait"} until ${clock(until, isUs)}, ${remaining(until - now)} left: ${what}`;
      const line = element("p", { "data-due": isDue }, text);
      if (isDue) {
        const seen = element("button", { type: "button", "data-key": key }, "Seen");
        line.append(" ", seen);
      }
      return line;
    });
    const first = lines[0]?.firstChild?.textContent ?? ""; // before they go into the page
    const fresh = document.createDocumentFragment();
    fresh.append(...lines.slice(0, 1));
    if (lines.length > 1) fresh.append(element("details", { class: "pb-bench-more" }, element("summary", {}, `${lines.length - 1} more to wait for`), ...lines.slice(1)));
    patch(this.#place.waits, fresh);
    for (const seen of /** @type {NodeListOf<HTMLButtonElement>} */ (this.#place.waits.querySelectorAll("button"))) {
      seen.onclick = () => {
        this.#set({ [WAIT + (seen.dataset.key ?? "")]: "" }, "Seen at the bench");
        this.#showWaits();
      };
    }
    const due = waits.filter(({ until }) => until <= now).map(({ key }) => key).join();
    if (due !== this.#due) {
      this.#due = due;
      if (due) this.#say(first);
    }
  }
}
