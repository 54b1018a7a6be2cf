/** One horse: the visits with their pictures, and the record beside them. */
import { h, rebuilt, show } from "./dom.js";
import { history } from "./history.js";
import { record } from "./record.js";
import { visits } from "./visits.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function case_screen(wishes) {
  const title = h("h1");
  const parts = [visits(wishes), record(wishes), history(wishes)];
  const [visit_part, record_part, history_part] = parts.map((each) => each.element);
  const element = h("main", { class: "sheet wide" }, title,
    h("div", { class: "columns" }, visit_part, h("div", { class: "papers" }, history_part, record_part)));
  const fresh = rebuilt(title);
  return {
    element,
    update(state) {
      show(element, state.place.screen === "case" && state.record !== null);
      if (!state.record) return;
      fresh([state.record.horse.name], () => [state.record?.horse.name]);
      for (const each of parts) each.update(state);
    },
  };
}
