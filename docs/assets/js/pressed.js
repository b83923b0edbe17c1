// What the page does by itself waits while a finger or a button of the mouse is down: what moves under a press makes it fall beside its button.

const LONGEST = 1000; // ms; a longer hold is no press
const NO_CLICK = 300; // ms after the finger was lifted; by then its click has come

let isDown = false;
let timer = 0;
/** @type {(() => void)[]} */
let left = [];

/** @param {number} ms */
function endAfter(ms) {
  clearTimeout(timer);
  timer = setTimeout(end, ms);
}

function end() {
  clearTimeout(timer);
  isDown = false;
  const acts = left;
  left = [];
  for (const act of acts) act();
}

const begin = () => {
  isDown = true;
  endAfter(LONGEST);
};
addEventListener("pointerdown", begin, { capture: true });
addEventListener("pointerup", () => isDown && endAfter(NO_CLICK), { capture: true });
addEventListener("pointercancel", end, { capture: true });
const afterClick = new MessageChannel(); // a task of its own comes after all that listens to the click
afterClick.port1.onmessage = end;
addEventListener("click", () => isDown && afterClick.port2.postMessage(""), { capture: true });

/** Do something at once, or once a press that has begun is over. @param {() => void} act */
export function afterPress(act) {
  if (isDown) left.push(act);
  else act();
}

/** Until no press is under way. @returns {Promise<void>} */
export function pressOver() {
  return new Promise((resolve) => afterPress(resolve));
}
