/**
 * The stage: the picture below, lines and points above it, each on its own canvas so that moving a
 * point doesn't repaint the picture. Paints what the state says; keeps only what was painted last.
 * @typedef {import("../state/state.js").State} State
 * @typedef {import("../state/types.js").Spot} Spot
 */
import { is_marker } from "../state/points.js";
import { asked_in, asking_in, changed_in, entry_of, graspable_in, is_trying, others_in, pair_in, proposed_in, shape_of, ways_in } from "../state/state.js";
import { held_in } from "../state/trying.js";
import { word, words, worded_for } from "../words/words.js";
import { paint_found, paint_proposals, ring_points } from "./found.js";
import { inks_of } from "./ink.js";
import { hull_of, paint_labels } from "./labels.js";
import { paint_loupe, radius } from "./loupe.js";
import { mark_at, paint_marks } from "./marks.js";
import { lines_of, nearest_about, paint_overlay } from "./overlay.js";
import { paint_clashes, paint_others } from "./others.js";
import { paint_pair } from "./pair.js";
import { Transform } from "./transform.js";
import { grip_at, grip_radius, paint_trying, unit_of } from "./trying.js";
import { paint_ways } from "./ways.js";

const slow = 8; // ms: half of a frame

export class Stage {
  /** @param {"hand" | "looker"} kind is it worked on, or only looked at? */
  constructor(kind) {
    this.below = document.createElement("canvas");
    this.above = document.createElement("canvas");
    this.above.className = kind;
    if (kind === "hand") this.above.tabIndex = 0;
    this.above.setAttribute("role", kind === "hand" ? "application" : "img");
    /** @type {import("./radiograph.js").Radiograph | import("./photo.js").Photo | null} */
    this.content = null;
    /** @type {{aim: Spot, hand: Spot, by: "finger" | "mouse"} | null} */
    this.looking = null;
    this.painted = "";
    /** @type {State | null} what was painted last */
    this.shown = null;
    this.density = 0;
    this.looked = false; // was the loupe there?
    /** @type {import("./ink.js").Inks} asked for again when the theme changes */
    this.inks = inks_of(this.above);
    /** Is the picture painted in haste, while its greys change? Paint again when they have come to rest. */
    this.rough = false;
    this.took = 0; // ms to paint the picture in full
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
    return mark_at(graspable_in(state), transform, at, reach, state.open.points.selected);
  }

  /** @param {State} state @param {Spot} at screen @param {number} reach px */
  grip_at(state, at, reach) {
    const transform = this.transform(state);
    const changed = changed_in(state);
    const grip = transform && changed && grip_at(changed.grips, transform, at, reach);
    return grip ? { variable: grip.variable, unit: unit_of(grip, transform) } : null;
  }

  /** @param {State} state @param {Spot} at screen @param {number} reach px */
  about_at(state, at, reach) {
    const transform = this.transform(state);
    const items = state.open?.result?.overlay;
    return transform && items ? nearest_about(items, transform, at, reach) : null;
  }

  /** @param {State | null} state */
  paint(state) {
    const open = state?.open;
    const transform = state && this.transform(state);
    if (!open || !transform) return this.#wipe();
    const { width, height } = state.stage;
    if (width === 0) return;
    const density = window.devicePixelRatio || 1;
    const below = [open.digest, open.view, open.window, open.tone, open.inverted, width, height, density, !!this.content];
    const picture = JSON.stringify(below);
    const greys_moved = this.shown !== null && picture !== this.painted && differ_in_greys(this.shown, state);
    if (picture !== this.painted || (this.rough && !greys_moved)) this.#paint_picture(state, transform, density, greys_moved ? "in haste" : "in full");
    this.painted = picture;
    // For whoever looks on from outside: where the picture lies.
    const { left, top, column, row } = transform;
    this.above.dataset.lies = [left, top, column.x, row.y, column.y, row.x].join(" ");
    const same = this.shown !== null && !this.looking && !this.looked && this.density === density && differ_in_greys(this.shown, state);
    if (!same) this.#paint_above(state, transform, density);
    this.looked = this.looking !== null;
    this.shown = state;
    this.density = density;
  }

