/** Which shoe is tried: one of the practice's list, and what of it can be set. It moves no number by its name. */
import { bare_shoe, shoe_in } from "../state/trying.js";
import { words } from "../words/words.js";
import { amended, h, labelled, rebuilt, show } from "./dom.js";
import { sign_of } from "./verdict.js";

/** @typedef {import("../state/types.js").ShoeKind} ShoeKind */

/** @param {import("./panel.js").Wishes} wishes */
export function shoe_choice(wishes) {
  const head = h("summary");
  const body = h("div");
  const element = h("details", { class: "folded shoe", hidden: true }, head, body);
  const fresh = rebuilt(body);
  return {
    element,
    /** @param {import("./panel.js").State} state @param {boolean} may may anything be tried? */
    update(state, may) {
      const kinds = state.practice?.shoes ?? [];
      const tried = state.trying?.tried ?? null;
      show(element, may && kinds.length > 0);
      const chosen = kinds.find((each) => each.id === tried?.shoe.kind)?.title;
      amended(head, [words.trying.shoe.title, h("span", { class: "hint" }, chosen ?? words.trying.shoe.open)]);
      const said = JSON.stringify([tried?.shoe, tried?.shoe_tried, state.trying && shoe_in(state.trying)]);
      fresh([kinds, may, said], () => (may && state.trying ? questions(wishes, state.trying, kinds) : []));
    },
  };
}

/** @param {import("./panel.js").Wishes} wishes @param {import("../state/trying.js").Trying} trying
 * @param {ShoeKind[]} kinds */
function questions(wishes, trying, kinds) {
  const w = words.trying.shoe;
  const shoe = shoe_in(trying);
  const set = (/** @type {Partial<import("../state/types.js").ShoeFacts>} */ some) => wishes.dispatch({ type: "wish-shoe", shoe: some });
  const kind = kinds.find((each) => each.id === shoe.kind);
  return [
    labelled(w.kind, select("shoe-kind", kind_options(trying, kinds), shoe.kind, (id) => set(facts_of(kinds.find((each) => each.id === id))))),
    h("div", { class: "row" },
      labelled(w.frog_support, select("shoe-frog", Object.entries(w.frog_supports).map(option), shoe.frog_support, (frog_support) => set({ frog_support }))),
      millimetres(w.web, "web_mm", shoe, set),
      millimetres(w.roll, "roll_rise_mm", shoe, set)),
    kind && h("p", { class: "hint" }, `${kind.words} ${kind.caution}`),
    ...said(trying, kind),
  ];
}

/** @param {[string, string]} choice */
const option = ([value, text]) => h("option", { value }, text);

/** Those that do all that is asked come first. @param {import("../state/trying.js").Trying} trying
 * @param {ShoeKind[]} kinds */
function kind_options({ tried }, kinds) {
  const w = words.trying.shoe;
  const fitting = kinds.filter((each) => tried?.shoe_tried.fitting.includes(each.id));
  const others = kinds.filter((each) => !fitting.includes(each));
  const group = (/** @type {string} */ label, /** @type {ShoeKind[]} */ some) =>
    h("optgroup", { label }, some.map(({ id, title }) => option([id, title])));
  return [option(["", w.open]), ...(fitting.length > 0 ? [group(w.fitting, fitting), group(w.others, others)] : others.map(({ id, title }) => option([id, title])))];
}

/** @param {string} name @param {HTMLElement[]} options @param {string} value @param {(value: string) => void} take */
function select(name, options, value, take) {
  return h("select", { name, "data-key": name, value, onchange: (/** @type {any} */ event) => take(event.target.value) }, options);
}

/** What a kind sets by itself. @param {ShoeKind | undefined} kind @returns {import("../state/types.js").ShoeFacts} */
function facts_of(kind) {
  if (!kind) return bare_shoe;
  return { kind: kind.id, bar: kind.bar, frog_support: kind.frog_support, web_mm: kind.web_mm.least, roll_rise_mm: kind.roll_rise_mm.least };
}

/** @param {string} label @param {"web_mm" | "roll_rise_mm"} name @param {import("../state/types.js").ShoeFacts} shoe
 * @param {(some: Partial<import("../state/types.js").ShoeFacts>) => void} set */
function millimetres(label, name, shoe, set) {
  return labelled(label, h("input", {
    type: "number", min: 0, max: 60, step: "any", inputmode: "decimal", name: `shoe-${name}`, "data-key": `shoe-${name}`, value: shoe[name] || "",
    onchange: (/** @type {any} */ event) => set({ [name]: Math.min(60, Math.max(0, Number(event.target.value))) }),
  }), "short");
}

/** Why it isn't taken, or what it doesn't give. @param {import("../state/trying.js").Trying} trying
 * @param {ShoeKind | undefined} kind */
function said({ tried }, kind) {
  const w = words.trying.shoe;
  const { refused = "", not_given = [] } = tried?.shoe_tried ?? {};
  const sentences = [refused, kind && not_given.length > 0 ? w.not_given(not_given.join("; ")) : ""].filter(Boolean);
  return sentences.map((each) => h("p", { class: "verdict-line caution", role: "status" }, sign_of("caution"), h("span", {}, each)));
}
