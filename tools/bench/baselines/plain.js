// What the handbook is measured against: Pyodide as its own manual starts it, in a module worker. `?pint` also converts 6 in to cm.

const bench = (window.pbBench = /** @type {any} */ ({}));
const worker = new Worker(new URL("plain_worker.js", import.meta.url), { type: "module" });
worker.addEventListener("message", (event) => {
  document.querySelector("#answer").textContent = event.data.text;
  bench.answered = performance.now();
  bench.text = event.data.text;
  bench.marks = event.data.marks;
  fetch("/bench/report");
});
worker.addEventListener("error", (event) => {
  bench.failed = event.message || "the worker stopped";
  fetch("/bench/report");
});
worker.postMessage({ pint: location.search === "?pint" });
