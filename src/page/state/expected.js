/**
 * Where the landmark asked for should be: as the view's drawing says, laid over the points placed so far
 * by the shift, turn and size that fit them best (least squares; Umeyama, IEEE TPAMI 1991). A guess for
 * the eye, never a point.
 * @typedef {import("./types.js").LandmarkGuide} LandmarkGuide
 * @typedef {import("./types.js").Spot} Spot
 */
import { is_marker } from "./points.js";

const fewest = 3; // points placed before the drawing is believed
const around = 0.17; // of the drawing's width: on the sample pictures each next point lay within 0.08

/**
 * @param {LandmarkGuide} asked @param {readonly LandmarkGuide[]} guides
 * @param {Readonly<Record<string, Spot>>} placed or proposed
 * @param {{aspect: number, toward: string, pixel_aspect: number}} of aspect: the drawing's height over
 *   its width; toward: where its toe or lateral side lies in the picture
 * @returns {{x: number, y: number, radius: number} | null} picture px; radius in columns
 */
export function expected_place(asked, guides, placed, { aspect, toward, pixel_aspect }) {
  if (is_marker(asked.id)) return null;
  const sign = toward === "left" ? -1 : 1;
  const drawn = (/** @type {LandmarkGuide} */ each) => ({ x: sign * each.schematic_x, y: aspect * each.schematic_y });
  const known = guides.filter((each) => placed[each.id] && !is_marker(each.id) && each.id !== asked.id);
  if (known.length < fewest) return null;
  const seen = known.map(({ id }) => ({ x: placed[id].x, y: placed[id].y * pixel_aspect }));
  const fit = laid_over(known.map(drawn), seen);
  if (!fit) return null;
  const { x, y } = fit.at(drawn(asked));
  return { x, y: y / pixel_aspect, radius: around * fit.size };
}

/** The similarity that takes the places of one list nearest to those of the other.
 * @param {Spot[]} from @param {Spot[]} to */
function laid_over(from, to) {
  const [p, q] = [mean(from), mean(to)];
  let [same, across, spread] = [0, 0, 0];
  from.forEach((each, n) => {
    const [x, y] = [each.x - p.x, each.y - p.y];
    const [u, v] = [to[n].x - q.x, to[n].y - q.y];
    same += x * u + y * v;
    across += x * v - y * u;
    spread += x * x + y * y;
  });
  if (spread < 1e-6) return null;
  const [a, b] = [same / spread, across / spread];
  return {
    size: Math.hypot(a, b),
    at: (/** @type {Spot} */ { x, y }) => ({ x: q.x + a * (x - p.x) - b * (y - p.y), y: q.y + b * (x - p.x) + a * (y - p.y) }),
  };
}

/** @param {Spot[]} places @returns {Spot} */
const mean = (places) => ({
  x: places.reduce((sum, { x }) => sum + x, 0) / places.length, y: places.reduce((sum, { y }) => sum + y, 0) / places.length,
});
