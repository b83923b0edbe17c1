// The worker, with a host and a Python that are only played: how it starts, what it falls back on, what it answers.

import assert from "node:assert/strict";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, beforeEach, test } from "node:test";
import { pathToFileURL } from "node:url";
import { gzipSync } from "node:zlib";

const folder = mkdtempSync(join(tmpdir(), "worker-"));
mkdirSync(join(folder, "pyodide"));
writeFileSync(join(folder, "package.json"), '{"type":"module"}');
writeFileSync(join(folder, "pyodide", "pyodide.js"), "export const loadPyodide = (settings) => globalThis.startPython(settings);");
writeFileSync(join(folder, "pyodide", "pyodide.asm.js"), "export default async () => ({});");
after(() => rmSync(folder, { recursive: true }));

const BASE = `${pathToFileURL(folder).href}/`;
const BUILD = { pyodide: "pyodide/", script: "pyodide.asm.js", lock: { python: "3.14.2" }, stdlib: "stdlib.gz", packages: "packages.gz", calendar: "calendar.gz", sizes: { wasm: 8, stdlib: 30, packages: 31 } };
const WASM = new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0]); // a module with nothing in it

/** @type {any} */ const worker = globalThis;
/** @type {Record<string, (event: any) => void>} */ let listeners = {};
/** @type {any[]} */ let posted = [];
/** @type {Record<string, Uint8Array>} What the host has, by the end of its address. */ let host = {};
/** @type {string[]} */ let fetched = [];
/** @type {{ code: string[], files: Record<string, string>, answer: (request: string) => string, sheet: (request: string) => any }} */ let python;
let count = 0;

const text = (/** @type {Uint8Array} */ bytes) => new TextDecoder().decode(bytes);

beforeEach(async () => {
  listeners = {};
  posted = [];
  fetched = [];
  host = { "pyodide.asm.wasm": WASM, "stdlib.gz": gzipSync("stdlib"), "packages.gz": gzipSync("packages"), "calendar.gz": gzipSync("calendar") };
  python = { code: [], files: {}, answer: (request) => `{"asked":${request}}`, sheet: () => "{}" };
  const fetch = async (/** @type {string} */ address) => {
    const name = String(address).split("/").at(-1) ?? "";
    fetched.push(name);
    return name in host ? new Response(host[name]) : new Response("", { status: 404 });
  };
  Object.assign(worker, {
    self: worker,
    fetch,
    addEventListener: (/** @type {string} */ name, /** @type {any} */ act) => { listeners[name] = act; },
    postMessage: (/** @type {any} */ message) => posted.push(message),
    startPython: async (/** @type {any} */ settings) => {
      await settings.createPyodideModule({});
      return {
        FS: { writeFile: (/** @type {string} */ name, /** @type {Uint8Array} */ bytes) => { python.files[name] = text(bytes); } },
        runPython: (/** @type {string} */ code) => python.code.push(code),
        globals: { get: (/** @type {"answer" | "sheet"} */ name) => Object.assign((/** @type {string} */ request) => python[name](request), { destroy() {} }) },
      };
    },
  });
  count += 1;
  await import(new URL(`../../docs/assets/js/worker.js?${count}`, import.meta.url).href); // again, with nothing started
});

/** Send it something, and wait until it has posted a message of one of these kinds. @param {any} message @param {string[]} kinds */
async function sent(message, ...kinds) {
  const before = posted.length;
  listeners.message({ data: message, ports: [] });
  for (;;) {
    const found = posted.slice(before).find(({ kind }) => kinds.includes(kind));
    if (found) return found;
    await new Promise((resolve) => setImmediate(resolve));
  }
}

const start = (/** @type {object} */ more = {}) => sent({ id: 0, kind: "start", base: BASE, build: { ...BUILD, ...more } }, "ready", "failed");

