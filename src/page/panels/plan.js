/** The plan: stops first, then what is proposed and decided, then the signature. */
import { paper_path } from "../server/server.js";
import { protocol_of_entry, visit_of } from "../state/state.js";
import { day } from "../words/numbers.js";
import { word, words } from "../words/words.js";
import { best_fit } from "./best_fit.js";
import { change_row } from "./change_row.js";
import { button, h, rebuilt, show } from "./dom.js";
import { outlook_said } from "./outlook.js";
import { proposal } from "./proposal.js";
import { sign } from "./sign.js";
import { picture_title } from "./title.js";
import { paper_name } from "./visits.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function plan_screen(wishes) {
  const head = h("div", { class: "plan-head" });
  const body = h("div", { class: "plan-body" });
  const signing = h("div");
  const fit = best_fit(wishes);
  const element = h("main", { class: "sheet" }, head, body, fit.element, signing, h("p", { class: "caution" }, words.caution));
  const fresh_head = rebuilt(head);
  const fresh_body = rebuilt(body);
  const fresh_signing = rebuilt(signing);
  return {
    element,
    update(state) {
      const { planning, record } = state;
      const visit = visit_of(state);
      show(element, state.place.screen === "plan" && planning?.loaded === true && visit !== null);
      if (!planning?.loaded || !record || !visit) return;
      const { plan } = planning;
      fresh_head([plan, planning.busy, record.id, visit], () => heading(wishes, record.id, visit, plan, planning.busy));
      fresh_body([plan, planning.asks, planning.outlooks, state.practice, visit], () => (plan ? contents(wishes, state, plan, visit) : []));
      fit.update(state);
      // Apart, so that a decision doesn't take away what somebody has begun to write here.
      fresh_signing([visit.id, plan?.version, plan?.sign_off], () => (plan ? [sign(wishes, state, plan, written_in(signing, visit.id))] : []));
    },
  };
}

/** What somebody has begun to write into the sign-off of this visit. @param {HTMLElement} signing
 * @param {string} visit @returns {Record<string, any>} */
function written_in(signing, visit) {
  const form = signing.querySelector("form");
  return form?.dataset.visit === visit ? Object.fromEntries(new FormData(form)) : {};
}

/** @param {import("./panel.js").Wishes} wishes @param {string} case_id
 * @param {import("../state/types.js").Visit} visit
 * @param {import("../state/types.js").Plan | null} plan @param {boolean} busy */
function heading(wishes, case_id, visit, plan, busy) {
  const w = words.plan;
  const make = button(busy ? w.making : !plan ? w.make : plan.sign_off ? w.new_version : w.again,
    () => wishes.server.make_plan(case_id, visit.id, wishes.state().reader),
    { class: plan ? "" : "main", disabled: busy, "data-key": "make" });
  const paper = (/** @type {"A4" | "Letter"} */ size, /** @type {string} */ text) =>
    h("a", { class: "button", href: paper_path(case_id, visit.id, size), download: paper_name(case_id, visit), "data-paper": size }, text);
  return [
    h("div", { class: "row" },
      h("h1", {}, `${w.title}, ${day(visit.date)}`),
      h("span", { class: "end row" }, make, plan && [paper("A4", words.paper.a4), paper("Letter", words.paper.letter)])),
    plan ? h("p", { class: "hint" }, w.version(plan.version, plan.made_by, day(plan.made))) : h("p", { class: "empty" }, w.none),
  ];
}

/** @param {import("./panel.js").Wishes} wishes @param {import("./panel.js").State} state
 * @param {import("../state/types.js").Plan} plan @param {import("../state/types.js").Visit} visit */
function contents(wishes, state, plan, visit) {
  const w = words.plan;
  const undecided = plan.lines.filter((each) => each.decision === "open").length;
  const list = (/** @type {string} */ title, /** @type {string[]} */ said, /** @type {string} */ kind) =>
    said.length > 0 && h("section", { class: kind }, h("h2", {}, title), h("ul", {}, said.map((each) => h("li", {}, each))));
  return [
    list(w.stops, plan.stops, "stops"),
    h("h2", {}, w.lines),
    plan.lines.length === 0 ? h("p", { class: "empty" }, plan.stops.length > 0 ? w.no_lines_at_stop : w.no_lines)
      : h("ol", { class: "proposals" }, plan.lines.map((each, at) => proposal(wishes, state, plan, each, at))),
    list(w.locks, plan.locks, "locks"),
    list(w.remeasure, plan.remeasure, "remeasure"),
    (state.planning?.outlooks ?? []).map((each) => outlook(state, each)),
    plan.stops.length === 0 && trying_links(wishes, state, visit),
    undecided > 0 && !plan.sign_off && h("p", { class: "hint" }, w.undecided(undecided)),
  ];
}

/** What of a changed foot a reader looks for weeks later, as on paper. */
const foreseen = ["palmar-angle", "hpa-deviation", "cor-toe"];

/** @param {import("./panel.js").Wishes} wishes @param {import("./panel.js").State} state
 * @param {import("../state/types.js").Visit} visit */
function trying_links(wishes, state, visit) {
  const radiographs = visit.pictures.filter((each) => protocol_of_entry(state, each)?.shows === "radiograph");
  if (radiographs.length === 0) return null;
  const go = (/** @type {string} */ digest) =>
    wishes.go({ screen: "picture", case_id: state.record?.id, visit: visit.id, digest, tab: "try" });
  return h("p", { class: "row" }, words.trying.links,
    radiographs.map((each) => button(picture_title(state, each), () => go(each.digest), { "data-key": `try-${each.digest}` })));
}

/** What a changed foot comes to later on. @param {import("./panel.js").State} state
 * @param {import("../state/types.js").Outlook} found */
function outlook(state, found) {
  const shown = found.predictions.filter((each) => foreseen.includes(each.measurement));
  return h("section", { class: "outlook", "data-limb": found.limb },
    h("h2", {}, words.trying.outlook(word(words.limbs, found.limb))),
    shown.length > 0 && h("table", { class: "expected" }, h("caption", {}, words.plan.later(found.week)), shown.map((each) =>
      change_row(each.title, each, each.uncertainty_of_change))),
    ...outlook_said(state, found));
}
