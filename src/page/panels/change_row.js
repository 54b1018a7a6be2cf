/** One number before and after a change of the foot, and how sure the change is. */
import { number, quantity, unit_sign } from "../words/numbers.js";
import { h } from "./dom.js";

/**
 * @param {string} title @param {{before: number, after: number, unit: string, decimals: number}} change
 * @param {number | null} unsure standard uncertainty of the change; null where nothing is changed
 * @param {string} [said] what is to be said of it
 */
export function change_row(title, { before, after, unit, decimals }, unsure, said = "") {
  const spread = unsure === null ? "" : `± ${number(2 * unsure, decimals)}${unit_sign(unit)}`;
  return h("tr", {},
    h("th", { scope: "row" }, title),
    h("td", {}, quantity(before, decimals, unit)),
    h("td", { "aria-hidden": "true" }, "→"),
    h("td", {}, h("b", {}, quantity(after, decimals, unit))),
    h("td", { class: "hint" }, [spread, said].filter(Boolean).join(", ")));
}
