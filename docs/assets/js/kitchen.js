// The kitchen of this device: one record, which the page My kitchen fills and every calculator starts from. Tells "changed".

import { KITCHEN } from "./records.js";
import { store } from "./store.js";

/** @import { OpenRecord } from "./store.js" */
/** @import { Values } from "./steps.js" */

class Kitchen extends EventTarget {
  /** @type {OpenRecord | null} */ #open = null;
  /** @type {Promise<OpenRecord> | null} */ #opening = null;

  /** Its record, once storage has opened. */
  begin() {
    this.#opening ??= store.only(KITCHEN).then((open) => {
      this.#open = open;
      open.addEventListener("followed", () => this.dispatchEvent(new Event("changed")));
      return open;
    });
    return this.#opening;
  }

  /** What is kept in it. @returns {Values} */
  get values() {
    return this.#open?.values ?? {};
  }
}

export const kitchen = new Kitchen();
