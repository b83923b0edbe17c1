// The worker: Python, started once a tab. It answers requests one after the other; nothing of Python's leaves it.

import { Arrivals, counting } from "./counting.js";
import { putBack } from "./memory.js";
import { lacksFiles } from "./protocol.js";

/** @import { Build, ComputeRequest, Lack, Reply, SheetRequest, WorkerRequest } from "./protocol.js" */

const PACKAGES = "/lib/calc.zip"; // where the snapshot's memory believes them to be, too
const CALENDAR = "/lib/calendar.zip"; // the library that writes calendar files, once one was asked for
const EMPTY_ZIP = "data:application/zip;base64,UEsFBgAAAAAAAAAAAAAAAAAAAAAAAA==";

/** @type {any} */
let pyodide = null;
/** @type {((request: string) => string) | null} */
let answer = null;
/** @type {{ base: string, build: Build } | null} Where the files of a restored memory are, until they are brought. */
let files = null;
/** @type {Promise<void> | null} They are fetched once; a request that comes meanwhile waits for them, too. */
let fetching = null;
/** @type {(() => Promise<void>) | null} Brings the library that writes calendar files, until it is here. */
let bringCalendar = null;

/** What to do when the other worker cannot be started. */
let unpackAlone = () => {};

/** @type {Record<string, number>} */
const marks = {};
const mark = (/** @type {string} */ name) => {
  marks[name] = Math.round(performance.now());
};

/** @param {Reply} reply @param {Transferable[]} [transfer] */
function post(reply, transfer = []) {
  /** @type {any} */ (self).postMessage(reply, transfer);
}

const TOLD_EVERY = 200; // ms; how often the page hears how much has arrived
const arrivals = new Arrivals();
let lastTold = 0;
let telling = 0;

function tell() {
  clearTimeout(telling);
  telling = 0;
  if (answer) return;
  lastTold = performance.now();
  post({ kind: "coming", bytes: arrivals.soFar, of: arrivals.total });
}

/** @param {string} name of a file @param {number} bytes of it that have arrived now */
function count(name, bytes) {
  arrivals.add(name, bytes);
  if (performance.now() - lastTold >= TOLD_EVERY || arrivals.soFar >= arrivals.total) tell();
  else telling ||= setTimeout(tell, TOLD_EVERY); // the last bytes before a stream stands still are told, too
}

/** A file that could not be fetched from the host. */
class Missing extends Error {
  /** @param {string} address @param {number} status */
  constructor(address, status) {
    super(status ? `${address} answered ${status}` : `${address} could not be fetched`);
    /** @type {Lack} */
    this.lacks = { address, status };
  }
}

/** @param {unknown} error @returns {Lack | undefined} */
const lackOf = (error) => (error instanceof Missing ? error.lacks : undefined);

/** @param {string} address */
async function fetchBytes(address) {
  const response = await fetch(address).catch(() => {
    throw new Missing(address, 0);
  });
  if (!response.ok) throw new Missing(address, response.status);
  return response;
}

/** @param {string} address @param {string} name of the file, as `arrivals` has it */
async function unpacked(address, name) {
  const response = await fetchBytes(address);
  if (!response.body) throw new Error(`${address} is empty`);
  const stream = response.body.pipeThrough(counting((bytes) => count(name, bytes))).pipeThrough(new DecompressionStream("gzip"));
  const bytes = new Uint8Array(await new Response(stream).arrayBuffer());
  count(name, Infinity); // all of it, whatever size it has
  return bytes;
}

/**
 * What another worker has unpacked meanwhile (inflate.js); unpacked here when it says that it cannot.
 * @param {MessagePort} port @param {string} address
 * @returns {Promise<Uint8Array>}
 */
async function unpackedBeside(port, address) {
  const bytes = await new Promise((resolve) => {
    port.onmessage = (event) => (typeof event.data === "number" ? count("snapshot", event.data) : resolve(event.data));
    unpackAlone = () => resolve(null);
  });
  port.close();
  if (!bytes) return unpacked(address, "snapshot");
  count("snapshot", Infinity);
  return new Uint8Array(bytes);
}

/**
 * The wasm, compiled while it comes, beside all else that a start waits for. Browsers refuse to compile what a host sends as another type, so it
 * is given its type here.
 * @param {string} address
 */
