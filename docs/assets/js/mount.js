// Makes the calculators of a page come alive, on the first page and after each change of page.

import { isCalculator, Panel } from "./panel.js";
import { onEachChange } from "./theme.js";

/** @type {Set<Panel>} */
const panels = new Set();

function mount() {
  for (const panel of panels) {
    if (panel.isOnPage) continue;
    panel.leave();
    panels.delete(panel);
  }
  let fresh = false;
  for (const root of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".pb-calculator:not([data-live])"))) {
    if (!isCalculator(root)) continue;
    panels.add(new Panel(root));
    fresh = true;
  }
  if (fresh) whenIdle(() => [...panels].find((panel) => panel.isOnPage)?.start());
}

/** @param {() => void} act */
function whenIdle(act) {
  if ("requestIdleCallback" in window) requestIdleCallback(act, { timeout: 1500 });
  else setTimeout(act, 300);
}

// As soon as the page is read to its end, which may be before the theme's own script has come; and after every change of page, which the theme tells.
const ended = () => document.readyState !== "loading" || document.querySelector("body > .md-container > footer") !== null;
if (ended()) mount();
else document.addEventListener("DOMContentLoaded", mount, { once: true });

onEachChange(mount);
