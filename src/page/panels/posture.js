/**
 * A limb that was seen standing and hanging free: what of each deviation disappears when it hangs
 * (posture) and what stays (conformation), each with its uncertainty.
 * @typedef {import("../state/types.js").PostureRow} PostureRow
 */
import { number, unit_sign } from "../words/numbers.js";
import { word, words, worded_for } from "../words/words.js";
import { h } from "./dom.js";

/** @param {import("../state/state.js").PostureFoot[] | undefined} limbs */
export function posture(limbs) {
  const some = (limbs ?? []).filter((each) => each.rows.length > 0);
  if (some.length === 0) return null;
  const w = words.posture;
  return h("section", { class: "posture" },
    h("h4", {}, w.title),
    h("p", { class: "hint" }, w.lead),
    some.map(({ limb, rows }) => h("table", {},
      h("caption", {}, word(words.limbs, limb)),
      h("thead", {}, h("tr", {}, ["", w.standing, w.gone, w.stays].map((each) => h("th", { scope: "col" }, each)))),
      h("tbody", {}, rows.map((each) => row(each, limb))))));
}

/** @param {PostureRow} row @param {string} limb */
function row({ id, title, what, unit, decimals, standing, hanging, gone }, limb) {
  const said = (/** @type {{value: number, standard_uncertainty: number}} */ { value, standard_uncertainty }) =>
    h("td", {}, h("b", {}, number(value, decimals)), ` ± ${number(2 * standard_uncertainty, decimals)}${unit_sign(unit)}`);
  return h("tr", { "data-id": id },
    h("th", { scope: "row", title: worded_for(limb, what) }, worded_for(limb, title)),
    said(standing), said(gone), said(hanging));
}
