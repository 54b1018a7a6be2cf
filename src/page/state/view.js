/**
 * How the picture lies on the screen and which greys are shown: plain values.
 * @typedef {import("./types.js").Spot} Spot
 * @typedef {import("./types.js").Window} Window
 *
 * @typedef {object} View
 * @property {number} scale screen pixels per picture column
 * @property {number} x screen place of the picture's first corner (top left as it was taken)
 * @property {number} y the same
 * @property {number} turn degrees clockwise on the screen
 * @property {boolean} mirrored left for right, before it is turned; for the eye alone
 * @property {boolean} fitted does it follow the stage when that changes size?
 *
 * @typedef {object} Tone what changes the greys beyond the window; radiographs only
 * @property {number} gamma above one the middle greys are brighter
 * @property {number} local 0..1: how much local contrast
 *
 * @typedef {{window: Window, tone: Tone, inverted: boolean}} Look which greys are shown
 *
 * @typedef {{width: number, height: number}} Size
 * @typedef {{columns: number, rows: number, aspect: number}} Shape aspect: pixel height over width
 */

const smallest = 0.02;
const largest = 40;
const margin = 12; // screen px left free around a fitted picture

/** @type {View} */
export const first_view = { scale: 1, x: 0, y: 0, turn: 0, mirrored: false, fitted: true };

/**
 * Which way the picture's columns and rows run on the screen, each of length one.
 * @param {Pick<View, "turn" | "mirrored">} view @returns {{right: Spot, below: Spot}}
 */
export function axes_of({ turn, mirrored }) {
  const quarter = turn % 90 === 0; // exact, so that an upright picture is painted on whole pixels
  const angle = (turn * Math.PI) / 180;
  const tidy = (/** @type {number} */ value) => (quarter ? Math.round(value) : value) + 0;
  const [cos, sin] = [tidy(Math.cos(angle)), tidy(Math.sin(angle))];
  const sign = mirrored ? -1 : 1;
  return { right: { x: sign * cos, y: sign * sin }, below: { x: -sin, y: cos } };
}

/**
 * The whole picture as it is turned. @param {Size} stage @param {Shape} shape
 * @param {Pick<View, "turn" | "mirrored">} [lie] @returns {View}
 */
export function fit(stage, shape, lie = first_view) {
  const { right, below } = axes_of(lie);
  const rows = shape.rows * shape.aspect;
  const width = Math.abs(right.x) * shape.columns + Math.abs(below.x) * rows;
  const height = Math.abs(right.y) * shape.columns + Math.abs(below.y) * rows;
  const scale = Math.max(smallest, Math.min((stage.width - 2 * margin) / width, (stage.height - 2 * margin) / height));
  const middle = { x: shape.columns / 2, y: shape.rows / 2 };
  return { ...with_at(lie, shape.aspect, scale, middle, middle_of(stage)), fitted: true };
}

/** @param {Size} stage @returns {Spot} */
export const middle_of = (stage) => ({ x: stage.width / 2, y: stage.height / 2 });

/**
 * The view in which a place of the picture lies at a place of the screen.
 * @param {Pick<View, "turn" | "mirrored">} lie @param {number} aspect @param {number} scale
 * @param {Spot} place picture, from its first corner @param {Spot} at screen @returns {View}
 */
export function with_at({ turn, mirrored }, aspect, scale, place, at) {
  const { right, below } = axes_of({ turn, mirrored });
  const [u, v] = [place.x * scale, place.y * aspect * scale];
  return {
    scale, turn, mirrored, fitted: false,
    x: at.x - u * right.x - v * below.x,
    y: at.y - u * right.y - v * below.y,
  };
}

/**
 * Where a place of the picture lies. @param {View} view @param {number} aspect
 * @param {Spot} place picture, from its first corner @returns {Spot} screen
 */
export function screen_of(view, aspect, place) {
  const { right, below } = axes_of(view);
  const [u, v] = [place.x * view.scale, place.y * aspect * view.scale];
  return { x: view.x + u * right.x + v * below.x, y: view.y + u * right.y + v * below.y };
}

/**
 * Turns about a place of the screen. @param {View} view @param {number} degrees clockwise
 * @param {Spot} about @returns {View}
 */
