/**
 * The other readers' saved points of the open picture: of each the newest turn that may be seen. A
 * blind reading comes without its points until it is revealed.
 * @typedef {import("./types.js").Landmarks} Landmarks
 * @typedef {{reader: string, landmarks: Landmarks}} Other
 */

/**
 * In the order of their names, so that each keeps its sign while more come.
 * @param {import("./types.js").ReadingLine[] | null | undefined} readings @param {string} me
 * @returns {Other[]}
 */
export function others_among(readings, me) {
  /** @type {Map<string, import("./types.js").ReadingLine>} */
  const newest = new Map();
  for (const each of readings ?? []) {
    const known = newest.get(each.reader);
    const shown = each.reader !== me && each.seen && Object.keys(each.landmarks ?? {}).length > 0;
    if (shown && (!known || known.turn < each.turn)) newest.set(each.reader, each);
  }
  return [...newest.values()]
    .map(({ reader, landmarks = {} }) => ({ reader, landmarks }))
    .sort((a, b) => (a.reader < b.reader ? -1 : 1));
}
