// Turns the drawings of the hand round for a left-handed reader, on this device until it is switched back.

import { onEachPage } from "./theme.js";

const KEY = "pb-hand";
const CLASS = "pb-left-hand";

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
