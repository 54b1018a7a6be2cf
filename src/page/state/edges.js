/**
 * Which landmarks lie on one edge of a radiograph: the outermost two of a line, the points of a
 * circle.
 * @typedef {import("./types.js").LandmarkGuide} LandmarkGuide
 * @typedef {import("./types.js").Landmarks} Landmarks
 */
import { want_of } from "./points.js";

/**
 * The two landmarks that a stroke along a line gives; none when it isn't such a line.
 * @param {readonly LandmarkGuide[]} asked @param {string} [of] the line's name
 * @returns {LandmarkGuide[]}
 */
export function ends_of(asked, of) {
  const on_it = asked.filter((each) => each.snap === "line" && each.snap_of === of && want_of(each) === "required");
  return on_it.length === 2 ? on_it : [];
}

/**
 * Does a stroke run from the first landmark to the second, as the picture shows them?
 * @param {LandmarkGuide[]} ends @param {readonly number[]} from @param {readonly number[]} to
 * @param {string} [toward] where toe or lateral lies; on the drawing that is to the right
 */
export function runs_alike([first, second], from, to, toward) {
  const facing = toward === "left" ? -1 : 1;
  const across = facing * (second.schematic_x - first.schematic_x);
  const down = second.schematic_y - first.schematic_y;
  return (to[0] - from[0]) * across + (to[1] - from[1]) * down > 0;
}

/** The placed landmarks of the circle that a landmark belongs to.
 * @param {readonly LandmarkGuide[]} asked @param {LandmarkGuide} guide @param {Landmarks} placed */
export function on_circle_of(asked, guide, placed) {
  return asked.filter((each) => each.snap === "circle" && each.snap_of === guide.snap_of && placed[each.id]).map((each) => each.id);
}
