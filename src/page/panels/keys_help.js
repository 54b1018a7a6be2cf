/** The keys of the picture screen. */
import { words } from "../words/words.js";
import { button, h } from "./dom.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function keys_help(wishes) {
  const close = () => wishes.dispatch({ type: "keys" });
  const element = h("dialog", {
    class: "card keys", "aria-label": words.keys.title,
    oncancel: (/** @type {Event} */ event) => {
      event.preventDefault();
      close();
    },
  },
    h("h2", {}, words.keys.title),
    h("dl", {}, words.keys.list.map(([key, what]) => h("div", {}, h("dt", {}, key), h("dd", {}, what)))),
    button(words.close, close, { class: "main" }));
  return {
    element,
    update(state) {
      if (state.keys_shown && !element.open) element.showModal();
      else if (!state.keys_shown && element.open) element.close();
    },
  };
}