async function compiled(address) {
  const response = await fetchBytes(address);
  if (!response.body) throw new Error(`${address} is empty`);
  const counted = response.body.pipeThrough(counting((bytes) => count("wasm", bytes)));
  const module = await WebAssembly.compileStreaming(new Response(counted, { headers: { "content-type": "application/wasm" } }));
  count("wasm", Infinity);
  return module;
}

/**
 * Hand that wasm over where Pyodide would fetch and compile its own. Pyodide waits for ever where it cannot be had or there is no room for it;
 * here that becomes a failed start.
 * @param {string} address
 * @returns {Promise<never>}
 */
function handOver(address) {
  const wasm = compiled(address);
  const fetchAny = self.fetch;
  self.fetch = async (source, init) => (String(source) === address ? new Response() : fetchAny(source, init));
  return new Promise((_, reject) => {
    wasm.catch(reject);
    WebAssembly.instantiateStreaming = async (_source, imports) => {
      try {
        const module = await wasm;
        return { module, instance: await WebAssembly.instantiate(module, imports) };
      } catch (error) {
        reject(error);
        throw error;
      }
    };
  });
}

/**
 * Pyodide's loader, and the script beside the wasm: the whole of it, or the part that a start from the snapshot needs.
 * @param {string} base @param {Build} build @param {string} script
 */
async function load(base, build, script) {
  const folder = base + build.pyodide;
  const [{ loadPyodide }, { default: createModule }] = await Promise.all([import(folder + "pyodide.js"), import(folder + script)]);
  return {
    loadPyodide,
    createModule,
    common: {
      indexURL: folder,
      enableRunUntilComplete: false,
      packages: [],
      lockFileContents: { info: build.lock, packages: {} },
      env: { HOME: "/home/pyodide", PYTHONNODEBUGRANGES: "1" },
    },
  };
}

/**
 * The maker of the runtime's module, with one step put in: it is made while the image is still on its way, and then the image is waited for and
 * put into its memory.
 * @param {(settings: unknown) => Promise<any>} createModule @param {Build} build @param {Promise<Uint8Array>} image
 */
function completing(createModule, build, image) {
  return async (/** @type {unknown} */ settings) => {
    const module = await createModule(settings);
    mark("wasm");
    const bytes = await image;
    mark("image");
    const head = putBack(module, bytes, build);
    const restore = module.API.restoreSnapshot;
    module.API.restoreSnapshot = () => {
      module.API.restoreSnapshot = restore;
      return restore(head);
    };
    return module;
  };
}

/**
 * Restore the memory that the build froze, with calc loaded and warm.
 * @param {string} base @param {Build} build @param {MessagePort | undefined} port where the memory comes from, unpacked
 */
async function startFromSnapshot(base, build, port) {
  const image = port ? unpackedBeside(port, base + build.snapshot) : unpacked(base + build.snapshot, "snapshot");
  image.catch(() => {});
  const { loadPyodide, createModule, common } = await load(base, build, build.script);
  mark("loader");
  const createPyodideModule = completing(createModule, build, image);
  const room = new Uint8Array(build.image); // only its length is looked at, before the image itself is here
  const restored = await loadPyodide({ ...common, createPyodideModule, stdLibURL: EMPTY_ZIP, _loadSnapshot: room });
  const config = restored._api.config;
  delete config._loadSnapshot; // these two would hold the image as long as the worker lives
  delete config.createPyodideModule;
  restored.runPython("reseed()");
  return restored;
}

/**
 * Start Python from the beginning, without the snapshot, and import calc.
 * @param {string} base @param {Build} build
 */
async function startPlainly(base, build) {
  const packages = unpacked(base + build.packages, "packages");
  const stdlib = unpacked(base + build.stdlib, "stdlib");
  packages.catch(() => {});
  stdlib.catch(() => {});
  const { loadPyodide, createModule: createPyodideModule, common } = await load(base, build, "pyodide.asm.js");
  mark("loader");
  const stdLibURL = URL.createObjectURL(new Blob([await stdlib]));
  const fresh = await loadPyodide({ ...common, createPyodideModule, stdLibURL });
  URL.revokeObjectURL(stdLibURL);
  mark("python");
  fresh.FS.writeFile(PACKAGES, await packages);
  fresh.runPython(`import sys; sys.path.append("${PACKAGES}"); from worker_api import answer, reseed, sheet`);
  return fresh;
}

