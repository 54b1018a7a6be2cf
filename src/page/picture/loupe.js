/**
 * What lies under the pointer, enlarged, beside the hand that covers it. Its middle is empty but
 * for the ends of a cross.
 */
import { Transform } from "./transform.js";

export const radius = 72;
const larger = 3; // times the view's own scale

/**
 * @param {CanvasRenderingContext2D} to @param {{x: number, y: number}} aim screen place looked at
 * @param {{x: number, y: number}} hand screen place of the pointer
 * @param {"finger" | "mouse"} by
 * @param {import("../state/view.js").View} view @param {number} aspect
 * @param {(to: CanvasRenderingContext2D, transform: Transform,
 *   area: {left: number, top: number, width: number, height: number}) => void} paint
 * @param {import("./ink.js").Inks} inks
 * @returns {{x: number, y: number}} its middle
 */
export function paint_loupe(to, aim, hand, by, view, aspect, paint, inks) {
  const density = to.getTransform().a; // asking the canvas for its size would lay out the page at once
  const middle = place_beside(hand, by, to.canvas.width / density, to.canvas.height / density);
  const scale = Math.max(view.scale * larger, Math.min(1.5, view.scale * 8));
  const factor = scale / view.scale;
  const inner = new Transform(
    {
      ...view,
      scale,
      x: middle.x - (aim.x - view.x) * factor,
      y: middle.y - (aim.y - view.y) * factor,
      fitted: false,
    },
    aspect,
  );
  to.save();
  circle(to, middle, radius);
  to.clip();
  to.fillStyle = "#000";
  to.fillRect(middle.x - radius, middle.y - radius, 2 * radius, 2 * radius);
  paint(to, inner, {
    left: middle.x - radius, top: middle.y - radius, width: 2 * radius, height: 2 * radius,
  });
  ends_of_cross(to, middle, inks);
  to.restore();
  circle(to, middle, radius);
  ring(to, inks);
  return middle;
}

/** Beside the hand, best first: above a finger, for it and the palm cover what is below. */
const ways = {
  finger: [[0, -1], [1, 0], [-1, 0], [1, 1], [-1, 1]].map(([x, y]) => [x * (radius + 64), y * (radius + 64)]),
  mouse: [[1, -1], [-1, -1], [1, 1], [-1, 1]].map(([x, y]) => [x * (radius + 26), y * (radius + 26)]),
};
const free = { finger: radius + 28, mouse: radius + 8 }; // its middle from the hand, screen px

/** Where the loupe is: never under the hand, never beyond the stage.
 * @param {{x: number, y: number}} hand @param {"finger" | "mouse"} by
 * @param {number} width @param {number} height */
export function place_beside(hand, by, width, height) {
  const within = (/** @type {number} */ value, /** @type {number} */ size) =>
    Math.min(Math.max(radius + 4, value), size - radius - 4);
  const places = ways[by].map(([dx, dy]) => ({ x: within(hand.x + dx, width), y: within(hand.y + dy, height) }));
  const away = places.map(({ x, y }) => Math.hypot(x - hand.x, y - hand.y));
  const first = away.findIndex((each) => each >= free[by]);
  return places[first < 0 ? away.indexOf(Math.max(...away)) : first];
}

/** @param {CanvasRenderingContext2D} to @param {{x: number, y: number}} at @param {number} r */
function circle(to, at, r) {
  to.beginPath();
  to.ellipse(at.x, at.y, r, r, 0, 0, 2 * Math.PI);
}

/** @param {CanvasRenderingContext2D} to @param {import("./ink.js").Inks} inks */
function ring(to, inks) {
  to.setLineDash([]);
  to.strokeStyle = inks.halo.colour;
  to.lineWidth = 4;
  to.stroke();
  to.strokeStyle = inks.text.colour;
  to.lineWidth = 1.5;
  to.stroke();
}

/** @param {CanvasRenderingContext2D} to @param {{x: number, y: number}} at
 * @param {import("./ink.js").Inks} inks */
function ends_of_cross(to, at, inks) {
  to.beginPath();
  for (const [x, y] of [[1, 0], [-1, 0], [0, 1], [0, -1]]) {
    to.moveTo(at.x + x * 8, at.y + y * 8);
    to.lineTo(at.x + x * 26, at.y + y * 26);
  }
  ring(to, inks);
}
