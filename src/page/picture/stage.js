/**
 * The stage: the picture below, lines and points above it, each on its own canvas so that moving a
 * point doesn't repaint the picture. Paints what the state says; keeps only what was painted last.
 * @typedef {import("../state/state.js").State} State
 * @typedef {import("../state/types.js").Spot} Spot
 */
import { entry_of, asked_in, others_in, pair_in, shape_of } from "../state/state.js";
import { words, worded_for } from "../words/words.js";
import { paint_found, ring_points } from "./found.js";
import { inks_of } from "./ink.js";
import { paint_loupe } from "./loupe.js";
import { mark_at, paint_marks } from "./marks.js";
import { nearest_about, paint_overlay } from "./overlay.js";
import { paint_clashes, paint_others } from "./others.js";
import { paint_pair } from "./pair.js";
import { Transform } from "./transform.js";

export class Stage {
  constructor() {
    this.below = document.createElement("canvas");
    this.above = document.createElement("canvas");
    this.above.className = "hand";
    this.above.tabIndex = 0;
    this.above.setAttribute("role", "application");
    /** @type {import("./radiograph.js").Radiograph | import("./photo.js").Photo | null} */
    this.content = null;
    /** @type {{aim: Spot, hand: Spot, by: "finger" | "mouse"} | null} */
    this.looking = null;
    this.painted = "";
  }

  /** @param {State} state @returns {Transform | null} */
  transform(state) {
    const open = state.open;
    return open?.info ? new Transform(open.view, shape_of(open.info).aspect) : null;
  }

  /** @param {State} state @param {Spot} at screen @param {number} reach px */
  mark_at(state, at, reach) {
    const transform = this.transform(state);
    if (!transform || !state.open) return null;
    const { now, selected } = state.open.points;
    return mark_at(now.landmarks, transform, at, reach, selected);
  }

  /** @param {State} state @param {Spot} at screen @param {number} reach px */
  about_at(state, at, reach) {
    const transform = this.transform(state);
    const items = state.open?.result?.overlay;
    return transform && items ? nearest_about(items, transform, at, reach) : null;
  }

  /** @param {State} state */
  paint(state) {
    const open = state.open;
    const transform = this.transform(state);
    const { width, height } = state.stage;
    if (!open || !transform || width === 0) return;
    const density = window.devicePixelRatio || 1;
    const below = [open.digest, open.view, open.window, open.inverted, width, height, density, !!this.content];
    const picture = JSON.stringify(below);
    if (picture !== this.painted) this.#paint_picture(state, transform, density);
    this.painted = picture;
    // For whoever looks on from outside: where the picture lies.
    this.above.dataset.lies = [transform.left, transform.top, transform.across, transform.down].join(" ");
    this.#paint_above(state, transform, density);
  }

  /** @param {State} state @param {Transform} transform @param {number} density */
  #paint_picture(state, transform, density) {
    const to = clean(this.below, state.stage, density);
    const open = state.open;
    if (!open?.window || !this.content) return;
    this.content.grade(open.window, open.inverted);
    this.content.paint(to, transform, { left: 0, top: 0, ...state.stage }, density);
  }

  /** @param {State} state @param {Transform} transform @param {number} density */
  #paint_above(state, transform, density) {
    const to = clean(this.above, state.stage, density);
    const open = state.open;
    const inks = inks_of(this.above);
    if (!open) return;
    const { now, selected } = open.points;
    if (open.result) paint_overlay(to, open.result.overlay, transform, inks, open);
    paint_found(to, open.found, this.#offer_titles(state), transform, inks);
    const check = open.result?.checks?.find((each) => each.id === open.lit_check);
    if (check) ring_points(to, check.points.flatMap((id) => now.landmarks[id] ?? []), transform, inks);
    const pair = pair_in(state);
    if (pair) paint_pair(to, pair.first, pair.second, selected, this.#title(state), transform, inks);
    else {
      paint_others(to, others_in(state), selected, transform, inks);
      if (open.theirs) paint_clashes(to, open.theirs, selected, words.conflict.there, transform, inks);
      paint_marks(to, now.landmarks, selected, this.#title(state), transform, inks);
    }
    const content = this.content;
    if (!this.looking || !content || !open.loupe || !open.info) return;
    const { aim, hand, by } = this.looking;
    paint_loupe(to, aim, hand, by, open.view, shape_of(open.info).aspect,
      (c, inner, area) => content.paint(c, inner, area, density), inks);
  }

  /** @param {State} state @returns {Map<string, string>} */
  #offer_titles(state) {
    const limb = entry_of(state)?.limb ?? "";
    const guides = state.open?.found.offers.length ? asked_in(state) : [];
    return new Map(guides.map((each) => [each.id, worded_for(limb, each.title)]));
  }

  /** @param {State} state */
  #title(state) {
    if (!state.open?.points.named) return "";
    const guide = asked_in(state).find((each) => each.id === state.open?.points.selected);
    return guide ? worded_for(entry_of(state)?.limb ?? "", guide.title) : "";
  }
}

/** @param {HTMLCanvasElement} canvas @param {{width: number, height: number}} size
 * @param {number} density */
function clean(canvas, size, density) {
  const [width, height] = [Math.round(size.width * density), Math.round(size.height * density)];
  if (canvas.width !== width) canvas.width = width;
  if (canvas.height !== height) canvas.height = height;
  const to = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d"));
  to.setTransform(density, 0, 0, density, 0, 0);
  to.clearRect(0, 0, size.width, size.height);
  return to;
}
