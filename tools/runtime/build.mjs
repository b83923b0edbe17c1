// Runs in Node during the build: `compile` turns Python into bytecode, `snapshot` takes a memory snapshot of the loaded runtime.
//
//   node build.mjs compile  PYODIDE_FOLDER STDLIB_IN STDLIB_OUT PACKAGES_IN PACKAGES_OUT CALENDAR_IN CALENDAR_OUT
//   node build.mjs snapshot PYODIDE_FOLDER SCRIPT STDLIB PACKAGES REQUESTS IMAGE_OUT
//   node build.mjs slim     PYODIDE_FOLDER SCRIPT IMAGE_IN IMAGE_OUT
//   node build.mjs restore  PYODIDE_FOLDER SCRIPT SLIM_IMAGE BUILD REQUESTS ANSWERS_OUT
//
// SCRIPT is the trimmed runtime script (trim.mjs). The page restores the snapshot with it, so the snapshot is made with it too.
//
// `slim` removes from the image whatever every fresh start brings anyway (the data segments of the wasm) and all empty blocks, so that neither
// is shipped. `restore` puts both back with the page's own code (docs/assets/js/memory.js) and answers the requests from the restored memory.

import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const [command, folder, ...paths] = process.argv.slice(2);
const pyodideFolder = resolve(folder) + "/";
const { loadPyodide } = await import(pathToFileURL(join(pyodideFolder, "pyodide.mjs")).href);

// the page's own code for restoring a snapshot
const page = readFileSync(join(here, "../../docs/assets/js/memory.js"), "utf8");
const { checksum, putBack } = await import("data:text/javascript," + encodeURIComponent(page));

const BUILT_AT = Date.UTC(2026, 0, 1); // ms; what the clock says in a reproducible start
const bytes = (path) => new Uint8Array(readFileSync(path));
const env = { HOME: "/home/pyodide", PYTHONNODEBUGRANGES: "1", PYTHONHASHSEED: "0" };
const common = { indexURL: pyodideFolder, enableRunUntilComplete: false, packages: [], env };

async function compile(stdlibIn, stdlibOut, packagesIn, packagesOut, calendarIn, calendarOut) {
  const pyodide = await loadPyodide(common);
  pyodide.FS.writeFile("/tmp/compile_zip.py", readFileSync(join(here, "compile_zip.py")));
  const run = (code) => pyodide.runPython(code);
  run("import sys; sys.path.insert(0, '/tmp'); import compile_zip");
  const convert = (from, to, code) => {
    pyodide.FS.writeFile("/tmp/in.zip", bytes(from));
    run(`open('/tmp/out.zip', 'wb').write(${code})`);
    writeFileSync(to, pyodide.FS.readFile("/tmp/out.zip"));
  };
  const archive = "open('/tmp/in.zip', 'rb').read()";
  convert(stdlibIn, stdlibOut, `compile_zip.compiled_zip(${archive}, '/lib/', compile_zip.PYTHON_STDLIB_LEFT_OUT)`);
  convert(packagesIn, packagesOut, `compile_zip.compiled_zip(${archive}, '')`);
  convert(calendarIn, calendarOut, `compile_zip.compiled_zip(${archive}, '')`);
}

const call = (pyodide, requests) => {
  const answer = pyodide.globals.get("answer");
  const answers = requests.map((request) => answer(JSON.stringify(request)));
  answer.destroy();
  return answers;
};

/** End of the wasm's data segments: up to there, memory is identical in every fresh start. */
function endOfData(wasm) {
  let at = 8;
  const number = () => {
    let value = 0;
    for (let shift = 0; ; shift += 7) {
      const byte = wasm[at++];
      value += (byte & 127) * 2 ** shift;
      if (byte < 128) return value;
    }
  };
  while (at < wasm.length) {
    const section = wasm[at++];
    const end = number() + at;
    if (section === 11) {
      let last = 0;
      for (let left = number(); left > 0; left--) {
        if (number() !== 0 || wasm[at++] !== 0x41) throw new Error("unexpected kind of data segment");
        const start = number();
        if (wasm[at++] !== 0x0b) throw new Error("unexpected offset of a data segment");
        const length = number();
        at += length;
        last = Math.max(last, start + length);
      }
      return last - (last % 4);
    }
    at = end;
  }
  throw new Error("the wasm has no data section");
}

