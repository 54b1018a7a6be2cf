/** The same reader moved the same points on two devices: each is asked about, nothing is overwritten
 * without a word. All other points were put together already. */
import { asked_in, entry_of } from "../state/state.js";
import { words, worded_for } from "../words/words.js";
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
      fresh([theirs, state.reader, state.practice], () => [
        h("p", {}, words.conflict.sentence(state.reader)),
        h("ul", { class: "clashes" }, theirs?.clashes.map((id) => question(wishes, state, id, Boolean(theirs.landmarks[id])))),
      ]);
    },
  };
}

/** @param {import("./panel.js").Wishes} wishes @param {import("./panel.js").State} state
 * @param {string} id @param {boolean} is_there on the other device */
function question(wishes, state, id, is_there) {
  const title = asked_in(state).find((each) => each.id === id)?.title ?? id;
  const settle = (/** @type {"mine" | "theirs"} */ whose) => () => wishes.dispatch({ type: "settle", id, whose });
  const w = words.conflict;
  return h("li", { "data-id": id },
    h("span", {}, worded_for(entry_of(state)?.limb ?? "", title)),
    button(w.mine, settle("mine"), { "data-key": `mine-${id}` }),
    button(is_there ? w.theirs : w.theirs_removed, settle("theirs"), { "data-key": `theirs-${id}` }));
}
