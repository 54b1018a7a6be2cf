/**
 * Paints the program's display list: light strokes on a dark halo, so that they read on air and on
 * bone. What belongs to the lit number is full, with its value; the rest is quiet and unlabelled.
 * @typedef {import("../state/types.js").OverlayItem} OverlayItem
 * @typedef {import("./transform.js").Transform} Transform
 * @typedef {import("./ink.js").Inks} Inks
 */

const stroke = 1.5;
const halo = 3;
const quiet = 0.55;
export const label_font = "600 15px Inter, 'DejaVu Sans', sans-serif";
const leader = "faint"; // from a label to what it speaks of: nothing without its label

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
  for (const each of lit) if (each.ink === leader) paint(to, each, transform, inks, quiet);
  for (const each of lit) if (each.ink !== leader && each.kind !== "label") paint(to, each, transform, inks, 1);
  for (const each of lit) if (each.kind === "label") label(to, each, transform, inks);
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

/** @param {CanvasRenderingContext2D} to @param {OverlayItem} item @param {Transform} transform
 * @param {Inks} inks */
function label(to, item, transform, inks) {
  if (!item.at || !item.text) return;
  const p = transform.to_screen({ x: item.at[0], y: item.at[1] });
  write(to, item.text, p, item.anchor ?? "left", inks);
}

/** Words over the picture, kept inside the stage. @param {CanvasRenderingContext2D} to
 * @param {string} text @param {{x: number, y: number}} at @param {string} anchor
 * @param {Inks} inks */
export function write(to, text, at, anchor, inks) {
  to.font = label_font;
  to.textAlign = "left";
  to.textBaseline = "middle";
  const width = to.measureText(text).width;
  const shift = { middle: -width / 2, right: -width }[anchor] ?? 0;
  const edge = to.canvas.clientWidth - width - 6;
  const x = Math.min(Math.max(6, at.x + shift), Math.max(6, edge));
  const y = Math.min(Math.max(12, at.y), to.canvas.clientHeight - 12);
  to.lineJoin = "round";
  to.lineWidth = 4;
  to.strokeStyle = inks.halo.colour;
  to.strokeText(text, x, y);
  to.fillStyle = inks.text.colour;
  to.fillText(text, x, y);
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

/** @param {OverlayItem} item @param {Transform} transform @param {{x: number, y: number}} at */
function distance_to(item, transform, at) {
  const corners = item.from && item.to ? [item.from, item.to] : (item.points ?? []);
  const path = corners.map(([x, y]) => transform.to_screen({ x, y }));
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