/** The function of a runtime script that creates its module. */
const moduleFactory = async (script) => (await import(pathToFileURL(script).href)).default;

/** A fresh start in which calc can be imported, ready to be snapshotted. */
async function freezable(script, stdlib, packages) {
  const createPyodideModule = await moduleFactory(script);
  const pyodide = await loadPyodide({ ...common, createPyodideModule, stdLibURL: resolve(stdlib), _makeSnapshot: true });
  pyodide.FS.writeFile("/lib/calc.zip", bytes(packages));
  for (const file of ["warm.py", "later.py"]) pyodide.FS.writeFile(`/tmp/${file}`, readFileSync(join(here, file)));
  // before calc is imported, so that it fills the memory that this frees
  pyodide.runPython("import sys; sys.path[:0] = ['/lib/calc.zip', '/tmp']; import pint, later; later.put_off(); del pint; import warm; sys.path.remove('/tmp')");
  pyodide.runPython("from worker_api import answer, reseed, sheet");
  return pyodide;
}

/** Zero freed memory, whose old contents would otherwise be shipped. Python allocates by malloc alone here. */
function zeroFreed(module) {
  const { grow } = WebAssembly.Memory.prototype;
  WebAssembly.Memory.prototype.grow = () => {
    throw new RangeError("memory must not grow here"); // so that malloc returns 0
  };
  const taken = [];
  for (let size = 1 << 17; size >= 16; size >>= 1) {
    for (let block = module._malloc(size); block; block = module._malloc(size)) {
      module.HEAPU8.fill(0, block, block + size);
      taken.push(block);
    }
  }
  for (const block of taken) module._free(block);
  WebAssembly.Memory.prototype.grow = grow;
}

/**
 * Make a start reproducible, on any machine: fix the clock, the random bytes, the program name and the time zone. Whatever is seeded from
 * them is reseeded when a page restores the memory (`reseed`).
 */
function makeRepeatable() {
  let state = 1;
  const fill = (view) => {
    const filled = new Uint8Array(view.buffer, view.byteOffset, view.byteLength);
    for (let i = 0; i < filled.length; i++) filled[i] = (state = (Math.imul(state, 1103515245) + 12345) >>> 0) >>> 16;
    return view;
  };
  createRequire(import.meta.url)("node:crypto").randomFillSync = fill;
  globalThis.crypto.getRandomValues = fill;
  Math.random = () => fill(new Uint8Array(1))[0] / 256;
  let elapsed = 0; // ms
  Date.now = () => BUILT_AT + Math.floor((elapsed += 0.01));
  performance.now = () => (elapsed += 0.01);
  process.argv = ["node", "pyodide"];
  process.env.TZ = "UTC";
}

async function snapshot(script, stdlib, packages, requests, out) {
  // Two starts: the first finds out what is imported when everything on the pages is asked for, the second imports just that and is
  // snapshotted. Memory never shrinks, so the first would be shipped at its largest.
  makeRepeatable();
  const explorer = await freezable(script, stdlib, packages);
  explorer.globals.set("asked", readFileSync(requests, "utf8"));
  const found = explorer.runPython("import json; warm.explore(json.loads(asked), answer, sheet)");
  const pyodide = await freezable(script, stdlib, packages);
  // twice, and the second time without what was looked at before: memory never shrinks, and a list of all objects at once would be its peak
  pyodide.runPython("import gc; warm.forget_declarations(); gc.collect(); gc.freeze()");
  pyodide.globals.set("found", found);
  pyodide.runPython("import json; found = json.loads(found); warm.load(found['modules']); warm.forget_declarations(); gc.unfreeze(); del gc");
  pyodide.runPython("later.put_off(later.FOR_SHEETS); warm.settle(found['light'], answer, later.FOR_SHEETS); del json, found, later, warm, sys.modules['later'], sys.modules['warm']");
  // so that the garbage collector does not traverse these objects again
  pyodide.runPython("import gc; gc.collect(); gc.freeze(); del gc");
  zeroFreed(pyodide._module);
  const image = pyodide.makeMemorySnapshot();
  writeFileSync(out, image);
  const where = new Uint32Array(image.buffer, image.byteOffset, 4);
  console.log(JSON.stringify({ bytes: image.length, heap: image.length - where[1], used: pyodide._module._sbrk(0) }));
}

