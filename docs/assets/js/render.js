// Puts an answer on the page. Its HTML is written by calc/page, where each word of the reader's is escaped; here new parts take the place of
// old ones, and what has not changed stays the same element.

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
 * Show an answer in its place, replacing only what differs from what stands there. A drawing that is there already is not parsed again.
 * One that comes later is null: until then the drawing that is there stays.
 * @param {Element} shown @param {{ html: string, drawings: (string | null)[] }} answer @param {Element | null} [view] where the drawing stands that stays in sight
 */
export function showAnswer(shown, { html, drawings }, view = null) {
  const parts = html.split(SECTION);
  const kept = keptSections(shown, parts, drawings);
  madeFrom.delete(shown); // until it is shown
  const fresh = parse(parts.map((part, i) => (kept.has(i) ? `${part.slice(0, part.indexOf(">"))} data-kept></section>` : part)).join(""));
  const given = drawingsOf(parts, drawings).filter((_, i) => !kept.has(i)).flat();
  [...fresh.querySelectorAll(".pb-drawing")].forEach((figure, i) => {
    const drawing = given[i];
    if (typeof drawing === "string") markup.set(figure, drawing);
    else if (drawing === null) awaited.add(figure);
  });
  const staying = document.createDocumentFragment();
  staying.append(...[...fresh.children].filter((part) => part.hasAttribute("data-stays")));
  if (view) patch(view, staying);
  patch(shown, fresh);
  madeFrom.set(shown, parts);
}

const SECTION = /(?=<section class="pb-section" data-section=)/; // sections stand one after the other, none in another

/** @type {WeakMap<Element, string[]>} What an answer was made from: what comes before its sections, and each of them. */
const madeFrom = new WeakMap();

/** The drawings of each part of an answer. @param {string[]} parts @param {(string | null)[]} drawings */
function drawingsOf(parts, drawings) {
  let at = 0;
  return parts.map((part) => drawings.slice(at, (at += part.split('<figure class="pb-drawing"').length - 1)));
}

/**
 * The sections that stand there as they should be, by their place among the parts: most edits leave most sections of a long answer as they are, and
 * those are neither parsed nor compared.
 * @param {Element} shown @param {string[]} parts @param {(string | null)[]} drawings @returns {Set<number>}
 */
function keptSections(shown, parts, drawings) {
  const before = madeFrom.get(shown);
  const there = /** @type {HTMLElement[]} */ ([...shown.children].filter((part) => part.matches(".pb-section")));
  const isOne = (/** @type {string} */ part) => part.startsWith("<section ");
  const sections = parts.filter(isOne);
  if (!before || before.length !== parts.length || there.length !== sections.length) return new Set();
  const given = drawingsOf(parts, drawings);
  const offset = parts.length - sections.length;
  const isKept = (/** @type {string} */ part, /** @type {number} */ i) => {
    if (!isOne(part) || part !== before[i]) return false;
    const figures = [...there[i - offset].querySelectorAll(".pb-drawing")];
    return figures.length === given[i].length && figures.every((figure, k) => given[i][k] === null || markup.get(figure) === given[i][k]);
  };
  return new Set(parts.flatMap((part, i) => (isKept(part, i) ? [i] : [])));
}

/** The drawings that the page shows, by name, each with what tells it from others (`calc/page/reply.py`). @param {Element} shown @returns {Map<string, { key: string, svg: string }>} */
export function knownDrawings(shown) {
  const found = new Map();
  for (const figure of /** @type {NodeListOf<HTMLElement>} */ (shown.querySelectorAll(".pb-drawing[data-drawing]"))) {
    const svg = markup.get(figure);
    const name = svg && NAME.exec(svg)?.[1];
    if (name) found.set(figure.dataset.drawing, { key: `${name}.${svg.length}`, svg });
  }
  return found;
}

