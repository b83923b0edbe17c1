// An answer as elements, the same that the build writes (tools/site/pages.py). Every word goes in as text; only a drawing is
// markup, and it comes from calc, where each word of the reader's is escaped.

/** @import { Answer, Column, Drawing, Figure, Placed, Table } from "./protocol.js" */

const LONG = 12; // characters; a longer figure is set smaller
const WIDE = 6; // columns; a table of so many is laid out line by line on a narrow page
const RANGE = /^(.+?) (\(.+\))$/;

/**
 * One element; attributes that are null or false are left out.
 * @param {string} tag @param {Record<string, string | boolean | null>} [attributes]
 * @param {(Node | string | null)[]} children
 * @returns {HTMLElement}
 */
export function element(tag, attributes = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value !== null && value !== false) made.setAttribute(name, value === true ? "" : value);
  }
  for (const child of children) {
    if (child !== null && child !== "") made.append(child);
  }
  return made;
}

/**
 * What stands inside `.pb-answer` of the calculator with that id; `level` is that of its section headings.
 * @param {Answer} answer @param {number} level @param {string} identity
 * @returns {DocumentFragment}
 */
export function answerElements(answer, level, identity) {
  const whole = answerFrame(answer, level, identity);
  for (const part of whole.children) complete(part);
  return whole;
}

/**
 * Show an answer in its place, touching only what differs from what stands there; a drawing that is there already is not read again.
 * @param {Element} shown @param {Answer} answer @param {number} level @param {string} identity
 */
export function showAnswer(shown, answer, level, identity) {
  patch(shown, answerFrame(answer, level, identity));
}

/**
 * The answer with its drawings still to be read.
 * @param {Answer} answer @param {number} level @param {string} identity
 */
function answerFrame(answer, level, identity) {
  const whole = document.createDocumentFragment();
  const sections = answer.sections ?? [];
  const named = new Set(sections.map((section) => section.name));
  whole.append(...items(answer, (item) => !named.has(item.section ?? "")));
  for (const section of sections) {
    const inner = items(answer, (item) => item.section === section.name, section.name);
    if (inner.length) {
      const place = { class: "pb-section", "data-section": section.name, id: partId(identity, section.name), tabindex: section.short ? "-1" : null };
      const heading = element(`h${level}`, {}, section.title);
      const prints = section.prints ?? "";
      const button = prints ? element("button", { type: "button", class: "pb-print", "data-prints": section.name }, prints) : null;
      whole.append(element("section", place, heading, button, ...inner));
    }
  }
  return whole;
}

/** The id of one section of the answer. @param {string} identity @param {string} section */
function partId(identity, section) {
  return `${identity}--part-${section}`;
}

/**
 * The items of one section in their fixed order.
 * @param {Answer} answer @param {(item: Placed) => boolean} wanted @param {string} [section]
 * @returns {HTMLElement[]}
 */
function items(answer, wanted, section = "") {
  const parts = [];
  const all = Object.entries(answer.figures);
  const figures = all.filter(([, item]) => wanted(item) && !item.quiet).map((entry) => figureElement(entry));
  if (section) figures.push(...all.filter(([, item]) => item.also === section).map((entry) => figureElement(entry, true)));
  if (figures.length) parts.push(element("dl", { class: "pb-figures" }, ...figures));
  for (const [kind, all] of /** @type {const} */ ([["cautions", answer.cautions], ["notes", answer.notes]])) {
    const said = all.filter(wanted).map((item) => element("li", {}, item.text));
    if (said.length) parts.push(element("ul", { class: `pb-${kind}` }, ...said));
  }
  parts.push(...answer.drawings.filter(wanted).map(drawingElement), ...answer.tables.filter(wanted).map(tableElement));
  const button = (/** @type {Record<string, string>} */ attributes, /** @type {string} */ title) =>
    element("button", { type: "button", ...attributes }, title);
  const buttons = [
    ...answer.sheets.filter(wanted).map((item) => button({ class: "pb-sheet", "data-sheet": item.name }, item.title)),
    ...(answer.files ?? []).filter(wanted).map((item) => button({ class: "pb-save", "data-file": item.name, "data-type": item.type }, item.title)),
  ];
  if (buttons.length) parts.push(element("div", { class: "pb-sheets" }, ...buttons));
  return parts;
}

/** @param {[string, Figure]} entry @param {boolean} [again] it stands in another section too */
function figureElement([name, figure], again = false) {
  const split = "low" in figure ? RANGE.exec(figure.text) : null;
  const main = split ? split[1] : figure.text;
  const value = split ? [`${main} `, element("span", { class: "pb-range" }, split[2])] : [main];
  const attributes = { class: "pb-figure", [again ? "data-again" : "data-figure"]: name, "data-long": [...main].length > LONG };
  return element("div", attributes, element("dt", {}, figure.label), element("dd", {}, ...value));
}

