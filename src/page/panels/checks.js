/**
 * Is the picture fit to measure on? One line a check: its verdict by sign and word, what is wrong,
 * which numbers it touches. A line shows the check's points in the picture.
 * @typedef {import("../state/types.js").Check} Check
 */
import { entry_of } from "../state/state.js";
import { word, words, worded_for } from "../words/words.js";
import { amended, h, rebuilt, show } from "./dom.js";
import { sign_of } from "./verdict.js";

const gravest_first = ["unfit", "caution", "not-checked", "fit"];

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function checks(wishes) {
  const head = h("summary");
  const list = h("ul", { class: "check-list" });
  const element = h("details", { class: "checks" }, head, list);
  const fresh = rebuilt(list, amended);
  /** @type {string} */
  let worst_before = "";
  return {
    element,
    update(state) {
      const all = state.open?.result?.checks ?? [];
      show(element, all.length > 0);
      if (all.length === 0) return;
      const worst = gravest_first.find((each) => all.some((check) => check.verdict === each)) ?? "fit";
      const limb = entry_of(state)?.limb ?? "";
      const lit = state.open?.lit_check ?? null;
      const titles = new Map((state.open?.result?.measurements ?? []).map((each) => [each.id, each.title]));
      const changed = fresh([state.open?.result, lit, limb], () => [...all]
        .sort((a, b) => gravest_first.indexOf(a.verdict) - gravest_first.indexOf(b.verdict))
        .map((each) => line(wishes, each, each.id === lit, titles, limb)));
      if (changed) amended(head, [sign_of(worst), h("span", {}, words.checks.title), h("span", { class: "hint" }, summary(all))]);
      // What must not be overlooked opens by itself, once.
      if (worst !== worst_before && (worst === "unfit" || worst === "caution")) element.open = true;
      worst_before = worst;
    },
  };
}

/** @param {Check[]} all */
function summary(all) {
  return gravest_first.map((verdict) => {
    const count = all.filter((each) => each.verdict === verdict).length;
    return count > 0 ? `${count} ${word(words.checks.verdicts, verdict)}` : "";
  }).filter(Boolean).join(", ");
}

/** @param {import("./panel.js").Wishes} wishes @param {Check} check @param {boolean} lit
 * @param {Map<string, string>} titles @param {string} limb */
function line(wishes, check, lit, titles, limb) {
  const touched = check.touches.map((each) => titles.get(each)).filter((each) => each !== undefined);
  return h("li", { class: check.verdict, "data-check": check.id },
    h("button", { type: "button", "aria-pressed": String(lit), "data-key": check.id, onclick: () => wishes.dispatch({ type: "light-check", id: check.id }) },
      sign_of(check.verdict),
      h("span", { class: "check-title" }, worded_for(limb, check.title)),
      h("span", { class: "check-verdict" }, word(words.checks.verdicts, check.verdict)),
      h("span", { class: "check-sentence" }, worded_for(limb, check.sentence)),
      lit && touched.length > 0 && h("span", { class: "check-touches" }, words.checks.touches(touched))));
}
