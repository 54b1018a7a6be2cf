/** One numbered line of a plan with its decision. */
import { usual_decimals } from "../words/numbers.js";
import { word, words, worded_for } from "../words/words.js";
import { change_row } from "./change_row.js";
import { button, choice, h, labelled } from "./dom.js";

/**
 * @param {import("./panel.js").Wishes} wishes @param {import("./panel.js").State} state
 * @param {import("../state/types.js").Plan} plan @param {import("../state/types.js").ProposalLine} line
 * @param {number} at its place in the plan
 */
export function proposal(wishes, state, plan, line, at) {
  const w = words.plan;
  const frozen = Boolean(plan.sign_off);
  const decide = (/** @type {Record<string, string>} */ some) => {
    const { record, planning, place } = wishes.state();
    if (!record || !planning?.plan || !place.visit) return;
    if (planning.asks[at]) wishes.dispatch({ type: "plan-answered", at });
    const lines = planning.plan.lines.map((each, other) => (other === at ? { ...each, ...some } : each));
    wishes.server.save_plan(record.id, place.visit, { ...planning.plan, lines });
  };
  const said = (/** @type {string} */ title, /** @type {string} */ text) =>
    text && [h("dt", {}, title), h("dd", {}, worded_for(line.limb, text))];
  const decision = choice(w.decision, `decision-${at}`, Object.entries(w.decisions), line.decision, (value) => decide({ decision: value }));
  const note = h("textarea", {
    rows: 2, maxlength: 2000, "data-key": `note-${at}`, value: line.note,
    onchange: (/** @type {any} */ event) => decide({ note: event.target.value }),
  });
  for (const each of [...decision.querySelectorAll("input"), note]) each.disabled = frozen;
  return h("li", { class: "proposal", "data-decision": line.decision },
    h("div", { class: "proposed" },
      h("p", { class: "limb" }, word(words.limbs, line.limb)),
      h("h3", {}, worded_for(line.limb, line.what)),
      expected(state, line),
      h("dl", {}, said(w.why, line.why), said(w.caution, line.caution), said(w.watch, line.watch), said(w.source, line.source))),
    h("div", { class: "decided" }, decision, labelled(w.note, note), mine_too(wishes, state, at, decide)));
}

/** What I decided while somebody else decided otherwise. @param {import("./panel.js").Wishes} wishes
 * @param {import("./panel.js").State} state @param {number} at
 * @param {(some: Record<string, string>) => void} decide */
function mine_too(wishes, state, at, decide) {
  const w = words.plan;
  const mine = state.planning?.asks[at];
  if (!mine) return null;
  return h("div", { class: "decided-otherwise", role: "alert" },
    h("p", {}, w.otherwise(word(w.decisions, mine.decision), mine.note)),
    h("div", { class: "row" },
      button(w.use_mine, () => decide({ ...mine }), { "data-key": `use-mine-${at}` }),
      button(w.leave_theirs, () => wishes.dispatch({ type: "plan-answered", at }), { "data-key": `leave-theirs-${at}` })));
}

/** @param {import("./panel.js").State} state @param {import("../state/types.js").ProposalLine} line */
function expected(state, line) {
  if (line.expected.length === 0) return null;
  const known = new Map((state.practice?.measurements ?? []).map((each) => [each.id, each]));
  return h("table", { class: "expected" },
    h("caption", {}, words.plan.expected),
    line.expected.map((each) => {
      const guide = known.get(each.measurement);
      const unit = guide?.unit ?? "1";
      const title = worded_for(line.limb, guide?.title ?? each.measurement);
      return change_row(title, { before: each.before, after: each.after, unit, decimals: usual_decimals(unit) }, each.uncertainty_of_change);
    }));
}
