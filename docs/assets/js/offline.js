// "Save for offline use": brings every file of the handbook onto the device, all or none, and keeps it up to date. The files and their
// hashes stand in offline.json; each is checked before it is kept. A build is saved in a cache of its own; only when it is whole do
// pages come from it, and an older one goes when no page runs on it any more. sw.js answers from what is saved.

import { fetchChecked, parseList, typeOf } from "./offline_files.js";
import { HEAD, NEWER, NO_CHANNEL, Stopped, describeGone, describeHost, describeState, describeStop, isFull } from "./offline_words.js";
import { element } from "./render.js";
import { forget, keep, recall } from "./saved.js";
import { onEachChange } from "./theme.js";

/** @import { Line, List, OfflineState, Saved } from "./offline_words.js" */

const BASE = new URL("../../", import.meta.url).href;
const PREFIX = `piping-bench:${new URL(BASE).pathname}:`;
const STATE = `${PREFIX}state`;
const LIST = `${BASE}offline.json`;
const SWITCH = "offline"; // what the reader chose, kept on the device: "off" or nothing
const AT_ONCE = 4; // files
const LONGEST_START = 15_000; // ms; of the service worker
const CALM = 5000; // ms after loading before anything is saved unasked
const LOOK_AGAIN = 10 * 60_000; // ms between looks for a newer build
const CHECK_AGAIN = 24 * 60 * 60_000; // ms between two looks at the size of each saved file

const buildOfPage = () => document.querySelector('meta[name="pb-build"]')?.getAttribute("content") ?? "";
const CODE = buildOfPage(); // of the scripts that run here

class Offline {
  /** @type {OfflineState} */ #state = "checking";
  /** @type {Saved | null} */ #saved = null;
  /** @type {List | null} */ #list = null;
  #done = 0; // bytes of the build that is being saved
  #why = "";
  #lastLook = -Infinity;
  /** @type {string | undefined} The code of the build that was saved when this page was loaded. */ #savedAtFirst;
  #lastProgress = 0;
  /** @type {AbortController | null} */ #stop = null;
  /** @type {BroadcastChannel | null} */ #otherTabs = null;
  /** @type {string[]} What the saved copy lacks, though it should be there. */ #gone = [];
  #otherwise = ""; // how the host answered, where the saved copy had to stand in for it

