/**
 * Local contrast: what is broad in a picture (thick bone beside thin wall) is drawn together towards
 * the middle grey, what is fine is drawn apart. The broad part keeps the edges of bone, so that no
 * bright or dark seam grows along them.
 * Source: the guided filter (He, Sun, Tang, IEEE TPAMI 2013), computed on a small picture and read off
 * between its pixels (He and Sun, "Fast guided filter", arXiv 1505.00996). The two shares by which
 * broad and fine are changed are our own choice, by eye.
 *
 * On each place of the small picture the broad part of a sample v is slope * v + start.
 * @typedef {import("./pyramid.js").Level} Level
 *
 * @typedef {object} Broad
 * @property {Level} level
 * @property {Float32Array} slope
 * @property {Float32Array} start
 *
 * @typedef {object} Even sample v becomes times * v + plus + pull * middle; middle is the sample that
 *   is shown half bright
 * @property {Level} level
 * @property {Float32Array} times
 * @property {Float32Array} plus
 * @property {number} pull
 */

const reach = 1 / 24; // of the picture's shorter side; 10 mm of a 24 cm plate
const edge = 0.08; // of the samples' range: steps above it count as edges and stay
const together = 0.6; // how far the broad part goes to the middle at full strength
const apart = 1.5; // and by how much the fine part grows

/** @param {Level} level the smallest of a picture's @returns {Broad} */
export function broad_of(level) {
  const { columns, rows, samples } = level;
  const radius = Math.max(2, Math.round(Math.min(columns, rows) * reach));
  const v = Float64Array.from(samples);
  const mean = box_mean(v, columns, rows, radius);
  const mean_of_squares = box_mean(v.map((each) => each * each), columns, rows, radius);
  const least = (edge * range_of(samples)) ** 2 + 1;
  const slope = mean.map((m, at) => {
    const variance = Math.max(0, mean_of_squares[at] - m * m);
    return variance / (variance + least);
  });
  const start = mean.map((m, at) => m * (1 - slope[at]));
  return {
    level,
    slope: Float32Array.from(box_mean(slope, columns, rows, radius)),
    start: Float32Array.from(box_mean(start, columns, rows, radius)),
  };
}

/** Without the one percent at either end. @param {Uint16Array} samples */
function range_of(samples) {
  const sorted = samples.toSorted();
  const at = (/** @type {number} */ share) => sorted[Math.floor(share * (sorted.length - 1))];
  return at(0.99) - at(0.01);
}

/** Mean over the square about each place, as far as it lies in the picture.
 * @param {Float64Array} values @param {number} columns @param {number} rows @param {number} radius */
function box_mean(values, columns, rows, radius) {
  const along = line_means(values, columns, rows, 1, columns, radius);
  return line_means(along, rows, columns, columns, 1, radius);
}

/** @param {Float64Array} values @param {number} length of a line @param {number} lines
 * @param {number} step from value to value @param {number} next from line to line @param {number} radius */
function line_means(values, length, lines, step, next, radius) {
  const means = new Float64Array(values.length);
  for (let line = 0; line < lines; ++line) {
    const at = line * next;
    let sum = 0;
    for (let i = 0; i < Math.min(radius, length); ++i) sum += values[at + i * step];
    for (let i = 0; i < length; ++i) {
      if (i + radius < length) sum += values[at + (i + radius) * step];
      if (i > radius) sum -= values[at + (i - radius - 1) * step];
      means[at + i * step] = sum / (Math.min(length - 1, i + radius) - Math.max(0, i - radius) + 1);
    }
  }
  return means;
}

/** @param {Broad} broad @param {number} strength 0..1 @returns {Even} */
export function evened({ level, slope, start }, strength) {
  const [pull, push] = [strength * together, strength * apart];
  return {
    level,
    times: slope.map((a) => 1 + push - (pull + push) * a),
    plus: start.map((b) => -(pull + push) * b),
    pull,
  };
}

/**
 * Paints a part of a level through the table, evened.
 * @param {Uint32Array} pixels of the part @param {Level} level
 * @param {{left: number, top: number, width: number, height: number}} part
 * @param {Even} even @param {number} middle @param {Uint32Array} table
 */
export function fill_evened(pixels, level, part, even, middle, table) {
  const small = even.level;
  const { samples } = level;
  const ratio = level.shrink / small.shrink;
  const to_middle = even.pull * middle;
  const times = new Float32Array(small.columns + 1);
  const plus = new Float32Array(small.columns + 1);
  for (let row = 0, at = 0; row < part.height; ++row) {
    const y = between((part.top + row + 0.5) * ratio - 0.5, small.rows);
    blend_rows(even.times, small, y, times);
    blend_rows(even.plus, small, y, plus);
    let sample = (part.top + row) * level.columns + part.left;
    for (let column = 0; column < part.width; ) {
      // As far as the next column of the small picture both change by the same step from pixel to pixel.
      const place = (part.left + column + 0.5) * ratio - 0.5;
      const x = between(place, small.columns);
      const i = Math.floor(x);
      const end = place < 0 ? 0 : i + 1;
      const next = Math.min(part.width, Math.max(column + 1, Math.ceil((end + 0.5) / ratio - 0.5 - part.left)));
      const step = place < 0 || i >= small.columns - 1 ? 0 : ratio;
      const [more_times, more_plus] = [times[i + 1] - times[i], plus[i + 1] - plus[i]];
      let a = times[i] + (x - i) * more_times;
      let b = plus[i] + (x - i) * more_plus + to_middle;
      const [step_a, step_b] = [step * more_times, step * more_plus];
      for (; column < next; ++column, ++sample, ++at, a += step_a, b += step_b) {
        const v = a * samples[sample] + b;
        pixels[at] = table[v < 0 ? 0 : v > 65535 ? 65535 : (v + 0.5) | 0];
      }
    }
  }
}

/** @param {number} place @param {number} count */
const between = (place, count) => Math.min(count - 1, Math.max(0, place));

/** @param {Float32Array} map @param {Level} small @param {number} y @param {Float32Array} row a column longer */
function blend_rows(map, { columns, rows }, y, row) {
  const upper = Math.floor(y);
  const lower = Math.min(rows - 1, upper + 1);
  const t = y - upper;
  for (let x = 0; x < columns; ++x)
    row[x] = (1 - t) * map[upper * columns + x] + t * map[lower * columns + x];
  row[columns] = row[columns - 1];
}
