/**
 * Words over the picture. Whoever paints wishes for a label; when all else is painted, each finds a
 * place where it covers no point and no other label, and keeps off lines and the foot as far as it can.
 * A label that went aside is tied to what it speaks of by a thin line.
 * @typedef {import("../state/types.js").Spot} Spot
 * @typedef {import("../state/view.js").Size} Size
 * @typedef {import("./ink.js").Inks} Inks
 * @typedef {{left: number, top: number, right: number, bottom: number}} Box
 *
 * @typedef {object} Wish
 * @property {string} text
 * @property {number} width of its words, screen px
 * @property {Spot} about what it speaks of, and where it stands when nothing hinders
 * @property {string} anchor left, middle or right: which of its ends is there
 * @property {Spot[]} [middles] it speaks of nothing in particular and may stand here only, best first
 *
 * @typedef {object} Ground what labels should not cover, on the screen
 * @property {Size} stage
 * @property {(Spot & {r: number})[]} points never; r with all that is painted of it
 * @property {[Spot, Spot][]} lines rather not
 * @property {[Spot, Spot][]} faint_lines
 * @property {Spot[]} foot its outline, convex; rather not
 */

const fonts = { speaking: "600 15px Inter, 'DejaVu Sans', sans-serif", quiet: "14px Inter, 'DejaVu Sans', sans-serif" };
const half_height = 11;
const side = 4; // free left and right of the words
const edge = 5; // and to the edge of the stage
const tied = 12; // further away than this a label needs a line to what it speaks of

const over_label = 1e5, over_point = 1e4;
const over_line = 60, over_faint = 4, over_foot = 60; // in screen px that one would rather go

/** @type {WeakMap<CanvasRenderingContext2D, (Wish & {inks: Inks})[]>} */
const wished = new WeakMap();

/**
 * A label is wanted; paint_labels() will place it.
 * @param {CanvasRenderingContext2D} to @param {string} text @param {Spot} about
 * @param {string} anchor @param {Inks} inks @param {Spot[]} [middles]
 */
export function write(to, text, about, anchor, inks, middles) {
  if (!text) return;
  const wish = { text, about, anchor, inks, middles, width: width_of(to, text, middles ? fonts.quiet : fonts.speaking) };
  wished.set(to, [...(wished.get(to) ?? []), wish]);
}

/** @type {Map<string, number>} measured once: it is slow, and the same words come in every frame */
const widths = new Map();
const most_widths = 500;

/** @param {CanvasRenderingContext2D} to @param {string} text @param {string} font */
function width_of(to, text, font) {
  const known = widths.get(font + text);
  if (known !== undefined) return known;
  if (widths.size >= most_widths) widths.clear(); // numbers come and go
  to.font = font;
  const { width } = to.measureText(text);
  if (document.fonts.check(font)) widths.set(font + text, width);
  return width;
}

/** Places and paints what was wished for since the last time.
 * @param {CanvasRenderingContext2D} to @param {Ground} ground @returns {(Box & {text: string})[]} */
export function paint_labels(to, ground) {
  const wishes = wished.get(to) ?? [];
  wished.delete(to);
  const boxes = places_of(wishes, ground);
  wishes.forEach((wish, at) => tie(to, wish, boxes[at]));
  wishes.forEach((wish, at) => words(to, wish, boxes[at]));
  return boxes.map((box, at) => ({ ...box, text: wishes[at].text }));
}

/** @param {CanvasRenderingContext2D} to @param {Wish & {inks: Inks}} wish @param {Box} box */
function tie(to, { about, middles, inks }, box) {
  const from = nearest_in(box, about);
  if (middles || distance(from, about) <= tied) return;
  to.setLineDash([]);
  to.lineCap = "round";
  to.beginPath();
  to.moveTo(from.x, from.y);
  to.lineTo(about.x, about.y);
  to.strokeStyle = inks.halo.colour;
  to.lineWidth = 3;
  to.stroke();
  to.strokeStyle = inks.faint.colour;
  to.lineWidth = 1;
  to.stroke();
}

/** Words as they were painted, for those that come again in the next frame: outlining letters is the
 * slowest part of a frame. A number that changes with the hand comes once only.
 * @type {Map<string, HTMLCanvasElement | "once">} */
