import assert from "node:assert/strict";
import test from "node:test";
import { packed, unpacked } from "../../src/page/state/steps.js";
import * as points from "../../src/page/state/points.js";
import * as found from "../../src/page/state/found.js";
import { begin, greys_changed, is_measured, look_of, next, pair_in, protocol_for } from "../../src/page/state/state.js";
import * as views from "../../src/page/state/view.js";
import { Transform } from "../../src/page/picture/transform.js";
import { broad_of, evened, fill_evened } from "../../src/page/picture/evening.js";
import { grey_table } from "../../src/page/picture/grey.js";
import { place_beside, radius } from "../../src/page/picture/loupe.js";
import { level_for, pyramid } from "../../src/page/picture/pyramid.js";
import { expected_place } from "../../src/page/state/expected.js";
import { number, quantity } from "../../src/page/words/numbers.js";
import { hash_of, place_at } from "../../src/page/routes.js";
import * as trying from "../../src/page/state/trying.js";

const guide = (id, more = {}) => ({ id, required: true, only_shod: false, ...more });
const bare = { shoeing: "bare", scale: { kind: "automatic" } };
const marked = { shoeing: "bare", scale: { kind: "marker" } };

test("undo and redo walk through every step and back", () => {
  let p = points.no_points;
  const seen = [p.now];
  for (const id of ["a", "b", "c"]) seen.push((p = points.place(p, id, 1, 2)).now);
  for (let at = 2; at >= 0; --at) assert.equal((p = points.undo(p)).now, seen[at]);
  assert.equal(points.undo(p), p);
  for (let at = 1; at <= 3; ++at) assert.equal((p = points.redo(p)).now, seen[at]);
  assert.equal(points.redo(p), p);
});

test("one drag is one step of undo, and nudges of one point are one", () => {
  let p = points.place(points.no_points, "a", 0, 0);
  for (let x = 1; x < 9; ++x) p = points.move(p, "a", x, 0, "drag 1");
  p = points.move(points.move(p, "a", 9, 0, "nudge a"), "a", 10, 0, "nudge a");
  assert.equal(points.undo(p).now.landmarks.a.x, 8);
  assert.equal(points.undo(points.undo(p)).now.landmarks.a.x, 0);
});

test("a step after undo forgets what was undone", () => {
  let p = points.place(points.place(points.no_points, "a", 0, 0), "b", 0, 0);
  p = points.place(points.undo(p), "c", 0, 0);
  assert.equal(points.redo(p), p);
  assert.deepEqual(Object.keys(p.now.landmarks), ["a", "c"]);
});

test("the earlier value is never changed", () => {
  const p = points.place(points.no_points, "a", 1, 1);
  const before = structuredClone(p);
  points.move(p, "a", 5, 5, "x");
  points.skip(p, "b");
  points.remove(p, "a");
  assert.deepEqual(p, before);
});

test("points are asked for in order, a skipped one isn't asked again, and any can be chosen", () => {
  const asked = points.asked_of([guide("a"), guide("b"), guide("extra", { required: false })], bare);
  let p = points.skip(points.no_points, "a");
  assert.equal(points.asking(p, asked)?.id, "b");
  p = points.place(p, "b", 0, 0);
  assert.equal(points.asking(p, asked), null);
  assert.equal(points.asking({ ...p, chosen: "a" }, asked)?.id, "a");
  assert.equal(points.asking({ ...p, also: ["extra"] }, asked)?.id, "extra");
});

test("check points are asked for only after somebody wants the check, and further ones never", () => {
  const all = [guide("further", { required: false, group: "more" }), guide("twin", { required: false, group: "check" }), guide("tip")];
  const asked = points.asked_of(all, bare);
  assert.deepEqual(asked.map((each) => each.id), ["tip", "twin", "further"]);
  const p = points.place(points.no_points, "tip", 0, 0);
  assert.equal(points.asking(p, asked), null);
  const checked = { ...p, also: ["check", "extra"] };
  assert.equal(points.asking(checked, asked)?.id, "twin");
  assert.equal(points.asking(points.place(checked, "twin", 0, 0), asked), null);
  assert.equal(points.asking({ ...p, chosen: "further" }, asked)?.id, "further");
});

const offer = (n, id, x, y) => ({ n, id, x, y, diameter_px: 20, colour: 0, confidence: 1 });

