/** Statements about sides that contradict each other, until a person has looked. */
import { entry_of } from "../state/state.js";
import { words } from "../words/words.js";
import { button, h, rebuilt, show } from "./dom.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function sides(wishes) {
  const element = h("div", { class: "contradiction", role: "alert", hidden: true });
  const fresh = rebuilt(element);
  return {
    element,
    update(state) {
      const entry = entry_of(state);
      const said = state.open?.result?.contradictions ?? [];
      const wanted = entry !== null && entry.sides_checked === "no" && said.length > 0 && !state.open?.confirming;
      show(element, wanted);
      fresh([entry, said.join("\n")], () => [
        h("div", {}, h("strong", {}, words.sides.title), said.map((each) => h("p", {}, each))),
        button(words.sides.checked, () => {
          const { record, place } = wishes.state();
          if (entry && record && place.visit)
            wishes.server.save_picture(record.id, place.visit, { ...entry, sides_checked: "by-person" });
        }),
        button(words.sides.change, () => wishes.dispatch({ type: "confirming", yes: true })),
      ]);
    },
  };
}
