/** In the upper corner on the toe's side, where there is only air: whose quiet marks they are, and a way to put them out of sight. */
import { others_among } from "../state/others.js";
import { entry_of, pair_in } from "../state/state.js";
import { other_shapes } from "../words/reader_shapes.js";
import { words } from "../words/words.js";
import { button, h, rebuilt, show } from "./dom.js";
import { reader_sign } from "./reader_sign.js";

const w = words.others;

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function others(wishes) {
  const element = h("div", { class: "others", role: "group", "aria-label": w.title, hidden: true });
  const fresh = rebuilt(element);
  return {
    element,
    update(state) {
      const { open, reader, others_shown } = state;
      const readers = open?.loaded && !open.confirming && !pair_in(state) ? open.readers : null;
      const all = others_among(readers, reader);
      show(element, all.length > 0);
      element.dataset.corner = entry_of(state)?.toward ?? "left";
      fresh([readers, reader, others_shown], () => [
        others_shown && h("ul", {}, all.map((each, nth) => h("li", {}, reader_sign(other_shapes[nth % other_shapes.length]), h("span", {}, w.one(each.reader, Object.keys(each.landmarks).length))))),
        button(others_shown ? w.hide : w.show, () => wishes.dispatch({ type: "others" }), { class: "plain", "data-key": "others" }),
      ]);
    },
  };
}
