/** What is to be expected of a changed foot later on: when to look again, and its levers. */
import { words, worded_for } from "../words/words.js";
import { h } from "./dom.js";

const worth_saying = 0.01;

/** @param {number} ratio after over before */
function more_or_less(ratio) {
  const percent = Math.round(100 * Math.abs(1 - ratio));
  return ratio < 1 ? words.trying.less(percent) : words.trying.more(percent);
}

/** @param {import("./panel.js").State} state @param {import("../state/types.js").Outlook} outlook */
export function outlook_said(state, { limb, no_growth, review, mid_stance, breakover }) {
  const w = words.trying;
  const title = (/** @type {string} */ id) =>
    worded_for(limb, (id && state.practice?.measurements.find((each) => each.id === id)?.title) || id);
  const levers = [{ when: w.mid_stance, lever: mid_stance }, { when: w.at_breakover, lever: breakover }]
    .flatMap(({ when, lever }) => (lever && Math.abs(1 - lever.ratio) >= worth_saying ? [{ when, ...lever }] : []));
  return [
    no_growth && h("p", { class: "hint" }, w.no_growth(no_growth)),
    review && h("p", {}, w.review(review.week, title(review.measurement))),
    levers.length > 0 && h("h3", {}, w.levers),
    levers.length > 0 && h("dl", { class: "levers" }, levers.flatMap((each) => [
      h("dt", {}, h("b", {}, each.when), h("span", { class: "hint" }, each.words)), h("dd", {}, w.lever(more_or_less(each.ratio), more_or_less(each.low), more_or_less(each.high)))])),
  ];
}

/** Measurement to its value in the outlook's week, in words.
 * @param {import("../state/types.js").Outlook | null | undefined} outlook
 * @param {(value: number, of: import("../state/types.js").Predicted) => string} said */
export function in_week(outlook, said) {
  return new Map((outlook?.predictions ?? []).map((each) => [each.measurement, words.trying.in_week(outlook?.week ?? 0, said(each.after, each))]));
}
