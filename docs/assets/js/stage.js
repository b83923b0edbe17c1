// The cake that stays in sight over a long form: a press on a part of it opens the fields that ask for it, and the part whose fields one is in
// is lit. It can be looked at closer, and saved as a picture for the customer.

import { focusField } from "./flow.js";
import { element } from "./render.js";
import { handOver } from "./saved.js";
import { onEachPage } from "./theme.js";

const PICTURE = 1600; // px; how wide a saved picture is
const XLINK = "http://www.w3.org/1999/xlink";

/** The fields that ask for a part, such as "tiers.0.rows.2". @param {Element} root @param {string} part */
function groupOf(root, part) {
  const field = root.querySelector(`.pb-form [data-name^="${part}."]`);
  return /** @type {HTMLDetailsElement | null} */ (field?.closest(".pb-group") ?? null);
}

/** The part that a field, or what stands beside it, asks for: its row, or its tier, or none. @param {Element} place */
function partOf(place) {
  const field = /** @type {HTMLElement | null} */ (place.matches("[data-name]") ? place : (place.closest(".pb-group")?.querySelector("[data-name]") ?? null));
  const name = field?.dataset.name ?? "";
  return /^tiers\.\d+(?:\.rows\.\d+)?(?=\.)/.exec(name)?.[0] ?? "";
}

/** Go to the fields of a part, open them and take the focus there. @param {Element} root @param {string} part */
function goTo(root, part) {
  const group = groupOf(root, part);
  if (!group) return;
  for (let place = /** @type {Element | null} */ (group); place; place = place.parentElement?.closest("details") ?? null) {
    if (place instanceof HTMLDetailsElement) place.open = true;
  }
  group.scrollIntoView({ block: "start", behavior: "instant" });
  const control = /** @type {HTMLElement | null} */ (group.querySelector(`[data-name^="${part}."]`));
  if (control) focusField(control);
}

/** The parts of a drawing with their names, as the form has them. @param {Element} view @returns {Map<string, string>} */
function partsIn(view) {
  /** @type {[string, string][]} */
  const found = [...view.querySelectorAll("[data-part]")].map((part) => [
    /** @type {SVGElement} */ (part).dataset.part ?? "",
    part.querySelector(":scope > title")?.textContent ?? "",
  ]);
  return new Map(found.sort(([a], [b]) => a.localeCompare(b, "en", { numeric: true })));
}

/** A drawing as a file of its own. @param {SVGSVGElement} svg @returns {string} */
function fileOf(svg) {
  const copy = /** @type {SVGSVGElement} */ (svg.cloneNode(true));
  const [, , wide, high] = (copy.getAttribute("viewBox") ?? "0 0 1 1").split(" ").map(Number);
  copy.setAttribute("width", String(PICTURE));
  copy.setAttribute("height", String(Math.round((PICTURE * high) / wide)));
  for (const part of copy.querySelectorAll("[data-part]")) {
    part.removeAttribute("data-part");
    part.removeAttribute("class");
  }
  for (const use of copy.querySelectorAll("use")) {
    const link = use.getAttribute("xlink:href") ?? use.getAttributeNS(XLINK, "href"); // read from HTML it has no namespace
    use.removeAttribute("xlink:href");
    if (link) use.setAttributeNS(XLINK, "xlink:href", link);
  }
  copy.removeAttribute("xmlns:xlink");
  return new XMLSerializer().serializeToString(copy);
}

/** A drawing as a PNG, on white. @param {SVGSVGElement} svg @returns {Promise<Blob>} */
async function pictureOf(svg) {
  const image = new Image();
  const address = URL.createObjectURL(new Blob([fileOf(svg)], { type: "image/svg+xml" }));
  try {
    image.src = address;
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = image.naturalWidth;
    canvas.height = image.naturalHeight;
    const pen = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d"));
    pen.fillStyle = "#ffffff";
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.drawImage(image, 0, 0);
    return await new Promise((done, fail) => canvas.toBlob((blob) => (blob ? done(blob) : fail(new Error("no picture"))), "image/png"));
  } finally {
    URL.revokeObjectURL(address);
  }
}

/** A name for a file, from what the order is for. @param {Element} root */
function fileName(root) {
  const typed = /** @type {HTMLInputElement | null} */ (root.querySelector('.pb-form input[type="text"]'))?.value ?? "";
  const plain = typed.normalize("NFKD").replace(/[^\w\s-]/g, "").trim().replace(/\s+/g, "-").slice(0, 60).toLowerCase();
  return plain || "cake";
}

