/**
 * The steps of undo as a device keeps them: each as what differs from its neighbour, so that a long
 * day's steps stay small.
 * @typedef {import("./points.js").Marked} Marked
 * @typedef {import("./types.js").Landmark} Landmark
 *
 * @typedef {object} Difference
 * @property {Record<string, Landmark | null>} landmarks null: not there
 * @property {readonly string[]} [skipped] where it became another
 *
 * @typedef {{past: readonly Marked[], now: Marked, future: readonly Marked[]}} Steps past: oldest first
 * @typedef {{now: Marked, back: Difference[], forth: Difference[]}} Kept from now on, step by step
 */

/** @param {Marked} from @param {Marked} to @returns {Difference} */
function difference(from, to) {
  const ids = new Set([...Object.keys(from.landmarks), ...Object.keys(to.landmarks)]);
  const other = [...ids].filter((id) => from.landmarks[id] !== to.landmarks[id]);
  const landmarks = Object.fromEntries(other.map((id) => [id, to.landmarks[id] ?? null]));
  return from.skipped === to.skipped ? { landmarks } : { landmarks, skipped: to.skipped };
}

/** @param {Marked} from @param {Difference} by @returns {Marked} */
function stepped(from, by) {
  const there = Object.entries({ ...from.landmarks, ...by.landmarks }).filter(([, at]) => at !== null);
  return { landmarks: /** @type {Record<string, Landmark>} */ (Object.fromEntries(there)), skipped: by.skipped ?? from.skipped };
}

/** @param {Marked} from @param {readonly Marked[]} on @returns {Difference[]} */
const differences = (from, on) => on.map((each, n) => difference(n === 0 ? from : on[n - 1], each));

/** @param {Marked} from @param {readonly Difference[]} by @returns {Marked[]} */
function walked(from, by) {
  let at = from;
  return by.map((each) => (at = stepped(at, each)));
}

/** @param {Steps} steps @returns {Kept} */
export function packed({ past, now, future }) {
  return { now, back: differences(now, [...past].reverse()), forth: differences(now, future) };
}

/** @param {Kept} kept @returns {Steps} */
export function unpacked({ now, back, forth }) {
  return { now, past: walked(now, back).reverse(), future: walked(now, forth) };
}
