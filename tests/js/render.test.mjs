// An answer put in place of another: afterwards it is what it would be on an empty page, and what has not changed is the same element.

import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { all, one, openPage, script, show } from "./page.mjs";

openPage();
const { element, knownDrawings, patch, plainText, showAnswer, showDrawing, showLook } = await script("render");

/** @type {any} */ let shown;
beforeEach(() => {
  show('<div class="pb-answer"></div>');
  shown = one(".pb-answer");
});

/** Numbers that are the same in every run. @param {number} seed */
function numbers(seed) {
  let state = seed;
  return (/** @type {number} */ below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0; // Numerical Recipes, 7.1
    return (state >>> 8) % below;
  };
}

const LINES = ['<path d="M0 0"></path>', '<path d="M1 1"></path>', '<g><path d="M2 2"></path></g>', '<text id="NAMEx">swag</text>', '<circle r="3"></circle>'];

/** A drawing as calc writes it: a line for each part. @param {string} name @param {string[]} parts */
function drawing(name, parts) {
  return [`<svg viewBox="0 0 10 10" aria-labelledby="${name}t ${name}d">`, ...parts.map((line) => line.replaceAll("NAME", name)), "</svg>"].join("\n");
}

const figure = (/** @type {string} */ name, /** @type {any} */ value) => `<div class="pb-figure" data-figure="${name}"><dt>${name}</dt><dd>${value}</dd></div>`;
const drawn = (/** @type {string} */ name, /** @type {string} */ title) => `<figure class="pb-drawing" data-drawing="${name}"><figcaption>${title}</figcaption></figure>`;

/**
 * An answer of some parts, in a fixed order; some sections are those of the answer before, at times with another drawing.
 * @param {(below: number) => number} next @param {Map<string, [string, string[]]>} before
 */
function example(next, before) {
  /** @type {string[]} */ const drawings = [];
  const sections = ["a", "b", "c"].filter(() => next(4)).map((section) => {
    const old = before.get(section);
    if (old && next(2)) {
      drawings.push(...old[1].map((svg) => (next(3) ? svg : drawing(`d${next(9)}`, LINES.filter(() => next(3))))));
      return old[0];
    }
    const figures = ["width", "drop", "mass", "count"].filter(() => next(3)).map((name) => figure(name, next(3)));
    const notes = ["one", "two"].filter(() => next(2)).map((text) => `<li>${text}</li>`);
    const rows = Array.from({ length: next(4) }, (_, i) => `<tr><th>${i}</th><td>${next(2)}</td></tr>`);
    const figureOfDrawing = next(2) ? drawn(section, `drawn ${next(2)}`) : "";
    const own = figureOfDrawing ? [drawing(`d${next(9)}`, LINES.filter(() => next(3)))] : [];
    drawings.push(...own);
    const html = `<section class="pb-section" data-section="${section}"><h4>${section}</h4><dl>${figures.join("")}</dl>${notes.length ? `<ul class="pb-notes">${notes.join("")}</ul>` : ""}${figureOfDrawing}<div class="pb-table" data-table="t"><table><tbody>${rows.join("")}</tbody></table></div></section>`;
    before.set(section, [html, own]);
    return html;
  });
  return { html: sections.join(""), drawings };
}

test("a section that is as it was is left alone, and is shown again where its drawing differs", () => {
  const section = (/** @type {string} */ name, /** @type {string} */ value) => `<section class="pb-section" data-section="${name}"><h4>${name}</h4>${figure("width", value)}${drawn(name, "it")}</section>`;
  const [first, second] = [drawing("d1", LINES.slice(0, 2)), drawing("d2", LINES.slice(1, 4))];
  showAnswer(shown, { html: section("a", "1") + section("b", "2"), drawings: [first, first] });
  const mark = document.createElement("i");
  one('[data-section="a"]').append(mark); // what nobody looks at stays
  showAnswer(shown, { html: section("a", "1") + section("b", "3"), drawings: [null, first] });
  assert.ok(mark.isConnected);
  assert.deepEqual(all("dd").map((each) => each.textContent), ["1", "3"]);
  showAnswer(shown, { html: section("a", "1") + section("b", "3"), drawings: [second, null] });
  assert.ok(!mark.isConnected);
  assert.deepEqual(all("svg").map((svg) => svg.children.length), [3, 2]);
  assert.equal(all("[data-kept]").length, 0);
  showAnswer(shown, { html: section("b", "3") + section("a", "1"), drawings: [first, second] });
  assert.deepEqual(all("dd").map((each) => each.textContent), ["3", "1"]);
});