/** Restore a slim image as the page does. */
async function restored(script, slim, build) {
  const createPyodideModule = await moduleFactory(script);
  const wrapped = async (settings) => {
    const module = await createPyodideModule(settings);
    const head = putBack(module, slim, build);
    const restore = module.API.restoreSnapshot;
    module.API.restoreSnapshot = () => restore(head);
    return module;
  };
  const emptyZip = join(mkdtempSync(join(tmpdir(), "empty-")), "empty.zip");
  writeFileSync(emptyZip, Buffer.from("UEsFBgAAAAAAAAAAAAAAAAAAAAAAAA==", "base64"));
  const lock = JSON.parse(readFileSync(pyodideFolder + "pyodide-lock.json", "utf8")).info;
  return loadPyodide({
    ...common,
    createPyodideModule: wrapped,
    stdLibURL: emptyZip,
    lockFileContents: { info: lock, packages: {} },
    _loadSnapshot: new Uint8Array(build.image),
  });
}

/** XOR the start of an image's memory with that of a fresh start; doing it twice restores it. */
function xorStart(image, pristine) {
  const start = new Uint32Array(image.buffer, image.byteOffset, 4)[1];
  for (let i = 0; i < pristine.length; i++) image[start + i] ^= pristine[i];
  return image;
}

const BLOCK = 4096;

/** An image without its empty blocks, in the format that docs/assets/js/memory.js reads. */
function withoutEmpty(image) {
  const headLength = new Uint32Array(image.buffer, image.byteOffset, 4)[1];
  if (headLength % 4) throw new Error("the image's header is not word-aligned");
  const memory = image.subarray(headLength);
  const stretches = [];
  for (let at = 0; at < memory.length; at += BLOCK) {
    const block = memory.subarray(at, at + BLOCK);
    if (block.every((byte) => byte === 0)) continue;
    const last = stretches.at(-1);
    if (last && last[0] + last[1] === at) last[1] += block.length;
    else stretches.push([at, block.length]);
  }
  const words = Uint32Array.from([stretches.length, headLength, ...stretches.flat()]);
  const parts = [new Uint8Array(words.buffer), image.subarray(0, headLength)];
  return Buffer.concat([...parts, ...stretches.map(([at, length]) => memory.subarray(at, at + length))]);
}

/** The start of memory in a fresh start made for restoring. */
async function pristineStart(script, data) {
  const createPyodideModule = await moduleFactory(script);
  let pristine = null;
  const enough = new Error("enough");
  const wrapped = async (settings) => {
    pristine = (await createPyodideModule(settings)).HEAPU8.slice(0, data);
    throw enough;
  };
  const started = loadPyodide({ ...common, createPyodideModule: wrapped, _loadSnapshot: new Uint8Array(20 * 1024 * 1024) });
  await started.catch((error) => {
    if (error !== enough) throw error;
  });
  return pristine;
}

async function slim(script, from, to) {
  const data = endOfData(bytes(join(pyodideFolder, "pyodide.asm.wasm")));
  // A fresh start writes random numbers into the data; only what comes before them is removed.
  const [one, other] = [await pristineStart(script, data), await pristineStart(script, data)];
  const first = one.findIndex((byte, i) => byte !== other[i]);
  const same = first < 0 ? data : first - (first % 1024);
  const pristine = one.slice(0, same);
  const shipped = withoutEmpty(xorStart(bytes(from), pristine));
  writeFileSync(to, shipped);
  console.log(JSON.stringify({ data: same, sum: checksum(pristine, same), shipped: shipped.length }));
}

async function restore(script, slim, build, requests, out) {
  const pyodide = await restored(script, bytes(slim), JSON.parse(build));
  pyodide.runPython("reseed()");
  writeFileSync(out, JSON.stringify(call(pyodide, JSON.parse(readFileSync(requests, "utf8")))));
}

try {
  await { compile, snapshot, slim, restore }[command](...paths);
} catch (error) {
  console.error(error?.message ?? String(error)); // without the stack, which would quote the runtime's one-megabyte line
  process.exit(1);
}
process.exit(0);
