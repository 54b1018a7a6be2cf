/** Values that came again: what is equal keeps its identity, so that nothing is painted or built anew
 * for it. */

/**
 * @template T
 * @param {unknown} before @param {T} after
 * @returns {T} equal to `after`, made of `before` wherever that is equal
 */
export function kept_same(before, after) {
  if (Object.is(before, after)) return after;
  if (!is_compound(before) || !is_compound(after) || Array.isArray(before) !== Array.isArray(after)) return after;
  const known = /** @type {Record<string, unknown>} */ (before);
  const fresh = /** @type {Record<string, unknown>} */ (after);
  const names = Object.keys(fresh);
  const parts = names.map((name) => kept_same(known[name], fresh[name]));
  const same = names.length === Object.keys(known).length && names.every((name, at) => name in known && parts[at] === known[name]);
  if (same) return /** @type {T} */ (before);
  const made = Array.isArray(after) ? parts : Object.fromEntries(names.map((name, at) => [name, parts[at]]));
  return /** @type {T} */ (made);
}

/** @param {unknown} value @returns {value is object} */
const is_compound = (value) => typeof value === "object" && value !== null;
