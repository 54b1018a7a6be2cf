/**
 * Where a person's hand is in a form: a text half written, a list that is open, a button held down.
 * Nothing may be built anew under it; what came meanwhile is shown when the hand is free.
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
  /** The press that ends a text also changes it: built anew between down and up, its button would
   * lose the click. */
  const press = (/** @type {Event} */ event) => {
    const pressed = event.target instanceof Element && event.target.closest("button, label, summary, a");
    if (!pressed) return;
    under_hand.add(pressed);
    const heard = new AbortController();
    const release = () => {
      heard.abort();
      setTimeout(() => under_hand.delete(pressed) && then()); // the click comes before
    };
    for (const each of ["pointerup", "pointercancel"]) document.addEventListener(each, release, { signal: heard.signal, capture: true });
  };
  document.addEventListener("pointerdown", press, true);
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
