/**
 * The other readers' saved points: small, thin and quiet beside one's own, each reader with a sign of
 * its own, so that nothing is told by colour. The one of the selected landmark says whose it is.
 * @typedef {import("../state/others.js").Other} Other
 * @typedef {import("./transform.js").Transform} Transform
 * @typedef {import("./ink.js").Inks} Inks
 */
import { clash_shape, other_shapes } from "../words/reader_shapes.js";
import { write } from "./labels.js";
import { shape } from "./pair.js";

const quiet = 0.8;
const small = 0.75;

/**
 * @param {CanvasRenderingContext2D} to @param {Other[]} others
 * @param {Readonly<Record<string, unknown>>} undecided landmarks with a proposal to be judged: there
 *   nobody else's point is shown
 * @param {string | null} selected @param {Transform} transform @param {Inks} inks
 */
export function paint_others(to, others, undecided, selected, transform, inks) {
  others.forEach(({ reader, landmarks }, nth) => {
    const corners = other_shapes[nth % other_shapes.length];
    for (const [id, at] of Object.entries(landmarks)) {
      if (undecided[id]) continue;
      const p = transform.to_screen(at);
      to.globalAlpha = id === selected ? 1 : quiet;
      shape(to, p, corners, id === selected ? 1 : small, inks);
      if (id === selected) write(to, reader, p, "left", inks);
    }
    to.globalAlpha = 1;
  });
}

/**
 * Where another device of the same reader has the points that are being asked about.
 * @param {CanvasRenderingContext2D} to @param {{landmarks: import("../state/types.js").Landmarks, clashes: string[]}} theirs
 * @param {string | null} selected @param {string} name @param {Transform} transform @param {Inks} inks
 */
export function paint_clashes(to, { landmarks, clashes }, selected, name, transform, inks) {
  for (const id of clashes) {
    if (!landmarks[id]) continue;
    const p = transform.to_screen(landmarks[id]);
    shape(to, p, clash_shape, 1.2, inks);
    if (id === selected) write(to, name, p, "left", inks);
  }
}