test("an offered point is no point until it is confirmed, and confirming all is one step", () => {
  let state = next(begin(), { type: "go", place: { screen: "picture", case_id: "a", visit: "1", digest: "d" } });
  state = next(state, { type: "found", digest: "d", found: { offers: [offer(1, "elbow", 1, 2), offer(2, "carpus", 3, 4)] } });
  assert.deepEqual(state.open?.points.now.landmarks, {});
  state = next(state, { type: "offers-confirmed", numbers: [1] });
  assert.deepEqual(state.open?.points.now.landmarks, { elbow: { x: 1, y: 2, how: "on-dot" } });
  assert.deepEqual(state.open?.found.offers.map((each) => each.id), ["carpus"]);
  state = next(state, { type: "offers-dropped", numbers: [2] });
  assert.deepEqual(Object.keys(state.open?.points.now.landmarks ?? {}), ["elbow"]);
  assert.deepEqual(state.open?.found.offers, []);
  state = next(state, { type: "undo" });
  assert.deepEqual(state.open?.points.now.landmarks, {});
});

test("a dot nobody can name is confirmed only once it has a joint, and a joint has one dot", () => {
  const seen = { ...found.nothing, offers: [offer(1, "", 1, 2), offer(2, "elbow", 3, 4)] };
  assert.deepEqual(found.landmarks_of(seen, [1]), {});
  const named = found.named(seen, 1, "elbow");
  assert.deepEqual(named.offers.map((each) => each.id), ["elbow", ""]);
  assert.deepEqual(found.landmarks_of(named, [1, 2]), { elbow: { x: 1, y: 2, how: "on-dot" } });
});

test("a tap chooses the nearest ball in reach, and none beyond it", () => {
  const seen = { ...found.nothing, picking: "ball", balls: [{ x: 10, y: 10, diameter_px: 8, unsure_px: 0.1 }, { x: 60, y: 10, diameter_px: 8, unsure_px: 0.1 }] };
  assert.equal(found.picked(seen, { x: 50, y: 10 }, 20).ball, 1);
  assert.equal(found.picked(seen, { x: 300, y: 10 }, 20).ball, -1);
});

test("a picture names its protocol; without one the first of its view and leg is taken", () => {
  const all = [{ id: "fore-side", view: "limb-side", legs: "fore" }, { id: "hind-side", view: "limb-side", legs: "hind" }, { id: "own", view: "limb-side", legs: "all" }];
  const of = (protocol, limb) => protocol_for(all, { protocol, limb, view: "limb-side" })?.id;
  assert.equal(of("", "left-hind"), "hind-side");
  assert.equal(of("own", "left-hind"), "own");
  assert.equal(of("gone", "right-fore"), "fore-side");
});

test("a removed point is asked for again at once", () => {
  const asked = points.asked_of([guide("a"), guide("b")], bare);
  const p = points.remove(points.place(points.no_points, "a", 0, 0), "a");
  assert.equal(points.asking(p, asked)?.id, "a");
});

test("the marker's ends are asked for first when they give the scale, and not otherwise", () => {
  const all = [guide("marker-1", { required: false }), guide("tip"), guide("marker-2", { required: false })];
  assert.deepEqual(points.asked_of(all, bare).map((each) => each.id), ["tip"]);
  assert.deepEqual(points.asked_of(all, marked).map((each) => each.id), ["marker-1", "marker-2", "tip"]);
});

test("points of a shoe are asked for on a shod foot only", () => {
  const all = [guide("tip"), guide("shoe", { only_shod: true })];
  assert.equal(points.asked_of(all, bare).length, 1);
  assert.equal(points.asked_of(all, { ...bare, shoeing: "shod" }).length, 2);
});

const quarters = [0, 90, 180, -90];
const lies = quarters.flatMap((turn) => [{ turn, mirrored: false }, { turn, mirrored: true }]);

test("what lies under the pointer stays there while zooming", () => {
  const about = { x: 200, y: 100 };
  for (const lie of lies) {
    const view = views.fit({ width: 800, height: 600 }, { columns: 3000, rows: 2000, aspect: 1.2 }, lie);
    const before = new Transform(view, 1.2).to_picture(about);
    const after = new Transform(views.zoom(view, 3.7, about), 1.2).to_picture(about);
    assert.ok(Math.hypot(before.x - after.x, before.y - after.y) < 1e-9);
  }
});

