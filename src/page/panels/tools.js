/** The strip of tools at the picture's edge, where a thumb can reach it. */
import { is_radiograph } from "../state/state.js";
import { zoom } from "../state/view.js";
import { words } from "../words/words.js";
import { h, show, svg } from "./dom.js";

/** Strokes of each sign in a square of 24. @type {Record<string, string>} */
const signs = {
  points: "M12 3v6M12 15v6M3 12h6M15 12h6",
  brightness: "M12 4a8 8 0 1 0 0 16zM12 4a8 8 0 0 1 0 16",
  larger: "M12 5v14M5 12h14",
  smaller: "M5 12h14",
  fit: "M4 9V4h5M20 9V4h-5M4 15v5h5M20 15v5h-5",
  one_to_one: "M5 5h14v14H5zM12 5v14M5 12h14",
  undo: "M8 5L4 9l4 4M4 9h10a5 5 0 0 1 0 10h-3",
  redo: "M16 5l4 4-4 4M20 9H10a5 5 0 0 0 0 10h3",
  loupe: "M10.5 4a6.5 6.5 0 1 0 0 13a6.5 6.5 0 1 0 0-13M15.2 15.2L20.5 20.5",
  settles: "M3 17C8 17 9 8 21 8M9 19.5v-5M6.5 17h5",
  lines: "M4 19L18 5M4 19h16",
  invert: "M4 5h16v14H4zM12 5v14h8V5z",
  keys: "M3 7h18v11H3zM6.5 10.5h1M11.5 10.5h1M16.5 10.5h1M8 14.5h8",
  panel: "M4 5h16v14H4zM14.5 5v14",
};

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function tools(wishes) {
  const { dispatch, state } = wishes;
  const scaled = (/** @type {number} */ factor) => {
    const { open, stage } = state();
    if (open) dispatch({ type: "view", view: zoom(open.view, factor, { x: stage.width / 2, y: stage.height / 2 }) });
  };
  const w = words.tools;
  const buttons = {
    points: tool("points", w.points, () => dispatch({ type: "mode", mode: "points" }), w.points_hint),
    brightness: tool("brightness", w.brightness, () => dispatch({ type: "mode", mode: "brightness" }), w.brightness_hint),
    larger: tool("larger", w.larger, () => scaled(1.4)),
    smaller: tool("smaller", w.smaller, () => scaled(1 / 1.4)),
    fit: tool("fit", w.fit, () => dispatch({ type: "fit" })),
    one_to_one: tool("one_to_one", w.one_to_one, () => scaled(1 / (state().open?.view.scale ?? 1))),
    undo: tool("undo", w.undo, () => dispatch({ type: "undo" })),
    redo: tool("redo", w.redo, () => dispatch({ type: "redo" })),
    loupe: tool("loupe", w.loupe, () => dispatch({ type: "loupe" })),
    settles: tool("settles", w.settles, () => dispatch({ type: "settles" }), w.settles_hint),
    lines: tool("lines", w.lines, () => dispatch({ type: "lines" }), w.lines_hint),
    invert: tool("invert", w.invert, () => dispatch({ type: "invert" })),
    keys: tool("keys", w.keys, () => dispatch({ type: "keys" })),
    panel: tool("panel", w.panel, () => dispatch({ type: "drawer" })),
  };
  const element = h("div", { class: "tools", role: "toolbar", "aria-label": words.tools.points }, Object.values(buttons));
  return {
    element,
    update(now) {
      const { open, drawer } = now;
      if (!open) return;
      press(buttons.points, open.mode === "points");
      press(buttons.brightness, open.mode === "brightness");
      press(buttons.loupe, open.loupe);
      press(buttons.settles, now.settles);
      show(buttons.settles, is_radiograph(now));
      press(buttons.lines, open.lines === "quiet");
      press(buttons.invert, open.inverted);
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

/** @param {HTMLElement} element @param {boolean} yes */
function press(element, yes) {
  element.setAttribute("aria-pressed", String(yes));
}