test("the drawings that are shown are known by what is in them", () => {
  showAnswer(shown, { html: drawn("side", "x") + drawn("top", "y"), drawings: [drawing("d1", [LINES[0]]), null] });
  const svg = drawing("d1", [LINES[0]]);
  assert.deepEqual([...knownDrawings(shown)], [["side", { key: `d1.${svg.length}`, svg }]]);
  showDrawing(shown, "side", drawing("da", [LINES[0], LINES[1]]));
  assert.match(knownDrawings(shown).get("side").key, /^da\.\d+$/);
});

test("a drawing that comes later leaves the one that is there, and gives it the new caption", () => {
  const [first, second] = [drawing("d1", LINES.slice(0, 2)), drawing("d2", LINES.slice(1, 4))];
  showAnswer(shown, { html: drawn("side", "before"), drawings: [first] });
  const svg = one(".pb-drawing > svg");
  const parts = svg.innerHTML;
  showAnswer(shown, { html: drawn("side", "after") + drawn("top", "new"), drawings: [null, second] });
  assert.equal(one(".pb-drawing > svg"), svg);
  assert.equal(svg.innerHTML, parts);
  assert.deepEqual(all("figcaption").map((each) => each.textContent), ["after", "new"]);
  showAnswer(shown, { html: drawn("side", "after") + drawn("top", "new"), drawings: [second, second] });
  assert.equal(one(".pb-drawing > svg"), svg);
  assert.equal(svg.children.length, 3);
});

test("a drawing that came after its answer takes the place of the one before, and the caption stays", () => {
  const [first, second] = [drawing("d1", LINES.slice(0, 2)), drawing("d2", LINES.slice(1, 4))];
  showAnswer(shown, { html: drawn("side", "before") + drawn("top", "above"), drawings: [first, first] });
  showAnswer(shown, { html: drawn("side", "after") + drawn("top", "above"), drawings: [null, first] });
  const kept = one(".pb-drawing > svg").children[1];
  showDrawing(shown, "side", second);
  assert.equal(one(".pb-drawing > svg").children.length, 3);
  assert.equal(one(".pb-drawing > svg").children[0], kept);
  assert.deepEqual(all("figcaption").map((each) => each.textContent), ["after", "above"]);
  showDrawing(shown, "none", second); // it may be gone from the page meanwhile
});

/** What stands there; neither the names inside drawings nor the ends of their lines count. */
const standing = () => shown.innerHTML.replaceAll(/\bd[0-9](?=[tdx])/g, "d").replaceAll("\n", "");

for (let seed = 1; seed <= 40; seed += 1) {
  test(`each of a row of answers is shown as it would be on an empty page (${seed})`, () => {
    const next = numbers(seed);
    const before = new Map();
    const answers = Array.from({ length: 8 }, () => example(next, before));
    for (const answer of answers) {
      showAnswer(shown, answer);
      const after = standing();
      one("body").insertAdjacentHTML("beforeend", "<div></div>");
      const before = shown;
      shown = document.body.lastElementChild;
      showAnswer(shown, answer);
      const onEmptyPage = standing();
      shown.remove();
      shown = before;
      assert.equal(after, onEmptyPage);
    }
  });
}

test("what has not changed is the same element, wherever it has moved to", () => {
  showAnswer(shown, { html: figure("a", 1) + figure("b", 2) + figure("c", 3), drawings: [] });
  const [, b, c] = [...shown.children];
  showAnswer(shown, { html: figure("b", 2) + figure("c", 4) + figure("d", 5), drawings: [] });
  assert.deepEqual([...shown.children].slice(0, 2), [b, c]);
  assert.deepEqual(all("dd").map((value) => value.textContent), ["2", "4", "5"]);
  showAnswer(shown, { html: figure("a", 1) + figure("b", 2) + figure("c", 4), drawings: [] });
  assert.deepEqual([...shown.children].slice(1), [b, c]);
});

test("of a drawing only the parts that are new are read", () => {
  showAnswer(shown, { html: drawn("side", "From the side"), drawings: [drawing("d1", [LINES[0], LINES[1], LINES[3]])] });
  const before = [...one("svg").children];
  showAnswer(shown, { html: drawn("side", "From the side"), drawings: [drawing("d2", [LINES[1], LINES[4], LINES[3], LINES[0]])] });
  const after = [...one("svg").children];
  assert.deepEqual([after[0], after[2], after[3]], [before[1], before[2], before[0]]);
  assert.equal(after[1].tagName.toLowerCase(), "circle");
  assert.equal(one("text").id, "d1x"); // its names begin as in the drawing that was there
  assert.match(one("svg").getAttribute("aria-labelledby"), /^d1t d1d$/);
});

