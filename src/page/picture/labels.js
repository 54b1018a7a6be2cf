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
  to.font = middles ? fonts.quiet : fonts.speaking;
  const wish = { text, about, anchor, inks, middles, width: to.measureText(text).width };
  wished.set(to, [...(wished.get(to) ?? []), wish]);
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

/** @param {CanvasRenderingContext2D} to @param {Wish & {inks: Inks}} wish @param {Box} box */
function words(to, { text, middles, inks }, box) {
  const [x, y] = [box.left + side, (box.top + box.bottom) / 2];
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
  for (const [nth, box] of boxes_for(wish, ground.stage).entries()) {
    const way = wish.middles ? nth : distance(nearest_in(box, wish.about), wish.about);
    if (way >= best.cost) continue;
    const cost = way + covered(box, ground, taken);
    if (cost < best.cost) best = { box, cost };
  }
  return best.box ?? boxes_for(wish, ground.stage)[0];
}

/** What a box would cover, in screen px that one would rather go. @param {Box} box @param {Ground} ground
 * @param {Box[]} taken */
function covered(box, { points, lines, faint_lines, foot }, taken) {
  const count = (/** @type {any[]} */ all, /** @type {(each: any) => boolean} */ is) => all.reduce((n, each) => n + (is(each) ? 1 : 0), 0);
  return over_label * count(taken, (other) => overlap(box, other))
    + over_point * count(points, (p) => distance(nearest_in(box, p), p) < p.r)
    + over_line * count(lines, ([a, b]) => crosses(a, b, box))
    + over_faint * count(faint_lines, ([a, b]) => crosses(a, b, box))
    + over_foot * count(spread_of(box), (p) => inside(p, foot));
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

/** @param {Spot} a @param {Spot} b */
const distance = (a, b) => Math.hypot(a.x - b.x, a.y - b.y);

/** @param {Box} a @param {Box} b */
const overlap = (a, b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** Does a stretch run through a box? @param {Spot} a @param {Spot} b @param {Box} box */
function crosses(a, b, box) {
  let [from, to] = [0, 1];
  for (const [start, step, least, most] of [[a.x, b.x - a.x, box.left, box.right], [a.y, b.y - a.y, box.top, box.bottom]]) {
    if (step === 0 && (start < least || start > most)) return false;
    if (step === 0) continue;
    const [t, u] = [(least - start) / step, (most - start) / step];
    from = Math.max(from, Math.min(t, u));
    to = Math.min(to, Math.max(t, u));
  }
  return from <= to;
}

/** @param {Spot} p @param {Spot[]} outline convex, counter-clockwise as hull_of() gives it */
function inside(p, outline) {
  return outline.length > 2 && outline.every((a, at) => turn(a, outline[(at + 1) % outline.length], p) >= 0);
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
