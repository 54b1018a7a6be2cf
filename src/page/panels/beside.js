/** The strip that chooses the second picture, says how the two are held together. */
import { others_like, same_scale } from "../state/beside.js";
import { day } from "../words/numbers.js";
import { words } from "../words/words.js";
import { button, h, rebuilt, show } from "./dom.js";
import { picture_title } from "./title.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function beside({ dispatch }) {
  const w = words.beside;
  const choice = h("div", { class: "row" });
  const fresh = rebuilt(choice);
  const mirror = button(w.mirror, () => dispatch({ type: "beside-mirror" }));
  const said = h("p", { class: "hint", role: "status" });
  const element = h("div", { class: "strip", role: "group", "aria-label": w.title }, choice, mirror, said);
  return {
    element,
    update(state) {
      const { open } = state;
      const wanted = Boolean(open?.choosing_beside && !open.confirming);
      show(element, wanted);
      if (!open || !wanted) return;
      fresh([state.record, open.digest, open.beside?.open.digest], () => chooser(state, dispatch));
      show(mirror, open.beside !== null);
      mirror.setAttribute("aria-pressed", String(open.beside?.mirrored === true));
      const text = !open.beside ? "" : same_scale(open) ? w.same_scale : w.no_scale;
      if (said.textContent !== text) said.textContent = text;
    },
  };
}

/** @param {import("./panel.js").State} state @param {(action: import("./panel.js").Action) => void} dispatch */
function chooser(state, dispatch) {
  const w = words.beside;
  const others = others_like(state);
  if (others.length === 0) return [h("p", {}, w.nothing)];
  const shown = state.open?.beside?.open.digest ?? "";
  const choose = (/** @type {string} */ digest) => {
    const chosen = others.find(({ entry }) => entry.digest === digest);
    dispatch({ type: "beside", other: chosen?.entry.digest ?? null, visit: chosen?.visit.id ?? "" });
  };
  return [h("label", { class: "beside-choice" }, h("span", {}, w.which),
    h("select", { "data-key": "beside", onchange: (/** @type {any} */ event) => choose(event.target.value) },
      h("option", { value: "" }, w.none),
      others.map(({ visit, entry }) => h("option", { value: entry.digest, selected: entry.digest === shown },
        `${picture_title(state, entry)}, ${day(visit.date)}`))))];
}
