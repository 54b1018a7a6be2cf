/** The signs of the four verdicts: each its own outline, so that none rests on colour. */
import { svg } from "./dom.js";

/** Strokes in a square of 20. @type {Record<string, string>} */
const signs = {
  fit: "M4 10.5l4 4.5l8-10",
  caution: "M10 2.5L18.5 17.5H1.5zM10 8v4.5M10 14.6v.6",
  unfit: "M6.2 2h7.6L18 6.2v7.6L13.8 18H6.2L2 13.8V6.2zM6.5 10h7",
  "not-checked": "M10 3.2a6.8 6.8 0 1 0 .01 0",
};

/** @param {string} verdict */
export function sign_of(verdict) {
  return svg("svg", { class: `verdict ${verdict}`, viewBox: "0 0 20 20", "aria-hidden": "true" },
    svg("path", { d: signs[verdict] ?? signs["not-checked"] }));
}
