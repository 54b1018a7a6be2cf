/**
 * The points of one picture with their undo. Undo is a list of earlier values; nothing is mutated.
 * @typedef {import("./types.js").Landmarks} Landmarks
 * @typedef {import("./types.js").Landmark} Landmark
 * @typedef {import("./types.js").LandmarkGuide} LandmarkGuide
 * @typedef {import("./types.js").PictureEntry} PictureEntry
 *
 * @typedef {object} Marked what undo brings back
 * @property {Landmarks} landmarks
 * @property {readonly string[]} skipped
 *
 * @typedef {object} Points
 * @property {Marked} now
 * @property {readonly Marked[]} past oldest first
 * @property {readonly Marked[]} future next first
 * @property {string | null} selected
 * @property {boolean} named does its title stand beside it? Not after placing: it would cover bone
 * @property {string | null} chosen a landmark somebody asked for out of turn
 * @property {readonly ("extra" | "check")[]} also which optional ones are asked for too
 * @property {string} run what the last step was, so that nudges of one point make one step
 */

import { with_brought } from "./merge.js";

/** @type {Marked} */
const nothing = { landmarks: {}, skipped: [] };

/** @type {Points} */
export const no_points = {
  now: nothing, past: [], future: [], selected: null, named: false, chosen: null, also: [], run: "",
};

/**
 * @param {Landmarks} landmarks
 * @param {{past?: readonly Marked[], future?: readonly Marked[], skipped?: readonly string[]}} [kept]
 * @returns {Points}
 */
export function points_from(landmarks, kept = {}) {
  return {
    ...no_points,
    now: { landmarks, skipped: kept.skipped ?? [] },
    past: kept.past ?? [],
    future: kept.future ?? [],
  };
}

/**
 * @param {Points} points
 * @param {Marked} now
 * @param {string} run
 * @returns {Points}
 */
function step(points, now, run = "") {
  const same_run = run !== "" && run === points.run;
  return {
    ...points,
    now,
    run,
    past: same_run ? points.past : [...points.past, points.now],
    future: [],
  };
}

/**
 * @param {Points} points
 * @param {string} id
 * @param {Landmark} at
 */
function with_point(points, id, at) {
  return {
    landmarks: { ...points.now.landmarks, [id]: at },
    skipped: points.now.skipped.filter((each) => each !== id),
  };
}

/** @param {Points} points @param {string} id @param {number} x @param {number} y
 * @param {string} [run] */
export function place(points, id, x, y, run) {
  const now = with_point(points, id, { x, y, how: "by-hand" });
  return { ...step(points, now, run), selected: id, named: false, chosen: null };
}

/** A proposal lies right. @param {Points} points @param {string} id
 * @param {import("./types.js").Spot} at @returns {Points} */
export function confirm(points, id, { x, y }) {
  const now = with_point(points, id, { x, y, how: "confirmed" });
  return { ...step(points, now), selected: null, named: false, chosen: null };
}

/**
 * Points that the program moved onto an edge, as part of the step that placed them; those that were
 * moved or taken away meanwhile stay as they are.
 * @param {Points} points @param {Landmarks} from @param {Landmarks} to @returns {Points}
 */
export function settle(points, from, to) {
  const still = Object.keys(to).filter((id) => points.now.landmarks[id] === from[id]);
  if (still.length === 0) return points;
  const moved = Object.fromEntries(still.map((id) => [id, to[id]]));
  return { ...points, now: { ...points.now, landmarks: { ...points.now.landmarks, ...moved } } };
}

/**
 * Moves a point. Moves with the same `run` make one step of undo.
 * @param {Points} points @param {string} id @param {number} x @param {number} y @param {string} run
 * @returns {Points}
 */
export function move(points, id, x, y, run) {
  if (!points.now.landmarks[id]) return points;
  return { ...step(points, with_point(points, id, { x, y, how: "by-hand" }), run), selected: id };
}

/** @param {Points} points @param {string} id @returns {Points} */
export function remove(points, id) {
  const { [id]: gone, ...landmarks } = points.now.landmarks;
  if (!gone) return points;
  return { ...step(points, { ...points.now, landmarks }), selected: null, chosen: id };
}

/** @param {Points} points @param {string} id @returns {Points} */
export function skip(points, id) {
  const skipped = [...points.now.skipped.filter((each) => each !== id), id];
  return { ...step(points, { ...points.now, skipped }), chosen: null, selected: null };
}

/**
 * What came from another device, brought into every step: undo goes back over one's own steps and
 * takes away nothing that somebody else did.
 * @param {Points} points @param {Record<string, Landmark | null>} brought @returns {Points}
 */
export function bring(points, brought) {
  if (Object.keys(brought).length === 0) return points;
  const renewed = (/** @type {Marked} */ each) => ({
    landmarks: with_brought(each.landmarks, brought),
    skipped: each.skipped.filter((id) => !brought[id]),
  });
  const now = renewed(points.now);
  return {
    ...points, now, past: points.past.map(renewed), future: points.future.map(renewed),
    selected: still_there(points.selected, now),
  };
}