/** The stage of one calculator. */
class Stage {
  /** @type {HTMLElement} */ #root;
  /** @type {HTMLElement} */ #view;
  /** @type {HTMLElement} */ #list;
  #lit = "";

  /** @param {HTMLElement} root @param {HTMLElement} stage */
  constructor(root, stage) {
    this.#root = root;
    this.#view = /** @type {HTMLElement} */ (stage.querySelector(".pb-stage-view"));
    this.#list = element("ul", { class: "pb-stage-parts", "aria-label": "Parts of the cake: go to the fields of" });
    const closer = element("button", { type: "button", class: "pb-stage-closer", "aria-pressed": "false" }, "Look closer");
    const picture = element("button", { type: "button", class: "pb-stage-png" }, "Save picture");
    const drawing = element("button", { type: "button", class: "pb-stage-svg" }, "Save drawing (SVG)");
    stage.append(this.#list, element("div", { class: "pb-stage-tools" }, closer, picture, drawing));
    closer.addEventListener("click", () => {
      const isCloser = stage.toggleAttribute("data-closer");
      closer.setAttribute("aria-pressed", String(isCloser));
      this.#view.tabIndex = isCloser ? 0 : -1; // it scrolls then
      if (isCloser) this.#view.scrollTo({ left: (this.#view.scrollWidth - this.#view.clientWidth) / 2 });
    });
    picture.addEventListener("click", async () => handOver(`${fileName(root)}.png`, await pictureOf(await this.#svg()), "image/png"));
    drawing.addEventListener("click", async () => handOver(`${fileName(root)}.svg`, fileOf(await this.#svg()), "image/svg+xml"));
    root.addEventListener("click", (event) => {
      const target = /** @type {Element} */ (event.target);
      const part = /** @type {HTMLElement | SVGElement | null} */ (target.closest(".pb-drawing [data-part], .pb-stage-parts [data-part]"));
      if (part?.dataset.part) goTo(root, part.dataset.part);
    });
    root.addEventListener("focusin", (event) => this.#light(partOf(/** @type {Element} */ (event.target))));
    root.addEventListener("pb-answer", () => root.hasAttribute("data-old-picture") || this.#drawn());
    root.addEventListener("pb-picture", () => this.#drawn()); // the main drawing came after the answer
    root.addEventListener("pb-drawn", () => this.#show()); // so did others
    this.#drawn();
  }

  /** The drawing, once it is that of the answer. */
  async #svg() {
    while (this.#root.hasAttribute("data-old-picture")) {
      await new Promise((done) => ["pb-picture", "pb-answer"].forEach((kind) => this.#root.addEventListener(kind, done, { once: true })));
    }
    return /** @type {SVGSVGElement} */ (this.#view.querySelector("svg"));
  }

  /** There is a new drawing. */
  #drawn() {
    const parts = partsIn(this.#view);
    const known = [...this.#list.querySelectorAll("button")].map((button) => `${button.dataset.part}|${button.textContent}`).join();
    if (known !== [...parts].map(([part, name]) => `${part}|${name}`).join()) {
      this.#list.replaceChildren(
        ...[...parts].map(([part, name]) => element("li", {}, element("button", { type: "button", "data-part": part, "data-row": part.includes("rows") }, name))),
      );
    }
    this.#show();
  }

  /** @param {string} part */
  #light(part) {
    if (part === this.#lit) return;
    this.#lit = part;
    this.#show();
  }

  #show() {
    for (const part of /** @type {NodeListOf<HTMLElement | SVGElement>} */ (this.#root.querySelectorAll(":is(.pb-drawing, .pb-stage-parts) [data-part]"))) {
      part.classList.toggle("pb-lit", part.dataset.part === this.#lit);
    }
    const chip = /** @type {HTMLElement | null} */ (this.#list.querySelector("button.pb-lit"));
    if (chip) this.#list.scrollTo({ top: chip.offsetTop - this.#list.offsetTop - this.#list.clientHeight / 2 });
  }
}

/** @type {WeakSet<Element>} */
const staged = new WeakSet();

onEachPage(() => {
  for (const stage of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".pb-calculator .pb-stage"))) {
    const root = /** @type {HTMLElement} */ (stage.closest(".pb-calculator"));
    if (staged.has(root)) continue;
    staged.add(root);
    new Stage(root, stage);
  }
});