test("two equal parts of a drawing stay two", () => {
  const twice = drawing("d1", [LINES[0], LINES[0], LINES[1]]);
  showAnswer(shown, { html: drawn("side", "x"), drawings: [twice] });
  showAnswer(shown, { html: drawn("side", "x"), drawings: [drawing("d2", [LINES[0], LINES[1]])] });
  assert.equal(one("svg").children.length, 2);
  showAnswer(shown, { html: drawn("side", "y"), drawings: [drawing("d3", [LINES[0], LINES[0], LINES[1]])] });
  assert.deepEqual(all("svg path").map((path) => path.getAttribute("d")), ["M0 0", "M0 0", "M1 1"]);
  assert.equal(one("figcaption").textContent, "y");
});

test("the focus and what the reader has opened stay", () => {
  const html = (/** @type {number} */ value) => `<details class="pb-more"><summary>More</summary><button type="button" class="pb-sheet" data-sheet="s">Sheet ${value}</button></details>`;
  showAnswer(shown, { html: html(1), drawings: [] });
  one("details").open = true;
  one("button").focus();
  showAnswer(shown, { html: html(2), drawings: [] });
  assert.equal(one("details").open, true);
  assert.equal(document.activeElement, one("button"));
  assert.equal(one("button").textContent, "Sheet 2");
});

test("a heading that folds its part keeps its button as long as its words are the same", () => {
  showAnswer(shown, { html: "<section class=pb-section data-section=a><h4>Cake</h4><p>1</p></section>", drawings: [] });
  one("h4").innerHTML = '<button class="pb-fold">Cake</button>';
  showAnswer(shown, { html: "<section class=pb-section data-section=a><h4>Cake</h4><p>2</p></section>", drawings: [] });
  assert.ok(one("h4 > .pb-fold"));
  assert.equal(one("p").textContent, "2");
  showAnswer(shown, { html: "<section class=pb-section data-section=a><h4>Other</h4><p>2</p></section>", drawings: [] });
  assert.equal(one("h4").innerHTML, "Other");
});

test("an element is made with its words as text and without what is not true", () => {
  const made = element("a", { href: "#x", hidden: false, title: null, download: true }, "<b>", null, "", element("i", {}, "x"));
  assert.equal(made.outerHTML, '<a href="#x" download="">&lt;b&gt;<i>x</i></a>');
});

test("attributes are taken over and given up; what the theme put on it stays", () => {
  show('<div id="x"><p class="own md-focus" title="old" data-focus-visible-added="">a</p></div>');
  const fresh = document.createElement("div");
  fresh.innerHTML = '<p class="own" lang="fr">b</p>';
  patch(one("#x"), fresh);
  assert.equal(one("#x").innerHTML, '<p class="own md-focus" data-focus-visible-added="" lang="fr">b</p>');
});

test("a dot of a colour, and of none", () => {
  show("<svg><circle></circle></svg>");
  showLook(one("svg"), "#8b4513");
  assert.deepEqual([one("svg").getAttribute("data-look"), one("circle").getAttribute("fill")], ["#8b4513", "#8b4513"]);
  showLook(one("svg"), "");
  assert.deepEqual([one("svg").getAttribute("data-look"), one("circle").getAttribute("fill")], [null, "none"]);
});

test("tables are copied as plain text: those that are named, in that order, with no empty cell", () => {
  const table = (/** @type {string} */ name, /** @type {string} */ rows) =>
    `<div data-table="${name}"><table><caption>${name} title</caption><thead><tr><th>What</th></tr></thead><tbody>${rows}</tbody></table></div>`;
  show(`<section>${table("a", "<tr><th>butter</th><td>900 g</td><td></td><td>4 of 250 g</td></tr>")}${table("b", "<tr><th>no</th></tr>")}${table("c", "<tr><th>box</th><td> 1 </td></tr><tr><th>bag</th><td>2</td></tr>")}</section>`);
  assert.equal(plainText(one("section"), ["c", "a", "none"]), "c title\n- box: 1\n- bag: 2\n\na title\n- butter: 900 g, 4 of 250 g\n");
});
