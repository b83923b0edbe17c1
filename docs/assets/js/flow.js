// How one gets on in a long form with the keys: Enter goes on to the next field, Control and Enter work it out at once.

/**
 * The fields that can be seen, in order.
 * @param {HTMLElement} form
 */
function visibleFields(form) {
  const all = /** @type {HTMLElement[]} */ ([...form.querySelectorAll(".pb-field :is(input, select, textarea)")]);
  return all.filter((control) => control.tabIndex >= 0 && !control.closest("details:not([open])") && control.getClientRects().length > 0);
}

/**
 * What Enter means where it was pressed: in a short form work it out, in a long one go on to the next field, and after the last one work it
 * out. Acts on it; `workOut` does the rest. From a field with something to put right (`isWrong`) the focus does not move. Gives back whether there was
 * something to do.
 * @param {HTMLElement} form @param {KeyboardEvent} event @param {() => void} workOut @param {(field: HTMLElement) => boolean} [isWrong]
 */
export function pressEnter(form, event, workOut, isWrong = () => false) {
  const target = /** @type {Element} */ (event.target);
  if (event.key !== "Enter" || event.isComposing || event.altKey) return false;
  if (event.ctrlKey || event.metaKey) {
    workOut();
    return true;
  }
  if (!form.hasAttribute("data-flows")) {
    if (!target.matches(".pb-field input")) return false;
    workOut();
    return true;
  }
  if (!target.matches(".pb-field :is(input, select)")) return false;
  const all = visibleFields(form);
  const at = all.indexOf(/** @type {HTMLElement} */ (target));
  const next = all[at + (event.shiftKey ? -1 : 1)];
  if (at < 0) return false;
  if (!event.shiftKey && isWrong(all[at])) return true;
  if (next) focusField(next);
  else if (!event.shiftKey) workOut();
  return true;
}

/** Go to a field, with what stands in it ready to be typed over. @param {HTMLElement} control */
export function focusField(control) {
  for (let place = control.closest("details"); place; place = place.parentElement?.closest("details") ?? null) place.open = true;
  control.focus();
  if (control instanceof HTMLInputElement && control.type === "text") control.select();
}