// Truth: definition of the image frame, centre of the first pixel 0,0.
test("the first pixel's centre lies half a pixel inside the picture's corner", () => {
  const view = { ...views.first_view, scale: 4, x: 10, y: 20 };
  const t = new Transform(view, 1.5);
  assert.deepEqual(t.to_screen({ x: 0, y: 0 }), { x: 12, y: 23 });
  assert.deepEqual(t.to_picture(t.to_screen({ x: 7.25, y: 3.5 })), { x: 7.25, y: 3.5 });
});

// Truth: drawn on paper for a 4 x 2 sheet whose pixels are 10 screen pixels wide and 20 high: where the
// first pixel's centre comes to lie, from the corner of the sheet's box, in each of its eight positions.
test("turned and mirrored, the picture lies as a sheet of paper would, and a screen place leads back to its pixel", () => {
  const [wide, high] = [40, 40];
  const first_pixel = {
    "0 false": [5, 10], "90 false": [high - 10, 5], "180 false": [wide - 5, high - 10], "-90 false": [10, wide - 5],
    "0 true": [wide - 5, 10], "90 true": [high - 10, wide - 5], "180 true": [5, high - 10], "-90 true": [10, 5],
  };
  for (const { turn, mirrored } of lies) {
    const view = views.with_at({ turn, mirrored }, 2, 10, { x: 2, y: 1 }, { x: 20, y: 20 });
    const t = new Transform(view, 2);
    const [x, y] = first_pixel[`${turn} ${mirrored}`];
    assert.deepEqual(t.to_screen({ x: 0, y: 0 }), { x, y }, `${turn} ${mirrored}`);
    for (const p of [{ x: 0, y: 0 }, { x: 3, y: 1 }, { x: 1.375, y: 0.25 }]) assert.deepEqual(t.to_picture(t.to_screen(p)), p);
  }
});

test("turning and mirroring on the screen goes about its middle, from any position and back again", () => {
  const stage = { width: 800, height: 600 };
  const middle = views.middle_of(stage);
  const seen = { x: 211, y: 87 };
  for (const lie of [...lies, { turn: 17.5, mirrored: true }]) {
    const view = { ...views.fit(stage, { columns: 300, rows: 200, aspect: 1.25 }, lie), fitted: false };
    const place = new Transform(view, 1.25).to_picture(seen);
    const at = (/** @type {any} */ changed) => new Transform(changed, 1.25).to_screen(place);
    const near = (a, b) => assert.ok(Math.hypot(a.x - b.x, a.y - b.y) < 1e-6, JSON.stringify([lie, a, b]));
    near(at(views.mirrored(view, stage)), { x: stage.width - seen.x, y: seen.y });
    near(at(views.turned(view, 90, middle)), { x: middle.x - (seen.y - middle.y), y: middle.y + (seen.x - middle.x) });
    near(at(views.mirrored(views.mirrored(view, stage), stage)), seen);
    let round = view;
    for (const degrees of [90, 33.3, -33.3, 90, 90, 90]) round = views.turned(round, degrees, middle);
    near(at(round), seen);
    assert.equal(round.turn, view.turn);
  }
});

test("a fitted picture lies whole and in the middle, however it is turned", () => {
  const stage = { width: 800, height: 500 };
  for (const lie of [...lies, { turn: 30, mirrored: false }, { turn: -75, mirrored: true }]) {
    const t = new Transform(views.fit(stage, { columns: 3000, rows: 2500, aspect: 0.9 }, lie), 0.9);
    const corners = [[-0.5, -0.5], [2999.5, -0.5], [-0.5, 2499.5], [2999.5, 2499.5]].map(([x, y]) => t.to_screen({ x, y }));
    for (const { x, y } of corners) assert.ok(x > 11.9 && x < 788.1 && y > 11.9 && y < 488.1, JSON.stringify({ lie, x, y }));
    const middle = t.to_screen({ x: 1499.5, y: 1249.5 });
    assert.ok(Math.hypot(middle.x - 400, middle.y - 250) < 1e-9);
  }
});

