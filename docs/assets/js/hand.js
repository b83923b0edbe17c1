// Turns the drawings of the hand round for a left-handed reader, and what is read aloud of them, on this device until it is switched back.

import { onEachPage } from "./theme.js";

const KEY = "pb-hand";
const CLASS = "pb-left-hand";
const TOLD = "[data-turns] svg > :is(title, desc)";
/** @type {WeakSet<Element>} */ const turned = new WeakSet();

/**
 * The words for a picture as they are for its mirror image.
 * @param {string} words
 */
export function mirrored(words) {
  const other = { left: "right", right: "left", Left: "Right", Right: "Left" };
  return words.replace(/\b(?:left|right)\b(?! angle)/gi, (word) => other[/** @type {keyof typeof other} */ (word)]);
}

/** @returns {boolean} */
function kept() {
  try {
    return localStorage.getItem(KEY) === "left";
  } catch {
    return false; // storage switched off: the choice holds for this page only
  }
}

/** @param {boolean} left */
function turn(left) {
  document.documentElement.classList.toggle(CLASS, left);
  for (const box of /** @type {NodeListOf<HTMLInputElement>} */ (document.querySelectorAll(".pb-hand input"))) box.checked = left;
  for (const each of document.querySelectorAll(TOLD)) {
    if (left === turned.has(each)) continue;
    each.textContent = mirrored(each.textContent ?? "");
    if (left) turned.add(each);
    else turned.delete(each);
  }
}

function offer() {
  turn(document.documentElement.classList.contains(CLASS) || kept());
  const box = /** @type {HTMLInputElement | null} */ (document.querySelector(".pb-hand input"));
  if (!box) return;
  box.onchange = () => {
    turn(box.checked);
    try {
      localStorage.setItem(KEY, box.checked ? "left" : "right");
    } catch {
      // nothing to keep it in
    }
  };
}

onEachPage(offer);
