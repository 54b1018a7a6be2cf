/**
 * A second picture of the same horse beside the open one, for left and right, or before and after. It is
 * only looked at. Both move together: a place that both show lies at one spot of either pane, at one
 * scale in millimetres where both have a scale.
 * @typedef {import("./state.js").State} State
 * @typedef {import("./state.js").Open} Open
 * @typedef {import("./types.js").Spot} Spot
 */
import { came_window, shape_of } from "./state.js";
import { screen_of, slid_from, slid_to, with_at } from "./view.js";

/**
 * The pictures that can be held against the open one: of the same view, the same limb first, and the
 * nearest day before it first among those. @param {State} state
 */
export function others_like({ record, open, place }) {
  const all = (record?.visits ?? []).flatMap((visit) => visit.pictures.map((entry) => ({ visit, entry })));
  const own = all.find(({ visit, entry }) => entry.digest === open?.digest && visit.id === place.visit);
  if (!own) return [];
  const strangeness = (/** @type {typeof own} */ { visit, entry }) =>
    (entry.limb === own.entry.limb ? 0 : 4) + (visit.date < own.visit.date ? 0 : visit.id === own.visit.id ? 1 : 2);
  return all
    .filter(({ entry }) => entry.view === own.entry.view && entry.digest !== own.entry.digest)
    .sort((a, b) => strangeness(a) - strangeness(b) || (a.visit.date < b.visit.date ? 1 : -1));
}

/** Have both a scale? @param {Open} open */
export const same_scale = (open) => Boolean(open.result?.calibration.pixel_mm && open.beside?.open.result?.calibration.pixel_mm);

/**
 * The page's state as the second pane shows it, for who paints it as the first; null without one.
 * @param {State} state @returns {State | null}
 */
export function beside_in(state) {
  const { open } = state;
  const beside = open?.beside;
  if (!open?.info || !open.window || !beside?.open.info) return null;
  const { digest, points } = beside.open;
  const came = came_window(beside.open);
  const { selected, named } = open.points;
  return {
    ...state,
    tab: "numbers",
    place: { ...state.place, visit: beside.visit, digest },
    open: {
      ...beside.open,
      view: view_beside(open, beside),
      window: slid_to(came, came, slid_from(open.window, came_window(open))),
      tone: open.tone,
      inverted: open.inverted,
      lit: open.lit,
      lines: open.lines,
      beside,
      points: { ...points, selected: selected && points.now.landmarks[selected] ? selected : null, named },
    },
  };
}

/** @param {Open} open @param {NonNullable<Open["beside"]>} beside */
function view_beside(open, beside) {
  const { view, info } = open;
  const other = beside.open.info;
  if (!info || !other) return view;
  const [mine, theirs] = [shape_of(info), shape_of(other)];
  const [from, to] = same_places(open, beside.open);
  const lie = { turn: view.turn, mirrored: view.mirrored !== beside.mirrored };
  return with_at(lie, theirs.aspect, view.scale * larger(open, beside.open), to, screen_of(view, mine.aspect, from));
}

/** How much larger a pixel of the second is shown. @param {Open} open @param {Open} other */
function larger(open, other) {
  const [a, b] = [open, other].map((each) => each.result?.calibration.pixel_mm?.[0]);
  if (a && b) return b / a;
  return (open.info?.columns ?? 1) / (other.info?.columns ?? 1);
}

/**
 * A place of each picture that are the same to the eye, from its first corner: the middle of the points
 * that both have, else of the pictures. @param {Open} open @param {Open} other @returns {Spot[]}
 */
function same_places(open, other) {
  const [a, b] = [open, other].map((each) => each.points.now.landmarks);
  const both = Object.keys(a).filter((id) => b[id]);
  const mean = (/** @type {import("./types.js").Landmarks} */ all) => ({
    x: both.reduce((sum, id) => sum + all[id].x, 0) / both.length + 0.5,
    y: both.reduce((sum, id) => sum + all[id].y, 0) / both.length + 0.5,
  });
  if (both.length > 0) return [mean(a), mean(b)];
  return [open, other].map(({ info }) => ({ x: (info?.columns ?? 0) / 2, y: (info?.rows ?? 0) / 2 }));
}
