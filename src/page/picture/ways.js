/**
 * The words at the edges of the stage: which way is which, and in a corner which foot it is.
 * @typedef {import("../state/types.js").Spot} Spot
 * @typedef {import("../state/view.js").Size} Size
 */
import { way_words, which_foot } from "../words/words.js";
import { write } from "./labels.js";

const line = 40; // screen px from the edge to where a second line of words stands free of the first

/** @param {CanvasRenderingContext2D} to @param {import("../state/ways.js").Ways} ways
 * @param {Size} stage @param {import("./ink.js").Inks} inks */
export function paint_ways(to, ways, stage, inks) {
  const corner = { x: stage.width, y: stage.height };
  for (const { what, end } of ways.ends) write(to, way_words(ways, what), corner, "middle", inks, along(end, stage));
  write(to, which_foot(ways), corner, "right", inks, corners(stage));
}

/** At the sides from below upwards, where the ground is rather than bone; above and below from the middle
 * outwards. @param {import("../state/ways.js").End} end @param {Size} stage @returns {Spot[]} */
function along(end, { width, height }) {
  const upright = end === "left" || end === "right";
  const depth = { left: 0, right: width, top: 0, bottom: height }[end];
  const shares = Array.from({ length: 21 }, (_, n) =>
    upright ? 0.9 - 0.04 * n : 0.5 + ((n % 2 === 0 ? 1 : -1) * Math.ceil(n / 2)) / 22);
  const inwards = depth === 0 ? line : -line;
  return upright ? shares.map((share) => ({ x: depth, y: share * height }))
    : [0, inwards].flatMap((step) => shares.map((share) => ({ x: share * width, y: depth + step })));
}

/** Else one line further in, where a narrow stage has other words at its edge.
 * @param {Size} stage @returns {Spot[]} */
const corners = ({ width, height }) => [0, line].flatMap((in_from) => [
  { x: width, y: height - in_from }, { x: width, y: in_from }, { x: 0, y: in_from }, { x: 0, y: height - in_from },
]);
