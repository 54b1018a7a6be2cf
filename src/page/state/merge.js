/**
 * What two have changed since the state that both had seen, put together: nothing that only one of
 * them changed is lost, and what both changed differently is named, to be asked about.
 * @typedef {import("./types.js").Landmark} Landmark
 * @typedef {import("./types.js").Landmarks} Landmarks
 * @typedef {{decision: string, note: string}} Decided
 */

/** @param {Landmark | undefined} a @param {Landmark | undefined} b */
const same_point = (a, b) => a === b || (!!a && !!b && a.x === b.x && a.y === b.y && a.how === b.how);

/**
 * @param {Landmarks} base the last state that both had
 * @param {Landmarks} mine @param {Landmarks} theirs
 * @param {Landmarks | null} [sent] mine as it was sent without an answer: what comes back of it is no
 *   change of theirs
 * @returns {{brought: Record<string, Landmark | null>, clashes: string[]}} brought: what they alone
 *   changed, null where they took a point away; clashes: what both changed
 */
export function told_apart(base, mine, theirs, sent = null) {
  /** @type {Record<string, Landmark | null>} */
  const brought = {};
  const clashes = [];
  for (const id of new Set([base, mine, theirs].flatMap((each) => Object.keys(each)))) {
    const changed = !same_point(theirs[id], base[id]) && !(sent && same_point(theirs[id], sent[id]));
    if (!changed || same_point(mine[id], theirs[id])) continue;
    if (same_point(mine[id], base[id])) brought[id] = theirs[id] ?? null;
    else clashes.push(id);
  }
  return { brought, clashes };
}

/** @param {Landmarks} landmarks @param {Record<string, Landmark | null>} brought @returns {Landmarks} */
export function with_brought(landmarks, brought) {
  const result = { ...landmarks };
  for (const [id, at] of Object.entries(brought)) {
    if (at) result[id] = at;
    else delete result[id];
  }
  return result;
}

/** @param {Decided} a @param {Decided} b */
const same_line = (a, b) => a.decision === b.decision && a.note === b.note;

/** @param {readonly Decided[]} a @param {readonly Decided[]} b */
export const same_lines = (a, b) => a.length === b.length && a.every((each, at) => same_line(each, b[at]));

/**
 * Decisions on the lines of one version of a plan. A line that both decided differently keeps theirs,
 * which is saved already, and mine is asked about.
 * @template {Decided} Line
 * @param {readonly Decided[]} base @param {readonly Line[]} mine @param {readonly Line[]} theirs
 * @returns {{lines: Line[], asks: Record<number, Decided>}} asks: mine, by the line's place
 */
export function decided_by_both(base, mine, theirs) {
  /** @type {Record<number, Decided>} */
  const asks = {};
  const lines = theirs.map((their, at) => {
    const [was, my] = [base[at], mine[at]];
    if (!was || !my || same_line(my, was) || same_line(my, their)) return their;
    if (!same_line(their, was)) {
      asks[at] = { decision: my.decision, note: my.note };
      return their;
    }
    return { ...their, decision: my.decision, note: my.note };
  });
  return { lines, asks };
}