/** @type {WeakMap<Node, string>} The markup of each drawing: what it was read from, or what is to be read. */
const markup = new WeakMap();

/** A drawing that is still to be read. @param {Drawing} item */
function drawingElement(item) {
  const made = element("figure", { class: "pb-drawing", "data-drawing": item.name }, element("figcaption", {}, item.title));
  markup.set(made, item.svg);
  return made;
}

/** Read the drawing of a figure that has only its caption yet. @param {Element} figure */
function readDrawing(figure) {
  const parser = document.createElement("template"); // several times as quick as reading it as XML
  parser.innerHTML = markup.get(figure) ?? "";
  figure.prepend(parser.content);
}

/** Read the drawings of what is about to be shown. @template {Node} Part @param {Part} fresh */
function complete(fresh) {
  if (!(fresh instanceof Element)) return fresh;
  if (markup.has(fresh)) readDrawing(fresh);
  for (const figure of fresh.querySelectorAll(".pb-drawing")) readDrawing(figure);
  return fresh;
}

/** Whether a figure has the caption and the drawing of its successor, which need not be read then. @param {Node} now @param {Node} next */
function isSameDrawing(now, next) {
  return markup.has(next) && markup.get(now) === markup.get(next) && now.lastChild?.textContent === next.lastChild?.textContent;
}

/** @type {WeakMap<Node, string[]>} The lines of each drawing that is shown, with the names that are in it. */
const shownLines = new WeakMap();
const NAME = /aria-labelledby="(d[0-9a-f]+)t/; // the word that all names inside a drawing begin with

/**
 * Give a figure the drawing and the caption of its successor. A drawing has a line for each of its parts: only those that are new are read,
 * and their names begin as in the drawing that is shown.
 * @param {Element} now @param {Element} next
 */
function takeDrawing(now, next) {
  const text = markup.get(next) ?? "";
  const lines = shownLines.get(now) ?? markup.get(now)?.split("\n") ?? [];
  const [name, other] = [lines[0] ?? "", text].map((head) => NAME.exec(head)?.[1] ?? "");
  const svg = now.querySelector(":scope > svg");
  markup.set(now, text);
  if (!svg || !name || !other || svg.children.length !== lines.length - 2) {
    shownLines.delete(now);
    readDrawing(next);
    patch(now, next);
    return;
  }
  const wanted = text.replaceAll(other, name).split("\n");
  shownLines.set(now, wanted);
  if (lines[0] !== wanted[0]) takeAttributes(svg, partsOf(wanted[0], [])[0]);
  takeParts(svg, lines.slice(1, -1), wanted.slice(1, -1));
  const [caption, said] = [now, next].map((figure) => figure.querySelector(":scope > figcaption"));
  if (caption && said && !caption.isEqualNode(said)) caption.replaceWith(said);
}

/** A drawing of some parts, itself first. @param {string} head @param {string[]} lines @returns {Element[]} */
function partsOf(head, lines) {
  const parser = document.createElement("template");
  parser.innerHTML = `${head}${lines.join("")}</svg>`;
  const svg = /** @type {Element} */ (parser.content.firstElementChild);
  return [svg, ...svg.children];
}

/**
 * Make the parts of a drawing those that are wanted; a part that is there already stays.
 * @param {Element} svg @param {string[]} lines @param {string[]} wanted
 */
function takeParts(svg, lines, wanted) {
  /** @type {Map<string, Element[]>} */
  const there = new Map();
  [...svg.children].forEach((part, i) => there.set(lines[i], [...(there.get(lines[i]) ?? []), part]));
  const kept = wanted.map((line) => there.get(line)?.shift() ?? null);
  for (const parts of there.values()) for (const part of parts) part.remove();
  const [, ...read] = partsOf("<svg>", wanted.filter((_, i) => !kept[i]));
  let at = svg.firstElementChild;
  for (const old of kept) {
    const part = old ?? /** @type {Element} */ (read.shift());
    if (part === at) at = at.nextElementSibling;
    else svg.insertBefore(part, at);
  }
}

