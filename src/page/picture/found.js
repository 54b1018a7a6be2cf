/**
 * What the program saw and nobody has confirmed: dashed, and never in the outline of a placed
 * landmark. Card corners are small squares, balls numbered rings, offered and proposed
 * landmarks tilted squares.
 * @typedef {import("./transform.js").Transform} Transform
 * @typedef {import("./ink.js").Inks} Inks
 * @typedef {import("../state/types.js").Spot} Spot
 */
import { write } from "./labels.js";
import { diamond } from "./marks.js";

/**
 * @param {CanvasRenderingContext2D} to @param {import("../state/found.js").Found} found
 * @param {Map<string, string>} titles of landmarks @param {Transform} transform @param {Inks} inks
 */
export function paint_found(to, found, titles, transform, inks) {
  for (const each of found.card?.corners ?? []) square(to, transform.to_screen(each), inks);
  found.balls.forEach((each, n) => ball(to, each, n, n === found.ball, transform, inks));
  for (const each of found.colours) if (each) ring(to, transform.to_screen(each), 9, [2, 2], 1.6, inks);
  stroke(to, found.stroke.map((each) => transform.to_screen(each)), inks);
  for (const each of found.offers) {
    const p = transform.to_screen(each);
    tilted(to, p, 11, inks);
    write(to, `${each.n}? ${titles.get(each.id) ?? ""}`, p, "left", inks);
  }
}

/** What the program proposes; the one asked for is larger.
 * @param {CanvasRenderingContext2D} to @param {Readonly<Record<string, Spot>>} proposals
 * @param {string} asked @param {Transform} transform @param {Inks} inks */
export function paint_proposals(to, proposals, asked, transform, inks) {
  for (const [id, at] of Object.entries(proposals)) tilted(to, transform.to_screen(at), id === asked ? 13 : 7, inks);
}

/** A broad ring about each place: these are the points that a check looks at.
 * @param {CanvasRenderingContext2D} to @param {Spot[]} places @param {Transform} transform
 * @param {Inks} inks */
export function ring_points(to, places, transform, inks) {
  for (const each of places) ring(to, transform.to_screen(each), 17, [], 2.6, inks);
}

/** Along an edge, as the hand draws it. @param {CanvasRenderingContext2D} to @param {Spot[]} path
 * @param {Inks} inks */
function stroke(to, path, inks) {
  to.beginPath();
  path.forEach(({ x, y }, n) => (n === 0 ? to.moveTo(x, y) : to.lineTo(x, y)));
  strokes(to, [6, 4], 1.8, inks);
}

/** @param {CanvasRenderingContext2D} to @param {Spot} p @param {Inks} inks */
function square(to, p, inks) {
  to.beginPath();
  to.rect(p.x - 2.5, p.y - 2.5, 5, 5);
  strokes(to, [], 1.2, inks);
}

/** @param {CanvasRenderingContext2D} to @param {import("../state/types.js").Ball} seen
 * @param {number} n @param {boolean} chosen @param {Transform} transform @param {Inks} inks */
function ball(to, seen, n, chosen, transform, inks) {
  const p = transform.to_screen(seen);
  const r = Math.max(8, (seen.diameter_px / 2) * transform.across);
  ring(to, p, r, chosen ? [] : [5, 4], chosen ? 2.6 : 1.6, inks);
  if (chosen) ring(to, p, r + 6, [], 1.4, inks);
  write(to, String(n + 1), { x: p.x + r + 12, y: p.y - r }, "left", inks);
}

/** @param {CanvasRenderingContext2D} to @param {Spot} p @param {number} r @param {number[]} dash
 * @param {number} weight @param {Inks} inks */
function ring(to, p, r, dash, weight, inks) {
  to.beginPath();
  to.ellipse(p.x, p.y, r, r, 0, 0, 2 * Math.PI);
  strokes(to, dash, weight, inks);
}

/** @param {CanvasRenderingContext2D} to @param {Spot} p @param {number} r @param {Inks} inks */
function tilted(to, p, r, inks) {
  to.beginPath();
  diamond(to, p, r);
  strokes(to, [4, 3], 1.8, inks);
}

/** @param {CanvasRenderingContext2D} to @param {number[]} dash @param {number} weight
 * @param {Inks} inks */
function strokes(to, dash, weight, inks) {
  to.setLineDash([]);
  to.strokeStyle = inks.halo.colour;
  to.lineWidth = weight + 2.4;
  to.stroke();
  to.setLineDash(dash);
  to.strokeStyle = inks.text.colour;
  to.lineWidth = weight;
  to.stroke();
  to.setLineDash([]);
}