  /** No picture is there, or not yet: the last one may not stand under the next one's name. */
  #wipe() {
    if (!this.shown) return;
    for (const canvas of [this.below, this.above]) clean(canvas, this.shown.stage, this.density);
    for (const said of ["lies", "labels", "loupe", "grips"]) delete this.above.dataset[said];
    this.painted = "";
    this.shown = null;
    this.rough = false;
  }

  /** In haste only where painting in full was too slow to follow the hand.
   * @param {State} state @param {Transform} transform @param {number} density
   * @param {"in full" | "in haste"} how */
  #paint_picture(state, transform, density, how) {
    const to = clean(this.below, state.stage, density);
    const open = state.open;
    if (!open?.window || !this.content) return;
    this.content.grade({ window: open.window, tone: open.tone, inverted: open.inverted });
    this.rough = how === "in haste" && this.took > slow;
    const begin = performance.now();
    this.content.paint(to, transform, { left: 0, top: 0, ...state.stage }, density, this.rough ? "in haste" : "in full");
    if (!this.rough) this.took = performance.now() - begin;
    this.below.dataset.painted = this.rough ? "in haste" : "in full";
  }

  /** @param {State} state @param {Transform} transform @param {number} density */
  #paint_above(state, transform, density) {
    const to = clean(this.above, state.stage, density);
    const open = state.open;
    if (!open) return;
    if (this.shown?.theme !== state.theme) this.inks = inks_of(this.above);
    if (is_trying(state)) this.#paint_trying(to, state, transform);
    else this.#paint_reading(to, state, open, transform);
    const ways = ways_in(state);
    if (ways) paint_ways(to, ways, state.stage, this.inks);
    this.#label(to, state, transform);
    const content = this.content;
    delete this.above.dataset.loupe;
    if (!this.looking || !content || !open.loupe || !open.info) return;
    const { aim, hand, by } = this.looking;
    const middle = paint_loupe(to, aim, hand, by, open.view, shape_of(open.info).aspect,
      (c, inner, area) => content.paint(c, inner, area, density), this.inks);
    this.above.dataset.loupe = `${middle.x} ${middle.y} ${radius}`;
  }

  /** @param {CanvasRenderingContext2D} to @param {State} state @param {Transform} transform */
  #paint_trying(to, state, transform) {
    const changed = changed_in(state);
    const { trying } = state;
    delete this.above.dataset.grips;
    if (!changed || !trying?.tried) return;
    const held = trying.pulling ? held_in(trying) : null;
    const short = held && { variable: held.variable, by: (trying.wished?.[held.variable] ?? held.wished) - held.held };
    paint_trying(to, changed, short, (variable) => word(words.trying.grips, variable), transform, this.inks);
    // For whoever looks on from outside: where the grips are.
    this.above.dataset.grips = JSON.stringify(changed.grips.map(({ variable, at }) => ({ variable, ...transform.to_screen(at) })));
  }

  /** @param {CanvasRenderingContext2D} to @param {State} state @param {import("../state/state.js").Open} open
   * @param {Transform} transform */
  #paint_reading(to, state, open, transform) {
    const inks = this.inks;
    delete this.above.dataset.grips;
    const { now, selected } = open.points;
    if (open.result) paint_overlay(to, open.result.overlay, transform, inks, open);
    paint_found(to, open.found, this.#offer_titles(state), transform, inks);
    paint_proposals(to, proposed_in(state), asking_in(state)?.id ?? "", transform, inks);
    const check = open.result?.checks?.find((each) => each.id === open.lit_check);
    if (check) ring_points(to, check.points.flatMap((id) => now.landmarks[id] ?? []), transform, inks);
    const pair = pair_in(state);
    if (pair) paint_pair(to, pair.first, pair.second, selected, this.#title(state), transform, inks);
    else {
      paint_others(to, others_in(state), proposed_in(state), selected, transform, inks);
      if (open.theirs) paint_clashes(to, open.theirs, selected, words.conflict.there, transform, inks);
      paint_marks(to, now.landmarks, selected, this.#title(state), transform, inks);
    }
  }

  /** @param {CanvasRenderingContext2D} to @param {State} state @param {Transform} transform */
  #label(to, state, transform) {
    const open = state.open;
    if (!open) return;
    const points = points_shown(state);
    const on_screen = points.map(({ at, r }) => ({ ...transform.to_screen(at), r }));
    const foot = points.filter(({ id }) => !is_marker(id)).map(({ at }) => transform.to_screen(at));
    const boxes = paint_labels(to, {
      stage: state.stage, points: on_screen, foot: hull_of(foot),
      ...(is_trying(state) ? lines_of(changed_in(state)?.overlay ?? [], transform, { lit: "proposal", lines: "quiet" })
        : lines_of(open.result?.overlay ?? [], transform, open)),
    });
    // For whoever looks on from outside: where the words are.
    const said = JSON.stringify(boxes);
    if (this.above.dataset.labels !== said) this.above.dataset.labels = said;
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

/** Are two states alike but for how the greys are shown? @param {State} a @param {State} b */
function differ_in_greys(a, b) {
  const alike = (/** @type {any} */ one, /** @type {any} */ other, /** @type {string[]} */ but) =>
    Object.keys(other).every((key) => but.includes(key) || one[key] === other[key]);
  return a.open !== null && b.open !== null && alike(a, b, ["open"]) && alike(a.open, b.open, ["window", "tone", "inverted"]);
}

/** Every point that is painted, with the reach of its mark. @param {State} state
 * @returns {{id: string, at: Spot, r: number}[]} */
function points_shown(state) {
  const open = state.open;
  if (!open) return [];
  if (is_trying(state)) return (changed_in(state)?.grips ?? []).map(({ variable, at }) => ({ id: variable, at, r: grip_radius + 2 }));
  const pair = pair_in(state);
  const shown = pair ? [pair.first, pair.second] : [open.points.now.landmarks];
  const marks = shown.flatMap((each) => Object.entries(each).map(([id, at]) => ({ id, at, r: id === open.points.selected ? 17 : 11 })));
  const proposed = Object.entries(proposed_in(state)).map(([id, at]) => ({ id, at, r: 13 }));
  return [...marks, ...proposed, ...open.found.offers.map((at) => ({ id: at.id, at, r: 14 }))];
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
