/** Trying a trim and a shoe on the picture: a bar for each amount, and the numbers that follow. */
import { changed_in, entry_of, is_trying, protocol_of } from "../state/state.js";
import { amounts_in, asks_nothing, held_in, shoe_in, shown } from "../state/trying.js";
import { quantity } from "../words/numbers.js";
import { word, words, worded_for } from "../words/words.js";
import { change_row } from "./change_row.js";
import { button, h, rebuilt, show } from "./dom.js";
import { in_week, outlook_said } from "./outlook.js";
import { shoe_choice } from "./shoe.js";
import { sign_of } from "./verdict.js";

/** What is set on a picture of each view, in the order of the bars. @type {Record<string, string[]>} */
const of_view = {
  "lateromedial": ["trim_toe_mm", "trim_heel_mm", "dress_toe_mm", "wedge_deg", "breakover_back_mm", "branch_longer_mm", "shoe_thickness_mm", "pad_mm"],
  "dorsopalmar": ["trim_medial_mm", "trim_lateral_mm", "ml_wedge_deg", "extend_medial_mm", "extend_lateral_mm"],
};

/** The numbers that a plan turns on; the others are folded away. */
const first_shown = [
  "palmar-angle", "hpa-deviation", "sole-depth-tip", "sole-depth-palmar", "breakover-distance", "cor-toe", "base-proportion",
  "p3-ml-tilt-articular", "sole-depth-medial", "sole-depth-lateral", "wall-length-difference", "foot-axis-offset",
];

/** @param {string} name of an amount @param {number} value */
const amount = (name, value) => quantity(value, Number.isInteger(value) ? 0 : 1, name.endsWith("_deg") ? "deg" : "mm");

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function trying(wishes) {
  const w = words.trying;
  const refused = h("div", { class: "why-not" });
  const bars = h("div", { class: "bars" });
  const shoe = shoe_choice(wishes);
  const numbers = h("div", { class: "tried" });
  const acts = h("div", { class: "row" });
  const element = h("section", { class: "trying", "aria-label": w.title }, h("p", { class: "hint" }, w.lead), refused, bars, shoe.element, acts, numbers,
    h("p", { class: "caution" }, words.caution));
  const fresh = { refused: rebuilt(refused), bars: rebuilt(bars), numbers: rebuilt(numbers), acts: rebuilt(acts) };
  return {
    element,
    update(state) {
      if (!is_trying(state)) return;
      const tried = state.trying?.tried ?? null;
      const view = protocol_of(state)?.view ?? "";
      const may = tried !== null && tried.refused.length === 0;
      const missing = state.trying?.missing ?? false;
      fresh.refused([tried, missing, state.reader, state.open?.digest], () => refusal(state, tried, missing));
      fresh.bars([view, state.practice, may], () => (may ? all_bars(wishes, state, view) : []));
      for (const bar of bars.querySelectorAll("input")) show_amount(bar, state.trying ? shown(state.trying, bar.name) : 0);
      shoe.update(state, may);
      fresh.numbers([tried, missing, state.practice, view], () => (may && !missing ? expected(state, tried) : []));
      fresh.acts([may, missing, tried?.amount, tried?.shoe], () => (may && tried ? actions(wishes, tried, missing) : []));
    },
  };
}

/** @param {import("./panel.js").State} state @param {import("../state/types.js").Tried | null} tried
 * @param {boolean} missing */
function refusal(state, tried, missing) {
  const w = words.trying;
  if (missing) return [h("p", { class: "empty", role: "status" }, w.missing)];
  if (!tried) return [h("p", { class: "empty" }, w.waiting)];
  if (tried.refused.length > 0) return [h("section", { class: "stops" }, h("h3", {}, w.refused), h("ul", {}, tried.refused.map((each) => h("li", {}, each))))];
  const changed = changed_in(state);
  if (!changed) return [h("p", { class: "empty" }, w.unread)];
  return changed.read_by === state.reader ? [] : [h("p", { class: "hint" }, w.by(changed.read_by))];
}