// Truth: a drawing laid over by a known turn, size and shift, mirrored and with pixels that aren't square.
test("a point is expected where the drawing says, laid over the points placed so far, and not before there are three", () => {
  const drawing = [["a", 0.1, 0.9], ["b", 0.8, 0.85], ["c", 0.3, 0.4], ["d", 0.6, 0.2], ["marker-1", 0.9, 0.9]]
    .map(([id, x, y]) => guide(id, { schematic_x: x, schematic_y: y }));
  const [aspect, size, angle] = [1.2, 900, 0.1];
  const pixel_aspect = 1.25;
  for (const toward of ["left", "right"]) {
    const at = ({ schematic_x, schematic_y }) => {
      const [x, y] = [(toward === "left" ? -1 : 1) * schematic_x, aspect * schematic_y];
      const [u, v] = [x * Math.cos(angle) - y * Math.sin(angle), x * Math.sin(angle) + y * Math.cos(angle)];
      return { x: 1500 + size * u, y: (200 + size * v) / pixel_aspect };
    };
    const placed = { a: at(drawing[0]), b: at(drawing[1]) };
    const of = { aspect, toward, pixel_aspect };
    assert.equal(expected_place(drawing[3], drawing, placed, of), null);
    assert.equal(expected_place(drawing[3], drawing, { ...placed, "marker-1": at(drawing[4]) }, of), null);
    const place = expected_place(drawing[3], drawing, { ...placed, c: at(drawing[2]) }, of);
    const truly = at(drawing[3]);
    assert.ok(Math.hypot(place.x - truly.x, place.y - truly.y) < 1e-9);
    assert.ok(place.radius > 0.1 * size && place.radius < 0.3 * size);
  }
});

test("what this device kept of a look comes back as it was, and a broken one as the picture came", () => {
  const go = { type: "go", place: { screen: "picture", case_id: "a", visit: "1", digest: "d" } };
  const came = { centre: 500, width: 1000, shape: "linear" };
  const arrived = (/** @type {any} */ look) => next(
    next(next(begin(), go), { type: "look", digest: "d", look }),
    { type: "info", digest: "d", info: { columns: 10, rows: 10, window: came } }).open;
  const kept = { window: { centre: 7, width: 3, shape: "sigmoid" }, tone: { gamma: 1.5, local: 0.4 }, inverted: true, turn: 90, mirrored: true };
  assert.deepEqual(look_of(arrived(kept)), kept);
  const broken = { window: { centre: "a", width: -1 }, tone: { gamma: 1e9, local: null }, inverted: 1, turn: Infinity };
  const open = arrived(broken);
  assert.deepEqual([open.window, open.tone.local, open.inverted, open.view.turn, open.view.mirrored], [came, 0, false, 0, false]);
  assert.ok(open.tone.gamma <= 2.5);
  assert.equal(look_of(arrived(null)), null);
});

test("one action brings back the greys that the picture came with", () => {
  let state = next(begin(), { type: "go", place: { screen: "picture", case_id: "a", visit: "1", digest: "d" } });
  const window = { centre: 500, width: 1000, shape: "linear" };
  state = next(state, { type: "info", digest: "d", info: { columns: 10, rows: 10, window } });
  for (const change of [{ type: "window", window: views.regrade(window, 0.5, 0.2) }, { type: "tone", tone: { gamma: 2, local: 1 } }, { type: "invert" }, { type: "mirror" }])
    state = next(state, change);
  assert.ok(greys_changed(state.open));
  state = next(state, { type: "as-it-came" });
  assert.ok(!greys_changed(state.open));
  assert.deepEqual([state.open.window, state.open.view.mirrored], [window, true]);
});

test("the loupe is never under the finger or the pointer and never beyond the stage, wherever the hand is", () => {
  const tip = 22; // px: half of what a finger covers
  for (const [width, height] of [[954, 720], [644, 690], [318, 640], [376, 300]])
    for (let x = 0; x <= width; x += 2)
      for (let y = 0; y <= height; y += 2)
        for (const by of ["finger", "mouse"]) {
          const at = place_beside({ x, y }, by, width, height);
          const where = JSON.stringify({ x, y, width, height, by, at });
          assert.ok(Math.hypot(at.x - x, at.y - y) >= radius + (by === "finger" ? tip : 0), where);
          assert.ok(at.x >= radius && at.y >= radius && at.x <= width - radius && at.y <= height - radius, where);
        }
});

