/**
 * Paints the program's display list: light strokes on a dark halo, so that they read on air and on
 * bone. What belongs to the lit number is full, with its value; the rest is quiet and unlabelled.
 * @typedef {import("../state/types.js").OverlayItem} OverlayItem
 * @typedef {import("../state/types.js").Spot} Spot
 * @typedef {import("./transform.js").Transform} Transform
 * @typedef {import("./ink.js").Inks} Inks
 */
import { write } from "./labels.js";

const stroke = 1.5;
const halo = 3;
const quiet = 0.55;
const leader = "faint"; // from a label to what it speaks of, for paper; the page ties its labels itself

/**
 * @param {CanvasRenderingContext2D} to @param {OverlayItem[]} items
 * @param {Transform} transform @param {Inks} inks
 * @param {{lit: string | null, lines: "quiet" | "lit"}} how
 */
export function paint_overlay(to, items, transform, inks, how) {
  const shapes = items.filter((each) => each.kind !== "mark" || each.how === "computed");
  const mine = (/** @type {OverlayItem} */ each) => how.lit !== null && each.about === how.lit;
  const others = shapes.filter((each) => !mine(each) && each.kind !== "label" && each.ink !== leader);
  if (how.lines === "quiet") for (const each of others) paint(to, each, transform, inks, quiet);
  const lit = shapes.filter(mine);
  for (const each of lit) if (each.ink !== leader && each.kind !== "label") paint(to, each, transform, inks, 1);
  for (const each of lit) if (each.kind === "label") label(to, each, lit, transform, inks);
}

/**
 * The lines as they lie on the screen, for who wants to keep off them: those of the lit number, and
 * the rest. @param {OverlayItem[]} items @param {Transform} transform
 * @param {{lit: string | null, lines: "quiet" | "lit"}} how
 */
export function lines_of(items, transform, { lit, lines }) {
  const drawn = items.filter((each) => each.kind !== "label" && each.ink !== leader);
  const stretches = (/** @type {OverlayItem[]} */ some) => some.flatMap((each) => {
    const path = path_of(each, transform);
    return path.slice(1).map((p, at) => /** @type {[Spot, Spot]} */ ([path[at], p]));
  });
  const mine = (/** @type {OverlayItem} */ each) => lit !== null && each.about === lit;
  return { lines: stretches(drawn.filter(mine)), faint_lines: lines === "lit" ? [] : stretches(drawn.filter((each) => !mine(each))) };
}

/** @param {CanvasRenderingContext2D} to @param {OverlayItem} item @param {Transform} transform
 * @param {Inks} inks @param {number} strength */
function paint(to, item, transform, inks, strength) {
  const look = inks[item.ink] ?? inks.text;
  to.globalAlpha = strength;
  to.lineCap = "round";
  to.lineJoin = "round";
  outline(to, item, transform);
  to.setLineDash([]);
  to.strokeStyle = inks.halo.colour;
  to.lineWidth = stroke + halo;
  to.globalAlpha = strength * 0.7;
  to.stroke();
  to.globalAlpha = strength;
  to.setLineDash(look.dash);
  to.strokeStyle = look.colour;
  to.lineWidth = strength === 1 ? stroke + 0.7 : stroke;
  to.stroke();
  to.setLineDash([]);
  to.globalAlpha = 1;
}

/** @param {CanvasRenderingContext2D} to @param {OverlayItem} item @param {Transform} transform */
function outline(to, item, transform) {
  to.beginPath();
  if (item.from && item.to) polyline(to, [item.from, item.to], transform);
  else if (item.points) polyline(to, item.points, transform);
  else if (item.centre && item.radius) ellipse(to, item.centre, item.radius, transform);
  else if (item.at) cross(to, transform.to_screen({ x: item.at[0], y: item.at[1] }));
  if (item.kind === "area") to.closePath();
}

/** @param {CanvasRenderingContext2D} to @param {[number, number][]} points
 * @param {Transform} transform */