/** Markup as nodes that are not on the page yet. Nothing in it can run: see the note on the one renderer. @param {string} html */
export function parse(html) {
  const parser = document.createElement("template");
  parser.innerHTML = html;
  return parser.content;
}

/** @type {WeakMap<Node, string>} The SVG of each figure: what its drawing was parsed from, or is to be parsed from. */
const markup = new WeakMap();

/** @type {WeakSet<Node>} Figures whose drawing comes later. */
const awaited = new WeakSet();

/** Parse the drawing of a figure that has only its caption yet. @param {Element} figure */
function readDrawing(figure) {
  figure.prepend(parse(markup.get(figure) ?? "")); // as HTML: several times as quick as parsing it as XML
}

/** Parse the drawings of what is about to be shown. @template {Node} Part @param {Part} fresh */
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
  takeCaption(now, next);
}

/**
 * Show a drawing that came after its answer.
 * @param {Element} root @param {string} name @param {string} svg
 */
export function showDrawing(root, name, svg) {
  const figure = root.querySelector(`.pb-drawing[data-drawing="${name}"]`);
  if (!figure || markup.get(figure) === svg) return;
  const next = /** @type {Element} */ (figure.cloneNode());
  next.append(...[...figure.children].filter((part) => part.localName === "figcaption").map((caption) => caption.cloneNode(true)));
  markup.set(next, svg);
  takeDrawing(figure, next);
}

/** Give a figure the caption of its successor. @param {Element} now @param {Element} next */
function takeCaption(now, next) {
  const [caption, said] = [now, next].map((figure) => figure.querySelector(":scope > figcaption"));
  if (caption && said && !caption.isEqualNode(said)) caption.replaceWith(said);
}

/** A drawing of some parts, itself first. @param {string} head @param {string[]} lines @returns {Element[]} */
function partsOf(head, lines) {
  const svg = /** @type {Element} */ (parse(`${head}${lines.join("")}</svg>`).firstElementChild);
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
    } else if (isKeptSection(now, next) || isSameDrawing(now, next) || now.isEqualNode(next) || isFoldedHeading(now, next)) {
      // as it should be
    } else if (keyOf(now) !== key) {
      now.before(complete(next));
    } else if (now instanceof HTMLElement && next instanceof HTMLElement) {
      takeAttributes(now, next);
      if (awaited.has(next)) takeCaption(now, next);
      else if (markup.has(next)) takeDrawing(now, next);
      else patch(now, next);
    } else {
      now.replaceWith(next);
    }
  });
  while (shown.childNodes.length > wanted.length) shown.lastChild?.remove();
}

/** Whether a section is to stay as it is: its successor is its head and nothing more. @param {Node} now @param {Node} next */
function isKeptSection(now, next) {
  return next instanceof HTMLElement && next.hasAttribute("data-kept") && keyOf(now) === keyOf(next);
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
    if (!next.hasAttribute(name) && !["class", "open", "hidden", "data-shut", "data-focus-visible-added"].includes(name)) now.removeAttribute(name);
  }
  for (const { name, value } of next.attributes) {
    if (name !== "class" && now.getAttribute(name) !== value) now.setAttribute(name, value);
  }
}

/**
 * Tables of a section as plain text: a line for each row, its cells after its name, and the caption over them.
 * @param {Element} section @param {string[]} names
 */
export function plainText(section, names) {
  const found = names.map((name) => section.querySelector(`[data-table="${name}"] table`)).filter((table) => table !== null);
  const tables = found.map((table) => {
    const rows = [...table.querySelectorAll("tbody tr")].map((row) => {
      const [name, ...cells] = [...row.children].map((cell) => cell.textContent?.trim() ?? "");
      return `- ${name}: ${cells.filter(Boolean).join(", ")}`;
    });
    return [table.querySelector("caption")?.textContent?.trim() ?? "", ...rows].join("\n");
  });
  return `${tables.join("\n\n")}\n`;
}