/** @param {Table} item */
function tableElement(item) {
  const number = item.columns.map((column) => ({ class: column.align === "right" ? "pb-number" : null }));
  const head = item.columns.map((column, i) => element("th", { scope: "col", ...number[i] }, column.label));
  const rows = item.rows.map((row) =>
    element("tr", {}, ...row.map((text, i) => {
      const attributes = { scope: i ? null : "row", "data-label": i || number[i].class ? item.columns[i].label : null };
      return element(i ? "td" : "th", { ...attributes, ...number[i] }, ...cell(item.columns[i], text));
    })),
  );
  const table = element(
    "table",
    {},
    element("caption", {}, item.title),
    element("thead", {}, element("tr", {}, ...head)),
    element("tbody", {}, ...rows),
  );
  const isWide = item.columns.length >= WIDE;
  const scroller = { class: "pb-table", "data-wide": isWide, "data-table": item.name, tabindex: "0", role: "group", "aria-label": item.title };
  return element("div", scroller, table);
}

/**
 * The text of a cell: with its colour before it where the column has colours, a range set apart from its figure.
 * @param {Column} column @param {string} text
 */
function cell(column, text) {
  const split = column.align === "right" ? RANGE.exec(text) : null;
  if (split) return [`${split[1]} `, element("span", { class: "pb-range" }, split[2])];
  const look = column.looks?.[text];
  return look ? [swatch(look), text] : [text];
}

const SVG = "http://www.w3.org/2000/svg";

/** A dot of a colour; empty where the colour is not known. @param {string} look */
function swatch(look) {
  const made = document.createElementNS(SVG, "svg");
  made.setAttribute("class", "pb-dot");
  made.setAttribute("viewBox", "0 0 16 16");
  made.setAttribute("aria-hidden", "true");
  const dot = document.createElementNS(SVG, "circle");
  for (const [name, value] of Object.entries({ cx: "8", cy: "8", r: "7" })) dot.setAttribute(name, value);
  made.append(dot);
  showLook(made, look);
  return made;
}

/** Give a dot another colour. @param {Element} dot @param {string} look */
export function showLook(dot, look) {
  if (look) dot.setAttribute("data-look", look);
  else dot.removeAttribute("data-look");
  dot.firstElementChild?.setAttribute("fill", look || "none");
}

/**
 * Make the children of `shown` like those of `fresh`, touching only what differs: focus, scrolling and what is open stay.
 * @param {Element} shown @param {Element | DocumentFragment} fresh
 */
export function patch(shown, fresh) {
  const wanted = [...fresh.childNodes];
  const keys = wanted.map(keyOf);
  wanted.forEach((next, i) => {
    const key = keys[i];
    if (shown.childNodes[i] && keyOf(shown.childNodes[i]) !== key && [...shown.childNodes].slice(i).some((node) => keyOf(node) === key)) {
      const later = new Set(keys.slice(i + 1));
      while (keyOf(shown.childNodes[i]) !== key && !later.has(keyOf(shown.childNodes[i]))) shown.childNodes[i].remove();
    }
    const now = shown.childNodes[i];
    if (!now) {
      shown.append(complete(next));
    } else if (isSameDrawing(now, next) || now.isEqualNode(next) || isFoldedHeading(now, next)) {
      // as it should be
    } else if (keyOf(now) !== key) {
      now.before(complete(next));
    } else if (now instanceof HTMLElement && next instanceof HTMLElement) {
      takeAttributes(now, next);
      if (markup.has(next)) takeDrawing(now, next);
      else patch(now, next);
    } else {
      now.replaceWith(next);
    }
  });
  while (shown.childNodes.length > wanted.length) shown.lastChild?.remove();
}

/** Whether a heading is that of its successor and has become the button that folds its part (folds.js). @param {Node} now @param {Node} next */
function isFoldedHeading(now, next) {
  return now instanceof HTMLElement && now.firstElementChild?.classList.contains("pb-fold") === true && now.textContent === next.textContent;
}

/** What makes a part of an answer the same part in the next answer. @param {Node} node */
function keyOf(node) {
  if (!(node instanceof HTMLElement)) return node.nodeName;
  const { figure = "", table = "", drawing = "", section = "", sheet = "", file = "" } = node.dataset;
  return [node.nodeName, node.classList[0] ?? "", figure, table, drawing, section, sheet, file].join("|");
}

/**
 * Give an element the attributes of its successor. What the theme and the reader put on it stays: that it has the focus, that it is open or folded.
 * @param {Element} now @param {Element} next
 */
function takeAttributes(now, next) {
  for (const { name } of [...now.attributes]) {
    if (!next.hasAttribute(name) && !["class", "open", "hidden", "data-focus-visible-added"].includes(name)) now.removeAttribute(name);
  }
  for (const { name, value } of next.attributes) {
    if (name !== "class" && now.getAttribute(name) !== value) now.setAttribute(name, value);
  }
}
