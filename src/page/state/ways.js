/**
 * Which way is which on the stage, however the picture is turned or mirrored. What the person
 * confirmed about the picture speaks, not the screen.
 * @typedef {import("./types.js").PictureEntry} PictureEntry
 * @typedef {import("./view.js").View} View
 *
 * @typedef {"left" | "right" | "top" | "bottom"} End of the stage
 * @typedef {"toe" | "heel" | "front" | "back" | "outer" | "inner"} What
 * @typedef {{ends: {what: What, end: End}[], limb: string, mirrored: boolean, date: string}} Ways
 *   date: of the visit, empty where there is only one picture to look at
 */
import { axes_of } from "./view.js";

/** @type {Record<End, End>} */
const opposite = { left: "right", right: "left", top: "bottom", bottom: "top" };

/**
 * Null while it isn't known which way the picture points.
 * @param {PictureEntry} entry @param {import("./types.js").Protocol | null} protocol
 * @param {View} view @param {string} date @returns {Ways | null}
 */
export function ways_of(entry, protocol, view, date) {
  if (!protocol || (entry.toward !== "left" && entry.toward !== "right")) return null;
  const end = end_of(entry.toward, view);
  const [toward, away] = ends_shown(protocol);
  return { ends: [{ what: toward, end }, { what: away, end: opposite[end] }], limb: entry.limb, mirrored: view.mirrored, date };
}

/** What lies the way the picture points, and against it.
 * @param {import("./types.js").Protocol} protocol @returns {[What, What]} */
function ends_shown({ from_the_side, shows }) {
  if (!from_the_side) return ["outer", "inner"];
  return shows === "limb" ? ["front", "back"] : ["toe", "heel"];
}

/** The edge of the stage nearest to where the picture's pointing end lies.
 * @param {"left" | "right"} toward in the picture @param {View} view @returns {End} */
function end_of(toward, view) {
  const { right } = axes_of(view);
  const sign = toward === "right" ? 1 : -1;
  const [x, y] = [sign * right.x, sign * right.y];
  if (Math.abs(x) >= Math.abs(y)) return x > 0 ? "right" : "left";
  return y > 0 ? "bottom" : "top";
}
