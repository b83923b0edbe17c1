// Makes the calculators of a page come alive, on the first page and after each change of page.

import { isCalculator, Panel } from "./panel.js";

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

// Material swaps the body of the page and says so here; without it the page is mounted once.
const changes = /** @type {any} */ (window).document$;
if (changes) changes.subscribe(mount);
else if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", mount);
else mount();
