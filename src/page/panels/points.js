/** Every point of the picture with its state; tap one to find it, or to place it out of turn. */
import { asked_in, asking_in, entry_of } from "../state/state.js";
import { words, worded_for } from "../words/words.js";
import { button, h, rebuilt } from "./dom.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function points(wishes) {
  const list = h("ol", { class: "points" });
  const element = h("section", { class: "point-list", "aria-label": words.points.title }, list);
  const fresh = rebuilt(list);
  return {
    element,
    update(state) {
      const open = state.open;
      const entry = entry_of(state);
      if (!open || !entry) return;
      const asking = asking_in(state)?.id ?? "";
      fresh([open.points, entry, state.practice, asking], () =>
        asked_in(state).map((guide) => line(wishes, open.points, guide, entry.limb, asking)));
    },
  };
}

/** @param {import("./panel.js").Wishes} wishes @param {import("../state/points.js").Points} points
 * @param {import("../state/types.js").LandmarkGuide} guide @param {string} limb @param {string} asking */
function line(wishes, points, guide, limb, asking) {
  const { id } = guide;
  const placed = Boolean(points.now.landmarks[id]);
  const state = placed ? "placed" : points.now.skipped.includes(id) ? "skipped" : guide.required ? "open" : "extra";
  const chosen = placed ? id === points.selected : id === asking;
  const act = () => wishes.dispatch(placed ? { type: "select", id } : { type: "choose", id });
  return h("li", { "data-state": state, "data-id": id, class: chosen ? "chosen" : "" },
    h("button", { type: "button", onclick: act, "data-key": id, "aria-pressed": String(chosen) },
      h("span", { class: "sign", "aria-hidden": "true" }),
      h("span", {}, worded_for(limb, guide.title)),
      h("span", { class: "state" }, words.points[state])),
    placed && chosen && button(words.points.remove, () => wishes.dispatch({ type: "remove", id }), { class: "plain" }));
}
