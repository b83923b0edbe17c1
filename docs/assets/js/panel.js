// One calculator on a page: what is typed goes to Python, what Python says is shown. The newest text wins; nothing queues.

import { Bench } from "./bench.js";
import { followChoice } from "./choices.js";
import { client, NoAnswer } from "./client.js";
import { LaterDrawings, mainDrawingLeft, shownDrawings, withKnown } from "./drawing_later.js";
import { emptyLines, showLines, takeChoice, updateDerived } from "./derived.js";
import { focusField, pressEnter } from "./flow.js";
import { controls, fillForm, nameOf, pressGroupButton, readExample, readForm, renumber, showCures, showProblems, showSummary, withPress } from "./form.js";
import { Keeping } from "./keeping.js";
import { Looks } from "./looks.js";
import { closePicker, leavePicker, pressPicker, steerPicker } from "./picker.js";
import { watchPlaces } from "./places.js";
import { afterPress, pressOver } from "./pressed.js";
import { linkCustomer } from "./quotation_link.js";
import { element, knownDrawings, plainText, showAnswer, showDrawing } from "./render.js";
import { adviceOn } from "./renewed.js";
import { changesOf, figuresIn, problemsInWords } from "./said.js";
import { handOver, keep, recall } from "./saved.js";
import { Shop } from "./shop.js";
import { CHOSEN } from "./units.js";
import { UseCake } from "./use_cake.js";

/** @import { Build, Place, Problem, ShownAnswer } from "./protocol.js" */

const HALF_TYPED = 700; // ms; a problem with the field being typed in is said after this pause, or when the field is left
const SAID_AFTER = 900; // ms; the answer is read out after this pause
const REHEARSALS = 90; // cakes cut before anybody asks: all that Python does often is in that; small ones, because the first key may have to wait for one
const TRY_AGAIN = 5000; // ms; after a failed start the next touch tries again, but not at once

/** @type {Record<string, string>} */
const WORDS = {
  starting: "Starting the calculator. You can type already.",
  failed: "The calculator did not start, so the answer below is the page’s example. What you typed is kept.",
  cannot: "The calculators do not run here, so the answer below is the page’s example. Pages, tables and worked examples work as usual.",
  broken: "The calculator did not finish this and was ended. What you typed is kept; the answer below is from before. Change something, or press Work it out to try again.",
  stale: "This answer is out of date.",
};

let rehearsed = 0; // the start of Python for which it was done

export class Panel {
  /** @type {HTMLElement} */ #root;
  /** @type {HTMLFieldSetElement} */ #form;
  /** @type {HTMLElement} */ #answerPlace;
  /** @type {HTMLElement} */ #summary;
  /** @type {HTMLElement} */ #status;
  /** @type {Build} */ #build;
  #slug;
  /** @type {string} */ #builtUnits;
  /** @type {Record<string, Record<string, string>>} the page's example by units, read while the form stands as it was built */ #examples;
  #answerUnits; // those of the answer on the page
  /** @type {Keeping} */ #keeping;
  #begun = Promise.resolve(); // until what was kept is in the form
  /** @type {Bench | null} */ #bench = null;
  /** @type {Shop | null} */ #shop = null;
  /** @type {Looks | null} */ #looks = null;
  /** @type {UseCake} */ #cake;
  /** @type {Place} */ #place; // of the answer
  /** @type {ShownAnswer | null} */ #last = null; // the answer shown
  /** @type {Record<string, string> | null} */ #accepted = null; // what it was worked out from
  /** @type {Problem[]} */ #problems = [];
  /** @type {Record<string, string> | null} */ #lines = null; // of that answer, or of the problems in its place
  #asked = ""; // the texts that the answer on the page belongs to
  #isQuiet = false; // the answer is not read out
  #broken = ""; // the texts over which the calculation broke off; they are not asked again unless the reader wants it
  #done = ""; // what a press did, until the answer to it is said
  /** @type {Element | null} where the words stood that were pressed last, until the answer to them */ #pressed = null;
  /** @type {Map<string, string> | null} the figures when the answer was last read out */ #heard = null;
  #wasWrong = false; // something was to be put right in what was answered last
  #isTold = false; // something the reader did is being answered in the status line
  #busy = false;
  #again = false;
  #wantsSummary = false;
  #later = new LaterDrawings();
  #problemTimer = 0;
  #sayTimer = 0;
  #failedAt = 0;
  #unwatch;

