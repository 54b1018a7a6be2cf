/**
 * Pictures of one limb held against each other: standing and hanging free (what of each deviation
 * disappears is posture, what stays is conformation), and one coffin joint in two side views.
 * @typedef {import("../state/types.js").PostureRow} PostureRow
 * @typedef {import("../state/types.js").JointRow} JointRow
 * @typedef {import("../state/types.js").Said} Said
 */
import { number, unit_sign } from "../words/numbers.js";
import { word, words, worded_for } from "../words/words.js";
import { h } from "./dom.js";

/** @param {import("../state/state.js").Compared | undefined} compared */
export function posture(compared) {
  const w = words.posture;
  const limbs = (compared?.limbs ?? []).filter((each) => each.rows.length > 0);
  const joints = compared?.joints ?? [];
  return [
    limbs.length > 0 && section(w.title, w.lead, limbs.map(({ limb, rows }) =>
      table(word(words.limbs, limb), [w.standing, w.gone, w.stays], rows.map((each) => row(each, limb))))),
    joints.length > 0 && section(w.joints, w.joints_lead, [
      table("", [w.first, w.second, w.more], joints.map(joint))]),
  ];
}

/** @param {string} title @param {string} lead @param {Node[]} tables */
function section(title, lead, tables) {
  return h("section", { class: "posture" }, h("h4", {}, title), h("p", { class: "hint" }, lead), tables);
}

/** @param {string} caption @param {string[]} heads @param {Node[]} rows */
function table(caption, heads, rows) {
  return h("table", {},
    caption && h("caption", {}, caption),
    h("thead", {}, h("tr", {}, ["", ...heads].map((each) => h("th", { scope: "col" }, each)))),
    h("tbody", {}, rows));
}

/** @param {PostureRow} row @param {string} limb */
function row({ id, title, what, unit, decimals, standing, hanging, gone }, limb) {
  return h("tr", { "data-id": id },
    h("th", { scope: "row", title: worded_for(limb, what) }, worded_for(limb, title)),
    [standing, gone, hanging].map((each) => cell(each, unit, decimals)));
}

/** @param {JointRow} joint */
function joint({ limb, what, first, second, more }) {
  return h("tr", { "data-limb": limb },
    h("th", { scope: "row", title: what }, word(words.limbs, limb)),
    [first, second, more].map((each) => cell(each, "deg", 1)));
}

/** @param {Said} said @param {string} unit @param {number} decimals */
function cell({ value, standard_uncertainty }, unit, decimals) {
  return h("td", {}, h("b", {}, number(value, decimals)), ` ± ${number(2 * standard_uncertainty, decimals)}${unit_sign(unit)}`);
}