function polyline(to, points, transform) {
  points.forEach(([x, y], at) => {
    const p = transform.to_screen({ x, y });
    if (at === 0) to.moveTo(p.x, p.y);
    else to.lineTo(p.x, p.y);
  });
}

/** @param {CanvasRenderingContext2D} to @param {[number, number]} centre
 * @param {[number, number]} radius @param {Transform} transform */
function ellipse(to, centre, radius, transform) {
  const p = transform.to_screen({ x: centre[0], y: centre[1] });
  to.ellipse(p.x, p.y, radius[0] * transform.across, radius[1] * transform.down, transform.angle, 0, 2 * Math.PI);
}

/** A computed point: a small cross with an empty middle. @param {CanvasRenderingContext2D} to
 * @param {{x: number, y: number}} p */
function cross(to, p) {
  for (const [x, y] of [[1, 1], [1, -1], [-1, 1], [-1, -1]]) {
    to.moveTo(p.x + 2.5 * x, p.y + 2.5 * y);
    to.lineTo(p.x + 6 * x, p.y + 6 * y);
  }
}

/** @param {CanvasRenderingContext2D} to @param {OverlayItem} item @param {OverlayItem[]} lit
 * @param {Transform} transform @param {Inks} inks */
function label(to, item, lit, transform, inks) {
  if (!item.at || !item.text) return;
  const [x, y] = spoken_of(item.at, lit);
  write(to, item.text, transform.to_screen({ x, y }), item.anchor ?? "left", inks);
}

/** The far end of the leader that begins at a label. @param {[number, number]} at
 * @param {OverlayItem[]} lit @returns {[number, number]} picture px */
function spoken_of(at, lit) {
  const apart = (/** @type {[number, number]} */ p) => Math.hypot(p[0] - at[0], p[1] - at[1]);
  let best = { far: at, near: Infinity };
  for (const { ink, from, to } of lit) {
    if (ink !== leader || !from || !to) continue;
    const [near, far] = apart(from) < apart(to) ? [from, to] : [to, from];
    if (apart(near) < best.near) best = { far, near: apart(near) };
  }
  return best.far;
}

/**
 * The measurement whose construction runs nearest to a screen place, within reach.
 * @param {OverlayItem[]} items @param {Transform} transform
 * @param {{x: number, y: number}} at @param {number} reach screen px
 */
export function nearest_about(items, transform, at, reach) {
  let best = { about: /** @type {string | null} */ (null), distance: reach };
  for (const each of items) {
    const distance = distance_to(each, transform, at);
    if (each.about && distance < best.distance) best = { about: each.about, distance };
  }
  return best.about;
}

/** @param {OverlayItem} item @param {Transform} transform @returns {Spot[]} screen */
function path_of(item, transform) {
  const corners = item.from && item.to ? [item.from, item.to] : (item.points ?? []);
  return corners.map(([x, y]) => transform.to_screen({ x, y }));
}

/** @param {OverlayItem} item @param {Transform} transform @param {{x: number, y: number}} at */
function distance_to(item, transform, at) {
  const path = path_of(item, transform);
  const lengths = path.slice(1).map((p, i) => to_stretch(at, path[i], p));
  if (item.centre && item.radius) {
    const c = transform.to_screen({ x: item.centre[0], y: item.centre[1] });
    lengths.push(Math.abs(Math.hypot(at.x - c.x, at.y - c.y) - item.radius[0] * transform.across));
  }
  return Math.min(Infinity, ...lengths);
}

/** @param {{x: number, y: number}} p @param {{x: number, y: number}} a
 * @param {{x: number, y: number}} b */
function to_stretch(p, a, b) {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : ((p.x - a.x) * dx + (p.y - a.y) * dy) / square;
  const at = Math.min(1, Math.max(0, t));
  return Math.hypot(p.x - a.x - at * dx, p.y - a.y - at * dy);
}
