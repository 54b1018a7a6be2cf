/**
 * Landmarks: open marks with an empty middle, so that the pixel that matters is never covered. How
 * a point came about shows in its outline; the selected one grows.
 * @typedef {import("../state/types.js").Landmark} Landmark
 * @typedef {import("../state/types.js").Landmarks} Landmarks
 * @typedef {import("./transform.js").Transform} Transform
 * @typedef {import("./ink.js").Inks} Inks
 */
import { write } from "./labels.js";

const radius = 6;
const selected_radius = 11;

/**
 * @param {CanvasRenderingContext2D} to @param {Landmarks} landmarks @param {string | null} selected
 * @param {string} title of the selected one @param {Transform} transform @param {Inks} inks
 */
export function paint_marks(to, landmarks, selected, title, transform, inks) {
  for (const [id, at] of Object.entries(landmarks))
    if (id !== selected) mark(to, at, transform.to_screen(at), radius, inks);
  const chosen = selected === null ? undefined : landmarks[selected];
  if (!chosen) return;
  const p = transform.to_screen(chosen);
  mark(to, chosen, p, selected_radius, inks);
  write(to, title, p, "left", inks);
}

/** @param {CanvasRenderingContext2D} to @param {Landmark} landmark
 * @param {{x: number, y: number}} p @param {number} r @param {Inks} inks */
function mark(to, landmark, p, r, inks) {
  to.beginPath();
  if (landmark.how === "snapped") to.rect(p.x - r, p.y - r, 2 * r, 2 * r);
  else if (landmark.how === "confirmed") diamond(to, p, r);
  else to.ellipse(p.x, p.y, r, r, 0, 0, 2 * Math.PI);
  if (landmark.how === "on-dot") {
    to.moveTo(p.x + 0.6 * r, p.y);
    to.ellipse(p.x, p.y, 0.6 * r, 0.6 * r, 0, 0, 2 * Math.PI);
  }
  for (const [x, y] of [[1, 0], [-1, 0], [0, 1], [0, -1]]) {
    to.moveTo(p.x + x * r, p.y + y * r);
    to.lineTo(p.x + x * (r + 4), p.y + y * (r + 4));
  }
  to.setLineDash([]);
  to.strokeStyle = inks.halo.colour;
  to.lineWidth = r === radius ? 3.5 : 5;
  to.stroke();
  to.setLineDash(landmark.how === "suggested" ? [3, 3] : []);
  to.strokeStyle = inks.text.colour;
  to.lineWidth = r === radius ? 1.4 : 2.2;
  to.stroke();
  to.setLineDash([]);
}

/** @param {CanvasRenderingContext2D} to @param {{x: number, y: number}} p @param {number} r */
export function diamond(to, p, r) {
  to.moveTo(p.x, p.y - r);
  to.lineTo(p.x + r, p.y);
  to.lineTo(p.x, p.y + r);
  to.lineTo(p.x - r, p.y);
  to.closePath();
}

/**
 * The landmark under a screen place; the selected one wins among those in reach.
 * @param {Readonly<Record<string, {x: number, y: number}>>} landmarks @param {Transform} transform
 * @param {{x: number, y: number}} at
 * @param {number} reach screen px @param {string | null} selected
 */
export function mark_at(landmarks, transform, at, reach, selected) {
  let best = { id: /** @type {string | null} */ (null), distance: reach };
  for (const [id, landmark] of Object.entries(landmarks)) {
    const p = transform.to_screen(landmark);
    const distance = Math.hypot(p.x - at.x, p.y - at.y) - (id === selected ? reach / 2 : 0);
    if (distance <= best.distance) best = { id, distance };
  }
  return best.id;
}
