/**
 * Two readers: who has read the picture, reading it blind, being done, and how far the readings
 * agree. The two readers' points are drawn in the picture with the same two signs.
 * @typedef {import("../state/types.js").PictureAgreement} PictureAgreement
 * @typedef {import("../state/types.js").ReadingLine} ReadingLine
 */
import { entry_of, is_frozen } from "../state/state.js";
import { number, quantity, unit_sign } from "../words/numbers.js";
import { words, worded_for } from "../words/words.js";
import { reader_shapes } from "../words/reader_shapes.js";
import { button, h, rebuilt } from "./dom.js";
import { reader_sign } from "./reader_sign.js";

const w = words.readers;

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function agreement(wishes) {
  const mine = h("div", { class: "my-reading" });
  const list = h("div", { class: "who-read" });
  const table = h("div", { class: "agreed" });
  const element = h("section", { class: "readers", "aria-label": w.title }, mine, list, table);
  const fresh = { mine: rebuilt(mine), list: rebuilt(list), table: rebuilt(table) };
  return {
    element,
    update(state) {
      const { open, reader } = state;
      if (!open) return;
      const limb = entry_of(state)?.limb ?? "";
      const placed = Object.keys(open.points.now.landmarks).length;
      fresh.mine([open.turn, open.sight, open.done, placed > 0, open.keeping === "saved", reader], () => my_reading(wishes, open, placed));
      fresh.list([open.readers, reader], () => who_read(wishes, open.readers, reader));
      fresh.table([open.agreement, open.points.selected, limb], () =>
        open.agreement ? agreed(wishes, open.agreement, open.points.selected, limb) : []);
    },
  };
}

/** What can be asked of the program about the open picture. @param {import("./panel.js").Wishes} wishes */
function asking(wishes) {
  const { place, open, reader } = wishes.state();
  return { case_id: place.case_id ?? "", digest: open?.digest ?? "", reader };
}

/** @param {import("./panel.js").Wishes} wishes @param {import("../state/state.js").Open} open
 * @param {number} placed */
function my_reading(wishes, open, placed) {
  const begin = (/** @type {"open" | "blind"} */ sight) => wishes.server.begin_turn(asking(wishes), sight);
  const blind = open.sight === "blind";
  const waiting = open.keeping !== "saved";
  if (placed === 0)
    return [
      h("label", { class: "switch" },
        h("input", { type: "checkbox", name: "blind", checked: blind, disabled: waiting, "data-key": "blind",
          onchange: () => begin(blind ? "open" : "blind") }),
        h("span", {}, w.blind_switch)),
      h("p", { class: "hint" }, w.blind_means),
    ];
  return [
    h("p", {}, w.mine(open.turn, blind, open.done)),
    is_frozen(open) && h("p", { class: "hint" }, w.frozen),
    h("div", { class: "row" },
      !open.done && button(w.done, () => wishes.server.finish_reading(asking(wishes)), { class: "main", disabled: waiting, "data-key": "done" }),
      (open.done || !blind) && button(w.again, () => begin("blind"), { disabled: waiting, "data-key": "again" })),
    !open.done && h("p", { class: "hint" }, blind ? w.done_means_blind : w.done_means_open),
  ];
}

/** @param {import("./panel.js").Wishes} wishes @param {ReadingLine[] | null} readings @param {string} reader */
function who_read(wishes, readings, reader) {
  const look = button(w.look, () => wishes.server.load_readers(asking(wishes)), { class: "plain", "data-key": "look" });
  const lines = (readings ?? []).filter((each) => each.done || !each.seen || Object.keys(each.landmarks ?? {}).length > 0);
  return [
    h("div", { class: "row" }, h("h3", {}, w.who), look),
    lines.length === 0 && h("p", { class: "empty" }, w.nobody),
    lines.length > 0 && h("ul", {}, lines.map((each) => who_line(wishes, each, reader))),
  ];
}

/** @param {import("./panel.js").Wishes} wishes @param {ReadingLine} line @param {string} reader */
function who_line(wishes, line, reader) {
  const can_pick = line.sight === "blind" && line.seen && line.revealed && !line.working;
  return h("li", {},
    h("span", { class: "who" }, line.reader === reader ? w.you(line.reader) : line.reader),
    h("span", { class: "state" }, w.line(line)),
    line.working && h("span", { class: "working" }, w.working),
    can_pick && button(w.pick, () => wishes.server.pick_reading(asking(wishes), line), { "data-key": `pick-${line.reader}-${line.turn}` }));
}

/** @param {import("./panel.js").Wishes} wishes @param {PictureAgreement} found
 * @param {string | null} selected @param {string} limb */
function agreed(wishes, found, selected, limb) {
  const names = w.pair_names(found);
  return [
    h("h3", {}, w.agree),
    h("p", { class: "legend" }, reader_sign(reader_shapes.first), h("span", {}, names.first), reader_sign(reader_shapes.second), h("span", {}, names.second)),
    h("h4", {}, w.points),
    h("p", { class: "hint" }, w.points_hint(found.unit)),
    found.landmarks.map((each) => point_row(wishes, each, found.unit, each.id === selected, limb)),
    h("h4", {}, w.numbers),
    h("p", { class: "hint" }, w.numbers_hint(names.first, names.second, found.between, found.fewest_pairs)),
    found.measurements.map((each) => number_row(each, found, limb)),
  ];
}

/** @param {import("./panel.js").Wishes} wishes @param {import("../state/types.js").AgreedPoint} point
 * @param {string} unit @param {boolean} chosen @param {string} limb */
function point_row(wishes, point, unit, chosen, limb) {
  const said = (/** @type {number | undefined} */ v) => number(v ?? 0, unit === "mm" ? 1 : 0);
  const apart = point.distance === undefined ? "–" : quantity(point.distance, unit === "mm" ? 1 : 0, unit === "mm" ? "mm" : "") + (unit === "mm" ? "" : " px");
  const more = point.only ? w.only(point.only)
    : point.distance === undefined ? w.no_direction : w.split(said(point.across), said(point.along));
  return h("button", { type: "button", class: "agreed-row", "data-id": point.id, "data-key": `point-${point.id}`,
    "aria-pressed": String(chosen), onclick: () => wishes.dispatch({ type: "select", id: point.id }) },
    h("span", { class: "title" }, worded_for(limb, point.title)),
    h("span", { class: "value" }, apart),
    h("span", { class: "more" }, more, point.wide && h("b", {}, ` ${w.wide}`)));
}

/** @param {import("../state/types.js").AgreedNumber} m @param {PictureAgreement} found @param {string} limb */
function number_row(m, found, limb) {
  const said = (/** @type {number} */ v) => quantity(v, m.decimals, m.unit);
  const more = [w.both(number(m.first, m.decimals), number(m.second, m.decimals) + unit_sign(m.unit)), w.detectable(said(m.smallest_detectable_change))];
  if (found.between === "readers")
    more.push(m.limits ? w.limits(said(m.limits.lower), said(m.limits.upper), m.pairs) : w.too_few(m.pairs, found.fewest_pairs));
  const icc = m.icc?.["2,1"];
  if (icc) more.push(w.icc(number(icc.value, 2), number(icc.interval[0], 2), number(icc.interval[1], 2)));
  return h("div", { class: "agreed-row", "data-id": m.id },
    h("span", { class: "title" }, worded_for(limb, m.title)),
    h("span", { class: "value" }, said(m.difference)),
    h("span", { class: "more" }, more.join(" "), m.wide && h("b", {}, ` ${w.wide_number}`)));
}