const info = { rescale_slope: 1, rescale_intercept: 0, offset: 0, inverse: false };
const level = ({ pixels }, sample) => pixels[sample] & 0xff;

/** @param {any} of @param {any} window @param {number} gamma @param {boolean} inverted */
function table_of(of, window, gamma, inverted) {
  const pixels = new Uint32Array(65536);
  return { middle: grey_table(of, window, gamma, inverted, pixels), pixels };
}

// Truth: DICOM PS3.3 C.11.2.1.2.1, example notes: c=2048, w=4096 is y = x/4095*255 (full range).
test("a linear window over 12 bits sends 0 to black and 4095 to white", () => {
  const table = table_of(info, { centre: 2048, width: 4096, shape: "linear" }, 1, false);
  assert.equal(level(table, 0), 0);
  assert.equal(level(table, 4095), 255);
  assert.equal(level(table, 60000), 255);
});

// Truth: DICOM PS3.3 C.11.2.1.3.1, the sigmoid is half-way at its centre.
test("a sigmoid window is half-way at its centre", () => {
  const table = table_of(info, { centre: 1000, width: 300, shape: "sigmoid" }, 1, false);
  assert.equal(level(table, 1000), 128);
  assert.equal(table.middle, 1000);
});

test("inverting twice shows the same greys", () => {
  const window = { centre: 2048, width: 4096, shape: "linear" };
  const low_is_bright = table_of({ ...info, inverse: true }, window, 1, true);
  assert.deepEqual(low_is_bright, table_of(info, window, 1, false));
});

// Truth: the power law itself: 255 (v / 255)^(1 / gamma), black and white staying what they are.
test("gamma lifts the middle greys by its power law and leaves black and white", () => {
  const window = { centre: 2048, width: 4096, shape: "linear" };
  for (const gamma of [0.5, 1, 2.2]) {
    const table = table_of(info, window, gamma, false);
    for (const sample of [0, 100, 1000, 2000, 4095]) assert.ok(Math.abs(level(table, sample) - 255 * (sample / 4095) ** (1 / gamma)) <= 0.75);
    const black_for_white = table_of(info, window, gamma, true);
    for (const sample of [0, 100, 1000, 4095]) assert.equal(level(black_for_white, sample), 255 - level(table, sample));
  }
});

/** A step from dark to bright bone with a fine ripple on both. */
function bone_edge(columns, rows) {
  const samples = new Uint16Array(columns * rows);
  for (let y = 0; y < rows; ++y)
    for (let x = 0; x < columns; ++x) samples[y * columns + x] = (x < columns / 2 ? 8000 : 40000) + 300 * Math.sin(x);
  return { columns, rows, shrink: 1, samples };
}

/** @param {ReturnType<typeof bone_edge>} picture @param {number} strength */
function evened_samples(picture, strength) {
  const same = Uint32Array.from({ length: 65536 }, (_, sample) => sample);
  const pixels = new Uint32Array(picture.samples.length);
  const part = { left: 0, top: 0, width: picture.columns, height: picture.rows };
  fill_evened(pixels, picture, part, evened(broad_of(picture), strength), 24000, same);
  return (/** @type {number} */ from, /** @type {number} */ to) => {
    const row = pixels.subarray(60 * picture.columns + from, 60 * picture.columns + to);
    return { mean: row.reduce((sum, each) => sum + each, 0) / row.length, swing: Math.max(...row) - Math.min(...row) };
  };
}

test("local contrast draws broad parts together and fine ones apart, and at nought changes nothing", () => {
  const picture = bone_edge(240, 120);
  const plain = evened_samples(picture, 0);
  const full = evened_samples(picture, 1);
  for (const [from, to] of [[20, 64], [170, 214]]) {
    const exact = picture.samples.slice(60 * 240 + from, 60 * 240 + to).reduce((sum, each) => sum + each, 0) / (to - from);
    assert.ok(Math.abs(plain(from, to).mean - exact) < 1);
    assert.ok(full(from, to).swing > 1.8 * plain(from, to).swing);
  }
  const apart = (/** @type {any} */ of) => of(170, 214).mean - of(20, 64).mean;
  assert.ok(apart(full) < 0.6 * apart(plain));
});

