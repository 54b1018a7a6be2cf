/** The first screen: the horses, and a new one. */
import { day } from "../words/numbers.js";
import { words } from "../words/words.js";
import { button, h, labelled, rebuilt, show } from "./dom.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function cases(wishes) {
  const list = h("div", { class: "horses" });
  const name = h("input", { type: "text", name: "new-horse", required: true, maxlength: 80, autocomplete: "off" });
  const form = h("form", { class: "new-horse", onsubmit: async (/** @type {Event} */ event) => {
    event.preventDefault();
    const id = await wishes.server.add_case(name.value.trim());
    if (id === null) return;
    name.value = "";
    wishes.go({ screen: "case", case_id: id });
  } },
    h("h2", {}, words.cases.new_title),
    h("div", { class: "row" }, labelled(words.cases.new_name, name), h("button", { class: "main" }, words.cases.add)));
  const first_look = sample(wishes);
  const element = h("main", { class: "sheet" }, h("h1", {}, words.cases.title), list, form, first_look,
    h("p", { class: "caution" }, words.caution));
  const fresh = rebuilt(list);
  return {
    element,
    update(state) {
      show(element, state.place.screen === "cases");
      show(first_look, state.cases?.length === 0);
      fresh([state.cases], () =>
        state.cases === null ? []
          : state.cases.length === 0 ? [h("p", { class: "empty" }, words.cases.empty)]
          : [table(state.cases)]);
    },
  };
}

/** A way to look around before the first horse of one's own. @param {import("./panel.js").Wishes} wishes */
function sample(wishes) {
  const w = words.cases;
  const come = button(w.sample, async () => {
    come.disabled = true;
    come.textContent = w.sample_comes;
    const id = await wishes.server.add_sample();
    come.disabled = false;
    come.textContent = w.sample;
    if (id !== null) wishes.go({ screen: "case", case_id: id });
  });
  return h("div", { class: "sample" }, h("p", { class: "hint" }, w.sample_lead), come);
}

/** @param {import("../state/types.js").CaseSummary[]} all */
function table(all) {
  return h("ul", { class: "lines" }, all.map((each) =>
    h("li", {}, h("a", { href: `#/case/${encodeURIComponent(each.id)}` },
      h("strong", {}, each.horse),
      h("span", {}, each.yard),
      h("span", { class: "end" }, each.newest_visit ? `${words.cases.last_visit} ${day(each.newest_visit)}` : words.cases.no_visit)))));
}
