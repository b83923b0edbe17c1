// Written into the head of every page that has a calculator, so that Python starts as soon as the page has been painted or the browser has
// a moment, while the rest of the page is still on its way. docs/assets/js/client.js takes the worker over, with all that it has said by then;
// what goes wrong with it is for client.js to mend.

(() => {
  const told = /** @type {HTMLMetaElement | null} */ (document.querySelector('meta[name="pb-runtime"]'));
  const whole = /** @type {any} */ (window);
  const begin = () => {
    if (!told || whole.pbEarly) return;
    const address = new URL(told.dataset.worker ?? "", document.baseURI);
    const worker = new Worker(address, { type: "module", name: "calc" });
    const early = (whole.pbEarly = { worker, heard: /** @type {MessageEvent[]} */ ([]), lost: false });
    worker.onmessage = (event) => early.heard.push(event);
    worker.onerror = () => (early.lost = true);
    const base = new URL("../runtime/", address).href;
    const build = JSON.parse(told.content);
    const { port1, port2 } = new MessageChannel();
    const beside = new Worker(new URL("inflate.js", address), { type: "module", name: "inflate" });
    beside.onerror = () => worker.postMessage({ kind: "alone" });
    beside.postMessage(base + build.snapshot, [port1]);
    worker.postMessage({ id: 0, kind: "start", base, build }, [port2]);
  };
  requestAnimationFrame(() => setTimeout(begin));
  if ("requestIdleCallback" in window) requestIdleCallback(begin);
})();
