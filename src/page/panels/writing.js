/**
 * Where a person's hand is in a form: a text half written, a list that is open. Nothing may be built
 * anew under it; what came meanwhile is shown when the hand is free.
 */

/** @type {Set<Element>} */
const under_hand = new Set();

const is_text = (/** @type {EventTarget | null} */ target) =>
  target instanceof HTMLTextAreaElement || (target instanceof HTMLInputElement && !/^(checkbox|radio|file)$/.test(target.type));

/** @param {() => void} then after a hand became free */
export function on_hands_free(then) {
  const take = (/** @type {Event} */ event) => {
    if (event.target instanceof HTMLSelectElement || (event.type === "input" && is_text(event.target)))
      under_hand.add(/** @type {Element} */ (event.target));
  };
  const free = (/** @type {Event} */ event) => {
    const was = event.target instanceof Element && under_hand.delete(event.target);
    if (was) then();
  };
  for (const each of ["pointerdown", "keydown", "input"]) document.addEventListener(each, take, true);
  for (const each of ["change", "focusout"]) document.addEventListener(each, free);
}

/** @param {Element} element is a hand in one of its fields? */
export function is_under_hand(element) {
  for (const each of under_hand) {
    if (!each.isConnected) under_hand.delete(each);
    else if (element.contains(each)) return true;
  }
  return false;
}
