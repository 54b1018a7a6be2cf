/** Asks once for the reader's name. */
import { words } from "../words/words.js";
import { button, h, labelled } from "./dom.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function reader(wishes) {
  const name = h("input", { type: "text", name: "reader", required: true, maxlength: 80, autocomplete: "name" });
  const close = button(words.close, () => wishes.dispatch({ type: "close-reader" }), { class: "plain" });
  const form = h("form", { onsubmit: (/** @type {Event} */ event) => {
    event.preventDefault();
    const written = name.value.trim();
    if (written) wishes.dispatch({ type: "reader", name: written });
  } },
    h("h2", {}, words.reader.title),
    h("p", {}, words.reader.lead),
    labelled(words.reader.name, name),
    h("div", { class: "row" }, h("button", { class: "main" }, words.reader.keep), close));
  const element = h("dialog", {
    class: "card", "aria-label": words.reader.title,
    oncancel: (/** @type {Event} */ event) => {
      event.preventDefault();
      wishes.dispatch({ type: "close-reader" });
    },
  }, form);
  return {
    element,
    update(state) {
      const wanted = state.naming || (state.reader === "" && ["picture", "plan"].includes(state.place.screen));
      if (wanted && !element.open) {
        name.value = state.reader;
        close.hidden = state.reader === "";
        element.showModal();
        name.select();
      } else if (!wanted && element.open) element.close();
    },
  };
}