test("a plain start brings Python's files and says how much has come", async () => {
  const ready = await start();
  assert.deepEqual([ready.kind, ready.way, ready.why], ["ready", "plain", "no snapshot was built"]);
  assert.equal(python.files["/lib/calc.zip"], "packages");
  assert.match(python.code[0], /from worker_api import answer/);
  const coming = posted.filter(({ kind }) => kind === "coming");
  assert.ok(coming.length > 0 && coming.every(({ bytes, of }) => bytes <= of && of === 69));
  assert.equal(coming.at(-1).bytes, 69);
});

test("a snapshot that the host does not have is done without, and the reason is said", async () => {
  const ready = await start({ snapshot: "image.gz", image: 64, sizes: { ...BUILD.sizes, snapshot: 40 } });
  assert.deepEqual([ready.kind, ready.way], ["ready", "plain"]);
  assert.match(ready.why, /image\.gz answered 404/);
  assert.equal(posted.filter(({ kind }) => kind === "coming").at(-1).of, 69); // the files of a plain start alone
});

for (const lost of ["pyodide.asm.wasm", "stdlib.gz", "packages.gz"]) {
  test(`a start without ${lost} fails and names it`, async () => {
    delete host[lost];
    const failed = await start();
    assert.equal(failed.kind, "failed");
    assert.equal(failed.lacks.status, 404);
    assert.ok(failed.lacks.address.endsWith(lost));
  });
}

test("a network that is gone is a lack of status 0", async () => {
  worker.fetch = async () => { throw new TypeError("network"); };
  assert.equal((await start()).lacks.status, 0);
});

test("requests are answered with what Python says, as it says it", async () => {
  await start();
  const request = { id: 7, kind: "compute", calculator: "swags", inputs: { side: "66 cm" } };
  assert.deepEqual(await sent(request, "answer"), { kind: "answer", id: 7, json: `{"asked":${JSON.stringify(request)}}` });
});

test("a fault of calc's own brings no files and is handed on", async () => {
  await start();
  python.answer = () => '{"bug":{"kind":"ModuleNotFoundError","details":""}}';
  fetched = [];
  assert.match((await sent({ id: 1, kind: "compute" }, "answer")).json, /ModuleNotFoundError/);
  assert.deepEqual(fetched, []); // after a plain start everything is there
});

test("a sheet is handed over as bytes, or as the answer that says why not", async () => {
  await start();
  python.sheet = () => ({ toJs: () => new Uint8Array([37, 80]), destroy() {} });
  assert.deepEqual(await sent({ id: 2, kind: "sheet", name: "bench-sheet" }, "sheet"), { kind: "sheet", id: 2, bytes: new Uint8Array([37, 80]), json: "" });
  python.sheet = () => '{"problems":[]}';
  assert.deepEqual(await sent({ id: 3, kind: "sheet" }, "sheet"), { kind: "sheet", id: 3, bytes: null, json: '{"problems":[]}' });
});

const lacking = '{"bug":{"kind":"ModuleNotFoundError","details":"icalendar"}}';
const calendar = () => (python.files["/lib/calendar.zip"] ? { toJs: () => new Uint8Array([66]), destroy() {} } : lacking);

test("the library that writes calendars is brought with the first, once", async () => {
  await start();
  python.sheet = calendar;
  fetched = [];
  for (const id of [4, 5]) assert.deepEqual((await sent({ id, kind: "sheet" }, "sheet")).bytes, new Uint8Array([66]));
  assert.deepEqual(fetched, ["calendar.gz"]);
});

test("where it cannot be had the request is refused with its address, and tried again with the next", async () => {
  await start();
  python.sheet = calendar;
  const packed = host["calendar.gz"];
  delete host["calendar.gz"];
  const refused = await sent({ id: 6, kind: "sheet" }, "lacking", "sheet");
  assert.deepEqual([refused.kind, refused.id, refused.lacks.status], ["lacking", 6, 404]);
  host["calendar.gz"] = packed;
  assert.deepEqual((await sent({ id: 7, kind: "sheet" }, "sheet")).bytes, new Uint8Array([66]));
});
