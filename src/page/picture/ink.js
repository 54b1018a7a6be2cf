/** How each ink role looks; the table itself is ink.css, shared with the paper's. */

const roles = ["bone", "hoof", "ground", "span", "proposal", "stop", "text", "faint", "band"];

/**
 * @typedef {{colour: string, dash: number[]}} Look
 * @typedef {Record<string, Look> & {halo: Look}} Inks
 */

/** @param {Element} element whose custom properties hold the table @returns {Inks} */
export function inks_of(element) {
  const style = getComputedStyle(element);
  const value = (/** @type {string} */ name) => style.getPropertyValue(name).trim();
  const look = (/** @type {string} */ role) => ({
    colour: value(`--ink-${role}`),
    dash: value(`--dash-${role}`).split(" ").map(Number).filter((each) => each > 0),
  });
  const entries = roles.map((role) => [role, look(role)]);
  return { ...Object.fromEntries(entries), halo: { colour: value("--ink-halo"), dash: [] } };
}
