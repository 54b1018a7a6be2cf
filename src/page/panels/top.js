/** The line at the top: where one is, whether all is saved, who reads. */
import { entry_of, visit_of } from "../state/state.js";
import { day } from "../words/numbers.js";
import { word, words } from "../words/words.js";
import { button, h, rebuilt } from "./dom.js";
import { mark } from "./mark.js";
import { picture_title } from "./title.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function top(wishes) {
  const trail = h("nav", { class: "trail", "aria-label": words.name });
  const right = h("div", { class: "top-right" });
  const keeping = h("span", { class: "keeping", role: "status" });
  const element = h("header", { class: "top" }, trail, keeping, right);
  const fresh_trail = rebuilt(trail);
  const fresh_right = rebuilt(right);
  return {
    element,
    update(state) {
      const { record, place } = state;
      fresh_trail([record, place], () => steps(state, wishes));
      fresh_right([state.reader, state.theme], () => [
        button(state.theme === "indoors" ? words.theme.outdoors : words.theme.indoors,
          () => wishes.dispatch({ type: "theme" }),
          { class: "plain", title: words.theme.hint, "data-key": "theme" }),
        button(state.reader || words.reader.nobody, () => wishes.dispatch({ type: "ask-reader" }), {
          class: "plain reader", "data-key": "reader",
          "aria-label": state.reader ? words.reader.change(state.reader) : false,
        }),
      ]);
      const now = state.open?.loaded && !state.open.confirming ? state.open.keeping : "";
      keeping.textContent = now ? word(words.keeping, now) : "";
      keeping.dataset.state = now;
    },
  };
}

/** @param {import("./panel.js").State} state @param {import("./panel.js").Wishes} wishes */
function steps(state, wishes) {
  const { record, place } = state;
  const horses = button(words.back_to_horses, () => wishes.go({ screen: "cases" }), {
    class: "plain", "aria-label": words.back_to_horses,
  });
  horses.prepend(mark());
  if (!record || place.screen === "cases") return [horses];
  const case_step = button(record.horse.name, () => wishes.go({ screen: "case", case_id: record.id }), { class: "plain" });
  const visit = visit_of(state);
  const entry = entry_of(state);
  const last = place.screen === "plan" && visit ? `${words.plan.title}, ${day(visit.date)}`
    : entry && visit ? `${picture_title(state, entry)}, ${day(visit.date)}` : "";
  const facts = { class: "plain here", title: words.confirm.reopen, "aria-label": `${last}. ${words.confirm.reopen}` };
  return [horses, case_step,
    place.screen === "picture" && last ? button(last, () => wishes.dispatch({ type: "confirming", yes: true }), facts)
      : last && h("span", { class: "here", "aria-current": "page" }, last)];
}
