/** Statements about sides that contradict each other, until a person has looked. */
import { asked_in, entry_of } from "../state/state.js";
import { words, worded_for } from "../words/words.js";
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
        h("div", {}, h("strong", {}, words.sides.title), said.map((each) => h("p", {}, with_titles(state, each)))),
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

/** The landmarks that a sentence names in brackets, by what people call them.
 * @param {import("./panel.js").State} state @param {string} sentence */
function with_titles(state, sentence) {
  const limb = entry_of(state)?.limb ?? "";
  const titles = new Map(asked_in(state).map((each) => [each.id, worded_for(limb, each.title)]));
  return sentence.replace(/\(([a-z0-9-]+(?:, [a-z0-9-]+)*)\)/g, (_, ids) =>
    `(${ids.split(", ").map((/** @type {string} */ id) => titles.get(id) ?? id).join("; ")})`);
}