  async begin() {
    const lacks = missing();
    if (lacks) {
      this.#say("impossible", lacks);
      return;
    }
    this.#otherTabs = channel();
    if (this.#otherTabs) this.#otherTabs.onmessage = () => this.#refresh();
    this.#hearWorker();
    navigator.locks.request(`${PREFIX}code:${CODE}`, { mode: "shared" }, () => new Promise(() => {})); // for as long as the page lives
    addEventListener("online", () => this.#resume());
    document.addEventListener("visibilitychange", () => this.#look());
    await this.#refresh();
    setTimeout(() => this.#calm(), CALM);
  }

  /** Something that no browser should do. @param {unknown} error */
  giveUp(error) {
    this.#say("impossible", `This browser does not let the handbook save itself (${error}). The handbook works here as long as there is a network.`);
  }

  /** What the control shows. */
  get shown() {
    const tellsTabs = this.#otherTabs !== null;
    return { state: this.#state, saved: this.#saved, list: this.#list, done: this.#done, why: this.#why, otherwise: this.#otherwise, tellsTabs };
  }

  /** Let the service worker tell how the host answers. */
  #hearWorker() {
    navigator.serviceWorker.addEventListener("message", (event) => {
      if (event.data?.kind !== "otherwise" || event.data.how === this.#otherwise) return;
      this.#otherwise = event.data.how;
      this.#show();
    });
    navigator.serviceWorker.startMessages();
    navigator.serviceWorker.controller?.postMessage("how");
  }

  /** The reader asks for it. */
  async save() {
    forget(SWITCH);
    navigator.storage?.persist?.().catch(() => false);
    await this.#update();
  }

  /** Break off; what came so far is kept for the next try. */
  pause() {
    keep(SWITCH, "off");
    this.#stop?.abort();
  }

  /** Take everything off the device, but nothing that the reader made. */
  async remove() {
    keep(SWITCH, "off");
    this.#stop?.abort();
    for (const name of await caches.keys()) if (name.startsWith(PREFIX)) await caches.delete(name);
    await this.#tellWorker();
    const registration = await navigator.serviceWorker.getRegistration(BASE);
    if (registration?.scope === BASE) await registration.unregister();
    this.#saved = null;
    this.#gone = [];
    this.#say("unsaved");
    this.#otherTabs?.postMessage("changed");
  }

  /** The theme swapped the page for another: one of a newer build must not run on the scripts of this one. */
  pageChanged() {
    if (buildOfPage() !== CODE) location.reload();
    else this.#look();
  }

  /** The reader looks: say how much there is to fetch, or whether all of it is still there. */
  async opened() {
    if (this.#state === "saved" || this.#state === "newer") await this.#check(true);
    if (this.#state !== "unsaved" || this.#list) return;
    this.#list = await readList().catch(() => null);
    this.#show();
  }

  // ---- looking -------------------------------------------------------------------------------------------------------------

  /** Read what is saved. */
  async #refresh() {
    try {
      this.#saved = await readState();
    } catch (error) {
      if (error instanceof Damaged) {
        this.#saved = null;
        if (!this.#stop) this.#say("damaged", "What this browser noted of the saved copy cannot be read, so no page comes from it. Mend it: what is still there is used again.");
        return;
      }
      this.#say("impossible", "This window keeps nothing: it may be a private one. The handbook works here as long as there is a network.");
      return;
    }
    this.#savedAtFirst ??= this.#saved?.code ?? "";
    if (this.#stop) return;
    if (!this.#saved) this.#say("unsaved");
    else if (this.#gone.length) this.#say("damaged", describeGone(this.#gone));
    else this.#say([CODE, this.#savedAtFirst].includes(this.#saved.code) ? "saved" : "newer");
  }

  /** Wait for a quiet moment, then save, or bring up to date what is saved. */
  async #calm() {
    const isBusy = document.visibilityState !== "visible" || document.querySelector('.pb-calculator:is([data-state="starting"], [data-state="busy"])');
    if (isBusy) {
      setTimeout(() => this.#calm(), 1000);
      return;
    }
    if (this.#saved) {
      await this.#tidy();
      await this.#check(!(Date.now() - Date.parse(this.#saved.checked ?? "") < CHECK_AGAIN));
    }
    await this.#look();
    if (["unsaved", "damaged"].includes(this.#state) && recall(SWITCH) !== "off" && !savesData()) await this.#update();
  }

  /**
   * See whether all that was saved is still there, and say so where it is not.
   * @param {boolean} isWhole also whether each file has the right size, which takes reading all of them
   */
  async #check(isWhole) {
    const saved = this.#saved;
    if (!saved || this.#stop) return;
    try {
      this.#gone = await goneFrom(saved, isWhole);
      if (isWhole && !this.#gone.length) await writeState({ ...saved, checked: new Date().toISOString() });
    } catch {
      return; // the copy is being changed, or taken away, in another tab
    }
    if (!this.#stop) await this.#refresh();
  }

  /** See whether the host has another build than the one that is saved; bring it if so. */
  async #look() {
    if (document.visibilityState !== "visible" || this.#state === "impossible" || performance.now() - this.#lastLook < LOOK_AGAIN) return;
    if (performance.now() < CALM) return;
    this.#lastLook = performance.now();
    try {
      this.#list = await readList();
    } catch {
      return; // no network: what is saved stays as it is
    }
    this.#show();
    if (this.#saved && this.#saved.build !== this.#list.build && recall(SWITCH) !== "off" && !savesData()) await this.#update();
  }

  #resume() {
    if (["failed", "damaged"].includes(this.#state) && recall(SWITCH) !== "off") this.#update();
  }

  // ---- saving ----------------------------------------------------------------------------------------------------------------

  async #update() {
    if (this.#stop || this.#state === "impossible") return;
    this.#stop = new AbortController();
    this.#done = 0;
    this.#say("saving");
    try {
      await navigator.locks.request(`${PREFIX}saving`, { signal: this.#stop.signal }, () => this.#bring());
      this.#stop = null;
      await this.#refresh();
      await this.#tidy();
    } catch (error) {
      const wasStopped = this.#stop?.signal.aborted;
      this.#stop = null;
      if (wasStopped) await this.#refresh();
      else if (this.#gone.length) this.#say("damaged", `${describeGone(this.#gone)} ${describeStop(error, this.#list, "")}`);
      else this.#say("failed", describeStop(error, this.#list));
    }
  }

  /** Bring the host's build onto the device, whole. */
  async #bring() {
    const signal = /** @type {AbortController} */ (this.#stop).signal;
    this.#list = await readList();
    await register();
    this.#saved = await readState().catch((error) => {
      if (error instanceof Damaged) return null; // written again at the end
      throw error;
    });
    if (this.#saved && this.#gone.length) this.#gone = await goneFrom(this.#saved, true);
    if (this.#saved?.build === this.#list.build && !this.#gone.length) return; // another tab was quicker
    const list = this.#list;
    const name = `${PREFIX}${list.build}.${list.code}`;
    const cache = await caches.open(name);
    const before = this.#saved && (await caches.open(this.#saved.cache));
    const left = [...list.files];
    const helper = async () => {
      for (let line = left.shift(); line; line = left.shift()) {
        signal.throwIfAborted();
        await this.#bringFile(line, cache, before, signal);
      }
    };
    try {
      await Promise.all(Array.from({ length: AT_ONCE }, helper));
    } catch (error) {
      left.length = 0; // the other helpers end with the file they are at
      if (isFull(error)) await caches.delete(name);
      throw error;
    }
    signal.throwIfAborted();
    const hashes = Object.fromEntries(list.files.map(([path, hash]) => [path, hash]));
    const sizes = Object.fromEntries(list.files.map(([path, , bytes]) => [path, bytes]));
    const date = new Date().toISOString();
    await writeState({ cache: name, build: list.build, code: list.code, bytes: list.bytes, date, hashes, sizes, checked: date });
    this.#gone = [];
    await this.#tellWorker();
    this.#otherTabs?.postMessage("changed");
  }

  /** @param {Line} line @param {Cache} cache @param {Cache | null} before @param {AbortSignal} signal */
  async #bringFile([path, hash, bytes], cache, before, signal) {
    const address = BASE + path;
    if (await cache.match(address)) {
      this.#progress(bytes); // from a try that was broken off
      return;
    }
    const same = before && this.#saved?.hashes[path] === hash ? await before.match(address) : undefined;
    if (same) {
      await cache.put(address, same);
      this.#progress(bytes);
      return;
    }
    const data = await fetchChecked(BASE, [path, hash, bytes], signal, (count) => this.#progress(count));
    await cache.put(address, new Response(data, { headers: { "content-type": typeOf(path), "content-length": String(bytes) } }));
  }

  /** Drop the builds that no page runs on any more. */
  async #tidy() {
    const current = this.#saved;
    if (!current) return;
    for (const name of await caches.keys()) {
      if (!name.startsWith(PREFIX) || name === STATE || name === current.cache) continue;
      const code = name.split(".").at(-1);
      if (code === current.code) {
        await caches.delete(name);
        continue;
      }
      await navigator.locks.request(`${PREFIX}code:${code}`, { ifAvailable: true }, async (free) => {
        if (free) await caches.delete(name);
      });
    }
  }

  async #tellWorker() {
    const registration = await navigator.serviceWorker.getRegistration(BASE);
    for (const worker of [registration?.active, registration?.waiting, registration?.installing]) worker?.postMessage("changed");
  }

  // ---- telling ----------------------------------------------------------------------------------------------------------------

  /** @param {number} bytes */
  #progress(bytes) {
    this.#done += bytes;
    if (performance.now() - this.#lastProgress < 200) return;
    this.#lastProgress = performance.now();
    this.#show();
  }

  /** @param {OfflineState} state @param {string} [why] */
  #say(state, why = "") {
    this.#state = state;
    this.#why = why;
    this.#show();
  }

  #show() {
    show(this);
  }
}

/** What this browser or address lacks, in words, or nothing. */
function missing() {
  if (!isSecureContext) return "Saving needs an address that begins with https. The handbook works here as long as there is a network.";
  if (!("serviceWorker" in navigator) || !("caches" in window) || !("locks" in navigator) || !crypto.subtle) {
    return "This browser, or this window, keeps nothing: it may be a private one. The handbook works here as long as there is a network.";
  }
  return "";
}

/** Whether the reader's browser asks sites to go easy on data. */
function savesData() {
  return Boolean(/** @type {any} */ (navigator).connection?.saveData);
}

/** A way to the other tabs, where the browser has one. */
function channel() {
  try {
    return new BroadcastChannel(PREFIX);
  } catch {
    return null;
  }
}

/** What is noted of the saved copy cannot be read. */
class Damaged extends Error {}

/** @returns {Promise<Saved | null>} */
async function readState() {
  const kept = (await caches.has(STATE)) ? await (await caches.open(STATE)).match(BASE) : undefined;
  if (!kept) return null;
  try {
    const saved = await kept.json();
    const isWhole = ["cache", "build", "code", "date"].every((name) => typeof saved[name] === "string") && typeof saved.hashes === "object";
    if (isWhole && saved.hashes && saved.cache.startsWith(PREFIX)) return saved;
  } catch {
    // said below
  }
  throw new Damaged();
}

/** @param {Saved} saved */
async function writeState(saved) {
  await (await caches.open(STATE)).put(BASE, new Response(JSON.stringify(saved)));
}

const WITHOUT_NETWORK = "the part that answers without a network";

/**
 * What is no longer there of a saved copy. A file of another size than it should have is thrown away, so that it is brought again.
 * @param {Saved} saved @param {boolean} isWhole also whether each file has the right size
 */
async function goneFrom(saved, isWhole) {
  const paths = Object.keys(saved.hashes);
  if (!(await caches.has(saved.cache))) return paths;
  const cache = await caches.open(saved.cache);
  const here = new Set((await cache.keys()).map((request) => request.url));
  const gone = paths.filter((path) => !here.has(new URL(path, BASE).href));
  for (const path of isWhole && saved.sizes ? paths : []) {
    const kept = await cache.match(new URL(path, BASE).href);
    if (!kept || (await kept.blob()).size === saved.sizes?.[path]) continue;
    await cache.delete(new URL(path, BASE).href);
    gone.push(path);
  }
  const registration = await navigator.serviceWorker.getRegistration(BASE);
  if (registration?.scope !== BASE) gone.push(WITHOUT_NETWORK);
  return gone;
}

/** @returns {Promise<List>} */
async function readList() {
  const response = await fetch(LIST, { cache: "no-cache" });
  if (!response.ok) throw new Stopped(`The host has no list of what to save (it answered ${response.status}).`);
  return parseList(await response.text());
}

/** @param {ServiceWorkerRegistration} registration @returns {Promise<void>} */
function activated(registration) {
  return new Promise((resolve, reject) => {
    const worker = registration.active ?? registration.waiting ?? registration.installing;
    const look = () => {
      if (registration.active) resolve();
      else if (!worker || worker.state === "redundant") reject(new Error("it did not start"));
    };
    worker?.addEventListener("statechange", look);
    setTimeout(() => reject(new Error("it took too long to start")), LONGEST_START);
    look();
  });
}

async function register() {
  try {
    const registration = await navigator.serviceWorker.register(`${BASE}sw.js`, { scope: BASE, updateViaCache: "none" });
    await activated(registration);
  } catch (error) {
    throw new Stopped(`The browser did not take the part that works without a network (${/** @type {Error} */ (error).message}).`);
  }
}

// ---- the control ------------------------------------------------------------------------------------------------------------

/** @type {OfflineState | ""} */
let announced = "";
let announcedHost = "";

/** @param {Offline} offline */
function show(offline) {
  const root = /** @type {HTMLElement | null} */ (document.querySelector(".pb-offline"));
  if (!root) return;
  const { state, saved, list, done, why, otherwise, tellsTabs } = offline.shown;
  root.hidden = false;
  root.dataset.state = state;
  const part = (/** @type {string} */ name) => /** @type {HTMLElement} */ (root.querySelector(`.pb-offline-${name}`));
  part("name").textContent = HEAD[state];
  part("head").textContent = HEAD[state];
  const bar = /** @type {HTMLProgressElement} */ (part("bar"));
  bar.hidden = state !== "saving";
  if (list) {
    bar.max = list.bytes;
    bar.value = Math.min(done, list.bytes);
  }
  const lines = describeState(state, saved, list, done, why);
  if (otherwise) lines.unshift(describeHost(otherwise));
  if (!tellsTabs && (state === "saved" || state === "newer")) lines.push(NO_CHANNEL);
  part("text").replaceChildren(...lines.map((line) => element("p", {}, line)));
  const wanted = BUTTONS[state];
  const buttons = part("buttons");
  if (buttons.dataset.for !== state) {
    const hadFocus = buttons.contains(document.activeElement);
    buttons.dataset.for = state;
    buttons.replaceChildren(...wanted.map(([act, text]) => element("button", { type: "button", "data-act": act, class: `pb-offline-${act}` }, text)));
    if (hadFocus) /** @type {HTMLElement} */ (buttons.querySelector("button") ?? root.querySelector("summary"))?.focus();
  }
  if (state !== announced || otherwise !== announcedHost) {
    const notice = part("notice");
    notice.hidden = state !== "newer" && !otherwise;
    /** @type {HTMLElement} */ (notice.querySelector("p")).textContent = otherwise ? describeHost(otherwise) : NEWER;
    /** @type {HTMLElement} */ (notice.querySelector('[data-act="reload"]')).hidden = state !== "newer";
    if (otherwise && otherwise !== announcedHost) part("said").textContent = describeHost(otherwise);
    announcedHost = otherwise;
  }
  if (state !== announced) {
    // said aloud: the end of saving, a failure, a newer build; not what stood there from the beginning
    if (announced === "saving" || state === "newer" || state === "damaged") part("said").textContent = lines.length ? `${HEAD[state]}. ${lines[0]}` : HEAD[state];
    announced = state;
  }
}

/** @type {Record<OfflineState, [act: string, text: string][]>} */
const BUTTONS = {
  checking: [],
  unsaved: [["save", "Save for offline use"]],
  saving: [["pause", "Stop"]],
  saved: [["remove", "Take it off this device"]],
  newer: [["reload", "Open it now"], ["remove", "Take it off this device"]],
  damaged: [["save", "Mend it"], ["remove", "Take it off this device"]],
  failed: [["save", "Try again"], ["remove", "Take it off this device"]],
  impossible: [],
};

const offline = new Offline();

function listen() {
  const root = document.querySelector(".pb-offline");
  const details = root?.querySelector("details");
  if (!root || !details) return;
  root.addEventListener("click", (event) => {
    const act = /** @type {Element} */ (event.target).closest("button")?.dataset.act;
    if (act === "save") offline.save();
    else if (act === "pause") offline.pause();
    else if (act === "remove") offline.remove();
    else if (act === "reload") location.reload();
    else if (act === "later") root.querySelector(".pb-offline-notice")?.setAttribute("hidden", "");
  });
  details.addEventListener("toggle", () => details.open && offline.opened());
  addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !details.open) return;
    details.open = false;
    details.querySelector("summary")?.focus();
  });
  addEventListener("pointerdown", (event) => {
    if (details.open && !details.contains(/** @type {Node} */ (event.target))) details.open = false;
  });
}

listen();
offline.begin().catch((error) => offline.giveUp(error));
onEachChange(() => offline.pageChanged());