/** The other device's place of a point, as a step of one's own. @param {Points} points
 * @param {string} id @param {Landmark | null} at null: it was taken away there @returns {Points} */
export function take(points, id, at) {
  const landmarks = with_brought(points.now.landmarks, { [id]: at });
  const after = step(points, { ...points.now, landmarks });
  return { ...after, selected: still_there(points.selected, after.now) };
}

/** @param {Points} points @returns {Points} */
export function undo(points) {
  const before = points.past.at(-1);
  if (!before) return points;
  return {
    ...points,
    now: before,
    past: points.past.slice(0, -1),
    future: [points.now, ...points.future],
    selected: still_there(points.selected, before),
    chosen: null,
    run: "",
  };
}

/** @param {Points} points @returns {Points} */
export function redo(points) {
  const [after, ...future] = points.future;
  if (!after) return points;
  return {
    ...points,
    now: after,
    past: [...points.past, points.now],
    future,
    selected: still_there(points.selected, after),
    chosen: null,
    run: "",
  };
}

/** @param {string | null} id @param {Marked} marked */
function still_there(id, marked) {
  return id !== null && marked.landmarks[id] ? id : null;
}

/**
 * Several points at once, as one step: confirmed offers of the program.
 * @param {Points} points @param {Landmarks} added @returns {Points}
 */
export function add(points, added) {
  const ids = Object.keys(added);
  if (ids.length === 0) return points;
  const landmarks = { ...points.now.landmarks, ...added };
  const skipped = points.now.skipped.filter((each) => !ids.includes(each));
  return { ...step(points, { landmarks, skipped }), chosen: null, selected: null };
}

/** @param {string} id */
export const is_marker = (id) => id === "marker-1" || id === "marker-2";

/**
 * How much a landmark is wanted: required ones first; "extra" ones belong beside them, "check" ones
 * show whether the view is straight, "more" ones are there to be placed and never asked for.
 * @param {LandmarkGuide} guide @returns {"required" | "extra" | "check" | "more"}
 */
export function want_of(guide) {
  if (guide.group === "check" || guide.group === "more") return guide.group;
  return guide.required ? "required" : "extra";
}

/**
 * The landmarks of this picture in the order of asking: the marker's ends first when they give the
 * scale, then by how much they are wanted.
 * @param {readonly LandmarkGuide[]} guides
 * @param {Pick<PictureEntry, "shoeing" | "scale">} entry
 * @returns {LandmarkGuide[]}
 */
export function asked_of(guides, entry) {
  const fitting = guides.filter((each) => !each.only_shod || entry.shoeing === "shod");
  const plain = fitting.filter((each) => !is_marker(each.id));
  const markers = entry.scale.kind === "marker" ? fitting.filter((each) => is_marker(each.id)) : [];
  return [
    ...markers.map((each) => ({ ...each, required: true })),
    ...["required", "extra", "check", "more"].flatMap((want) => plain.filter((each) => want_of(each) === want)),
  ];
}

/**
 * The landmark to ask for now, or null when everything was placed or skipped.
 * @param {Points} points
 * @param {readonly LandmarkGuide[]} asked
 * @returns {LandmarkGuide | null}
 */
export function asking(points, asked) {
  const chosen = asked.find((each) => each.id === points.chosen);
  if (chosen) return chosen;
  const wanted = ["required", ...points.also];
  return asked.find((each) => wanted.includes(want_of(each)) && is_open(points, each.id)) ?? null;
}

/** Everything of the points but where they lie: the same as long as a point is only moved.
 * @param {Points} points */
export function but_places({ now, selected, also }) {
  const placed = Object.entries(now.landmarks).map(([id, { how }]) => [id, how]);
  return JSON.stringify([placed, now.skipped, selected, also]);
}

/** How many of a kind are still to be placed. @param {Points} points
 * @param {readonly LandmarkGuide[]} asked @param {"extra" | "check" | "more"} want */
export function open_count(points, asked, want) {
  return asked.filter((each) => want_of(each) === want && is_open(points, each.id)).length;
}

/** @param {Points} points @param {string} id */
export function is_open(points, id) {
  return !points.now.landmarks[id] && !points.now.skipped.includes(id);
}

/**
 * The placed landmark before or after the selected one, in the order of asking; null past the end.
 * @param {Points} points
 * @param {readonly LandmarkGuide[]} asked
 * @param {1 | -1} direction
 */
export function neighbour(points, asked, direction) {
  const placed = asked.filter((each) => points.now.landmarks[each.id]).map((each) => each.id);
  const at = points.selected === null ? -1 : placed.indexOf(points.selected);
  if (at < 0) return (direction > 0 ? placed[0] : placed.at(-1)) ?? null;
  return placed[at + direction] ?? null;
}
