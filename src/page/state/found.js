/**
 * What the program saw in a picture and a person hasn't decided about yet: the card's corners,
 * balls to choose from, landmarks offered from stick-on dots or proposed on a radiograph. Nothing of
 * it is measured from.
 * @typedef {import("./types.js").Ball} Ball
 * @typedef {import("./types.js").Offer} Offer
 * @typedef {import("./types.js").Spot} Spot
 *
 * @typedef {object} Found
 * @property {import("./types.js").CardSeen | null} card
 * @property {readonly Ball[]} balls
 * @property {number} ball the chosen one of them; -1 none
 * @property {"" | "ball" | "colour-0" | "colour-1" | "stroke"} picking what the hand chooses in the picture now
 * @property {readonly (Spot | null)[]} colours where the person tapped a dot of each colour
 * @property {readonly Offer[]} offers from the top of the picture down
 * @property {string} said the program's sentence about them
 * @property {Readonly<Record<string, Spot>>} proposals by landmark
 * @property {string} along the line that a stroke is drawn along; "" none
 * @property {readonly Spot[]} stroke drawn along an edge until now
 */

/** @type {Found} */
export const nothing = {
  card: null, balls: [], ball: -1, picking: "", colours: [null, null], offers: [], said: "",
  proposals: {}, along: "", stroke: [],
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
  if (!found.picking.startsWith("colour")) return found;
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

/** The named ones among the offers with these numbers.
 * @param {Found} found @param {number[]} numbers @returns {import("./types.js").Landmarks} */
export function landmarks_of(found, numbers) {
  const named = found.offers.filter((each) => numbers.includes(each.n) && each.id);
  return Object.fromEntries(named.map(({ id, x, y }) => [id, { x, y, how: "on-dot" }]));
}

/** @param {Found} found @param {number[]} numbers @returns {Found} */
export function without_offers(found, numbers) {
  return { ...found, offers: found.offers.filter((each) => !numbers.includes(each.n)) };
}

/** One dot is given a landmark; a landmark belongs to one dot only.
 * @param {Found} found @param {number} n @param {string} id @returns {Found} */
export function named(found, n, id) {
  const offers = found.offers.map((each) =>
    each.n === n ? { ...each, id } : each.id === id ? { ...each, id: "" } : each);
  return { ...found, offers };
}
