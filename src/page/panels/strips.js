/**
 * The strips above the stage. Two that a tool folds out, one at a time: which greys are shown, and how
 * the picture is turned. One that stands there as long as the picture is mirrored, and says so.
 */
import { came_window } from "../state/state.js";
import { slid_from, slid_to, small_turn } from "../state/view.js";
import { words } from "../words/words.js";
import { button, h, rebuilt, show } from "./dom.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function strips(wishes) {
  const parts = [greys(wishes), lie(wishes)];
  return {
    element: h("div", { class: "strips" }, parts.map((each) => each.element)),
    update: (state) => parts.forEach((each) => each.update(state)),
  };
}

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
function greys({ dispatch, state }) {
  const w = words.greys;
  const regraded = (/** @type {object} */ change) => {
    const { open } = state();
    if (open?.window) dispatch({ type: "window", window: slid_to(open.window, came_window(open), change) });
  };
  const sliders = {
    brightness: slider(w.brightness, -1, 1, (brightness) => regraded({ brightness })),
    contrast: slider(w.contrast, -3, 3, (contrast) => regraded({ contrast })),
    gamma: slider(w.gamma, -1, 1, (value) => dispatch({ type: "tone", tone: { gamma: 2.5 ** value } })),
    local: slider(w.local, 0, 1, (local) => dispatch({ type: "tone", tone: { local } })),
  };
  const invert = button(w.invert, () => dispatch({ type: "invert" }));
  const named = h("span", { class: "named" });
  const fresh = rebuilt(named);
  const back = button(w.back, () => dispatch({ type: "as-it-came" }));
  const element = h("div", { class: "strip", role: "group", "aria-label": w.title },
    Object.values(sliders).map((each) => each.element), named, invert, back);
  return {
    element,
    update({ open }) {
      const wanted = open?.mode === "brightness" && open.window !== null;
      show(element, wanted);
      if (!wanted || !open.window) return;
      const radiograph = open.info?.kind !== "photo";
      const { brightness, contrast } = slid_from(open.window, came_window(open));
      sliders.brightness.set(brightness);
      sliders.contrast.set(contrast);
      sliders.gamma.set(Math.log(open.tone.gamma) / Math.log(2.5));
      sliders.local.set(open.tone.local);
      for (const each of [sliders.gamma, sliders.local]) show(each.element, radiograph);
      invert.setAttribute("aria-pressed", String(open.inverted));
      fresh([open.info], () => windows_of(open.info?.windows ?? [], dispatch));
    },
  };
}

/** The file's own windows, where it has more than one. @param {import("../state/types.js").Window[]} windows
 * @param {(action: import("./panel.js").Action) => void} dispatch */
function windows_of(windows, dispatch) {
  if (windows.length < 2) return [];
  return windows.map((window, n) =>
    button(window.name || words.greys.window(n + 1), () => dispatch({ type: "window", window })));
}

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
function lie({ dispatch, state }) {
  const w = words.lie;
  const fine = slider(w.fine, -20, 20, (degrees) => {
    const { open } = state();
    if (open) dispatch({ type: "turn", degrees: degrees - small_turn(open.view) });
  }, 0.5);
  const mirror = button(w.mirror, () => dispatch({ type: "mirror" }));
  const element = h("div", { class: "strip", role: "group", "aria-label": w.title },
    button(w.left, () => dispatch({ type: "turn", degrees: -90 })),
    button(w.right, () => dispatch({ type: "turn", degrees: 90 })),
    fine.element, mirror,
    button(w.upright, () => dispatch({ type: "upright" })));
  return {
    element,
    update({ open }) {
      const wanted = open?.mode === "turning";
      show(element, wanted);
      if (!wanted) return;
      fine.set(small_turn(open.view), words.lie.degrees(small_turn(open.view)));
      mirror.setAttribute("aria-pressed", String(open.view.mirrored));
    },
  };
}

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function mirrored({ dispatch }) {
  const w = words.lie;
  const element = h("div", { class: "strip mirrored-said", role: "status" },
    h("p", {}, h("strong", {}, w.mirrored), ` ${w.mirrored_means}`),
    button(w.mirror_back, () => dispatch({ type: "mirror" })));
  return {
    element,
    update: ({ open }) => show(element, open?.view.mirrored === true),
  };
}

/** @param {string} label @param {number} least @param {number} most
 * @param {(value: number) => void} change @param {number} [step] */
function slider(label, least, most, change, step = 0.01) {
  const said = h("span", { class: "slider-said" });
  const field = h("input", {
    type: "range", min: least, max: most, step, value: 0,
    oninput: () => change(Number(field.value)),
  });
  return {
    element: h("label", { class: "slider" }, h("span", {}, label, said), field),
    /** @param {number} value @param {string} [text] */
    set(value, text = "") {
      if (Math.abs(Number(field.value) - value) >= step / 2) field.value = String(value);
      if (said.textContent !== text) said.textContent = text;
      if (text) field.setAttribute("aria-valuetext", text);
    },
  };
}
