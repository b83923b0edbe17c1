// What a page says while its reader waits: how much of the calculator has arrived, that nothing arrives, that an answer takes too long.

const SHOWN_AFTER = 2000; // ms
const STALLED = 10_000; // ms without a byte, before that is said

/** @typedef {{ said: string, number?: string, isPressed?: boolean }} Words `said` is read out; `number` changes all the time and is not. */
/**
 * @typedef {{ state: string, isSlow: boolean, isAgain: boolean, come: { bytes: number, of: number } }} Progress What the client knows.
 * @typedef {{ now: number, since: number, lastByte: number }} Times [ms] The present, when the wait began, when the last byte arrived.
 */

const megabytes = (/** @type {number} */ bytes) => (bytes / 1e6).toFixed(1);
const seconds = (/** @type {number} */ ms) => `${Math.round(ms / 1000)} s`;

/** What to say now, or null. @param {Progress} progress @param {Times} times @returns {Words | null} */
export function waitWords({ state, isSlow, isAgain, come }, { now, since, lastByte }) {
  if (state === "ready" && isSlow) {
    const said = "This answer takes longer than it should. What you typed is kept.";
    return { said, number: `${seconds(now - since)} so far`, isPressed: true };
  }
  if (state !== "starting") return null;
  const again = isAgain ? "The calculator did not answer and was ended; it starts again. " : "";
  if (!again && now - since < SHOWN_AFTER) return null;
  const { bytes, of } = come;
  if (of > 0 && bytes >= of) return { said: `${again}All of the calculator has come. It is starting.` };
  const number = of ? `${megabytes(bytes)} of ${megabytes(of)} MB` : "";
  const still = now - Math.max(since, lastByte);
  if (still > STALLED) return { said: `${again}Calculator on its way, but nothing comes`, number: `${number} ${seconds(still)} without a byte`.trim() };
  return { said: `${again}Calculator on its way`, number };
}
