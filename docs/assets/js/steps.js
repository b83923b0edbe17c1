// Undo and redo over the texts of one form. A step holds what its names said before and after; an absent name is null. Pure functions: the
// same changes applied to the same history give the same result in every tab.

/** @typedef {Record<string, string>} Values what stands in a form, by full name */
/** @typedef {Record<string, string | null>} Texts what some names say; null where there is no such name */
/** @typedef {{ id: string, what: string, visit: string, time: number, before: Texts, after: Texts }} Step */
/** @typedef {{ values: Values, steps: Step[], at: number }} History `at` steps are done; those after it can be redone */
/** @typedef {{ id: string, kind: "change", set: Texts, what: string, visit: string, time: number }} Edit */
/** @typedef {Edit | { id: string, kind: "undo", step: string } | { id: string, kind: "redo", step: string }} Change */

export const MOST_STEPS = 400;
const PAUSE = 1000; // ms; typing that goes on sooner in the same field belongs to the same step

/**
 * What turns `before` into `after`.
 * @param {Values} before @param {Values} after
 * @param {(name: string) => boolean} [isKnown] whether the form has a field for a name; what it has none for stays
 * @returns {Texts}
 */
export function difference(before, after, isKnown = () => true) {
  /** @type {Texts} */
  const set = {};
  for (const name of Object.keys(before)) if (!(name in after) && isKnown(name)) set[name] = null;
  for (const [name, text] of Object.entries(after)) if (before[name] !== text) set[name] = text;
  return set;
}

/** @param {Values} values @param {Texts} texts */
function put(values, texts) {
  for (const [name, text] of Object.entries(texts)) {
    if (text === null) delete values[name];
    else values[name] = text;
  }
}

/** The step that Undo would take back. @param {History} history @returns {Step | undefined} */
export function lastDone(history) {
  return history.steps[history.at - 1];
}

/** The step that Redo would do again. @param {History} history @returns {Step | undefined} */
export function nextUndone(history) {
  return history.steps[history.at];
}

/**
 * Apply a change to a history, in place. Gives back whether there was anything to do: an undo of a step that is no longer the last one is not.
 * @param {History} history @param {Change} change
 */
export function applyChange(history, change) {
  if (change.kind === "undo") {
    const step = lastDone(history);
    if (step?.id !== change.step) return false;
    put(history.values, step.before);
    history.at -= 1;
    return true;
  }
  if (change.kind === "redo") {
    const step = nextUndone(history);
    if (step?.id !== change.step) return false;
    put(history.values, step.after);
    history.at += 1;
    return true;
  }
  const names = Object.keys(change.set).filter((name) => (history.values[name] ?? null) !== change.set[name]);
  if (!names.length) return false;
  /** @type {Texts} */
  const before = Object.fromEntries(names.map((name) => [name, history.values[name] ?? null]));
  /** @type {Texts} */
  const after = Object.fromEntries(names.map((name) => [name, change.set[name]]));
  history.steps.length = history.at; // what was undone is gone once something else is done
  put(history.values, after);
  const last = lastDone(history);
  if (last && change.visit && last.visit === change.visit && change.time - last.time < PAUSE) {
    last.before = { ...before, ...last.before };
    last.after = { ...last.after, ...after };
    last.time = change.time;
    if (Object.keys(last.after).every((name) => last.after[name] === last.before[name])) history.steps.pop();
  } else {
    history.steps.push({ id: change.id, what: change.what, visit: change.visit, time: change.time, before, after });
    if (history.steps.length > MOST_STEPS) history.steps.splice(0, history.steps.length - MOST_STEPS);
  }
  history.at = history.steps.length;
  return true;
}
