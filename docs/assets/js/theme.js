// The theme changes pages without reloading, and tells each change. Its script may come later than ours (tools/site/early.js).

/**
 * Do something for every page: for this one as soon as it has been read, and after each change of page. It may be done twice for a page.
 * @param {() => void} act
 */
export function onEachPage(act) {
  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", act, { once: true });
  else act();
  onEachChange(act);
}

/**
 * Do something after each change of page, and once for the first page.
 * @param {() => void} act
 */
export function onEachChange(act) {
  const listen = () => /** @type {any} */ (window).document$?.subscribe(act);
  if ("document$" in window) listen();
  else addEventListener("pb-theme", listen, { once: true });
}