/** @param {import("./panel.js").Wishes} wishes @param {import("./panel.js").State} state @param {string} view */
function all_bars(wishes, state, view) {
  const known = new Map((state.practice?.amounts ?? []).map((each) => [each.name, each]));
  return (of_view[view] ?? []).flatMap((name) => {
    const guide = known.get(name);
    return guide ? [bar(wishes, guide, entry_of(state)?.limb ?? "")] : [];
  });
}

/** @param {import("./panel.js").Wishes} wishes @param {{name: string, step: number, most: number}} guide @param {string} limb */
function bar(wishes, { name, step, most }, limb) {
  const title = worded_for(limb, word(words.trying.amounts, name));
  const range = h("input", {
    type: "range", name, min: 0, max: most, step, value: 0, "data-key": `try-${name}`,
    oninput: (/** @type {any} */ event) => wishes.dispatch({ type: "wish", variable: name, value: Number(event.target.value) }),
    onchange: () => wishes.dispatch({ type: "let-go" }),
  });
  return h("label", { class: "bar" }, h("span", {}, title), range, h("output", {}));
}

/** The bar goes back under the hand to where the amount is held. @param {HTMLInputElement} range @param {number} value */
function show_amount(range, value) {
  if (Number(range.value) !== value) range.value = String(value);
  const said = amount(range.name, value);
  const output = range.parentElement?.querySelector("output");
  if (output && output.value !== said) output.value = said;
  range.setAttribute("aria-valuetext", said);
}

/** @param {import("./panel.js").State} state @param {import("../state/types.js").Tried} tried */
function expected(state, tried) {
  const w = words.trying;
  const later = in_week(tried.outlook, (value, { decimals, unit }) => quantity(value, decimals, unit));
  const moves = (/** @type {import("../state/types.js").Predicted} */ { change, decimals }) => Math.abs(change) >= 0.5 * 10 ** -decimals;
  const moved = tried.predictions.filter(moves);
  if (Object.keys(tried.change).length === 0) return [h("p", { class: "empty" }, w.nothing_moves)];
  return [
    table(moved.filter((each) => first_shown.includes(each.measurement)), later, w.expected),
    h("details", { class: "folded" }, h("summary", {}, w.all(moved.length, tried.predictions.length - moved.length)), table(moved, later)),
    ...(tried.outlook ? outlook_said(state, tried.outlook) : []),
  ];
}

/** @param {import("../state/types.js").Predicted[]} rows @param {Map<string, string>} later @param {string} [caption] */
function table(rows, later, caption) {
  return h("table", { class: "expected" }, caption && h("caption", {}, caption), rows.map((each) =>
    change_row(each.title, each, each.uncertainty_of_change, later.get(each.measurement))));
}

/** @param {import("./panel.js").Wishes} wishes @param {import("../state/types.js").Tried} tried
 * @param {boolean} missing nobody plans what nobody has seen */
function actions(wishes, tried, missing) {
  const w = words.trying;
  const nothing = asks_nothing(tried);
  const take = async () => {
    const { trying: now, place, reader } = wishes.state();
    if (!now?.tried || !place.case_id) return;
    const taken = { change: { limb: now.limb, ...amounts_in(now), shoe: shoe_in(now) }, made_by: reader };
    if (await wishes.server.take_by_hand(place.case_id, now.visit, taken)) wishes.go({ screen: "plan", case_id: place.case_id, visit: now.visit });
  };
  return [
    button(w.take, take, { class: "main", disabled: nothing || missing, "data-key": "try-take" }),
    button(w.nothing, () => wishes.dispatch({ type: "try-nothing" }), { disabled: nothing, "data-key": "try-nothing" }),
  ];
}

/** The limit that the hand ran into, over the picture. @returns {import("./panel.js").Panel} */
export function held_note() {
  const element = h("p", { class: "held-back", role: "status", hidden: true });
  const fresh = rebuilt(element);
  return {
    element,
    update(state) {
      const held = is_trying(state) && state.trying?.tried && !state.trying.missing ? held_in(state.trying) : null;
      show(element, held !== null);
      fresh([held], () => (held ? [sign_of("caution"),
        h("span", {}, words.trying.held(word(words.trying.amounts, held.variable), amount(held.variable, held.held)), " ", held.sentence)] : []));
    },
  };
}