// Truth: linear interpolation between the four nearest places of the small picture, written out.
test("between the places of the small picture local contrast goes straight", () => {
  const small = { columns: 9, rows: 7, shrink: 4, samples: new Uint16Array(63) };
  const wave = (/** @type {number} */ k) => Float32Array.from({ length: 63 }, (_, n) => 1 + 0.5 * Math.sin(k * n));
  const even = { level: small, times: wave(1.3), plus: wave(0.7).map((each) => 4000 * each), pull: 0.5 };
  const level = { columns: 36, rows: 28, shrink: 1, samples: Uint16Array.from({ length: 36 * 28 }, (_, n) => 9000 + 37 * (n % 61)) };
  const same = Uint32Array.from({ length: 65536 }, (_, sample) => sample);
  for (const part of [{ left: 0, top: 0, width: 36, height: 28 }, { left: 5, top: 3, width: 17, height: 9 }]) {
    const pixels = new Uint32Array(part.width * part.height);
    fill_evened(pixels, level, part, even, 3000, same);
    const at = (/** @type {Float32Array} */ map, /** @type {number} */ x, /** @type {number} */ y) => {
      const [u, v] = [Math.min(8, Math.max(0, (x + 0.5) / 4 - 0.5)), Math.min(6, Math.max(0, (y + 0.5) / 4 - 0.5))];
      const [i, j] = [Math.floor(u), Math.floor(v)];
      const row = (/** @type {number} */ r) => map[r * 9 + i] + (u - i) * (map[r * 9 + Math.min(8, i + 1)] - map[r * 9 + i]);
      return row(j) + (v - j) * (row(Math.min(6, j + 1)) - row(j));
    };
    pixels.forEach((pixel, n) => {
      const [x, y] = [part.left + (n % part.width), part.top + Math.floor(n / part.width)];
      const exact = at(even.times, x, y) * level.samples[y * 36 + x] + at(even.plus, x, y) + 0.5 * 3000;
      assert.ok(Math.abs(pixel - exact) < 0.6, JSON.stringify({ x, y, pixel, exact }));
    });
  }
});

test("local contrast leaves no seam along the edge of bone", () => {
  const full = evened_samples(bone_edge(240, 120), 1);
  const beside = full(108, 118), away = full(40, 84);
  const across = full(150, 194).mean - away.mean;
  assert.ok(Math.abs(beside.mean - away.mean) < 0.1 * across, JSON.stringify({ beside, away, across }));
});

test("a halved picture keeps its mean, and the level fits the screen", () => {
  const samples = Uint16Array.from({ length: 1024 * 1024 }, (_, at) => (at % 2 ? 100 : 300));
  const levels = pyramid(samples, 1024, 1024);
  assert.equal(levels[1].samples[77], 200);
  assert.equal(level_for(levels, 1).shrink, 1);
  assert.equal(level_for(levels, 0.5).shrink, 2);
});

test("numbers have a true minus sign and nothing is minus zero", () => {
  assert.equal(number(-3.25, 1), "\u22123.3");
  assert.equal(number(-0.04, 1), "0.0");
  assert.equal(quantity(12.3, 1, "mm"), "12.3\u2009mm");
});

test("an address leads back to the place it was made from", () => {
  const places = [
    { screen: "cases" },
    { screen: "case", case_id: "a b/c" },
    { screen: "plan", case_id: "a", visit: "1" },
    { screen: "picture", case_id: "a", visit: "1", digest: "ff" },
  ];
  for (const place of places) assert.deepEqual(place_at(hash_of(place)), place);
});

const opened = (about) =>
  next(next(begin(), { type: "go", place: { screen: "picture", case_id: "c", visit: "v", digest: "d" } }),
    { type: "reading", digest: "d", revision: 3, landmarks: { tip: { x: 1, y: 2, how: "by-hand" } }, kept: {}, keeping: "saved", turn: 1, ...about });

test("answers for a picture that isn't open any more change nothing", () => {
  const state = next(begin(), { type: "go", place: { screen: "picture", case_id: "a", visit: "1", digest: "new" } });
  assert.equal(next(state, { type: "saved", digest: "old", revision: 4, landmarks: {} }), state);
});

