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
