/** The strip of tools at the picture's edge, where a thumb can reach it. */
import { greys_changed, is_radiograph, lies_otherwise } from "../state/state.js";
import { middle_of, zoom } from "../state/view.js";
import { words } from "../words/words.js";
import { h, show, svg } from "./dom.js";

/** Strokes of each sign in a square of 24. @type {Record<string, string>} */
const signs = {
  points: "M12 3v6M12 15v6M3 12h6M15 12h6",
  brightness: "M12 4a8 8 0 1 0 0 16zM12 4a8 8 0 0 1 0 16",
  larger: "M12 5v14M5 12h14",
  smaller: "M5 12h14",
  fit: "M4 9V4h5M20 9V4h-5M4 15v5h5M20 15v5h-5",
  undo: "M8 5L4 9l4 4M4 9h10a5 5 0 0 1 0 10h-3",
  redo: "M16 5l4 4-4 4M20 9H10a5 5 0 0 0 0 10h3",
  loupe: "M10.5 4a6.5 6.5 0 1 0 0 13a6.5 6.5 0 1 0 0-13M15.2 15.2L20.5 20.5",
  settles: "M3 17C8 17 9 8 21 8M9 19.5v-5M6.5 17h5",
  lines: "M4 19L18 5M4 19h16",
  turning: "M19.5 12a7.5 7.5 0 1 1-2.2-5.3M17.5 2.5v4.4h-4.4",
  beside: "M3.5 5h7.5v14H3.5zM13 5h7.5v14H13z",
  follow: "M12 8.5a3.5 3.5 0 1 0 0 7a3.5 3.5 0 1 0 0-7M4 8V4h4M16 4h4v4M20 16v4h-4M8 20H4v-4",
  keys: "M3 7h18v11H3zM6.5 10.5h1M11.5 10.5h1M16.5 10.5h1M8 14.5h8",
  panel: "M4 5h16v14H4zM14.5 5v14",
};

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function tools(wishes) {
  const { dispatch, state } = wishes;
  const scaled = (/** @type {number} */ factor) => {
    const { open, stage } = state();
    if (open) dispatch({ type: "view", view: zoom(open.view, factor, middle_of(stage)) });
  };
  const fold = (/** @type {"brightness" | "turning"} */ mode) =>
    dispatch({ type: "mode", mode: state().open?.mode === mode ? "points" : mode });
  const w = words.tools;
  const buttons = {
    points: tool("points", w.points, () => dispatch({ type: "mode", mode: "points" }), w.points_hint),
    brightness: tool("brightness", w.brightness, () => fold("brightness"), w.brightness_hint),
    turning: tool("turning", w.turning, () => fold("turning"), w.turning_hint),
    beside: tool("beside", w.beside, () => dispatch({ type: "choose-beside", yes: !state().open?.choosing_beside }), w.beside_hint),
    follow: tool("follow", w.follow, () => dispatch({ type: "follow" }), w.follow_hint),
    larger: tool("larger", w.larger, () => scaled(1.4)),
    smaller: tool("smaller", w.smaller, () => scaled(1 / 1.4)),
    fit: tool("fit", w.fit, () => dispatch({ type: "fit" })),
    undo: tool("undo", w.undo, () => dispatch({ type: "undo" })),
    redo: tool("redo", w.redo, () => dispatch({ type: "redo" })),
    loupe: tool("loupe", w.loupe, () => dispatch({ type: "loupe" })),
    settles: tool("settles", w.settles, () => dispatch({ type: "settles" }), w.settles_hint),
    lines: tool("lines", w.lines, () => dispatch({ type: "lines" }), w.lines_hint),
    keys: tool("keys", w.keys, () => dispatch({ type: "keys" })),
    panel: tool("panel", w.panel, () => dispatch({ type: "drawer" })),
  };
  const element = h("div", { class: "tools", role: "toolbar", "aria-label": words.tools.points }, Object.values(buttons));
  return {
    element,
    update(now) {
      const { open, drawer, following } = now;
      if (!open) return;
      press(buttons.points, open.mode === "points");
      press(buttons.brightness, open.mode === "brightness");
      press(buttons.follow, following);
      press(buttons.loupe, open.loupe);
      press(buttons.settles, now.settles);
      show(buttons.settles, is_radiograph(now));
      press(buttons.lines, open.lines === "quiet");
      press(buttons.turning, open.mode === "turning");
      mark_changed(buttons.brightness, w.brightness_hint, greys_changed(open));
      mark_changed(buttons.turning, w.turning_hint, lies_otherwise(open));
      press(buttons.beside, open.choosing_beside);
      mark_changed(buttons.beside, w.beside_hint, open.beside !== null);
      press(buttons.panel, drawer);
      buttons.undo.disabled = open.points.past.length === 0;
      buttons.redo.disabled = open.points.future.length === 0;
    },
  };
}

/** @param {string} sign @param {string} text @param {() => void} act @param {string} [hint] */
function tool(sign, text, act, hint = text) {
  return h("button", { type: "button", onclick: act, title: hint, "data-tool": sign },
    svg("svg", { viewBox: "0 0 24 24", "aria-hidden": "true" }, svg("path", { d: signs[sign] })),
    h("span", {}, text));
}

/** Not as it came: said by a dot and in the hint. @param {HTMLElement} element @param {string} hint
 * @param {boolean} yes */
function mark_changed(element, hint, yes) {
  element.classList.toggle("changed", yes);
  const title = yes ? `${words.tools.changed} ${hint}` : hint;
  if (element.title !== title) element.title = title;
}

/** @param {HTMLElement} element @param {boolean} yes */
function press(element, yes) {
  element.setAttribute("aria-pressed", String(yes));
}
