// Written into the head of every page that has a calculator, so that Python starts as soon as the page is painted or the browser has
// a moment, while the rest of the page is still on its way. docs/assets/js/client.js takes the worker over, with all that it has said by then;
// what goes wrong with it is for client.js to mend. The theme's own script, which the page reads well without, comes after the first answer, at
// the first touch, or a second after the page was painted.

(() => {
  const told = /** @type {HTMLMetaElement | null} */ (document.querySelector('meta[name="pb-runtime"]'));
  const whole = /** @type {any} */ (window);

  // As the theme does: what it shows with scripts has its room from the beginning, and the page is not restyled for these names when it comes.
  document.documentElement.classList.replace("no-js", "js");
  document.documentElement.classList.add("js-focus-visible");

  // The theme goes to a fragment by a click on a link of its own, which changes the fragment again: where nothing on the page bears that name, as in
  // a link that carries what was typed, quick changes keep Firefox busy for a minute. The theme is not told of those.
  whole.pbPath = location.pathname;
  addEventListener(
    "popstate",
    (event) => {
      if (location.pathname === whole.pbPath && location.hash.length > 1 && !document.getElementById(location.hash.slice(1))) event.stopImmediatePropagation();
    },
    { capture: true },
  );

  const bringTheme = () => {
    const later = /** @type {HTMLMetaElement | null} */ (document.querySelector('meta[name="pb-theme"]'));
    if (!later || whole.pbTheme) return;
    if (document.readyState === "loading") {
      document.addEventListener("readystatechange", bringTheme, { once: true }); // its settings stand at the end of the page
      return;
    }
    whole.pbTheme = true;
    const script = document.createElement("script");
    script.src = later.content;
    script.integrity = later.dataset.integrity ?? "";
    script.onload = () => {
      // the theme waits for the page to be read to its end, which may have been long ago
      if (document.readyState !== "loading") document.dispatchEvent(new Event("DOMContentLoaded"));
      dispatchEvent(new Event("pb-theme"));
      whole.pbTheme = "here";
    };
    script.onerror = () => {
      script.remove();
      whole.pbTheme = undefined;
      setTimeout(bringTheme, 3000);
    };
    document.head.append(script);
  };

  let begun = false;
  const begin = () => {
    if (!told || begun || typeof Worker === "undefined") return;
    begun = true;
    setTimeout(bringTheme, 1000);
    if (whole.pbEarly) return; // client.js was quicker: a link asked for something at once
    const address = new URL(told.dataset.worker ?? "", document.baseURI);
    const worker = new Worker(address, { type: "module", name: "calc" });
    const early = (whole.pbEarly = { worker, beside: /** @type {Worker | null} */ (null), heard: /** @type {MessageEvent[]} */ ([]), lost: false });
    worker.onmessage = (event) => early.heard.push(event);
    worker.onerror = () => (early.lost = true);
    worker.addEventListener("message", (event) => !["coming", "ready"].includes(event.data.kind) && setTimeout(bringTheme));
    const base = new URL("../runtime/", address).href;
    const build = JSON.parse(told.content);
    const { port1, port2 } = new MessageChannel();
    const beside = new Worker(new URL("inflate.js", address), { type: "module", name: "inflate" });
    early.beside = beside;
    beside.onerror = () => worker.postMessage({ kind: "alone" });
    beside.postMessage(base + build.snapshot, [port1]);
    worker.postMessage({ id: 0, kind: "start", base, build }, [port2]);
  };

  if ("document$" in window) whole.pbTheme = "here"; // a change of page brought this script
  for (const touched of ["pointerdown", "keydown", "wheel", "scroll"]) addEventListener(touched, bringTheme, { capture: true, once: true, passive: true });
  requestAnimationFrame(begin);
  if ("requestIdleCallback" in window) requestIdleCallback(begin);
})();
