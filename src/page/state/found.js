/**
 * What the program saw in a picture and a person hasn't decided about yet: the card's corners,
 * balls to choose from, landmarks offered from stick-on dots. Nothing of it is measured from.
 * @typedef {import("./types.js").Ball} Ball
 * @typedef {import("./types.js").Offer} Offer
 * @typedef {import("./types.js").Spot} Spot
 *
 * @typedef {object} Found
 * @property {import("./types.js").CardSeen | null} card
 * @property {readonly Ball[]} balls
 * @property {number} ball the chosen one of them; -1 none
 * @property {"" | "ball" | "colour-0" | "colour-1"} picking what a tap on the picture chooses now
 * @property {readonly (Spot | null)[]} colours where the person tapped a dot of each colour
 * @property {readonly Spot[]} dots seen, with or without an offer
 * @property {Readonly<Record<string, Offer>>} offers by landmark
 * @property {string} said the program's sentence about them
 */

/** @type {Found} */
export const nothing = {
  card: null, balls: [], ball: -1, picking: "", colours: [null, null], dots: [], offers: {}, said: "",
};

/**
 * A tap while something is being chosen. @param {Found} found @param {Spot} at picture px
 * @param {number} reach picture px @returns {Found}
 */
export function picked(found, at, reach) {
  if (found.picking === "ball") {
    const ball = nearest_ball(found.balls, at, reach);
    return ball < 0 ? found : { ...found, ball, picking: "" };
  }
  if (!found.picking) return found;
  const which = found.picking === "colour-0" ? 0 : 1;
  const colours = found.colours.map((each, n) => (n === which ? at : each));
  return { ...found, colours, picking: which === 0 && !colours[1] ? "colour-1" : "" };
}

/** @param {readonly Ball[]} balls @param {Spot} at @param {number} reach */
function nearest_ball(balls, at, reach) {
  let best = { n: -1, distance: reach };
  balls.forEach((each, n) => {
    const from_edge = Math.max(0, Math.hypot(each.x - at.x, each.y - at.y) - each.diameter_px / 2);
    if (from_edge < best.distance) best = { n, distance: from_edge };
  });
  return best.n;
}

/** @param {Found} found @param {string[]} ids @returns {import("./types.js").Landmarks} */
export function landmarks_of(found, ids) {
  const known = ids.filter((id) => found.offers[id]);
  return Object.fromEntries(known.map((id) => [id, { x: found.offers[id].x, y: found.offers[id].y, how: "on-dot" }]));
}

/** @param {Found} found @param {string[]} ids @returns {Found} */
export function without_offers(found, ids) {
  const left = Object.entries(found.offers).filter(([id]) => !ids.includes(id));
  return { ...found, offers: Object.fromEntries(left) };
}
