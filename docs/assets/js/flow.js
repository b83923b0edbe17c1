// How one gets on in a long form with the keys: Enter goes on to the next field, Control and Enter work it out at once.

/**
 * The fields that can be seen, in order.
 * @param {HTMLFormElement} form
 */
function stops(form) {
  const all = /** @type {HTMLElement[]} */ ([...form.querySelectorAll(".pb-field :is(input, select, textarea)")]);
  return all.filter((control) => control.tabIndex >= 0 && !control.closest("details:not([open])") && control.getClientRects().length > 0);
}

/**
 * Act on a key in a long form. Gives back whether there was something to do.
 * @param {HTMLFormElement} form @param {KeyboardEvent} event
 */
export function pressKey(form, event) {
  const target = /** @type {Element} */ (event.target);
  if (event.key !== "Enter" || event.isComposing || event.altKey || !form.hasAttribute("data-flows")) return false;
  if (event.ctrlKey || event.metaKey) {
    form.requestSubmit();
    return true;
  }
  if (!target.matches(".pb-field :is(input, select)")) return false;
  const all = stops(form);
  const at = all.indexOf(/** @type {HTMLElement} */ (target));
  const next = all[at + (event.shiftKey ? -1 : 1)];
  if (at < 0) return false;
  if (next) reach(next);
  else if (!event.shiftKey) form.requestSubmit();
  return true;
}

/** Go to a field, with what stands in it ready to be typed over. @param {HTMLElement} control */
export function reach(control) {
  for (let place = control.closest("details"); place; place = place.parentElement?.closest("details") ?? null) place.open = true;
  control.focus();
  if (control instanceof HTMLInputElement && control.type === "text") control.select();
}