/** @param {string} base @param {Build} build */
const calendarFrom = (base, build) => async () => {
  const packed = await unpacked(base + build.calendar, "calendar");
  bringCalendar = null;
  pyodide.FS.writeFile(CALENDAR, packed);
  pyodide.runPython(`import importlib, sys; sys.path.append("${CALENDAR}"); importlib.invalidate_caches()`);
};

/** @param {string} base @param {Build} build */
async function fetchFiles(base, build) {
  const [stdlib, packages] = await Promise.all([unpacked(base + build.stdlib, "stdlib"), unpacked(base + build.packages, "packages")]);
  const [major, minor] = build.lock.python.split(".");
  pyodide.FS.writeFile(`/lib/python${major}${minor}.zip`, stdlib);
  pyodide.FS.writeFile(PACKAGES, packages);
  pyodide.runPython("import importlib, sys; importlib.invalidate_caches(); sys.path_importer_cache.clear()");
}

async function bringFiles() {
  if (!files) return;
  fetching ??= fetchFiles(files.base, files.build).catch((error) => {
    fetching = null; // asked for again with the next request
    throw error;
  });
  await fetching;
}

/** @param {string} base @param {Build} build @param {MessagePort} [port] */
async function start(base, build, port) {
  mark("start");
  const traces = /** @type {any} */ (Error); // those of what the runtime throws and catches make the browser read its script once more
  const { stackTraceLimit } = traces;
  traces.stackTraceLimit = 0;
  const { wasm, stdlib, packages, snapshot } = build.sizes;
  arrivals.expect(snapshot ? { wasm, snapshot } : { wasm, stdlib, packages });
  const broken = handOver(base + build.pyodide + "pyodide.asm.wasm");
  broken.catch(() => {});
  let why = build.snapshot ? "" : "no snapshot was built";
  /** @type {"snapshot" | "plain"} */
  let way = "plain";
  if (build.snapshot) {
    try {
      pyodide = await Promise.race([startFromSnapshot(base, build, port), broken]);
      way = "snapshot";
      files = { base, build };
    } catch (error) {
      why = String(error);
      arrivals.expect({ wasm, stdlib, packages });
    }
  }
  if (way === "plain") pyodide = await Promise.race([startPlainly(base, build), broken]);
  traces.stackTraceLimit = stackTraceLimit;
  bringCalendar = calendarFrom(base, build);
  answer = pyodide.globals.get("answer");
  mark("ready");
  post({ kind: "ready", way, why, marks });
}

/**
 * Work one request out; once, and only after a bug that looks like a missing file, with the files brought.
 * @param {ComputeRequest} request
 */
async function compute(request) {
  if (!answer) throw new Error("asked before Python was ready");
  let json = answer(JSON.stringify(request));
  if (files && lacksFiles(json)) {
    await bringFiles();
    json = answer(JSON.stringify(request));
  }
  post({ kind: "answer", id: request.id, json });
}

/** @param {SheetRequest} request */
async function draw(request) {
  const sheet = pyodide.globals.get("sheet");
  let drawn = sheet(JSON.stringify(request));
  for (const bring of [files && bringFiles, bringCalendar]) {
    if (!bring || typeof drawn !== "string" || !lacksFiles(drawn)) continue;
    await bring();
    drawn = sheet(JSON.stringify(request));
  }
  sheet.destroy();
  if (typeof drawn === "string") {
    post({ kind: "sheet", id: request.id, bytes: null, json: drawn });
    return;
  }
  const bytes = drawn.toJs();
  drawn.destroy();
  post({ kind: "sheet", id: request.id, bytes, json: "" }, [bytes.buffer]);
}

self.addEventListener("unhandledrejection", (event) => {
  // before the start is over this is a start that fails; after it, a request that would else never be answered
  post({ kind: "failed", message: String(event.reason), lacks: lackOf(event.reason) });
});

self.addEventListener("message", (/** @type {MessageEvent<WorkerRequest>} */ event) => {
  const request = event.data;
  if (request.kind === "start") {
    start(request.base, request.build, event.ports[0]).catch((error) => post({ kind: "failed", message: String(error), lacks: lackOf(error) }));
  } else if (request.kind === "alone") {
    unpackAlone();
  } else {
    (request.kind === "compute" ? compute(request) : draw(request)).catch((error) => {
      const lacks = lackOf(error);
      if (!lacks) throw error;
      post({ kind: "lacking", id: request.id, lacks });
    });
  }
});
