/** The picture screen: tools at the left edge, the stage, and one side panel that can be put away. */
import { is_radiograph, ways_in } from "../state/state.js";
import { ways_said, words } from "../words/words.js";
import { agreement } from "./agreement.js";
import { beside_in } from "../state/beside.js";
import { ask } from "./ask.js";
import { beside } from "./beside.js";
import { confirm } from "./confirm.js";
import { conflict } from "./conflict.js";
import { button, h, show } from "./dom.js";
import { dots } from "./dots.js";
import { numbers } from "./numbers.js";
import { others } from "./others.js";
import { points } from "./points.js";
import { sides } from "./sides.js";
import { mirrored, strips } from "./strips.js";
import { tools } from "./tools.js";
import { held_note, trying } from "./trying.js";

/**
 * @param {import("./panel.js").Wishes} wishes
 * @param {HTMLElement[]} canvases from below to above @param {HTMLElement[]} canvases_beside the same
 * @returns {import("./panel.js").Panel & {stage: HTMLElement}}
 */
export function picture_screen(wishes, canvases, canvases_beside) {
  const loading = h("p", { class: "loading" }, words.stage.loading);
  const others_there = others(wishes);
  const held = held_note();
  const stage = h("div", { class: "stage" }, canvases, loading, others_there.element, held.element);
  const loading_beside = h("p", { class: "loading-beside" }, words.stage.loading);
  const stage_beside = h("div", { class: "stage" }, canvases_beside, loading_beside);
  const parts = { tools: tools(wishes), dots: dots(wishes), ask: ask(wishes), points: points(wishes), numbers: numbers(wishes), readers: agreement(wishes), trying: trying(wishes) };
  const bars = [sides(wishes), conflict(wishes), strips(wishes), beside(wishes), mirrored(wishes)];
  const asking_facts = confirm(wishes);
  const tabs = tab_strip(wishes);
  const work = h("div", { class: "work" }, tabs.element, parts.dots.element, parts.ask.element, parts.points.element, parts.numbers.element, parts.readers.element, parts.trying.element);
  const side = h("aside", { class: "side" }, asking_facts.element, work);
  const element = h("main", { class: "picture" }, parts.tools.element,
    h("div", { class: "middle" }, bars.map((each) => each.element), h("div", { class: "panes" }, stage, stage_beside)), side);
  return {
    element,
    stage,
    update(state) {
      const { open } = state;
      show(element, state.place.screen === "picture" && open !== null);
      if (!open) return;
      show(loading, !open.has_pixels);
      show(side, state.drawer || open.confirming);
      show(work, !open.confirming && open.loaded);
      work.dataset.tab = state.tab;
      stage.dataset.mode = open.mode;
      canvases[canvases.length - 1].setAttribute("aria-label", [words.stage.label, ways_said(ways_in(state))].join(" "));
      show(stage_beside, open.beside !== null);
      show(loading_beside, !open.beside?.open.has_pixels);
      const looked_at = beside_in(state);
      canvases_beside[canvases_beside.length - 1].setAttribute("aria-label", [words.beside.label, looked_at && ways_said(ways_in(looked_at))].join(" "));
      for (const each of [...Object.values(parts), ...bars, asking_facts, tabs, others_there, held]) each.update(state);
    },
  };
}

/** @param {import("./panel.js").Wishes} wishes */
function tab_strip(wishes) {
  /** @type {[string, string][]} */
  const names = [["ask", words.ask.now], ["points", words.points.title], ["numbers", words.numbers.title], ["readers", words.readers.title], ["try", words.trying.title]];
  const buttons = names.map(([tab, text]) =>
    button(text, () => wishes.dispatch({ type: "tab", tab }), { "data-tab": tab, "data-key": tab }));
  return {
    element: h("div", { class: "tabs" }, buttons),
    /** @param {import("./panel.js").State} state */
    update(state) {
      for (const each of buttons) {
        each.setAttribute("aria-pressed", String(each.dataset.tab === state.tab));
        if (each.dataset.tab === "try") show(each, is_radiograph(state));
      }
    },
  };
}
