// What passes between the page and the worker. Only plain data crosses, and every answer is one string.

/**
 * Names of the files that the build put into the page, relative to assets/runtime/.
 * `calendar` is the library that writes calendar files; it is fetched when one is saved. `lock` is what the runtime's own list of packages says of itself; none of those packages is used.
 * `script` is what a start from the snapshot runs, in the folder `pyodide`: the trimmed part of Pyodide's own script, or the whole of it.
 * `sizes` are the bytes of each file that a start waits for, as they are on the host, so that the page can say how much of them has come.
 * `image` is the snapshot's size, unpacked. It is shipped without the first `data` bytes that every fresh start brings by itself; `sum` is a checksum over them.
 * @typedef {{
 *   pyodide: string,
 *   script: string,
 *   lock: Record<string, string>,
 *   stdlib: string,
 *   packages: string,
 *   calendar: string,
 *   snapshot?: string,
 *   sizes: { wasm: number, stdlib: number, packages: number, snapshot?: number },
 *   image: number,
 *   data: number,
 *   sum: number,
 * }} Build
 */

/**
 * What the page asks of the worker.
 * @typedef {{ level: number, id: string, later?: string[], shown?: Record<string, string>, draw?: string }} Place The heading level of the sections of an answer, and the id of its calculator. Drawings named in `later` may come later: with `draw`, one of them is asked for. Of a drawing that is as it is `shown` comes only that.
 * @typedef {{ id: number, kind: "compute", calculator: string, inputs: Record<string, string>, place?: Place, other?: Record<string, string>, names?: string[] }} ComputeRequest with `other`, two versions to be compared by their `names`
 * @typedef {{ id: number, kind: "sheet", calculator: string, inputs: Record<string, string>, name: string, paper: string }} SheetRequest
 * @typedef {{ id: 0, kind: "start", base: string, build: Build }} StartRequest
 * @typedef {{ kind: "alone" }} AloneRequest the worker that was to unpack beside this one cannot be started
 * @typedef {ComputeRequest | SheetRequest | StartRequest | AloneRequest} WorkerRequest
 */

/**
 * What the worker says.
 * @typedef {{ kind: "ready", way: "snapshot" | "plain", why: string, marks: Record<string, number> }} Ready
 * @typedef {{ kind: "failed", message: string, lacks?: Lack }} Failed
 * @typedef {{ kind: "coming", bytes: number, of: number }} Coming how much of what a start waits for has come
 * @typedef {{ kind: "lacking", id: number, lacks: Lack }} Lacking a request that needs a file which could not be fetched
 * @typedef {{ address: string, status: number }} Lack what the host answered for a file; 0 where nothing answered
 * @typedef {{ kind: "answer", id: number, json: string }} Answered
 * @typedef {{ kind: "sheet", id: number, bytes: Uint8Array | null, json: string }} Drawn
 * @typedef {Ready | Failed | Coming | Lacking | Answered | Drawn} Reply
 */

/**
 * What both kinds of answer may have: problems, or a fault of calc's own.
 * @typedef {{ input: string, message: string }} Problem
 * @typedef {{ problems: Problem[], bug?: { kind: string, details: string } }} Outcome
 */

/**
 * An answer as the page shows it (`calc/page/reply.py`): with problems or a fault there is no HTML. `drawings` has the SVG of each drawing, in
 * the order of the HTML, null where it comes later; `lines` stand over the copies of groups in the form, `cures` say as HTML what is amiss at each.
 * @typedef {Outcome & { html: string, drawings: (string | null)[], lines: Record<string, string>, cures: Record<string, string> }} ShownAnswer
 */

/**
 * Two versions compared (`calc/page/versions.py`): a table of what differs, the drawing of each, and a sentence.
 * @typedef {Outcome & { html: string, pictures: string[], spoken: string }} Comparison
 */

/**
 * An answer as plain data (`Answer.to_dict`), as far as scripts read it.
 * @typedef {Outcome & {
 *   figures: Record<string, { value: number, unit: string, text: string, label: string }>,
 *   sheets: { name: string, title: string, group?: string, saved?: string }[],
 *   fields?: Record<string, string>,
 *   record?: string,
 * }} Answer
 */

/** How long a request may take before the page says that it takes long, and before the worker counts as stuck, in milliseconds. */
export const SLOW = 5_000;
export const LONGEST_REQUEST = 20_000;
export const LONGEST_SHEET = 60_000;

/** How long a start may stand still, in milliseconds: while files come, and when all have come and only work is left. It may last as long as it likes. */
export const STANDS_STILL = 30_000;
export const LONGEST_WORK = 120_000;

/**
 * Whether Python failed for want of a file. A restored memory has no files, so that what is imported only now is not found; the library that
 * writes calendar files is in none of the archives, and is fetched with the first file.
 * @param {string} json an answer
 */
export function lacksFiles(json) {
  return json.startsWith('{"bug"') && /"kind": ?"(EOFError|ModuleNotFoundError|ImportError|FileNotFoundError|ZipImportError)"/.test(json);
}
