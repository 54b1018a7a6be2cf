/** Our mark: the tapered square hole that a pritchel leaves in a shoe. */
import { svg } from "./dom.js";

export function mark() {
  return svg("svg", { viewBox: "0 0 24 24", class: "own-mark", "aria-hidden": "true" },
    svg("rect", { x: 2.5, y: 2.5, width: 19, height: 19 }),
    svg("path", { d: "M2.5 2.5 L8.5 9 M21.5 2.5 L15.5 9 M2.5 21.5 L8.5 16 M21.5 21.5 L15.5 16" }),
    svg("rect", { x: 8.5, y: 9, width: 7, height: 7, class: "hole" }));
}