const stamps = new Map();
const most_stamps = 60;
const margin = 3; // for the halo

/** @param {CanvasRenderingContext2D} to @param {Wish & {inks: Inks}} wish @param {Box} box */
function words(to, wish, box) {
  const { text, middles, inks } = wish;
  const density = to.getTransform().a;
  const font = middles ? fonts.quiet : fonts.speaking;
  const key = [font, text, inks.text.colour, inks.halo.colour, density].join("\n");
  const known = document.fonts.check(font) ? stamps.get(key) : undefined;
  if (known === undefined) {
    if (stamps.size >= most_stamps) stamps.clear();
    stamps.set(key, "once");
    return spell(to, wish, box.left + side, (box.top + box.bottom) / 2);
  }
  const stamp = known === "once" ? stamp_of(wish, box, density) : known;
  stamps.set(key, stamp);
  const on_pixel = (/** @type {number} */ at) => Math.round(at * density) / density;
  to.drawImage(stamp, on_pixel(box.left - margin), on_pixel(box.top - margin), stamp.width / density, stamp.height / density);
}

/** @param {Wish & {inks: Inks}} wish @param {Box} box @param {number} density */
function stamp_of(wish, { left, top, right, bottom }, density) {
  const stamp = document.createElement("canvas");
  stamp.width = Math.ceil((right - left + 2 * margin) * density);
  stamp.height = Math.ceil((bottom - top + 2 * margin) * density);
  const to = /** @type {CanvasRenderingContext2D} */ (stamp.getContext("2d"));
  to.scale(density, density);
  spell(to, wish, margin + side, margin + (bottom - top) / 2);
  return stamp;
}

/** @param {CanvasRenderingContext2D} to @param {Wish & {inks: Inks}} wish @param {number} x @param {number} y */
function spell(to, { text, middles, inks }, x, y) {
  to.font = middles ? fonts.quiet : fonts.speaking;
  to.textAlign = "left";
  to.textBaseline = "middle";
  to.setLineDash([]);
  to.lineJoin = "round";
  to.lineWidth = 4;
  to.strokeStyle = inks.halo.colour;
  to.strokeText(text, x, y);
  to.fillStyle = inks.text.colour;
  to.fillText(text, x, y);
}

/** One box a wish, in their order: earlier ones choose first. @param {Wish[]} wishes
 * @param {Ground} ground @returns {Box[]} */
export function places_of(wishes, ground) {
  /** @type {Box[]} */
  const taken = [];
  for (const wish of wishes) taken.push(best_of(wish, ground, taken));
  return taken;
}

/** @param {Wish} wish @param {Ground} ground @param {Box[]} taken */
function best_of(wish, ground, taken) {
  let best = { box: /** @type {Box | null} */ (null), cost: Infinity };
  const boxes = boxes_for(wish, ground.stage);
  const ways = boxes.map((box, nth) => (wish.middles ? nth : away(box, wish.about)));
  const nearest_first = [...boxes.keys()].sort((a, b) => ways[a] - ways[b]);
  for (const nth of nearest_first) {
    if (ways[nth] >= best.cost) break;
    const cost = cost_of(boxes[nth], ways[nth], ground, taken, best.cost);
    if (cost < best.cost) best = { box: boxes[nth], cost };
  }
  return best.box ?? boxes[0];
}

/**
 * The way to a box and what it would cover, in screen px that one would rather go; no further than it
 * must to be too much. @param {Box} box @param {number} way @param {Ground} ground @param {Box[]} taken
 * @param {number} too_much
 */
function cost_of(box, way, { points, lines, faint_lines, foot }, taken, too_much) {
  let cost = way;
  for (const other of taken) if (overlap(box, other)) cost += over_label;
  for (const p of points) if (away(box, p) < p.r) cost += over_point;
  if (cost >= too_much) return cost;
  for (const p of spread_of(box)) if (inside(p, foot)) cost += over_foot;
  for (const [a, b] of lines) if (crosses(a, b, box)) cost += over_line;
  if (cost >= too_much) return cost;
  for (const [a, b] of faint_lines) if (crosses(a, b, box)) cost += over_faint;
  return cost;
}

