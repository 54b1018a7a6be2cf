/**
 * How the picture lies on the screen and which greys are shown: plain values.
 * @typedef {import("./types.js").Spot} Spot
 * @typedef {import("./types.js").Window} Window
 *
 * @typedef {object} View
 * @property {number} scale screen pixels per picture column
 * @property {number} x screen place of the picture's left edge
 * @property {number} y screen place of its top edge
 * @property {boolean} fitted does it follow the stage when that changes size?
 *
 * @typedef {{width: number, height: number}} Size
 * @typedef {{columns: number, rows: number, aspect: number}} Shape aspect: pixel height over width
 */

const smallest = 0.02;
const largest = 40;
const margin = 12; // screen px left free around a fitted picture

/** @param {Size} stage @param {Shape} shape @returns {View} */
export function fit(stage, shape) {
  const scale = Math.max(
    smallest,
    Math.min(
      (stage.width - 2 * margin) / shape.columns,
      (stage.height - 2 * margin) / (shape.rows * shape.aspect),
    ),
  );
  return { ...centred(stage, shape, scale), fitted: true };
}

/** @param {Size} stage @param {Shape} shape @param {number} scale @returns {View} */
function centred(stage, shape, scale) {
  return {
    scale,
    x: (stage.width - shape.columns * scale) / 2,
    y: (stage.height - shape.rows * shape.aspect * scale) / 2,
    fitted: false,
  };
}

/**
 * Zooms so that what lies under `about` stays there.
 * @param {View} view @param {number} factor @param {Spot} about @returns {View}
 */
export function zoom(view, factor, about) {
  const scale = Math.min(largest, Math.max(smallest, view.scale * factor));
  const real = scale / view.scale;
  return {
    scale,
    x: about.x - (about.x - view.x) * real,
    y: about.y - (about.y - view.y) * real,
    fitted: false,
  };
}

/** @param {View} view @param {number} dx @param {number} dy @returns {View} */
export function pan(view, dx, dy) {
  return { ...view, x: view.x + dx, y: view.y + dy, fitted: false };
}

/**
 * Moves the view no further than needed to bring a picture place into the stage.
 * @param {View} view @param {Size} stage @param {Spot} at screen place @returns {View}
 */
export function reveal(view, stage, at) {
  const edge = 48;
  const dx = Math.max(edge - at.x, 0) + Math.min(stage.width - edge - at.x, 0);
  const dy = Math.max(edge - at.y, 0) + Math.min(stage.height - edge - at.y, 0);
  return dx === 0 && dy === 0 ? view : pan(view, dx, dy);
}

/**
 * Brightness and contrast by hand: right widens (softer), up brightens.
 * @param {Window} window @param {number} right share of the width @param {number} up the same
 * @returns {Window}
 */
export function regrade(window, right, up) {
  const width = Math.max(2, window.width * Math.exp(right));
  return { ...window, name: "", width, centre: window.centre - up * window.width };
}
