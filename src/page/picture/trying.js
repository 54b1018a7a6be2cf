/**
 * The foot as a change would leave it: its lines, the horn that goes, and the grips that a hand pulls.
 * A grip that is held short of the hand is tied to where the hand wants it.
 * @typedef {import("../state/types.js").Spot} Spot
 * @typedef {import("../state/types.js").Grip} Grip
 * @typedef {import("./transform.js").Transform} Transform
 * @typedef {import("./ink.js").Inks} Inks
 */
import { write } from "./labels.js";
import { paint_overlay } from "./overlay.js";

export const grip_radius = 11;

/**
 * @param {CanvasRenderingContext2D} to
 * @param {{overlay: import("../state/types.js").OverlayItem[], grips: Grip[]}} changed
 * @param {{variable: string, by: number} | null} short the grip that is held, and by how much
 * @param {(variable: string) => string} said of a grip
 * @param {Transform} transform @param {Inks} inks
 */
export function paint_trying(to, changed, short, said, transform, inks) {
  for (const each of changed.overlay) if (each.kind === "area") fill(to, each.points ?? [], transform, inks);
  paint_overlay(to, changed.overlay, transform, inks, { lit: "proposal", lines: "quiet" });
  for (const grip of changed.grips) {
    const at = transform.to_screen(grip.at);
    const unit = unit_of(grip, transform);
    if (short?.variable === grip.variable) tie(to, at, { x: at.x + unit.x * short.by, y: at.y + unit.y * short.by }, inks);
    pull(to, at, Math.atan2(unit.y, unit.x), inks);
    write(to, said(grip.variable), at, "left", inks);
  }
}

/** How far a grip goes on the screen for one unit of its amount. @param {Grip} grip @param {Transform} transform */
export function unit_of({ at, per_unit }, transform) {
  const from = transform.to_screen(at), to = transform.to_screen({ x: at.x + per_unit.x, y: at.y + per_unit.y });
  return { x: to.x - from.x, y: to.y - from.y };
}

/** The nearest grip within reach. @param {Grip[]} grips @param {Transform} transform @param {Spot} at @param {number} reach */
export function grip_at(grips, transform, at, reach) {
  let best = { grip: /** @type {Grip | null} */ (null), distance: reach };
  for (const grip of grips) {
    const p = transform.to_screen(grip.at);
    const distance = Math.hypot(p.x - at.x, p.y - at.y);
    if (distance <= best.distance) best = { grip, distance };
  }
  return best.grip;
}

/** @param {CanvasRenderingContext2D} to @param {[number, number][]} points @param {Transform} transform @param {Inks} inks */
function fill(to, points, transform, inks) {
  to.beginPath();
  points.forEach(([x, y], nth) => {
    const p = transform.to_screen({ x, y });
    if (nth === 0) to.moveTo(p.x, p.y);
    else to.lineTo(p.x, p.y);
  });
  to.closePath();
  to.globalAlpha = 0.35;
  to.fillStyle = inks.proposal.colour;
  to.fill();
  to.globalAlpha = 1;
}

/** A full disc with the two ways in which it goes. @param {CanvasRenderingContext2D} to @param {Spot} p
 * @param {number} angle @param {Inks} inks */
function pull(to, p, angle, inks) {
  to.save();
  to.translate(p.x, p.y);
  to.rotate(angle);
  to.beginPath();
  to.ellipse(0, 0, grip_radius, grip_radius, 0, 0, 2 * Math.PI);
  to.fillStyle = inks.proposal.colour;
  to.fill();
  to.strokeStyle = inks.halo.colour;
  to.lineWidth = 2;
  to.stroke();
  to.beginPath();
  for (const way of [1, -1]) {
    to.moveTo(way * 3, -4);
    to.lineTo(way * 7, 0);
    to.lineTo(way * 3, 4);
  }
  to.lineWidth = 2;
  to.stroke();
  to.restore();
}

/** @param {CanvasRenderingContext2D} to @param {Spot} held @param {Spot} wanted @param {Inks} inks */
function tie(to, held, wanted, inks) {
  for (const [colour, width] of /** @type {[string, number][]} */ ([[inks.halo.colour, 5], [inks.text.colour, 2]])) {
    to.beginPath();
    to.moveTo(held.x, held.y);
    to.lineTo(wanted.x, wanted.y);
    to.setLineDash([4, 4]);
    to.strokeStyle = colour;
    to.lineWidth = width;
    to.stroke();
    to.setLineDash([]);
    to.beginPath();
    to.ellipse(wanted.x, wanted.y, grip_radius, grip_radius, 0, 0, 2 * Math.PI);
    to.stroke();
  }
}
