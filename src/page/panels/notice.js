/** One sentence when something didn't go as wished; it stays until it is put away or mended. */
import { words } from "../words/words.js";
import { button, h, rebuilt, show } from "./dom.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function notice(wishes) {
  const element = h("div", { class: "notice", role: "alert", hidden: true });
  const fresh = rebuilt(element);
  return {
    element,
    update(state) {
      const sentence = state.notice || (state.reachable ? "" : words.trouble.unreachable);
      show(element, sentence !== "");
      fresh([sentence], () => [
        h("p", {}, sentence),
        state.notice && button(words.close, () => wishes.dispatch({ type: "notice", sentence: "" })),
      ]);
    },
  };
}
