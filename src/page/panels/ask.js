/** The one landmark that is asked for now: large, in plain words, with a drawing. */
import { asked_in, asking_in, entry_of, protocol_of } from "../state/state.js";
import { open_count, want_of } from "../state/points.js";
import { first_view } from "../state/view.js";
import { words, worded_for } from "../words/words.js";
import { button, h, rebuilt, show } from "./dom.js";
import { drawing } from "./drawing.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function ask(wishes) {
  const head = h("div", { class: "ask-head", "aria-live": "polite" });
  const picture = drawing();
  const text = h("div", { class: "ask-text" });
  const done = h("div", { class: "ask-done" });
  const element = h("section", { class: "ask" }, head, picture.element, text, done);
  const fresh_head = rebuilt(head);
  const fresh_text = rebuilt(text);
  const fresh_done = rebuilt(done);
  return {
    element,
    update(state) {
      const guide = asking_in(state);
      const entry = entry_of(state);
      const protocol = protocol_of(state);
      if (guide) element.dataset.id = guide.id;
      else delete element.dataset.id;
      const ready = Boolean(state.open?.loaded && entry && protocol);
      for (const each of [head, picture.element, text]) show(each, guide !== null);
      show(done, ready && guide === null && !state.open?.confirming);
      if (guide && entry && protocol) {
        const limb = entry.limb;
        fresh_head([guide, state.open?.points, limb], () => question(state, guide, limb));
        fresh_text([guide, limb], () => explained(wishes, guide, limb));
        picture.show(protocol.schematic, guide, words.ask.drawing_of(worded_for(limb, guide.title)), entry, state.open?.view ?? first_view);
      } else if (ready) fresh_done([state.open?.points, entry], () => finished(wishes, state));
    },
  };
}

/** @param {import("./panel.js").State} state @param {import("../state/types.js").LandmarkGuide} guide
 * @param {string} limb */
function question(state, guide, limb) {
  const required = asked_in(state).filter((each) => want_of(each) === "required");
  const at = required.findIndex((each) => each.id === guide.id);
  const kind = want_of(guide) === "check" ? words.ask.check : words.ask.extra;
  return [
    h("p", { class: "count" }, at < 0 ? kind : words.ask.where(at + 1, required.length)),
    h("h2", {}, worded_for(limb, guide.title)),
  ];
}

/** @param {import("./panel.js").Wishes} wishes
 * @param {import("../state/types.js").LandmarkGuide} guide @param {string} limb */
function explained(wishes, guide, limb) {
  const said = (/** @type {string} */ title, /** @type {string} */ text) =>
    text && h("p", {}, h("strong", {}, `${title}: `), worded_for(limb, text));
  return [
    h("p", { class: "definition" }, worded_for(limb, guide.definition)),
    button(words.ask.skip, () => wishes.dispatch({ type: "skip", id: guide.id }), { class: "skip", "data-key": "skip" }),
    said(words.ask.finding, guide.finding),
    said(words.ask.mistakes, guide.mistakes),
    h("p", { class: "hint" }, words.ask.placed_hint),
  ];
}

/** @param {import("./panel.js").Wishes} wishes @param {import("./panel.js").State} state */
function finished(wishes, state) {
  const points = state.open?.points;
  const { record, place } = state;
  if (!points || !record) return [];
  const asked = asked_in(state);
  const skipped = asked.filter((each) => points.now.skipped.includes(each.id)).length;
  /** @type {["check" | "extra", (n: number) => string][]} */
  const further = [["check", words.ask.checks], ["extra", words.ask.extras]];
  const offered = further.filter(([want]) => !points.also.includes(want) && open_count(points, asked, want) > 0);
  return [
    h("h2", {}, words.ask.done),
    h("p", {}, words.ask.done_lead),
    skipped > 0 && h("p", { class: "hint" }, words.ask.skipped_some(skipped)),
    h("div", { class: "stack" },
      button(words.ask.to_numbers, () => wishes.dispatch({ type: "tab", tab: "numbers" }), { class: "main landscape-only" }),
      button(words.ask.to_visit, () => wishes.go({ screen: "case", case_id: record.id })),
      button(words.ask.to_plan, () => wishes.go({ screen: "plan", case_id: record.id, visit: place.visit })),
      offered.map(([want, text]) =>
        button(text(open_count(points, asked, want)), () => wishes.dispatch({ type: "also", want }), { "data-key": `also-${want}` })),
      refining(wishes, state)),
  ];
}

/** Both ends of a bar or ruler moved to where its edge is sharpest, by the program.
 * @param {import("./panel.js").Wishes} wishes @param {import("./panel.js").State} state */
function refining(wishes, { open, place }) {
  const ends = ["marker-1", "marker-2"];
  const landmarks = open?.points.now.landmarks ?? {};
  if (!open || ends.some((id) => landmarks[id]?.how !== "by-hand")) return null;
  return button(words.ask.refine, async () => {
    const seen = await wishes.server.find("ends", place.case_id ?? "", open.digest, { landmarks });
    if (seen) wishes.dispatch({ type: "points-added", digest: open.digest, landmarks: seen.landmarks });
  }, { "data-key": "refine" });
}
