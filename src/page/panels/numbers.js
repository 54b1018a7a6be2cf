/**
 * The measurements: each a row with its value, uncertainty, gauge and what that means in words. A
 * row lights its construction in the picture; a touched line lights its row.
 * @typedef {import("../state/types.js").Measurement} Measurement
 */
import { entry_of, protocol_of } from "../state/state.js";
import { number, quantity, unit_sign } from "../words/numbers.js";
import { word, words, worded_for } from "../words/words.js";
import { h, rebuilt } from "./dom.js";
import { gauge } from "./gauge.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function numbers(wishes) {
  const scale = h("p", { class: "hint scale" });
  const rows = h("div", { class: "rows" });
  const element = h("section", { class: "numbers", "aria-label": words.numbers.title }, rows, scale,
    h("p", { class: "caution" }, words.caution));
  const fresh = rebuilt(rows);
  /** @type {string | null} */
  let lit = null;
  return {
    element,
    update(state) {
      const result = state.open?.result ?? null;
      const now_lit = state.open?.lit ?? null;
      const limb = entry_of(state)?.limb ?? "";
      scale.textContent = result ? scale_words(result) : "";
      fresh([result, now_lit, state.practice, limb], () =>
        result ? all_rows(wishes, state, result.measurements, now_lit, limb) : [h("p", { class: "empty" }, words.numbers.empty)]);
      if (now_lit !== null && now_lit !== lit)
        rows.querySelector(`[data-id="${CSS.escape(now_lit)}"]`)?.scrollIntoView({ block: "nearest" });
      lit = now_lit;
    },
  };
}

/** @param {import("../state/types.js").Result} result */
function scale_words({ calibration }) {
  return [calibration.sentence, ...calibration.conflicts].join(" ");
}

/** @param {import("./panel.js").Wishes} wishes @param {import("./panel.js").State} state
 * @param {Measurement[]} all @param {string | null} lit @param {string} limb */
function all_rows(wishes, state, all, lit, limb) {
  const titles = new Map((protocol_of(state)?.landmarks ?? []).map((each) => [each.id, worded_for(limb, each.title)]));
  const known = new Map((state.practice?.measurements ?? []).map((each) => [each.id, each]));
  const measured = all.filter((each) => each.status !== "not-measurable");
  const waiting = all.filter((each) => each.status === "not-measurable");
  const light = (/** @type {string} */ id) => wishes.dispatch({ type: "light", id });
  return [
    measured.length === 0 && h("p", { class: "empty" }, words.numbers.empty),
    measured.map((each) => row(each, each.id === lit, () => light(each.id), known.get(each.id), limb)),
    waiting.length > 0 && h("h3", {}, words.numbers.waiting),
    waiting.map((each) => waiting_row(each, titles, limb)),
  ];
}

/** @param {Measurement} m @param {boolean} lit @param {() => void} light
 * @param {import("../state/types.js").MeasurementGuide | undefined} guide @param {string} limb */
function row(m, lit, light, guide, limb) {
  const value = number(m.value ?? 0, m.decimals);
  const spread = number(2 * (m.standard_uncertainty ?? 0), m.decimals);
  return h("button", { type: "button", class: `number ${m.status}`, "data-id": m.id, "data-key": m.id, "aria-pressed": String(lit), onclick: light },
    h("span", { class: "head" },
      h("span", { class: "title" }, worded_for(limb, m.title)),
      h("span", { class: "value" }, h("b", {}, value), ` ± ${spread}${unit_sign(m.unit)}`)),
    gauge(m),
    h("span", { class: "status" }, words_of(m)),
    lit && h("span", { class: "more" }, worded_for(limb, [guide?.what, guide?.sign && words.numbers.positive(guide.sign), band_words(m)].filter(Boolean).join(" "))));
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
