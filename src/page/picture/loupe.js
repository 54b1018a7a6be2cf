/**
 * What lies under the pointer, enlarged, beside the hand that covers it. Its middle is empty but
 * for the ends of a cross.
 */
import { Transform } from "./transform.js";

const radius = 72;
const larger = 3; // times the view's own scale

/**
 * @param {CanvasRenderingContext2D} to @param {{x: number, y: number}} aim screen place looked at
 * @param {{x: number, y: number}} hand screen place of the pointer
 * @param {"finger" | "mouse"} by
 * @param {import("../state/view.js").View} view @param {number} aspect
 * @param {(to: CanvasRenderingContext2D, transform: Transform,
 *   area: {left: number, top: number, width: number, height: number}) => void} paint
 * @param {import("./ink.js").Inks} inks
 */
export function paint_loupe(to, aim, hand, by, view, aspect, paint, inks) {
  const middle = place_beside(hand, by, to.canvas.clientWidth, to.canvas.clientHeight);
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
}

/** @param {{x: number, y: number}} hand @param {"finger" | "mouse"} by
 * @param {number} width @param {number} height */
function place_beside(hand, by, width, height) {
  const away = by === "finger" ? radius + 64 : radius + 26;
  const above = hand.y - away >= radius + 4;
  const sideways = by === "mouse" || !above;
  const right = hand.x + away + radius < width;
  const x = sideways ? hand.x + (right ? away : -away) : hand.x;
  const y = above ? hand.y - away : hand.y + (by === "finger" ? 0 : away);
  return {
    x: Math.min(Math.max(radius + 4, x), width - radius - 4),
    y: Math.min(Math.max(radius + 4, y), height - radius - 4),
  };
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
