/**
 * Two readers' points on one picture: a triangle for the first and a diamond for the second, joined
 * where they lie apart. Told apart by shape, for colour-blind eyes and for grey paper.
 * @typedef {import("../state/types.js").Landmarks} Landmarks
 * @typedef {import("./transform.js").Transform} Transform
 * @typedef {import("./ink.js").Inks} Inks
 */
import { reader_shapes } from "../words/reader_shapes.js";
import { write } from "./labels.js";

/**
 * @param {CanvasRenderingContext2D} to @param {Landmarks} a @param {Landmarks} b
 * @param {string | null} selected @param {string} title of the selected one
 * @param {Transform} transform @param {Inks} inks
 */
export function paint_pair(to, a, b, selected, title, transform, inks) {
  for (const id of new Set([...Object.keys(a), ...Object.keys(b)])) {
    const [p, q] = [a[id], b[id]].map((each) => each && transform.to_screen(each));
    const large = id === selected ? 1.5 : 1;
    if (p && q) stroke(to, [[p.x, p.y], [q.x, q.y]], 1, inks);
    if (p) shape(to, p, reader_shapes.first, large, inks);
    if (q) shape(to, q, reader_shapes.second, large, inks);
    const at = p ?? q;
    if (id === selected && at) write(to, title, at, "left", inks);
  }
}

/** Open in the middle, with a dot where the point lies. @param {CanvasRenderingContext2D} to
 * @param {{x: number, y: number}} p @param {number[][]} corners @param {number} large @param {Inks} inks */
export function shape(to, p, corners, large, inks) {
  const around = corners.map(([x, y]) => [p.x + large * x, p.y + large * y]);
  stroke(to, [...around, around[0]], large, inks);
  to.beginPath();
  to.ellipse(p.x, p.y, 1.3, 1.3, 0, 0, 2 * Math.PI);
  to.fillStyle = inks.text.colour;
  to.fill();
}

/** @param {CanvasRenderingContext2D} to @param {number[][]} points @param {number} large @param {Inks} inks */
function stroke(to, points, large, inks) {
  to.beginPath();
  points.forEach(([x, y], at) => (at === 0 ? to.moveTo(x, y) : to.lineTo(x, y)));
  to.lineJoin = "round";
  to.setLineDash([]);
  to.strokeStyle = inks.halo.colour;
  to.lineWidth = 3 + large;
  to.stroke();
  to.strokeStyle = inks.text.colour;
  to.lineWidth = 1.2 * large;
  to.stroke();
}
