// Python, started plainly from the files of Pyodide's package; pint comes as wheels, fetched while Python starts.

import { loadPyodide } from "./pyodide/pyodide.mjs";

const fetched = async (/** @type {string} */ name) => (await fetch(new URL(name, import.meta.url))).arrayBuffer();

async function wheels() {
  const names = /** @type {string[]} */ (await (await fetch(new URL("wheels.json", import.meta.url))).json());
  return Promise.all(names.map(fetched));
}

self.addEventListener("message", async (event) => {
  const archives = event.data.pint ? wheels() : Promise.resolve([]);
  const pyodide = await loadPyodide();
  const marks = { python: performance.now() };
  for (const archive of await archives) pyodide.unpackArchive(archive, "wheel");
  const code = event.data.pint
    ? "import pint; f\"{pint.UnitRegistry().Quantity(6, 'inch').to('cm').magnitude:.2f} cm\""
    : "f'{6 * 2.54:.2f} cm'";
  const text = pyodide.runPython(code);
  self.pbMemory = pyodide._module.HEAPU8.length;
  self.postMessage({ text, marks });
});