/** @param {Wish} wish @param {Size} stage @returns {Box[]} all within the stage */
function boxes_for({ about, anchor, width, middles }, stage) {
  const half = { x: width / 2 + side, y: half_height };
  const fitted = (/** @type {Spot} */ p) => {
    const x = within(p.x, half.x + edge, stage.width - half.x - edge);
    const y = within(p.y, half.y + edge, stage.height - half.y - edge);
    return { left: x - half.x, top: y - half.y, right: x + half.x, bottom: y + half.y };
  };
  if (middles) return middles.map(fitted);
  const at = { x: within(about.x, 0, stage.width), y: within(about.y, 0, stage.height) };
  const shift = { left: half.x - side, middle: 0, right: side - half.x }[anchor] ?? 0;
  const around = ring_ways.flatMap(([dx, dy]) => ring_sizes.map((r) => ({
    x: at.x + dx * (r + half.x), y: at.y + dy * (r + half.y),
  })));
  return [{ x: at.x + shift, y: at.y }, ...around, ...along_edges(stage)].map(fitted);
}

const ring_sizes = [12, 18, 26, 38, 54, 76, 104, 140, 186, 240, 310];
const ring_ways = Array.from({ length: 24 }, (_, n) => {
  const angle = (n * Math.PI) / 12;
  return [Math.cos(angle), Math.sin(angle)];
});

/** @param {Size} stage @returns {Spot[]} */
function along_edges({ width, height }) {
  const steps = Array.from({ length: 17 }, (_, n) => n / 16);
  return steps.flatMap((t) => [
    { x: t * width, y: 0 }, { x: t * width, y: height }, { x: 0, y: t * height }, { x: width, y: t * height },
  ]);
}

/** Where the foot would show through: its corners and middle. @param {Box} box @returns {Spot[]} */
function spread_of({ left, top, right, bottom }) {
  return [{ x: left, y: top }, { x: right, y: top }, { x: left, y: bottom }, { x: right, y: bottom },
    { x: (left + right) / 2, y: (top + bottom) / 2 }];
}

/** @param {number} value @param {number} least @param {number} most */
const within = (value, least, most) => Math.max(least, Math.min(most, value));

/** @param {Box} box @param {Spot} p @returns {Spot} */
const nearest_in = (box, p) => ({ x: within(p.x, box.left, box.right), y: within(p.y, box.top, box.bottom) });

/** @param {Box} box @param {Spot} p how far it is from the box */
const away = ({ left, top, right, bottom }, { x, y }) => Math.hypot(Math.max(left - x, 0, x - right), Math.max(top - y, 0, y - bottom));

/** @param {Spot} a @param {Spot} b */
const distance = (a, b) => Math.hypot(a.x - b.x, a.y - b.y);

/** @param {Box} a @param {Box} b */
const overlap = (a, b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** Does a stretch run through a box? @param {Spot} a @param {Spot} b @param {Box} box */
function crosses(a, b, { left, top, right, bottom }) {
  if (Math.max(a.x, b.x) < left || Math.min(a.x, b.x) > right || Math.max(a.y, b.y) < top || Math.min(a.y, b.y) > bottom) return false;
  const side = (/** @type {number} */ x, /** @type {number} */ y) => (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x);
  const first = side(left, top);
  return first * side(right, top) <= 0 || first * side(left, bottom) <= 0 || first * side(right, bottom) <= 0;
}

/** @param {Spot} p @param {Spot[]} outline convex, counter-clockwise as hull_of() gives it */
function inside(p, outline) {
  for (let at = 0, last = outline.length - 1; at < outline.length; last = at++)
    if (turn(outline[last], outline[at], p) < 0) return false;
  return outline.length > 2;
}

/** Above 0 when a, b, c turn one way, below when the other. @param {Spot} a @param {Spot} b @param {Spot} c */
const turn = (a, b, c) => (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);

/** The convex outline of some places (Andrew's monotone chain). @param {Spot[]} places @returns {Spot[]} */
export function hull_of(places) {
  const sorted = [...places].sort((a, b) => a.x - b.x || a.y - b.y);
  const half = (/** @type {Spot[]} */ all) => {
    /** @type {Spot[]} */
    const chain = [];
    for (const p of all) {
      while (chain.length > 1 && turn(chain[chain.length - 2], chain[chain.length - 1], p) <= 0) chain.pop();
      chain.push(p);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.reverse())];
}
