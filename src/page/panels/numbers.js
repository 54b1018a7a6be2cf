/**
 * The measurements: each a row with its value, uncertainty, gauge and what that means in words. A
 * row lights its construction in the picture; a touched line lights its row.
 * @typedef {import("../state/types.js").Measurement} Measurement
 */
import { entry_of, is_measured, protocol_of } from "../state/state.js";
import { want_of } from "../state/points.js";
import { number, quantity, unit_sign } from "../words/numbers.js";
import { word, words, worded_for } from "../words/words.js";
import { checks } from "./checks.js";
import { amended, h, rebuilt } from "./dom.js";
import { gauge } from "./gauge.js";
import { sign_of } from "./verdict.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function numbers(wishes) {
  const scale = h("div", { class: "scale" });
  const rows = h("div", { class: "rows" });
  const fitness = checks(wishes);
  const element = h("section", { class: "numbers", "aria-label": words.numbers.title }, fitness.element, rows, scale,
    h("p", { class: "caution" }, words.caution));
  const fresh = rebuilt(rows, amended);
  const fresh_scale = rebuilt(scale, amended);
  let unfolded = false;
  /** @type {string | null} */
  let lit = null;
  return {
    element,
    update(state) {
      const result = state.open?.result ?? null;
      const now_lit = state.open?.lit ?? null;
      const limb = entry_of(state)?.limb ?? "";
      const measured = state.open !== null && is_measured(state.open);
      element.setAttribute("aria-busy", String(!measured));
      const nothing = !measured && Object.keys(state.open?.points.now.landmarks ?? {}).length > 0 ? words.numbers.on_their_way : words.numbers.empty;
      fitness.update(state);
      fresh_scale([result], () => (result ? scale_words(result) : []));
      unfolded = rows.querySelector("details")?.open ?? unfolded;
      fresh([result, result ? "" : nothing, now_lit, state.practice, limb], () =>
        result ? all_rows(wishes, state, result, now_lit, limb, unfolded) : [h("p", { class: "empty" }, nothing)]);
      if (now_lit !== null && now_lit !== lit)
        rows.querySelector(`[data-id="${CSS.escape(now_lit)}"]`)?.scrollIntoView({ block: "nearest" });
      lit = now_lit;
    },
  };
}

/** @param {import("../state/types.js").Result} result */
function scale_words({ calibration }) {
  const cautions = [...(calibration.cautions ?? []), ...calibration.conflicts];
  return [
    h("p", { class: "hint" }, calibration.sentence),
    ...cautions.map((each) => h("p", { class: "verdict-line caution" }, sign_of("caution"), h("span", {}, each))),
  ];
}

/** @param {import("./panel.js").Wishes} wishes @param {import("./panel.js").State} state
 * @param {import("../state/types.js").Result} result @param {string | null} lit @param {string} limb
 * @param {boolean} unfolded are those that only lack optional points shown? */
function all_rows(wishes, state, result, lit, limb, unfolded) {
  const all = result.measurements;
  const guides = protocol_of(state)?.landmarks ?? [];
  const titles = new Map(guides.map((each) => [each.id, worded_for(limb, each.title)]));
  const optional = new Set(guides.filter((each) => want_of(each) !== "required").map((each) => each.id));
  const known = new Map((state.practice?.measurements ?? []).map((each) => [each.id, each]));
  const verdicts = new Map((result.checks ?? []).map((each) => [each.id, each]));
  const measured = all.filter((each) => each.status !== "not-measurable");
  const waiting = all.filter((each) => each.status === "not-measurable");
  const lacks_only_optional = (/** @type {Measurement} */ { missing = [] }) => missing.length > 0 && missing.every((id) => optional.has(id));
  const folded = waiting.filter(lacks_only_optional);
  const expected = waiting.filter((each) => !lacks_only_optional(each));
  const light = (/** @type {string} */ id) => wishes.dispatch({ type: "light", id });
  return [
    measured.length === 0 && h("p", { class: "empty" }, words.numbers.empty),
    measured.map((each) => row(each, each.id === lit, () => light(each.id), known.get(each.id), limb,
      (each.cautions ?? []).flatMap((id) => verdicts.get(id) ?? []))),
    expected.length > 0 && h("h3", {}, words.numbers.waiting),
    expected.map((each) => waiting_row(each, titles, limb)),
    folded.length > 0 && h("details", { class: "folded", open: unfolded },
      h("summary", {}, words.numbers.folded(folded.length)), folded.map((each) => waiting_row(each, titles, limb))),
  ];
}

/** @param {Measurement} m @param {boolean} lit @param {() => void} light
 * @param {import("../state/types.js").MeasurementGuide | undefined} guide @param {string} limb
 * @param {import("../state/types.js").Check[]} cautions */
function row(m, lit, light, guide, limb, cautions) {
  const value = number(m.value ?? 0, m.decimals);
  const spread = number(2 * (m.standard_uncertainty ?? 0), m.decimals);
  // Not made is no news while nothing else is wrong: only asked-for caution stands beside the number.
  const marks = cautions.filter((each) => each.verdict === "caution");
  return h("button", { type: "button", class: `number ${m.status}`, "data-id": m.id, "data-key": m.id, "aria-pressed": String(lit), onclick: light },
    h("span", { class: "head" },
      h("span", { class: "title" }, worded_for(limb, m.title)),
      h("span", { class: "value" }, h("b", {}, value), ` ± ${spread}${unit_sign(m.unit)}`)),
    gauge(m),
    h("span", { class: "status" }, words_of(m)),
    marks.length > 0 && h("span", { class: "cautions" }, sign_of("caution"),
      h("span", {}, words.checks.beside(marks.map((each) => worded_for(limb, each.title)).join("; ")))),
    lit && h("span", { class: "more" }, worded_for(limb, [guide?.what, guide?.sign && words.numbers.positive(guide.sign), band_words(m), ...cautions.map((each) => each.sentence)].filter(Boolean).join(" "))));
}

/** @param {Measurement} m */
function words_of(m) {
  const said = word(words.numbers.status, m.status);
  return m.reason ? `${said}. ${m.reason}` : said;
}

/** @param {Measurement} m */
function band_words({ band, decimals, unit }) {
  if (!band) return "";
  const said = (/** @type {number} */ v) => quantity(v, decimals, unit);
  const [low, high] = [band.low, band.high];
  const range = typeof low === "number" && typeof high === "number" ? `${number(low, decimals)} to ${said(high)}`
    : typeof low === "number" ? `≥ ${said(low)}` : typeof high === "number" ? `≤ ${said(high)}` : "";
  return `${words.numbers.range(range, band.population)}; ${word(words.numbers.standing, band.standing)}.`;
}

/** @param {Measurement} m @param {Map<string, string>} titles @param {string} limb */
function waiting_row(m, titles, limb) {
  const missing = (m.missing ?? []).map((each) => titles.get(each) ?? each);
  const why = missing.length > 0 ? words.numbers.needs(missing.join("; ")) : m.reason ?? "";
  return h("div", { class: "number not-measurable", "data-id": m.id },
    h("span", { class: "head" },
      h("span", { class: "title" }, worded_for(limb, m.title)),
      h("span", { class: "value", "aria-label": words.numbers.status["not-measurable"] }, "–")),
    h("span", { class: "status" }, why));
}
