/**
 * The gauge of one number: reference band as a pale bar, the value as a tick, its 95 % interval as
 * a whisker. The band fills the middle third, so that gauges of a list can be read down the column;
 * without a band the width stands for a fixed span of the unit. Drawn from the program's numbers.
 * @typedef {import("../state/types.js").Measurement} Measurement
 */
import { quantity } from "../words/numbers.js";
import { words } from "../words/words.js";
import { svg } from "./dom.js";

const width = 120;
const middle = 9;
/** @type {Record<string, number>} */
const span_of_unit = { deg: 20, mm: 20, "%": 100, "1": 0.6 };

/** @param {Measurement} m @returns {{from: number, to: number}} */
function scale_of(m) {
  const { value = 0, low = 0, high = 0, band } = m;
  const edges = [band?.low, band?.high].filter((each) => typeof each === "number");
  if (edges.length === 0) {
    const half = Math.max((span_of_unit[m.unit] ?? 20) / 2, (high - low) * 0.6);
    return { from: value - half, to: value + half };
  }
  const broad = edges.length === 2 ? edges[1] - edges[0] : Math.max(high - low, Math.abs(edges[0]) * 0.4, 1e-6);
  const from = Math.min(edges[0] - broad, low - broad * 0.1);
  const to = Math.max(edges[edges.length - 1] + broad, high + broad * 0.1);
  return { from, to };
}

/** @param {Measurement} m must be measurable */
export function gauge(m) {
  const { from, to } = scale_of(m);
  const x = (/** @type {number} */ v) => (width * (v - from)) / (to - from);
  const { value = 0, low = 0, high = 0, band } = m;
  const said = (/** @type {number} */ v) => quantity(v, m.decimals, m.unit);
  const band_from = Math.max(0, typeof band?.low === "number" ? x(band.low) : 0);
  const band_to = Math.min(width, typeof band?.high === "number" ? x(band.high) : width);
  return svg("svg", {
    class: `gauge ${m.status}`, viewBox: `0 0 ${width} 18`, role: "img",
    "aria-label": words.numbers.gauge(said(value), said(low), said(high)),
  },
    svg("line", { class: "base", x1: 0, y1: middle, x2: width, y2: middle }),
    band && svg("rect", { class: "band", x: band_from, y: 3, width: Math.max(0, band_to - band_from), height: 12 }),
    svg("path", {
      class: "whisker",
      d: `M${x(low)} ${middle - 3}V${middle + 3}M${x(low)} ${middle}H${x(high)}M${x(high)} ${middle - 3}V${middle + 3}`,
    }),
    svg("line", { class: "value", x1: x(value), y1: 1, x2: x(value), y2: 17 }));
}