export function turned(view, degrees, about) {
  const turn = within_half_turn(view.turn + degrees);
  const angle = (degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const [dx, dy] = [view.x - about.x, view.y - about.y];
  return { ...view, turn, x: about.x + dx * cos - dy * sin, y: about.y + dx * sin + dy * cos };
}

/** The same direction, above -180 up to 180, free of the crumbs of adding, so that a quarter stays one.
 * @param {number} degrees @returns {number} */
function within_half_turn(degrees) {
  const tidy = Math.round(degrees * 1e6) / 1e6;
  return 180 - ((((180 - tidy) % 360) + 360) % 360);
}

/** Left for right on the screen, about the middle of the stage. @param {View} view
 * @param {Size} stage @returns {View} */
export function mirrored(view, stage) {
  return { ...view, mirrored: !view.mirrored, turn: within_half_turn(-view.turn), x: stage.width - view.x };
}

/**
 * Zooms so that what lies under `about` stays there.
 * @param {View} view @param {number} factor @param {Spot} about @returns {View}
 */
export function zoom(view, factor, about) {
  const scale = Math.min(largest, Math.max(smallest, view.scale * factor));
  const real = scale / view.scale;
  return {
    ...view,
    scale,
    x: about.x - (about.x - view.x) * real,
    y: about.y - (about.y - view.y) * real,
    fitted: false,
  };
}

/**
 * Near to a place, so that what lies within its radius is seen; never smaller than the whole picture.
 * @param {View} view @param {Size} stage @param {Shape} shape
 * @param {Spot & {radius: number}} place picture px, the radius in columns @returns {View}
 */
export function near(view, stage, shape, { x, y, radius }) {
  const whole = fit(stage, shape, view).scale;
  const scale = Math.min(largest, Math.max(whole, Math.min(stage.width, stage.height) / 2 / radius));
  return with_at(view, shape.aspect, scale, { x: x + 0.5, y: y + 0.5 }, middle_of(stage));
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

/** @type {Tone} */
export const plain_tone = { gamma: 1, local: 0 };
const gammas = { least: 0.4, most: 2.5 };

/** Within what makes sense. @param {Tone} tone @param {Partial<Tone>} change @returns {Tone} */
export function retoned(tone, change) {
  const { gamma, local } = { ...tone, ...change };
  return {
    gamma: Math.min(gammas.most, Math.max(gammas.least, gamma)),
    local: Math.min(1, Math.max(0, local)),
  };
}

/**
 * A window as the strip's two sliders show it, against the one that the picture came with: brighter
 * (shares of its width) and steeper (doublings).
 * @param {Window} window @param {Window} came
 */
export function slid_from(window, came) {
  return { brightness: (came.centre - window.centre) / came.width, contrast: Math.log2(came.width / window.width) };
}

/** @param {Window} window @param {Window} came @param {{brightness?: number, contrast?: number}} change
 * @returns {Window} */
export function slid_to(window, came, change) {
  const { brightness, contrast } = { ...slid_from(window, came), ...change };
  const width = Math.max(2, came.width / 2 ** contrast);
  return { ...window, name: "", width, centre: came.centre - brightness * came.width };
}

/** @param {Window} a @param {Window} b */
export const same_window = (a, b) => a.centre === b.centre && a.width === b.width && a.shape === b.shape;

/**
 * What this device keeps of how a picture was looked at; a value that makes no sense is dropped.
 * @param {any} kept as it was read
 * @returns {{window: Window | null, tone: Tone, inverted: boolean, turn: number, mirrored: boolean}}
 */
export function look_from(kept) {
  const number = (/** @type {unknown} */ value, /** @type {number} */ otherwise) =>
    typeof value === "number" && Number.isFinite(value) ? value : otherwise;
  const window = kept?.window;
  const sound = Number.isFinite(window?.centre) && window?.width > 0 && typeof window?.shape === "string";
  return {
    window: sound ? window : null,
    tone: retoned(plain_tone, { gamma: number(kept?.tone?.gamma, 1), local: number(kept?.tone?.local, 0) }),
    inverted: kept?.inverted === true,
    turn: within_half_turn(number(kept?.turn, 0)),
    mirrored: kept?.mirrored === true,
  };
}

/** How far it is turned from the nearest quarter. @param {View} view @returns {number} degrees */
export const small_turn = ({ turn }) => turn - 90 * Math.round(turn / 90);