  /** @param {HTMLElement} root */
  constructor(root) {
    const find = (/** @type {string} */ selector) => /** @type {HTMLElement} */ (root.querySelector(selector));
    this.#root = root;
    this.#place = { level: Number(root.dataset.level ?? 4), id: root.id };
    this.#form = /** @type {HTMLFieldSetElement} */ (root.querySelector(".pb-form"));
    this.#answerPlace = find(".pb-answer");
    this.#summary = find(".pb-summary");
    this.#status = find(".pb-tools > .pb-status");
    this.#slug = root.dataset.calculator ?? "";
    this.#build = JSON.parse(root.dataset.build ?? "{}");
    this.#form.disabled = false;
    document.documentElement.dataset.forms = "open";
    this.#builtUnits = this.#units();
    this.#answerUnits = this.#builtUnits;
    this.#examples = { metric: readExample(this.#form, "metric"), us: readExample(this.#form, "us") };
    this.#asked = JSON.stringify({ ...this.#examples.metric, units: this.#builtUnits });
    renumber(this.#form);
    const units = recall("units");
    this.#setUnits(units === "metric" || units === "us" ? units : this.#builtUnits);
    if (this.#units() !== this.#builtUnits) fillForm(this.#form, this.#examples[this.#units()]);
    this.#showPaper();
    this.#keeping = new Keeping(root, this.#form, (units) => ({ ...this.#examples[units] }), {
      say: (text) => this.#tell(text),
      did: (text) => {
        this.#tell(text);
        this.#done = text;
      },
      refresh: (changed) => this.#refresh(changed),
      opened: () => {
        this.#onState();
        if (this.#keeping.id) this.#bench?.resume(this.#keeping.id);
        if (this.#keeping.id) this.#shop?.resume(this.#keeping.id);
      },
      start: () => this.start(),
      units: () => this.#units(),
      setUnits: (units) => {
        this.#setUnits(units);
        this.#changed();
      },
      showProblems: (problems, summary) => {
        this.#problems = problems;
        if (summary) this.#showErrorSummary();
        else this.#showProblemsNow();
      },
      fail: (message, details) => this.#fail(message, details),
    });
    if (root.querySelector(".pb-at-bench")) {
      const page = {
        inputs: () => this.#inputs(),
        identity: () => this.#begun.then(() => this.#keeping.identity()), // pressed sooner, it would keep what is done beside no order
        start: () => this.start(),
        paper: () => this.#paper(),
        type: (/** @type {string} */ name, /** @type {string} */ text) => this.#type(name, text),
      };
      this.#bench = new Bench(root, page);
      this.#shop = new Shop(root, page);
    }
    if (root.querySelector(".pb-begin-look")) {
      this.#looks = new Looks(root, this.#form, { start: () => this.start(), units: () => this.#units(), take: (button) => this.#take(button) });
    }
    this.#cake = new UseCake(root, { start: () => this.start(), units: () => this.#units(), say: (text) => this.#tell(text) });
    this.#listen();
    this.#unwatch = watchPlaces(root);
    client.addEventListener("state", this.#onState);
    root.dataset.live = ""; // last: what fails before leaves the form shut, with the reason beside it
    this.#onState();
    this.#begun = this.#keeping.begin();
  }

  get isOnPage() {
    return this.#root.isConnected;
  }

  /** Start Python, if it does not run. */
  start() {
    if (client.state === "failed" && performance.now() - this.#failedAt < TRY_AGAIN) return;
    client.start(this.#build);
  }

  /** Stop listening: the page was swapped for another. */
  leave() {
    client.removeEventListener("state", this.#onState);
    removeEventListener(CHOSEN, this.#onChosen);
    this.#keeping.leave();
    this.#bench?.leave();
    this.#shop?.leave();
    this.#later.stop();
    this.#looks?.leave();
    this.#unwatch();
  }

  // ---- listening ---------------------------------------------------------------------------------------------------------

  #listen() {
    const form = this.#form;
    for (const kind of ["input", "change"]) {
      form.addEventListener(kind, (event) => {
        takeChoice(event.target);
        const told = kind === "change" ? this.#done : ""; // of the same choice, which is an input and then a change
        const done = followChoice(form, event.target) || told;
        if (client.state !== "ready") emptyLines(event.target);
        this.#typed(event.target);
        this.#done = done;
      });
    }
    form.addEventListener("keydown", (event) => {
      if (steerPicker(form, event) || pressEnter(form, event, () => this.#workOut(), (field) => this.#isWrong(field))) event.preventDefault();
    });
    form.addEventListener("focusin", () => this.start());
    form.addEventListener("focusout", () => afterPress(() => this.#showProblemsNow())); // a press elsewhere takes the focus before it ends
    this.#root.addEventListener("pointerdown", () => this.start());
    this.#root.addEventListener("click", (event) => {
      const target = /** @type {Element} */ (event.target);
      const button = /** @type {HTMLElement | null} */ (target.closest("button"));
      if (button) this.#press(button);
      else leavePicker(form, target);
      const link = target.closest(".pb-summary a");
      const field = document.getElementById((link?.getAttribute("href") ?? "#").slice(1));
      if (field || target.closest(".pb-jump-wrong")) {
        event.preventDefault();
        event.stopPropagation(); // the theme would go to the link all the same
        if (field) focusField(field);
        else this.#showErrorSummary();
      }
      if (target.matches(".pb-when")) this.#openPicker(target);
    });
    this.#root.querySelector(".pb-units")?.addEventListener("change", () => {
      keep("units", this.#units());
      this.#offerLetter();
      dispatchEvent(new CustomEvent(CHOSEN));
    });
    addEventListener(CHOSEN, this.#onChosen);
    this.#root.querySelector(".pb-paper")?.addEventListener("change", (event) => {
      keep("paper", /** @type {HTMLSelectElement} */ (event.target).value);
      dispatchEvent(new CustomEvent(CHOSEN));
    });
  }

  /** @param {HTMLElement} button */
  #press(button) {
    const picked = pressPicker(this.#form, button);
    if (picked !== null) {
      this.#done ||= picked;
      return;
    }
    closePicker(this.#form);
    const done = pressGroupButton(this.#form, button);
    if (done !== null) {
      this.#typed(button);
      this.#done = done;
    } else if (button.matches(".pb-submit")) this.#workOut();
    else if (button.matches(".pb-reload")) location.reload();
    else if (button.matches(".pb-copy-details")) navigator.clipboard?.writeText(this.#root.querySelector(".pb-failure pre")?.textContent ?? "");
    else if (this.#keeping.press(button)) return;
    else if (button.matches(".pb-print")) print();
    else if (button.matches(".pb-to-shop")) this.#shop?.open();
    else if (button.matches(".pb-customer-link")) this.#linkCustomer(button);
    else if (button.matches(".pb-copy-text")) this.#copyText(button);
    else if (button.matches(".pb-use-cake")) this.#cake.press(button);
    else if (button.matches(".pb-press")) this.#take(button);
    else if (button.matches(".pb-at-bench")) this.#bench?.open();
    else if (button.matches(".pb-sheet")) this.#make(button, button.dataset.sheet ?? "");
    else if (button.dataset.file) this.#make(button, button.dataset.file);
  }

  /** Type into a field from elsewhere on the page. @param {string} name @param {string} text */
  #type(name, text) {
    const control = controls(this.#form).find((each) => nameOf(each) === name);
    if (!control || control.value === text) return;
    control.value = text;
    control.dispatchEvent(new Event("input", { bubbles: true }));
  }

  /** Set what the words of an answer offer, as one step; what was done is said with the answer to it. @param {HTMLElement} button */
  #take(button) {
    fillForm(this.#form, withPress(readForm(this.#form), button));
    this.#typed(button);
    this.#cake.close();
    this.#done = button.dataset.done ?? "";
    this.#pressed = button.closest(".pb-table, .pb-section") ?? button.closest(".pb-group")?.querySelector("summary") ?? null;
  }

  /** What was pressed may be gone with the answer to it: the focus stays where it stood. */
  #keepFocus() {
    if (document.activeElement === document.body && this.#pressed instanceof HTMLElement) this.#pressed.focus({ preventScroll: true });
    this.#pressed = null;
  }

  // ---- units -------------------------------------------------------------------------------------------------------------

  #units() {
    const chosen = /** @type {HTMLInputElement | null} */ (this.#root.querySelector(".pb-units input:checked"));
    return chosen?.value ?? "metric";
  }

  /** @param {string} units */
  #setUnits(units) {
    const radio = /** @type {HTMLInputElement | null} */ (this.#root.querySelector(`.pb-units input[value="${units}"]`));
    if (!radio) return;
    radio.checked = true;
    this.#root.dataset.units = units;
  }

  /** The reader chose other units, here or elsewhere: what was typed keeps its meaning. @param {string} units */
  #switchUnits(units) {
    const before = this.#root.dataset.units ?? this.#builtUnits;
    this.#setUnits(units);
    if (units !== before) this.#keeping.switched(before);
  }

  /** The paper that the reader chose; until they do, the one usual where their units are. */
  #paper() {
    return recall("paper") ?? (this.#units() === "us" ? "Letter" : "A4");
  }

  #showPaper() {
    const select = /** @type {HTMLSelectElement | null} */ (this.#root.querySelector(".pb-paper"));
    if (select) select.value = this.#paper();
  }

  #onChosen = () => {
    this.#switchUnits(recall("units") ?? this.#builtUnits);
    this.#showPaper();
    this.#changed();
  };

  /** Whoever chooses US units prints on Letter, unless they have chosen a paper themselves; it is said once. */
  #offerLetter() {
    if (this.#units() !== "us" || recall("paper") !== null || !this.#root.querySelector(".pb-paper")) return;
    keep("paper", "Letter");
    this.#tell("Sheets are drawn on Letter from now on. If you print on A4, choose it under Paper.");
  }

  // ---- asking ------------------------------------------------------------------------------------------------------------

  #inputs() {
    return { ...readForm(this.#form), units: this.#units() };
  }

  /** @param {EventTarget | null} source the field or button of a change */
  #typed(source) {
    this.#isTold = false;
    this.#done = "";
    this.start();
    const typed = readForm(this.#form);
    this.#changed({ ...typed, units: this.#units() }); // first of all, so that Python works while the rest is done here
    this.#keeping.typed({ ...typed, units: this.#units() }, source);
    updateDerived(this.#form);
  }

  /** The form was filled again. @param {Element[]} changed the controls that say something else now */
  #refresh(changed) {
    this.#isTold = false;
    this.#looks?.forget();
    this.#done = "";
    for (const control of changed) emptyLines(control); // until Python says what holds now
    if (this.#keeping.isOpen) this.start();
    this.#changed();
  }

  /** The reader asks for the answer: what is to be put right is said at once. */
  #workOut() {
    this.#wantsSummary = true;
    this.#broken = "";
    this.#changed();
  }

  /**
   * Whether something is to be put right in a field; it is said at once. Of what was typed since the last answer nothing is known yet: who types
   * quickly is not held up.
   * @param {HTMLElement} field
   */
  #isWrong(field) {
    if (JSON.stringify(this.#inputs()) !== this.#asked) return false;
    const name = /** @type {HTMLElement | null} */ (field.closest(".pb-field"))?.dataset.input;
    if (!this.#problems.some((problem) => problem.input === name)) return false;
    this.#showProblemsNow();
    return true;
  }

  /** Ask for an answer to what stands in the form, unless it is there already. */
  #changed(inputs = this.#inputs()) {
    const texts = JSON.stringify(inputs);
    const isOld = texts !== this.#asked;
    if (!isOld && this.#lines) showLines(this.#form, this.#lines);
    this.#root.toggleAttribute("data-unanswered", isOld);
    if (this.#busy) {
      this.#again = true;
      if (isOld && this.#root.dataset.state === "ready") this.#state("busy");
      return;
    }
    if (client.state === "failed") this.#markStale(!this.#holds(texts));
    else if (!isOld && !this.#problems.length) this.#markStale(false);
    if (client.state !== "ready" || !this.#keeping.isOpen) return;
    if (isOld && texts !== this.#broken) this.#ask(inputs);
    else this.#state("ready");
    if (!isOld && this.#wantsSummary) this.#showErrorSummary();
  }

  /**
   * @param {Record<string, string>} inputs
   * @param {boolean} [quietly] the answer is on the page already, so that nothing is seen to happen
   * @param {boolean} [whole] with all its drawings at once
   */
  async #ask(inputs, quietly = false, whole = false) {
    this.#later.stop();
    this.#isQuiet = quietly;
    this.#busy = true;
    this.#again = false;
    if (!quietly) this.#state("busy");
    try {
      const later = whole ? [] : shownDrawings(this.#root);
      const known = knownDrawings(this.#root);
      const shown = Object.fromEntries([...known].map(([name, { key }]) => [name, key]));
      const answer = withKnown(await client.compute(this.#slug, inputs, { ...this.#place, later, shown }), known);
      await pressOver();
      this.#asked = JSON.stringify(inputs);
      this.#lines = answer.bug ? null : answer.lines;
      this.#root.removeAttribute("data-unanswered");
      this.#drawLater(answer, inputs); // first, so that Python draws while the words are shown
      this.#show(answer);
    } catch (error) {
      this.#asked = "";
      this.#lines = null;
      this.#broken = JSON.stringify(inputs);
      this.#failOf(client.state === "failed" ? this.#whyFailed() : WORDS.broken, error);
    } finally {
      this.#busy = false;
      if (this.#root.dataset.state === "busy" && !this.#again) this.#state(client.state === "ready" ? "ready" : "starting");
    }
    if (this.#again) this.#changed();
    else if (this.#wantsSummary) this.#showErrorSummary();
  }

  /**
   * Have the drawings made that an answer came without: the main one now, the others when the reader pauses. `data-undrawn` says that some are
   * from before, `data-old-picture` that the main one is.
   * @param {ShownAnswer} answer @param {Record<string, string>} inputs
   */
  #drawLater(answer, inputs) {
    if (!answer.bug && answer.problems.length && this.#last && this.#accepted) {
      answer = this.#last; // its words stay on the page, and its drawings are to fit them
      inputs = this.#accepted;
    }
    this.#later.stop();
    const isUndrawn = !answer.bug && !answer.problems.length && answer.drawings.includes(null);
    this.#root.toggleAttribute("data-undrawn", isUndrawn);
    const main = isUndrawn ? mainDrawingLeft(answer)?.[0] : undefined;
    this.#root.toggleAttribute("data-old-picture", main !== undefined);
    if (!isUndrawn) return;
    const draw = async (/** @type {string} */ name) => {
      const svg = await client.drawing(this.#slug, inputs, this.#place, name);
      await pressOver();
      return svg;
    };
    this.#later.begin(answer, draw, {
      drawn: (name, svg) => {
        if (this.#last !== answer) return;
        showDrawing(this.#root, name, svg);
        if (name !== main) return;
        this.#root.removeAttribute("data-old-picture");
        this.#root.dispatchEvent(new CustomEvent("pb-picture"));
      },
      done: () => {
        if (this.#last !== answer) return;
        this.#root.removeAttribute("data-undrawn");
        this.#root.dispatchEvent(new CustomEvent("pb-drawn"));
      },
      broken: () => {
        if (!this.#busy && !this.#problems.length && this.isOnPage) this.#ask(inputs, true, true); // which says what is wrong
      },
    });
  }

  /**
   * Answer the same in the other units, once, while nothing else is to be done, and render it into an off-screen clone; then, once for each
   * start of Python, work out some more. Browsers make quick what has run often, and a first edit would wait for that. It ends as soon as the
   * reader asks something.
   */
  #rehearse = async () => {
    const shown = this.#last;
    const isOver = () => this.#busy || !shown || this.#last !== shown || client.state !== "ready" || !this.isOnPage;
    try {
      await idle();
      if (isOver() || !shown) return;
      // so long an answer as one in sections would keep the page from what its reader does meanwhile
      if (!this.#answerPlace.querySelector(".pb-section")) {
        const other = await client.compute(this.#slug, { ...this.#inputs(), units: this.#units() === "us" ? "metric" : "us" }, this.#place);
        if (isOver() || other.bug || other.problems.length) return;
        const copy = /** @type {HTMLElement} */ (this.#answerPlace.cloneNode(true));
        for (const answer of [shown, other, shown]) showAnswer(copy, answer);
      }
      if (rehearsed === client.starts) return;
      rehearsed = client.starts;
      for (let i = 1; i <= REHEARSALS; i += 1) {
        await idle();
        if (isOver()) return;
        await client.compute("portions", { shape: i % 2 ? "petal" : "heart", width: `${80 + i / 4} mm` });
      }
    } catch {
      // what is asked next says what is wrong
    }
  };

  #onState = () => {
    if (!this.isOnPage) return;
    if (client.state === "starting") {
      this.#state("starting");
      this.#mention(WORDS.starting);
    } else if (client.state === "ready" && !this.#keeping.isOpen) {
      this.#state("starting"); // what was kept is not in the form yet
    } else if (client.state === "ready") {
      this.#state("ready");
      if (this.#status.textContent === WORDS.starting) this.#mention("");
      this.#changed();
      if (!this.#busy && !this.#last && !this.#broken) this.#ask(this.#inputs(), true).then(this.#rehearse); // what is typed next is then answered sooner
    } else if (client.state === "failed") {
      this.#state("failed");
      this.#lines = null;
      showLines(this.#form, {}); // nothing keeps them up to date
      this.#failOf(this.#whyFailed(), new NoAnswer(client.why, client.lacks));
    }
  };

  #whyFailed() {
    return client.cannot ? `${client.why}. ${WORDS.cannot}` : WORDS.failed;
  }

  /** @param {"starting" | "ready" | "busy" | "failed"} state */
  #state(state) {
    // over what did not come to an end there is no answer, so it is not ready
    const isBroken = state === "ready" && this.#broken !== "" && this.#broken === JSON.stringify(this.#inputs());
    this.#root.dataset.state = isBroken ? "failed" : state;
    if (client.way) this.#root.dataset.way = client.way;
    if (client.way === "plain") this.#root.dataset.why = client.why;
  }

  /** The answer is from before what stands in the form, or belongs to it again. @param {boolean} isStale */
  #markStale(isStale) {
    for (const place of [this.#root, this.#answerPlace]) place.toggleAttribute("data-stale", isStale);
  }

  /** Whether the answer on the page, its example until there was another, is that to what stands in the form. @param {string} [texts] */
  #holds(texts = JSON.stringify(this.#inputs())) {
    return texts === JSON.stringify(this.#accepted ?? { ...this.#examples[this.#builtUnits], units: this.#builtUnits });
  }

  // ---- showing -----------------------------------------------------------------------------------------------------------

  /** @param {ShownAnswer} answer */
  #show(answer) {
    if (answer.bug) {
      this.#fail(`This calculator met a fault of its own (${answer.bug.kind}). What you typed is kept; the other calculators still work.`, answer.bug.details);
      return;
    }
    this.#root.querySelector(".pb-failure")?.remove();
    if (!this.#again) showLines(this.#form, answer.lines); // else the form has changed since
    this.#problems = answer.problems;
    clearTimeout(this.#problemTimer);
    if (answer.problems.length) {
      this.#wasWrong = true;
      this.#markStale(true);
      const focused = document.activeElement?.closest(".pb-field");
      const typing = focused && this.#form.contains(focused) && !this.#wantsSummary;
      if (this.#answerUnits !== this.#units()) this.#answerExample();
      if (typing) this.#problemTimer = setTimeout(() => afterPress(() => this.#showProblemsNow()), HALF_TYPED);
      else this.#showProblemsNow();
      return;
    }
    this.#answerUnits = this.#units();
    this.#accepted = JSON.parse(this.#asked);
    const isNew = !this.#isQuiet && answer.html !== this.#last?.html;
    this.#last = answer;
    this.#heard ??= figuresIn(this.#answerPlace);
    if (this.#wasWrong) this.#done ||= "That is put right.";
    this.#wasWrong = false;
    this.#markStale(false);
    this.#showProblemsNow();
    showAnswer(this.#answerPlace, answer, this.#root.querySelector(".pb-stage-view"));
    showCures(this.#form, answer.cures);
    this.#keepFocus();
    if (isNew || this.#done) this.#sayAnswer();
    this.#root.dispatchEvent(new CustomEvent("pb-answer", { bubbles: true, detail: { calculator: this.#slug } }));
  }

  /**
   * Something is to be put right and the answer below is in the other units: show that answer, or the page's example, in the reader's units. The
   * answer stays marked as one from before.
   */
  async #answerExample() {
    const units = this.#units();
    this.#answerUnits = units;
    try {
      const before = this.#accepted && this.#accepted.units === units ? this.#accepted : this.#examples[units];
      const answer = await client.compute(this.#slug, { ...before, units }, this.#place);
      if (answer.bug || answer.problems.length || this.#units() !== units || !this.#problems.length) return;
      this.#last = answer;
      this.#drawLater(answer, {}); // all its drawings are there
      showAnswer(this.#answerPlace, answer, this.#root.querySelector(".pb-stage-view"));
      this.#root.dispatchEvent(new CustomEvent("pb-picture"));
    } catch {
      // what is asked next says what is wrong
    }
  }

  #showProblemsNow() {
    clearTimeout(this.#problemTimer);
    const others = showProblems(this.#form, this.#problems);
    const wrong = /** @type {HTMLElement | null} */ (this.#root.querySelector(".pb-jump-wrong"));
    if (wrong) {
      wrong.hidden = !this.#problems.length;
      const text = `${this.#problems.length} to put right`;
      if (wrong.textContent !== text) wrong.textContent = text;
    }
    if (this.#problems.length) {
      if (!this.#summary.hidden || others.length) showSummary(this.#summary, this.#form, this.#problems);
      this.#mention([this.#done, problemsInWords(this.#form, this.#problems), WORDS.stale].filter(Boolean).join(" "));
      this.#done = "";
    } else {
      this.#summary.hidden = true;
      if (this.#status.textContent?.endsWith(WORDS.stale)) this.#mention("");
    }
  }

  /** The reader pressed Enter: say at once, and in one place, what is to be put right. */
  #showErrorSummary() {
    if (client.state !== "ready") return;
    this.#wantsSummary = false;
    this.#showProblemsNow();
    showSummary(this.#summary, this.#form, this.#problems);
    if (this.#problems.length) this.#summary.focus();
  }

  /** Say what was done and which figures it changed. */
  #sayAnswer() {
    clearTimeout(this.#sayTimer);
    this.#sayTimer = setTimeout(() => {
      const now = figuresIn(this.#answerPlace);
      const text = [this.#done, changesOf(this.#heard ?? now, now)].filter(Boolean).join(" ");
      this.#heard = now;
      if (this.#done && this.#status.textContent === this.#done) this.#tell(text); // it stands there already
      else this.#mention(text);
      this.#done = "";
    }, SAID_AFTER);
  }

  /** Say what came of something the reader did; it stands until they do something else. @param {string} text */
  #tell(text) {
    this.#isTold = text !== "";
    delete this.#status.dataset.quiet;
    clearTimeout(this.#sayTimer);
    if (this.#status.textContent !== text) this.#status.textContent = text;
  }

  /** Say how things stand, unless something weightier is being said. @param {string} text */
  #mention(text) {
    if (this.#isTold) return;
    this.#tell(text);
    this.#isTold = false;
    this.#status.dataset.quiet = ""; // read out; whoever sees the page sees it anyway
  }

  /**
   * Say what failed, and what helps where a file could not be fetched.
   * @param {string} message @param {unknown} error
   */
  async #failOf(message, error) {
    const failure = this.#fail(message, String(error));
    if (client.cannot) return;
    const advice = await adviceOn(error instanceof NoAnswer ? error.lacks : undefined);
    const first = failure.querySelector("p");
    if (!advice || !first || first.textContent !== message) return;
    first.after(element("p", {}, advice.text));
    if (advice.reload) failure.append(element("button", { type: "button", class: "pb-reload" }, "Load the page again"));
  }

  /** @param {string} message @param {string} details */
  #fail(message, details) {
    this.#failedAt = performance.now();
    this.#markStale(!this.#holds());
    let failure = this.#root.querySelector(".pb-failure");
    if (!failure) {
      failure = element("div", { class: "pb-failure", role: "alert" });
      this.#form.before(failure);
    }
    const text = `${this.#slug}\n${JSON.stringify(this.#inputs())}\n${details}`;
    failure.replaceChildren(
      element("p", {}, message),
      element("details", {}, element("summary", {}, "Details to copy"), element("pre", { tabindex: "0" }, text)),
      element("button", { type: "button", class: "pb-copy pb-copy-details" }, "Copy the details"),
    );
    this.#tell("");
    return failure;
  }

  // ---- taking it out ---------------------------------------------------------------------------------------------------------

  /** Copy the tables of the button's section as plain text. @param {HTMLElement} button */
  async #copyText(button) {
    const section = button.closest(".pb-section");
    try {
      await navigator.clipboard.writeText(section ? plainText(section, (button.dataset.copies ?? "").split(" ")) : "");
      this.#tell("The list is copied.");
    } catch {
      this.#tell("This browser does not let the page copy: select the list and copy it by hand.");
    }
  }

  /** @param {Element} picker */
  #openPicker(picker) {
    try {
      if (picker instanceof HTMLInputElement) picker.showPicker();
    } catch {
      // the browser opens it by itself, or has none: the day can be typed
    }
  }

  /** Make a link for the customer. @param {HTMLElement} button */
  #linkCustomer(button) {
    linkCustomer(button, {
      start: () => this.start(),
      inputs: () => this.#inputs(),
      say: (text) => this.#tell(text),
      problems: (problems) => {
        this.#problems = problems;
        this.#showProblemsNow();
      },
    });
  }

  /** Make a sheet, or a file to keep, and hand it over. @param {HTMLElement} button @param {string} name */
  async #make(button, name) {
    const type = button.dataset.type; // a file says what it is; sheets are all of one kind
    const failed = type ? "The file could not be written." : "The sheet could not be drawn.";
    this.start();
    this.#tell(type ? "Writing the file." : "Drawing the sheet.");
    try {
      const made = await client.sheet(this.#slug, this.#inputs(), name, this.#paper());
      if (made instanceof Uint8Array) {
        const saved = button.dataset.saved ?? (type ? name : `${this.#slug}-${name}.pdf`);
        handOver(saved, made, type ?? "application/pdf");
        this.#tell(`${saved} is saved.${type ? "" : " Print it at full size."}`);
      } else if (made.bug) {
        this.#fail(`${failed} The answer above still stands.`, made.bug.details);
      } else {
        this.#tell(made.problems?.[0]?.message ?? failed);
      }
    } catch (error) {
      this.#failOf(failed, error);
    }
  }
}

/** When the browser has nothing else to do. @returns {Promise<void>} */
function idle() {
  return new Promise((done) => (window.requestIdleCallback ?? setTimeout)(() => done())); // WebKit has no such callback
}

/** Whether a form has anything in it to compute from. @param {HTMLElement} root */
export function isCalculator(root) {
  const form = root.querySelector(".pb-form");
  return form instanceof HTMLFieldSetElement && controls(form).length > 0;
}
