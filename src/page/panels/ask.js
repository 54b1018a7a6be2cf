/** The one landmark that is asked for now: large, in plain words, with a drawing. */
import { ends_of } from "../state/edges.js";
import { asked_in, asking_in, entry_of, is_radiograph, proposed_in, protocol_of } from "../state/state.js";
import { but_places, open_count, want_of } from "../state/points.js";
import { first_view } from "../state/view.js";
import { words, worded_for } from "../words/words.js";
import { button, h, rebuilt, show } from "./dom.js";
import { drawing } from "./drawing.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function ask(wishes) {
  const head = h("div", { class: "ask-head", "aria-live": "polite" });
  const picture = drawing();
  const text = h("div", { class: "ask-text" });
  const stroke = h("div", { class: "ask-stroke", "aria-live": "polite" });
  const done = h("div", { class: "ask-done" });
  const element = h("section", { class: "ask" }, head, picture.element, text, stroke, done);
  const fresh_head = rebuilt(head);
  const fresh_text = rebuilt(text);
  const fresh_stroke = rebuilt(stroke);
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
      const along = state.open?.found.picking === "stroke" ? state.open.found.along : "";
      show(stroke, along !== "");
      show(done, ready && guide === null && along === "" && !state.open?.confirming);
      if (guide && entry && protocol) {
        const limb = entry.limb;
        const proposed = Boolean(proposed_in(state)[guide.id]);
        fresh_head([guide, entry, proposed], () => question(wishes, guide, limb, proposed));
        fresh_text([guide, limb, proposed], () => explained(wishes, guide, limb, proposed));
        picture.show(protocol.schematic, guide, words.ask.drawing_of(worded_for(limb, guide.title)), entry, state.open?.view ?? first_view);
      } else if (along && entry) fresh_stroke([along, entry], () => drawing_along(wishes, along, entry.limb));
      else if (ready && state.open) fresh_done([but_places(state.open.points), entry], () => finished(wishes, state));
    },
  };
}

/** @param {import("./panel.js").Wishes} wishes
 * @param {import("../state/types.js").LandmarkGuide} guide @param {string} limb @param {boolean} proposed */
function question(wishes, guide, limb, proposed) {
  const required = asked_in(wishes.state()).filter((each) => want_of(each) === "required");
  const at = required.findIndex((each) => each.id === guide.id);
  const kind = want_of(guide) === "check" ? words.ask.check : words.ask.extra;
  return [
    h("p", { class: "count" }, at < 0 ? kind : words.ask.where(at + 1, required.length)),
    h("h2", {}, worded_for(limb, guide.title)),
    proposed && h("p", { class: "proposed" }, words.ask.proposed),
    proposed && button(words.ask.confirm, () => wishes.dispatch({ type: "confirm", id: guide.id }), { class: "main", "data-key": "confirm" }),
  ];
}

/** @param {import("./panel.js").Wishes} wishes
 * @param {import("../state/types.js").LandmarkGuide} guide @param {string} limb @param {boolean} proposed */
function explained(wishes, guide, limb, proposed) {
  const said = (/** @type {string} */ title, /** @type {string} */ text) =>
    text && h("p", {}, h("strong", {}, `${title}: `), worded_for(limb, text));
  return [
    h("p", { class: "definition" }, worded_for(limb, guide.definition)),
    button(words.ask.skip, () => wishes.dispatch({ type: "skip", id: guide.id }), { class: "skip", "data-key": "skip" }),
    said(words.ask.finding, guide.finding),
    said(words.ask.mistakes, guide.mistakes),
    h("p", { class: "hint" }, proposed ? words.ask.proposed_lead : words.ask.placed_hint),
    !proposed && by_stroke(wishes, guide),
  ];
}

/** Where the landmark lies on a straight edge: both of its points by one stroke.
 * @param {import("./panel.js").Wishes} wishes @param {import("../state/types.js").LandmarkGuide} guide */
function by_stroke(wishes, guide) {
  const state = wishes.state();
  if (!is_radiograph(state) || ends_of(asked_in(state), guide.snap_of).length === 0) return null;
  return button(words.ask.stroke, () => wishes.dispatch({ type: "found", found: { picking: "stroke", along: guide.snap_of } }), { "data-key": "stroke" });
}

/** @param {import("./panel.js").Wishes} wishes @param {string} along @param {string} limb */
function drawing_along(wishes, along, limb) {
  const [first, last] = ends_of(asked_in(wishes.state()), along).map((each) => worded_for(limb, each.title));
  return [
    h("h2", {}, words.ask.stroke_title),
    h("p", {}, words.ask.stroke_lead(first, last)),
    button(words.ask.stroke_leave, () => wishes.dispatch({ type: "found", found: { picking: "" } }), { "data-key": "stroke-leave" }),
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
