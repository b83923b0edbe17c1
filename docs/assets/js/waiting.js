// Says at the calculator what is being waited for, when it takes longer than a moment: how much of Python has come, that nothing comes, that an answer
// takes too long. It lies over the calculator, so that nothing moves. Figures that are no longer the answer to what stands in the form are crossed
// out meanwhile; panel.js takes that back with the next answer.

import { client } from "./client.js";
import { SLOW } from "./protocol.js";
import { element } from "./render.js";
import { waitWords } from "./wait_words.js";

const EVERY = 500; // ms between two looks

/** @import { Words } from "./wait_words.js" */

let since = 0; // when the present wait began
let lastByte = 0;
let timer = 0;

function show() {
  const now = performance.now();
  const told = waitWords(client, { now, since, lastByte });
  const isLong = client.isAgain || client.isSlow || now - since > SLOW;
  for (const root of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".pb-calculator[data-live]"))) {
    const isWaiting = root.dataset.state === "starting" || root.dataset.state === "busy";
    showWords(root, isWaiting ? told : null);
    const answer = /** @type {HTMLElement | null} */ (root.querySelector(".pb-answer"));
    if (answer && isWaiting && isLong && "unanswered" in root.dataset) for (const place of [root, answer]) place.dataset.stale = "";
  }
  const isOver = client.state !== "starting" && !client.isSlow;
  clearTimeout(timer);
  if (!isOver) timer = setTimeout(show, EVERY);
}

/** @param {HTMLElement} root @param {Words | null} told */
function showWords(root, told) {
  let place = root.querySelector(".pb-wait");
  if (!told) {
    place?.remove();
    return;
  }
  if (!place) {
    place = element("div", { class: "pb-wait" }, element("p", { role: "status" }), element("p", { class: "pb-wait-number", "aria-hidden": "true" }));
    root.querySelector(".pb-notice")?.append(place);
  }
  const [said, number] = place.querySelectorAll("p");
  if (said.textContent !== told.said) said.textContent = told.said;
  number.textContent = told.number ?? "";
  const button = place.querySelector("button");
  if (!told.isPressed) button?.remove();
  else if (!button) place.append(element("button", { type: "button", class: "pb-restart" }, "Start it again"));
}

client.addEventListener("state", () => {
  since = performance.now();
  show();
});
client.addEventListener("slow", () => {
  since = performance.now() - SLOW;
  show();
});
client.addEventListener("coming", () => (lastByte = performance.now()));
document.addEventListener("click", (event) => {
  if (/** @type {Element} */ (event.target).closest?.(".pb-restart")) client.restart();
});
