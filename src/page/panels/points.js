/** Every point of the picture with its state; tap one to find it, or to place it out of turn. */
import { but_places, want_of } from "../state/points.js";
import { asked_in, asking_in, entry_of, proposed_in } from "../state/state.js";
import { words, worded_for } from "../words/words.js";
import { button, h, rebuilt, show } from "./dom.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function points(wishes) {
  const main = h("ol", { class: "points" });
  const check = h("ol", { class: "points" });
  const check_title = h("h3", {}, words.points.check_title);
  const more = h("ol", { class: "points" });
  const folded = h("details", { class: "folded" }, h("summary", {}, words.points.more_title), more);
  const element = h("section", { class: "point-list", "aria-label": words.points.title }, main, check_title, check, folded);
  const parts = [
    { list: main, wants: ["required", "extra"], fresh: rebuilt(main), shown: [main] },
    { list: check, wants: ["check"], fresh: rebuilt(check), shown: [check, check_title] },
    { list: more, wants: ["more"], fresh: rebuilt(more), shown: [folded] },
  ];
  return {
    element,
    update(state) {
      const open = state.open;
      const entry = entry_of(state);
      if (!open || !entry) return;
      const asking = asking_in(state)?.id ?? "";
      const placed = but_places(open.points);
      for (const { wants, fresh, shown } of parts) {
        const mine = () => asked_in(state).filter((each) => wants.includes(want_of(each)));
        const changed = fresh([placed, open.found.proposals, open.sight, entry, state.practice, asking], () =>
          mine().map((guide) => line(wishes, open.points, guide, entry.limb, asking, Boolean(proposed_in(state)[guide.id]))));
        if (changed) for (const each of shown) show(each, mine().length > 0);
      }
    },
  };
}

/** @param {import("./panel.js").Wishes} wishes @param {import("../state/points.js").Points} points
 * @param {import("../state/types.js").LandmarkGuide} guide @param {string} limb @param {string} asking
 * @param {boolean} proposed */
function line(wishes, points, guide, limb, asking, proposed) {
  const { id } = guide;
  const placed = Boolean(points.now.landmarks[id]);
  const want = want_of(guide);
  const state = placed ? "placed" : points.now.skipped.includes(id) ? "skipped" : proposed ? "proposed" : want === "required" ? "open" : want;
  const chosen = placed ? id === points.selected : id === asking;
  const act = () => wishes.dispatch(placed ? { type: "select", id } : { type: "choose", id });
  return h("li", { "data-state": state, "data-id": id, class: chosen ? "chosen" : "" },
    h("button", { type: "button", onclick: act, "data-key": id, "aria-pressed": String(chosen) },
      h("span", { class: "sign", "aria-hidden": "true" }),
      h("span", {}, worded_for(limb, guide.title)),
      h("span", { class: "state" }, words.points[state])),
    chosen && h("p", { class: "definition" }, worded_for(limb, guide.definition)),
    placed && chosen && button(words.points.remove, () => wishes.dispatch({ type: "remove", id }), { class: "plain" }));
}
