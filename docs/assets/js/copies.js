// What the copies of a group are called, on the page and to a screen reader: "Row 2", "Row 2, Swag, Tier 1", "Remove Row 2 from Tier 1".

import { element } from "./render.js";

/** A copy by its kind and its number: "Row 2". @param {Element} copy */
export function titleOf(copy) {
  return (copy.querySelector(":scope > summary > .pb-count")?.textContent ?? "").trim();
}

/**
 * A name that is not taken yet: the wanted one, or else that with the next number that is free.
 * @param {string} wanted @param {string[]} taken
 */
export function freeName(wanted, taken) {
  const used = new Set(taken.map((name) => name.trim().toLowerCase()));
  if (!used.has(wanted.trim().toLowerCase())) return wanted;
  const [, stem, number] = /^(.*?)\s*(\d*)$/.exec(wanted.trim()) ?? ["", wanted, ""];
  let next = number ? Number(number) + 1 : 2;
  while (used.has(`${stem} ${next}`.trim().toLowerCase())) next += 1;
  return `${stem} ${next}`.trim();
}

/**
 * Number a copy, say in the names of its buttons which one they act on, and offer to copy it to each group like its own elsewhere.
 * @param {HTMLElement} group @param {HTMLElement} copy @param {number} index @param {number} count
 * @param {HTMLElement[]} others the same group in each of the other tiers
 */
export function nameCopy(group, copy, index, count, others) {
  const title = `${group.dataset.label} ${index + 1}`;
  const owner = group.closest(".pb-group");
  const within = (/** @type {string} */ word) => (owner ? ` ${word} ${titleOf(owner)}` : "");
  const number = copy.querySelector(":scope > summary > .pb-count")?.lastChild;
  if (number) number.textContent = String(index + 1);
  offerCopies(copy, others);
  for (const button of /** @type {NodeListOf<HTMLButtonElement>} */ (copy.querySelectorAll(":scope > .pb-group-tools > button"))) {
    const direction = button.dataset.direction;
    if (direction) {
      button.setAttribute("aria-label", `Move ${title} ${direction}${within("in")}`);
      button.disabled = direction === "up" ? index === 0 : index === count - 1;
    } else if (button.matches(".pb-again")) {
      button.setAttribute("aria-label", `${title} once more${within("in")}`);
      button.disabled = count >= Number(group.dataset.maximum);
    } else if (button.matches(".pb-copy-to")) {
      const other = others[Number(button.dataset.to)];
      const tier = titleOf(/** @type {Element} */ (other.closest(".pb-group")));
      button.textContent = `Copy to ${tier}`;
      button.setAttribute("aria-label", `Copy to ${tier}: ${title}${within("of")}`);
      button.disabled = other.querySelectorAll(":scope > .pb-copies > .pb-group").length >= Number(other.dataset.maximum);
    } else {
      button.setAttribute("aria-label", `Remove ${title}${within("from")}`);
      button.disabled = count <= Number(group.dataset.minimum);
    }
  }
}

/** As many buttons as there are others to copy it to. @param {HTMLElement} copy @param {HTMLElement[]} others */
function offerCopies(copy, others) {
  const buttons = copy.querySelectorAll(":scope > .pb-group-tools > .pb-copy-to");
  const last = copy.querySelector(":scope > .pb-group-tools > .pb-remove");
  for (let i = others.length; i < buttons.length; i += 1) buttons[i].remove();
  for (let i = buttons.length; i < others.length; i += 1) last?.before(element("button", { type: "button", class: "pb-copy-to", "data-to": String(i) }));
}

/**
 * What a screen reader calls a copy when one comes into it: its number, what its first field says, and the one that it belongs to.
 * @param {Element} copy @param {HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement | null} first the control of its first field
 */
export function groupName(copy, first) {
  const says = first instanceof HTMLSelectElement ? (first.options[first.selectedIndex]?.textContent ?? "") : (first?.value ?? "").trim();
  const owner = copy.parentElement?.closest(".pb-group");
  return [...new Set([titleOf(copy), says.slice(0, 60), owner ? titleOf(owner) : ""])].filter(Boolean).join(", ");
}
