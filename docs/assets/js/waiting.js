// Says at the calculator what is being waited for, when it takes longer than a moment: how much of Python has come, that nothing comes, that an answer
// takes too long. It lies over the calculator, so that nothing moves. Figures that are no longer the answer to what stands in the form are crossed
// out meanwhile; panel.js takes that back with the next answer.

import { client } from "./client.js";
import { SLOW } from "./protocol.js";
import { element } from "./render.js";

const SHOWN_AFTER = 2000; // ms
const STILL = 10_000; // ms without a byte, before that is said
const EVERY = 500; // ms between two looks

/** @typedef {{ said: string, number?: string, isPressed?: boolean }} Words `said` is read out, `number` changes all the time and is not. */

let since = 0; // when the present wait began
let lastByte = 0;
let timer = 0;

const megabytes = (/** @type {number} */ bytes) => (bytes / 1e6).toFixed(1);
const seconds = (/** @type {number} */ ms) => `${Math.round(ms / 1000)} s`;

/** What is to be said now, or nothing. @returns {Words | null} */
function words() {
  const now = performance.now();
  if (client.state === "ready" && client.isSlow) {
    const said = "This answer takes longer than it should. What you typed is kept.";
    return { said, number: `${seconds(now - since)} so far`, isPressed: true };
  }
  if (client.state !== "starting") return null;
  const again = client.isAgain ? "The calculator did not answer and was ended; it starts again. " : "";
  if (!again && now - since < SHOWN_AFTER) return null;
  const { bytes, of } = client.come;
  if (of > 0 && bytes >= of) return { said: `${again}All of the calculator has come. It is starting.` };
  const number = of ? `${megabytes(bytes)} of ${megabytes(of)} MB` : "";
  const still = now - Math.max(since, lastByte);
  if (still > STILL) return { said: `${again}Calculator on its way, but nothing comes`, number: `${number} ${seconds(still)} without a byte`.trim() };
  return { said: `${again}Calculator on its way`, number };
}

function show() {
  const told = words();
  const isLong = client.isAgain || client.isSlow || performance.now() - since > SLOW;
  for (const root of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".pb-calculator[data-live]"))) {
    const isWaiting = root.dataset.state === "starting" || root.dataset.state === "busy";
    showWords(root, isWaiting ? told : null);
    const answer = /** @type {HTMLElement | null} */ (root.querySelector(".pb-answer"));
    if (answer && isWaiting && isLong && "unanswered" in root.dataset) answer.dataset.stale = "";
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
