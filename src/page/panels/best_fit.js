/**
 * The best fit: a person switches on what a foot should come to, the program answers with the ways
 * that lead there or as near as the limits allow, and a person takes one or none.
 */
import { visit_of } from "../state/state.js";
import { word, words, worded_for } from "../words/words.js";
import { change_row } from "./change_row.js";
import { button, h, labelled, rebuilt } from "./dom.js";

/** @typedef {import("../state/types.js").OfferedAim} OfferedAim
 * @typedef {import("../state/types.js").Fit} Fit
 * @typedef {import("../state/types.js").Way} Way */

/** @param {import("./panel.js").Wishes} wishes @returns {{element: HTMLElement, update(state: import("./panel.js").State): void}} */
export function best_fit(wishes) {
  const asking = h("div", { class: "fit-asking" });
  const answer = h("div", { class: "fit-answer" });
  const element = h("details", { class: "best-fit" }, h("summary", {}, words.fit.title), asking, answer);
  const fresh_asking = rebuilt(asking);
  const fresh_answer = rebuilt(answer);
  return {
    element,
    update(state) {
      const visit = visit_of(state);
      const { record, planning, practice } = state;
      if (!record || !visit || !practice || !planning) return;
      const limbs = [...new Set(visit.pictures.map((each) => each.limb))];
      fresh_asking([record.id, visit.id, limbs.join(), practice], () => [asked_of(wishes, asking, record.id, visit.id, limbs)]);
      fresh_answer([planning.fit, planning.busy], () => (planning.fit ? answered(wishes, record.id, visit.id, planning.fit) : []));
    },
  };
}

/** @param {import("./panel.js").Wishes} wishes @param {HTMLElement} asking @param {string} case_id
 * @param {string} visit @param {string[]} limbs */
function asked_of(wishes, asking, case_id, visit, limbs) {
  const w = words.fit;
  const rows = h("div", { class: "fit-aims" });
  const limb = h("select", { "data-key": "fit-limb", onchange: () => fill() },
    limbs.map((each) => h("option", { value: each }, word(words.limbs, each))));
  const fill = () => rows.replaceChildren(...offered(wishes, limb.value).map((each) => aim_row(wishes, limb.value, each)));
  fill();
  const ask = () => wishes.server.best_fit(case_id, visit, { limb: limb.value, aims: aims_in(rows, offered(wishes, limb.value)) });
  return h("div", {},
    h("p", { class: "hint" }, w.lead),
    labelled(w.foot, limb),
    rows,
    button(w.ask, ask, { "data-key": "fit-ask" }));
}

/** @param {import("./panel.js").Wishes} wishes @param {string} limb @returns {OfferedAim[]} */
function offered(wishes, limb) {
  const aims = wishes.state().practice?.aims ?? [];
  return aims.filter((each) => (limb.endsWith("fore") ? each.for_fore : each.for_hind));
}

/** @param {import("./panel.js").Wishes} wishes @param {string} limb @param {OfferedAim} aim */
function aim_row(wishes, limb, aim) {
  const w = words.fit;
  const known = wishes.state().practice?.measurements.find((each) => each.id === aim.measurement);
  const title = worded_for(limb, known?.title ?? aim.measurement);
  const end = (/** @type {string} */ name, /** @type {string} */ label, /** @type {number | null} */ value) =>
    h("input", { type: "number", step: "any", name, value: value ?? "", "aria-label": `${title}: ${label}` });
  return h("div", { class: "fit-aim", "data-measurement": aim.measurement },
    h("label", { class: "row" }, h("input", { type: "checkbox", name: "on" }), h("span", {}, title)),
    h("span", { class: "row" }, w.from, end("low", w.from, aim.low), w.to, end("high", w.to, aim.high),
      w.one, end("one", w.one, aim.counts_as_one)),
    h("p", { class: "hint" }, worded_for(limb, aim.why), " ", aim.source, "."));
}

/** @param {HTMLElement} rows @param {OfferedAim[]} aims those switched on, with what was typed */
function aims_in(rows, aims) {
  const number = (/** @type {Element} */ row, /** @type {string} */ name) => {
    const field = /** @type {HTMLInputElement} */ (row.querySelector(`[name="${name}"]`));
    return field.value === "" ? null : Number(field.value);
  };
  return [...rows.children].flatMap((row, at) => {
    const on = /** @type {HTMLInputElement} */ (row.querySelector('[name="on"]'));
    const offer = aims[at];
    if (!on.checked || !offer) return [];
    const low = number(row, "low"), high = number(row, "high");
    const as_offered = low === offer.low && high === offer.high;
    return [{
      measurement: offer.measurement, low, high, counts_as_one: number(row, "one") ?? offer.counts_as_one,
      source: as_offered ? offer.source : words.fit.own_band,
    }];
  });
}

/** @param {import("./panel.js").Wishes} wishes @param {string} case_id @param {string} visit
 * @param {{asked: {limb: string, aims: unknown[]}, found: Fit}} fit */
function answered(wishes, case_id, visit, { asked, found }) {
  const w = words.fit;
  const list = (/** @type {string} */ title, /** @type {string[]} */ said) =>
    said.length > 0 && h("section", {}, h("h3", {}, title), h("ul", {}, said.map((each) => h("li", {}, each))));
  if (found.refused.length > 0) return [list(w.refused, found.refused)];
  const take = (/** @type {Way} */ way) =>
    wishes.server.take_way(case_id, visit, { ...asked, means: way.means, made_by: wishes.state().reader });
  return [
    list(w.left_out, found.left_out.map((each) => each.reason)),
    list(w.conflicts, found.conflicts),
    found.ways.length === 0 ? h("p", { class: "empty" }, w.nothing)
      : h("div", { class: "fit-ways" }, found.ways.map((each) => way_card(found.limb, each, () => take(each)))),
  ];
}

/** How sure the change of a number is; null where nothing is changed. @param {Way} way @param {string} measurement */
const unsure = (way, measurement) =>
  way.predictions.find((each) => each.measurement === measurement)?.uncertainty_of_change ?? null;

/** @param {string} limb @param {Way} way @param {() => void} take */
function way_card(limb, way, take) {
  const w = words.fit;
  const nothing = Object.keys(way.change).length === 0;
  const list = (/** @type {string} */ title, /** @type {string[]} */ said) =>
    said.length > 0 && [h("h4", {}, title), h("ul", {}, said.map((each) => h("li", {}, each)))];
  return h("section", { class: "fit-way", "data-means": way.means },
    h("h3", {}, word(w.means, way.means)),
    h("p", {}, h("b", {}, nothing ? w.no_change : worded_for(limb, way.amount))),
    h("table", {}, h("caption", {}, words.plan.expected), way.outcomes.map((each) =>
      change_row(each.title, each, unsure(way, each.measurement), each.beyond_reach ? w.beyond_reach : word(w.states, each.state)))),
    list(w.costs, way.costs.sentences),
    list(w.in_the_way, way.in_the_way.map((each) => each.sentence)),
    list(w.later, way.stages.words),
    !nothing && button(w.take, take, { "data-key": `take-${way.means}` }));
}
