// Runs in Node while the site is built: `compile` turns Python into bytecode, `snapshot` freezes the loaded runtime.
//
//   node build.mjs compile  PYODIDE_FOLDER STDLIB_IN STDLIB_OUT PACKAGES_IN PACKAGES_OUT CALENDAR_IN CALENDAR_OUT
//   node build.mjs snapshot PYODIDE_FOLDER SCRIPT STDLIB PACKAGES REQUESTS IMAGE_OUT
//   node build.mjs slim     PYODIDE_FOLDER SCRIPT IMAGE_IN IMAGE_OUT
//   node build.mjs restore  PYODIDE_FOLDER SCRIPT SLIM_IMAGE BUILD REQUESTS ANSWERS_OUT
//
// SCRIPT is the part of the runtime's own script that the page starts from the snapshot with (trim.mjs): the snapshot is made with the same.
//
// `slim` takes out of the image what every fresh start brings by itself (the data of the wasm, its first DATA bytes), so that it is not
// shipped twice, and what is empty; `restore` puts it back with the code of the page (docs/assets/js/memory.js), and answers the requests from
// the restored memory.

import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const [command, folder, ...paths] = process.argv.slice(2);
const pyodideFolder = resolve(folder) + "/";
const { loadPyodide } = await import(pathToFileURL(join(pyodideFolder, "pyodide.mjs")).href);

// what the page puts a snapshot back with
const page = readFileSync(join(here, "../../docs/assets/js/memory.js"), "utf8");
const { checksum, putBack } = await import("data:text/javascript," + encodeURIComponent(page));

const BUILT_AT = Date.UTC(2026, 0, 1); // ms; the clock of a repeatable start
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

/** Where the data that the wasm itself brings ends: the start of memory is the same in every fresh start up to there. */
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
        if (number() !== 0 || wasm[at++] !== 0x41) throw new Error("a data segment of another kind than was expected");
        const start = number();
        if (wasm[at++] !== 0x0b) throw new Error("a data segment with another offset than was expected");
        const length = number();
        at += length;
        last = Math.max(last, start + length);
      }
      return last - (last % 4);
    }
    at = end;
  }
  throw new Error("the wasm has no data");
}

/** The maker of the runtime's module that a script gives. */
const makerOf = async (script) => (await import(pathToFileURL(script).href)).default;

/** A fresh start with calc to be imported, ready to be frozen. */
async function freezable(script, stdlib, packages) {
  const createPyodideModule = await makerOf(script);
  const pyodide = await loadPyodide({ ...common, createPyodideModule, stdLibURL: resolve(stdlib), _makeSnapshot: true });
  pyodide.FS.writeFile("/lib/calc.zip", bytes(packages));
  for (const file of ["warm.py", "later.py"]) pyodide.FS.writeFile(`/tmp/${file}`, readFileSync(join(here, file)));
  // before calc is imported, which then takes the room that this frees
  pyodide.runPython("import sys; sys.path[:0] = ['/lib/calc.zip', '/tmp']; import pint, later; later.put_off(); del pint, later, sys.modules['later']; import warm; sys.path.remove('/tmp')");
  pyodide.runPython("from worker_api import answer, reseed, sheet");
  return pyodide;
}

/** Write zeros over free memory, whose old contents would be shipped, too. Python here allocates by malloc alone. */
function zeroFreed(module) {
  const { grow } = WebAssembly.Memory.prototype;
  WebAssembly.Memory.prototype.grow = () => {
    throw new RangeError("only what is free already"); // then malloc gives nothing
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
 * Make a start give the same memory every time and on every machine: the same clock, random bytes, program name and time zone. What is seeded from
 * them is seeded again when a page restores the memory (`reseed`).
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
  // Once to learn what is imported when everything the pages offer is asked for, and again to freeze with just that imported: memory is
  // shipped as large as it ever was.
  makeRepeatable();
  const explorer = await freezable(script, stdlib, packages);
  explorer.globals.set("asked", readFileSync(requests, "utf8"));
  const found = explorer.runPython("import json; warm.explore(json.loads(asked), answer, sheet)");
  const pyodide = await freezable(script, stdlib, packages);
  pyodide.globals.set("found", found);
  pyodide.runPython("import json; found = json.loads(found); warm.load(found['modules']); warm.forget_declarations(); warm.settle(found['light'], answer); del json, found, warm, sys.modules['warm']");
  // Frozen: what is in memory then is never looked through again for what can be freed.
  pyodide.runPython("import gc; gc.collect(); gc.freeze(); del gc");
  zeroFreed(pyodide._module);
  const image = pyodide.makeMemorySnapshot();
  writeFileSync(out, image);
  const where = new Uint32Array(image.buffer, image.byteOffset, 4);
  console.log(JSON.stringify({ bytes: image.length, heap: image.length - where[1], used: pyodide._module._sbrk(0) }));
}

/** Restore a slim image with what the page restores it with. */
async function restored(script, slim, build) {
  const createPyodideModule = await makerOf(script);
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

/** Combine the start of an image's memory with that of a fresh start; doing it twice gives back what there was. */
function exclusive(image, pristine) {
  const start = new Uint32Array(image.buffer, image.byteOffset, 4)[1];
  for (let i = 0; i < pristine.length; i++) image[start + i] ^= pristine[i];
  return image;
}

const BLOCK = 4096;

/** An image without what is empty, written as docs/assets/js/memory.js reads it. */
function withoutEmpty(image) {
  const headLength = new Uint32Array(image.buffer, image.byteOffset, 4)[1];
  if (headLength % 4) throw new Error("the image's head does not end at a word");
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

/** What the start of memory holds in a fresh start of the kind that restores. */
async function pristineStart(script, data) {
  const createPyodideModule = await makerOf(script);
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
  // A fresh start puts random numbers among the data; what is taken out ends before them.
  const [one, other] = [await pristineStart(script, data), await pristineStart(script, data)];
  const first = one.findIndex((byte, i) => byte !== other[i]);
  const same = first < 0 ? data : first - (first % 1024);
  const pristine = one.slice(0, same);
  const shipped = withoutEmpty(exclusive(bytes(from), pristine));
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
  console.error(error?.message ?? String(error)); // not the stack: it would quote the runtime's one line of a megabyte
  process.exit(1);
}
process.exit(0);