test("an older measurement never covers a newer one", () => {
  let state = opened({});
  const result = (turn, said, reader = "") => ({ type: "result", digest: "d", reader, turn, landmarks: state.open.points.now.landmarks, result: said });
  state = next(state, result(2, "new"));
  assert.equal(next(state, result(1, "old")).open?.result, "new");
  assert.equal(next(state, result(3, "another reader's", "Bob")).open?.result, "new");
});

test("numbers are those of the points until a point moves, and are taken away when no answer comes", () => {
  let state = opened({});
  assert.equal(is_measured(state.open), false);
  state = next(state, { type: "result", digest: "d", reader: "", turn: 1, landmarks: state.open.points.now.landmarks, result: "numbers" });
  assert.equal(is_measured(state.open), true);
  state = next(state, { type: "move", digest: "d", id: "tip", x: 5, y: 5, run: "drag" });
  assert.equal(is_measured(state.open), false);
  assert.equal(state.open.result, "numbers");
  state = next(state, { type: "unmeasured", digest: "d" });
  assert.equal(state.open.result, null);
});

test("a blind reading that is done takes no point, one that is open does", () => {
  for (const [sight, done, x] of [["blind", true, 1], ["blind", false, 9], ["open", true, 9]]) {
    const state = next(opened({ sight, done }), { type: "move", id: "tip", x: 9, y: 2, run: "drag" });
    assert.equal(state.open.points.now.landmarks.tip.x, x);
  }
  const state = opened({ sight: "blind", done: true });
  assert.equal(next(state, { type: "remove", id: "tip" }).open, state.open);
});

test("two readers' points are shown only while their agreement is looked at", () => {
  const line = (reader, turn, x) => ({ reader, turn, landmarks: { tip: { x, y: 0, how: "by-hand" } } });
  let state = next(opened({ sight: "blind", done: true }), { type: "readers", digest: "d", readers: [line("Ada", 1, 5), line("Ada", 2, 6), line("Ben", 1, 7)] });
  const found = { first: { reader: "Ada", turn: 2 }, second: { reader: "Ben", turn: 1 } };
  state = next(state, { type: "agreement", digest: "d", agreement: found });
  assert.equal(pair_in(state), null);
  state = next(state, { type: "tab", tab: "readers" });
  assert.equal(pair_in(state).first.tip.x, 6);
  assert.equal(pair_in(state).second.tip.x, 7);
});

test("two thousand steps come back as they were, small enough for many pictures", () => {
  const ids = Array.from({ length: 40 }, (_, n) => `landmark-${n}`);
  let at = points.no_points;
  for (let n = 0; n < 2000; ++n) {
    const id = ids[n % 40];
    if (n % 7 === 3) at = points.skip(at, ids[(n + 1) % 40]);
    else if (n % 3 === 0 && at.now.landmarks[id]) at = points.remove(at, id);
    else at = points.place(at, id, n + 0.123456789, n * 2.987654321);
  }
  for (let n = 0; n < 500; ++n) at = points.undo(at);
  const text = JSON.stringify(packed(at));
  const { past, now, future } = unpacked(JSON.parse(text));
  assert.deepEqual({ past, now, future }, { past: at.past, now: at.now, future: at.future });
  assert.ok(text.length < 200_000, `${text.length} characters`);
});

test("what is wished of a foot before the last wish was answered is added to that wish, not to an older answer", () => {
  const shoe = { kind: "", bar: "none", frog_support: "none", web_mm: 0, roll_rise_mm: 0 };
  const held = (change) => ({ change, shoe, held_back: [] });
  let now = trying.answered(trying.begun("1", "left-fore"), held({ trim_toe_mm: 3, breakover_back_mm: 6 }), null);
  now = trying.wish_shoe(trying.wish_nothing(now), { kind: "square" });
  assert.deepEqual(now.wished, {});
  assert.equal(trying.shoe_in(now).kind, "square");
  now = trying.wish(now, "wedge_deg", 2);
  assert.deepEqual(now.wished, { wedge_deg: 2 });
  assert.equal(trying.shoe_in(now).kind, "square");
  // Answered, what the limits hold is what the next wish begins from.
  now = trying.wish(trying.answered(now, held({ wedge_deg: 1 }), now.wished), "pad_mm", 3);
  assert.deepEqual(now.wished, { wedge_deg: 1, pad_mm: 3 });
});
