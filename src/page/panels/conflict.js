/** The same reader's points were saved from elsewhere: nothing is overwritten without a word. */
import { words } from "../words/words.js";
import { button, h, rebuilt, show } from "./dom.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function conflict(wishes) {
  const element = h("div", { class: "contradiction", role: "alert", hidden: true });
  const fresh = rebuilt(element);
  return {
    element,
    update(state) {
      const theirs = state.open?.theirs ?? null;
      show(element, theirs !== null);
      fresh([theirs, state.reader], () => [
        h("p", {}, words.conflict.sentence(state.reader)),
        button(words.conflict.mine, () => wishes.dispatch({ type: "mine-on-top" })),
        button(words.conflict.theirs, () => wishes.dispatch({ type: "take-theirs" })),
      ]);
    },
  };
}
