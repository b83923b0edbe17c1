// How far the work on an order is: what is done and what is waited for, as it is kept. Pure functions.

export const WAIT = "wait:"; // before the key of a task: when its wait is over

/** Why what is done cannot be kept, in words: what the store says is wrong. */
export const UNKEPT = {
  full: "This browser has no room left. What you tick lasts only as long as this page is open.",
  denied: "This browser keeps nothing for this site. What you tick lasts only as long as this page is open.",
};

/** What is left of a wait, in words. @param {number} ms */
export function remaining(ms) {
  const seconds = Math.max(0, Math.ceil(ms / 1000));
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60];
  if (hours) return `${hours} h ${minutes} min`;
  return minutes ? `${minutes} min` : `${seconds} s`;
}

/** The waits that are kept, the one that ends first before the others. @param {Record<string, string>} values */
export function waitsIn(values) {
  const waits = Object.entries(values).filter(([name, text]) => name.startsWith(WAIT) && Number(text) > 0);
  return waits.map(([name, text]) => ({ key: name.slice(WAIT.length), until: Number(text) })).sort((a, b) => a.until - b.until);
}

/** The keys of what is done. @param {Record<string, string>} values */
export function doneIn(values) {
  return (values.done ?? "").split(",").filter(Boolean);
}

// ---- in a file -----------------------------------------------------------------------------------------------------------

const TASK = /^[a-z]+\d*(\.\d+)?$/; // the key of a task
const MOST_TASKS = 1000;

/** What a file says of it: what is done, where one was, and until when something waits. @param {Record<string, string>} values @returns {Record<string, string>} */
export function benchTold(values) {
  const waits = waitsIn(values).filter(({ until }) => until < 8.64e15);
  return {
    ...(doneIn(values).length && { done: doneIn(values).join(", ") }),
    ...(values.at && { at: values.at }),
    ...(waits.length && { waits: waits.map(({ key, until }) => `${key} ${new Date(until).toISOString()}`).join(", ") }),
  };
}

/** What is kept of what a file says; null where that is damaged. @param {Record<string, string>} told @returns {Record<string, string> | null} */
export function benchRead({ done = "", at = "", waits = "", ...strange }) {
  const keys = done.split(",").map((key) => key.trim()).filter(Boolean);
  const pairs = waits.split(",").map((wait) => wait.trim().split(/\s+/)).filter(([key]) => key);
  const isWhole = keys.every((key) => TASK.test(key)) && (!at || TASK.test(at)) && pairs.every(([key, until]) => TASK.test(key) && Number.isFinite(Date.parse(until)));
  if (!isWhole || Object.keys(strange).length || keys.length > MOST_TASKS || pairs.length > MOST_TASKS) return null;
  const until = pairs.map(([key, time]) => [WAIT + key, String(Date.parse(time))]);
  return { ...(keys.length && { done: [...new Set(keys)].join(",") }), ...(at && { at }), ...Object.fromEntries(until) };
}

/** What is done here or there is done; what is waited for here, or was seen, stays as it is. @param {Record<string, string>} here @param {Record<string, string>} theirs */
export function joinedAtBench(here, theirs) {
  const done = [...new Set([...doneIn(here), ...doneIn(theirs)])].join(",");
  return { ...theirs, ...here, ...(done && { done }), ...((here.at || theirs.at) && { at: here.at || theirs.at }) };
}
