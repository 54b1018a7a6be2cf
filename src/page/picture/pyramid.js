/**
 * The samples at full size and halved again and again, so that a whole picture on a small screen
 * costs no more than the screen, and doesn't flicker.
 *
 * @typedef {object} Level
 * @property {number} columns
 * @property {number} rows
 * @property {number} shrink full-size pixels per pixel of this level
 * @property {Uint16Array} samples
 */

const smallest_side = 512;

/** @param {Uint16Array} samples @param {number} columns @param {number} rows @returns {Level[]} */
export function pyramid(samples, columns, rows) {
  const levels = [{ columns, rows, shrink: 1, samples }];
  for (let last = levels[0]; Math.min(last.columns, last.rows) > smallest_side; last = levels.at(-1) ?? last)
    levels.push(halved(last));
  return levels;
}

/** @param {Level} from @returns {Level} */
function halved(from) {
  const columns = from.columns >> 1;
  const rows = from.rows >> 1;
  const samples = new Uint16Array(columns * rows);
  for (let row = 0, at = 0; row < rows; ++row) {
    let upper = 2 * row * from.columns;
    let lower = upper + from.columns;
    for (let column = 0; column < columns; ++column, upper += 2, lower += 2)
      samples[at++] =
        (from.samples[upper] + from.samples[upper + 1] + from.samples[lower] + from.samples[lower + 1] + 2) >> 2;
  }
  return { columns, rows, shrink: 2 * from.shrink, samples };
}

/** The smallest level that still has a pixel for each device pixel, or in haste the next smaller one.
 * @param {Level[]} levels @param {number} device_pixels_per_column @param {"in full" | "in haste"} [how] */
export function level_for(levels, device_pixels_per_column, how = "in full") {
  const enough = levels.filter((each) => each.shrink * device_pixels_per_column <= 1);
  const at = Math.max(0, enough.length - 1) + (how === "in haste" ? 1 : 0);
  return levels[Math.min(at, levels.length - 1)];
}
