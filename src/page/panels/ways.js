/**
 * Which way is which on the stage, however the picture is turned or mirrored: toe and heel, front and
 * back or outer and inner at the edges, and which foot it is. What the person confirmed about the
 * picture speaks, not the screen.
 */
import { entry_of, protocol_of_entry } from "../state/state.js";
import { axes_of } from "../state/view.js";
import { word, words } from "../words/words.js";
import { h, show } from "./dom.js";

/** @typedef {import("../state/types.js").PictureEntry} PictureEntry */

/** @param {(state: import("./panel.js").State) => {entry: PictureEntry | null,
 *   view: import("../state/view.js").View | null}} shown @returns {import("./panel.js").Panel} */
export function ways(shown) {
  const toward = h("span", { class: "way" });
  const away = h("span", { class: "way" });
  const which = h("span", { class: "which" });
  const element = h("div", { class: "ways" }, toward, away, which);
  return {
    element,
    update(state) {
      const { entry, view } = shown(state);
      const said = entry && view ? ends_of(state, entry) : null;
      show(element, said !== null);
      if (!said || !entry || !view) return;
      const end = end_of(entry, view);
      write(toward, said[0], end);
      write(away, said[1], opposite[end]);
      const mirrored = view.mirrored ? ` · ${words.ways.mirrored}` : "";
      which.textContent = word(words.limbs, entry.limb) + mirrored;
      which.classList.toggle("mirrored", view.mirrored);
    },
  };
}

/** Of the open picture. @param {import("./panel.js").State} state */
export const of_open = (state) => ({
  entry: state.open?.loaded && !state.open.confirming ? entry_of(state) : null, view: state.open?.view ?? null,
});

/** @type {Record<string, string>} */
const opposite = { left: "right", right: "left", top: "bottom", bottom: "top" };

/** @param {HTMLElement} element @param {string} text @param {string} end */
function write(element, text, end) {
  if (element.textContent !== text) element.textContent = text;
  if (element.dataset.end !== end) element.dataset.end = end;
}

/** What lies the way the picture points, and against it. @param {import("./panel.js").State} state
 * @param {PictureEntry} entry @returns {[string, string] | null} */
function ends_of(state, entry) {
  const protocol = protocol_of_entry(state, entry);
  if (!protocol || (entry.toward !== "left" && entry.toward !== "right")) return null;
  const w = words.ways;
  if (!protocol.from_the_side) return [w.outer, w.inner];
  return protocol.shows === "limb" ? [w.front, w.back] : [w.toe, w.heel];
}

/** The edge of the stage nearest to where the picture's pointing end lies.
 * @param {PictureEntry} entry @param {import("../state/view.js").View} view */
function end_of({ toward }, view) {
  const { right } = axes_of(view);
  const sign = toward === "right" ? 1 : -1;
  const [x, y] = [sign * right.x, sign * right.y];
  if (Math.abs(x) >= Math.abs(y)) return x > 0 ? "right" : "left";
  return y > 0 ? "bottom" : "top";
}
