// What passes between the page and the worker. Only plain data crosses, and every answer is one string.

/**
 * Names of the files that the build put into the page, relative to assets/runtime/.
 * `calendar` is the library that writes calendar files; it is fetched when one is saved. `lock` is what the runtime's own list of packages says of itself; none of those packages is used.
 * `script` is what a start from the snapshot runs, in the folder `pyodide`: the trimmed part of Pyodide's own script, or the whole of it.
 * `image` is the snapshot's size, unpacked. It is shipped without the first `data` bytes that every fresh start brings by itself; `sum` is a checksum over them.
 * @typedef {{
 *   pyodide: string,
 *   script: string,
 *   lock: Record<string, string>,
 *   stdlib: string,
 *   packages: string,
 *   calendar: string,
 *   snapshot?: string,
 *   image: number,
 *   data: number,
 *   sum: number,
 * }} Build
 */

/**
 * What the page asks of the worker.
 * @typedef {{ id: number, kind: "compute", calculator: string, inputs: Record<string, string> }} ComputeRequest
 * @typedef {{ id: number, kind: "sheet", calculator: string, inputs: Record<string, string>, name: string, paper: string }} SheetRequest
 * @typedef {{ id: 0, kind: "start", base: string, build: Build }} StartRequest
 * @typedef {{ kind: "alone" }} AloneRequest the worker that was to unpack beside this one cannot be started
 * @typedef {ComputeRequest | SheetRequest | StartRequest | AloneRequest} WorkerRequest
 */

/**
 * What the worker says.
 * @typedef {{ kind: "ready", way: "snapshot" | "plain", why: string, marks: Record<string, number> }} Ready
 * @typedef {{ kind: "failed", message: string }} Failed
 * @typedef {{ kind: "answer", id: number, json: string }} Answered
 * @typedef {{ kind: "sheet", id: number, bytes: Uint8Array | null, json: string }} Drawn
 * @typedef {Ready | Failed | Answered | Drawn} Reply
 */

/**
 * An answer, as `calc` writes it.
 * @typedef {{ section?: string }} Placed
 * @typedef {Placed & { value: number, unit: string, text: string, label: string, low?: number, high?: number, quiet?: boolean, also?: string }} Figure `also` names a second section.
 * @typedef {Placed & { text: string }} Said
 * @typedef {{ label: string, align: string, looks?: Record<string, string> }} Column `looks` are the colours of texts in it.
 * @typedef {Placed & { name: string, title: string, columns: Column[], rows: string[][] }} Table
 * @typedef {Placed & { name: string, title: string, description: string, svg: string }} Drawing
 * @typedef {Placed & { name: string, title: string }} Sheet
 * @typedef {Placed & { name: string, title: string, type: string }} KeptFile
 * @typedef {{ input: string, message: string }} Problem
 * @typedef {{
 *   calculator: string,
 *   figures: Record<string, Figure>,
 *   problems: Problem[],
 *   notes: Said[],
 *   cautions: Said[],
 *   tables: Table[],
 *   drawings: Drawing[],
 *   sheets: Sheet[],
 *   sections?: { name: string, title: string, short?: string, prints?: string }[],
 *   files?: KeptFile[],
 *   fields?: Record<string, string>,
 *   record?: string,
 *   bug?: { kind: string, details: string },
 * }} Answer
 */

/** How long one request may take before the worker counts as stuck, in milliseconds. */
export const LONGEST_REQUEST = 30_000;

/** How long the worker may take to start before the page says that it does not, in milliseconds. */
export const LONGEST_START = 180_000;
