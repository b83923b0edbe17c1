// The worker: Python, started once a tab. It answers requests one after the other; nothing of Python's leaves it.

/** @import { Build, Reply, SheetRequest, WorkerRequest } from "./protocol.js" */

const EMPTY_ZIP = "data:application/zip;base64,UEsFBgAAAAAAAAAAAAAAAAAAAAAAAA==";

/** @type {any} */
let pyodide = null;
/** @type {((request: string) => string) | null} */
let answer = null;

/** @type {Record<string, number>} */
const marks = {};
const mark = (/** @type {string} */ name) => {
  marks[name] = Math.round(performance.now());
};

/** @param {Reply} reply @param {Transferable[]} [transfer] */
function post(reply, transfer = []) {
  /** @type {any} */ (self).postMessage(reply, transfer);
}

/** @param {string} address */
async function fetchBytes(address) {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address} answered ${response.status}`);
  return response;
}

/** @param {string} address */
async function unpacked(address) {
  const response = await fetchBytes(address);
  if (!response.body) throw new Error(`${address} is empty`);
  const stream = response.body.pipeThrough(new DecompressionStream("gzip"));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

/** @param {string} base @param {Build} build */
async function load(base, build) {
  const folder = base + build.pyodide;
  const { loadPyodide } = await import(folder + "pyodide.mjs");
  return {
    loadPyodide,
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
 * Restore the memory that the build froze, with calc loaded and warm.
 * @param {string} base @param {Build} build
 */
async function startFromSnapshot(base, build) {
  const image = unpacked(base + build.snapshot);
  image.catch(() => {});
  const { loadPyodide, common } = await load(base, build);
  mark("loader");
  const bytes = await image;
  mark("image");
  const restored = await loadPyodide({ ...common, stdLibURL: EMPTY_ZIP, _loadSnapshot: bytes });
  restored.runPython("reseed()");
  return restored;
}

/**
 * Start Python afresh and import calc.
 * @param {string} base @param {Build} build
 */
async function startPlainly(base, build) {
  const packages = fetchBytes(base + build.packages).then((response) => response.arrayBuffer());
  packages.catch(() => {});
  const { loadPyodide, common } = await load(base, build);
  mark("loader");
  const fresh = await loadPyodide({ ...common, stdLibURL: base + build.stdlib });
  mark("python");
  fresh.unpackArchive(new Uint8Array(await packages), "zip");
  fresh.runPython("from door import answer, reseed, sheet");
  return fresh;
}

/** @param {string} base @param {Build} build */
async function start(base, build) {
  mark("start");
  let why = build.snapshot ? "" : "no snapshot was built";
  /** @type {"snapshot" | "plain"} */
  let way = "plain";
  if (build.snapshot) {
    try {
      pyodide = await startFromSnapshot(base, build);
      way = "snapshot";
    } catch (error) {
      why = String(error);
    }
  }
  if (way === "plain") pyodide = await startPlainly(base, build);
  answer = pyodide.globals.get("answer");
  mark("ready");
  post({ kind: "ready", way, why, marks });
}

/** @param {SheetRequest} request */
function draw(request) {
  const sheet = pyodide.globals.get("sheet");
  const drawn = sheet(JSON.stringify(request));
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
  if (!answer) post({ kind: "failed", message: String(event.reason) });
});

self.addEventListener("message", (/** @type {MessageEvent<WorkerRequest>} */ event) => {
  const request = event.data;
  if (request.kind === "start") {
    start(request.base, request.build).catch((error) => post({ kind: "failed", message: String(error) }));
  } else if (!answer) {
    throw new Error("asked before Python was ready");
  } else if (request.kind === "compute") {
    post({ kind: "answer", id: request.id, json: answer(JSON.stringify(request)) });
  } else {
    draw(request);
  }
});
