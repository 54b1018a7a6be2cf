/** The sign of a reader's points beside the reader's name, as it is drawn in the picture. */
import { svg } from "./dom.js";

/** @param {number[][]} corners about 0, 0 */
export const reader_sign = (corners) =>
  svg("svg", { class: "pair-sign", viewBox: "-12 -12 24 24", "aria-hidden": "true" },
    svg("path", { d: `M${corners.map((each) => each.join(" ")).join("L")}Z` }));
