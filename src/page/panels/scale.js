/**
 * How large is what the picture shows? The card or ball is looked for by the program, shown in the
 * picture and confirmed by a person; what is not known about its place is said, and costs accuracy.
 * @typedef {import("../state/types.js").Scale} Scale
 * @typedef {import("./confirm.js").Answers} Answers
 * @typedef {import("./confirm.js").Answer} Answer
 */
import { word, words } from "../words/words.js";
import { button, choice, h, labelled } from "./dom.js";
import { sign_of } from "./verdict.js";

/** What is granted where nobody knows how far a marker lay from the plane of interest: half the
 * width of a foot and a little. Own estimate. */
const unknown_plane_mm = 30;
const known_plane_mm = 5;

/** @type {Record<string, string[]>} */
const kinds = {
  radiograph: ["automatic", "ball", "marker", "magnification", "distances", "none"],
  photo: ["card", "marker", "none"],
};

/** Has somebody said where card, ball or marker was? @param {Scale} scale
 * @returns {"known" | "unknown" | "open"} */
function distance_of(scale) {
  if (scale.distance) return scale.distance;
  if (scale.kind === "card") return typeof scale.offset_mm === "number" ? "known" : "unknown";
  return scale.out_of_plane_mm === unknown_plane_mm ? "unknown" : "known";
}

/** What is still to be answered, in words; empty when nothing is. @param {Scale | null} scale */
export function scale_missing(scale) {
  const w = words.confirm.missing_names;
  if (!scale) return w.scale;
  const number_of = { ball: "length_mm", marker: "length_mm", magnification: "magnification", distances: "object_to_detector_mm" };
  const number = /** @type {Record<string, string>} */ (number_of)[scale.kind];
  if (scale.kind === "card" && !scale.corners) return w.card;
  if (scale.kind === "ball" && !scale.ball) return w.ball;
  if (number && !(scale[number] > 0)) return w.number;
  const asks_distance = ["card", "ball", "marker"].includes(scale.kind);
  return asks_distance && (distance_of(scale) === "open" || (distance_of(scale) === "known" && !Number.isFinite(scale.offset_mm ?? 0))) ? w.distance : "";
}

/** The statement as it is kept: without what only the page knows. @param {Scale} scale @returns {Scale} */
export function with_numbers({ distance, ...scale }) {
  return scale;
}

/** What a kept statement shows in the picture. @param {Scale} scale
 * @returns {Partial<import("../state/found.js").Found> | null} */
export function found_in(scale) {
  if (scale.kind === "card" && scale.corners)
    return { card: { paper: scale.paper, corners: scale.corners.map((/** @type {number[]} */ [id, x, y]) => ({ id, x, y })) } };
  if (scale.kind === "ball" && scale.ball) {
    const { centre: [x, y], diameter_px, unsure_px } = scale.ball;
    return { balls: [{ x, y, diameter_px, unsure_px }], ball: 0 };
  }
  return null;
}

/** @param {import("./panel.js").Wishes} wishes @param {string} picture radiograph or photo
 * @param {Answers} a @param {Answer} answer */
export function scale_questions(wishes, picture, a, answer) {
  const w = words.confirm;
  const kind = a.scale?.kind ?? null;
  const known = kinds[picture].map((each) => /** @type {[string, string]} */ ([each, word(w.scales, each)]));
  const offered = kind === null || kinds[picture].includes(kind) || (kind === "automatic" && picture === "photo")
    ? known : [...known, /** @type {[string, string]} */ ([kind, word(w.scales, kind)])];
  return h("section", { class: "scale-part" },
    choice(picture === "photo" ? w.scale_photo : w.scale, "scale", offered, kind, (chosen) => {
      wishes.dispatch({ type: "found", found: { card: null, balls: [], ball: -1, picking: "" } });
      answer(() => ({ scale: begun(chosen), said: null }));
    }),
    a.scale && parts(wishes, picture, a.scale, a, answer),
    said_of(a));
}

/** Changes part of the statement as it is by then: another part may have been answered since the
 * question was drawn. @param {Answer} answer @param {(now: Scale) => Partial<Scale>} change */
function restate(answer, change) {
  answer(({ scale }) => (scale ? { scale: { ...scale, ...change(scale) } } : {}));
}

/** @param {string} kind @returns {Scale} */
function begun(kind) {
  return ["card", "ball", "marker"].includes(kind) ? { kind, distance: "open" } : { kind };
}

/** @param {import("./panel.js").Wishes} wishes @param {string} picture @param {Scale} scale
 * @param {Answers} a @param {Answer} answer */
function parts(wishes, picture, scale, a, answer) {
  const w = words.confirm;
  const number = (/** @type {string} */ label, /** @type {string} */ name) => number_field(label, name, scale, (value) =>
    restate(answer, () => ({ [name]: value })));
  switch (scale.kind) {
    case "card": return [
      looker(wishes, w.find_card, scale.corners ? w.find_again : "", a, answer, find_card),
      scale.corners && h("p", { class: "found-said" }, w.card_found(scale.corners.length, w.papers[scale.paper] ?? scale.paper)),
      scale.corners && choice(w.card_stood, "stood", [["by-eye", w.card_by_eye], ["along-a-board", w.card_along_board]], scale.stood ?? "by-eye",
        (stood) => restate(answer, () => ({ stood }))),
      scale.corners && distance(scale, w.card_distance, w.card_distance_hint, answer),
      scale.corners && h("details", { class: "finer" }, h("summary", {}, w.card_more),
        number(w.card_bar, "bar_mm"), number(w.camera_distance, "camera_distance_mm"))];
    case "ball": return [
      looker(wishes, w.find_ball, scale.ball ? w.find_again : "", a, answer, find_balls),
      balls(wishes, scale, answer),
      number(w.ball_mm, "length_mm"),
      scale.ball && distance(scale, w.ball_distance, w.ball_distance_hint, answer)];
    case "marker": return [
      number(w.marker_mm, "length_mm"),
      h("p", { class: "hint" }, w.marker_hint),
      picture === "photo" ? distance(scale, w.marker_distance_photo, w.card_distance_hint, answer)
        : distance(scale, w.ball_distance, w.ball_distance_hint, answer)];
    case "magnification": return number(w.magnification, "magnification");
    case "distances":
      return h("div", { class: "row" }, number(w.source_to_detector, "source_to_detector_mm"), number(w.object_to_detector, "object_to_detector_mm"));
    default: return null;
  }
}

/** @param {string} label @param {string} name @param {Scale} scale @param {(value: number) => void} take
 * @param {Record<string, any>} [more] */
function number_field(label, name, scale, take, more = { min: 0 }) {
  return labelled(label, h("input", {
    type: "number", step: "any", inputmode: "decimal", name, "data-key": name, value: scale[name] ?? "", ...more,
    onchange: (/** @type {any} */ event) => take(event.target.value === "" ? NaN : Number(event.target.value)),
  }), "short");
}

/** Where it stood: a number of millimetres, or nobody knows. @param {Scale} scale @param {string} question
 * @param {string} hint @param {Answer} answer */
function distance(scale, question, hint, answer) {
  const w = words.confirm;
  const state = distance_of(scale);
  const known = (/** @type {number} */ offset_mm) =>
    restate(answer, (now) => ({ offset_mm, distance: Number.isFinite(offset_mm) ? "known" : "open", ...plane(now, known_plane_mm) }));
  const unknown = () =>
    restate(answer, (now) => ({ offset_mm: undefined, distance: "unknown", ...plane(now, unknown_plane_mm) }));
  return h("fieldset", { class: "choice distance", "data-name": "distance" },
    h("legend", {}, question),
    h("div", { class: "row" },
      number_field(w.distance_mm, "offset_mm", state === "known" ? scale : { kind: "" }, known, {}),
      h("label", { class: "tick" },
        h("input", { type: "checkbox", name: "distance-unknown", "data-key": "distance-unknown", checked: state === "unknown",
          onchange: (/** @type {any} */ event) => (event.target.checked ? unknown() : known(NaN)) }),
        h("span", {}, w.distance_unknown))),
    h("p", { class: "hint" }, hint));
}

/** @param {Scale} scale @param {number} mm */
const plane = (scale, mm) => (scale.kind === "card" ? {} : { out_of_plane_mm: mm });

/** A button that has the program look at the picture. @param {import("./panel.js").Wishes} wishes
 * @param {string} text @param {string} again @param {Answers} a
 * @param {Answer} answer
 * @param {(wishes: import("./panel.js").Wishes, answer: Answer) => Promise<void>} look */
function looker(wishes, text, again, a, answer, look) {
  const act = async () => {
    answer(() => ({ looking: text }));
    await look(wishes, answer);
    answer(() => ({ looking: "" }));
  };
  return h("div", { class: "row" },
    button(a.looking ? words.confirm.looking : again || text, act, { class: again ? "" : "main", disabled: Boolean(a.looking), "data-key": "look" }));
}

/** @param {import("./panel.js").Wishes} wishes @param {Answer} answer */
async function find_card(wishes, answer) {
  const { open, place } = wishes.state();
  const seen = open && (await wishes.server.find("card", place.case_id ?? "", open.digest));
  if (!seen) return;
  wishes.dispatch({ type: "found", digest: open.digest, found: { card: { paper: seen.paper, corners: seen.corners } } });
  const corners = seen.corners.map((/** @type {import("../state/types.js").CardCorner} */ each) => [each.id, each.x, each.y]);
  restate(answer, ({ kind }) => (kind === "card" ? { paper: seen.paper, corners, lens_35mm: seen.lens_35mm ?? 0 } : {}));
}

/** @param {import("./panel.js").Wishes} wishes @param {Answer} answer */
async function find_balls(wishes, answer) {
  const { open, place } = wishes.state();
  const seen = open && (await wishes.server.find("balls", place.case_id ?? "", open.digest));
  if (!seen) return;
  const only = seen.balls.length === 1;
  wishes.dispatch({ type: "found", digest: open.digest,
    found: { balls: seen.balls, ball: only ? 0 : -1, picking: only ? "" : "ball", said: seen.balls.length === 0 ? words.confirm.no_ball : "" } });
  if (only) restate(answer, ({ kind }) => (kind === "ball" ? chosen_ball(seen.balls[0]) : {}));
}

/** @param {import("../state/types.js").Ball} ball @returns {Partial<Scale>} */
function chosen_ball({ x, y, diameter_px, unsure_px }) {
  return { ball: { centre: [x, y], diameter_px, unsure_px } };
}

/** The candidates, to be tapped here or in the picture. @param {import("./panel.js").Wishes} wishes
 * @param {Scale} scale @param {Answer} answer */
function balls(wishes, scale, answer) {
  const w = words.confirm;
  const found = wishes.state().open?.found;
  if (!found || (found.balls.length === 0 && !found.said)) return scale.ball ? h("p", { class: "found-said" }, w.ball_kept(scale.ball.diameter_px)) : null;
  if (found.balls.length === 0) return h("p", { class: "found-said", role: "status" }, found.said);
  const tapped = found.balls[found.ball];
  if (tapped && (scale.ball?.centre[0] !== tapped.x || scale.ball?.centre[1] !== tapped.y))
    queueMicrotask(() => restate(answer, () => chosen_ball(tapped)));
  /** @type {[string, string][]} */
  const offered = found.balls.map((each, n) => [String(n), w.ball_candidate(n + 1, each.diameter_px)]);
  return choice(w.which_ball, "ball", offered, String(found.ball), (n) =>
    wishes.dispatch({ type: "found", found: { ball: Number(n), picking: "" } }));
}

/** What the scale gives as answered now, and what may make it worse. @param {Answers} a */
function said_of({ said, scale }) {
  if (!said || !scale || scale_missing(scale)) return null;
  const cautions = [...(said.cautions ?? []), ...said.conflicts];
  return h("div", { class: "scale-said", role: "status" },
    h("p", { class: "hint" }, said.sentence),
    cautions.map((each) => h("p", { class: "verdict-line caution" }, sign_of("caution"), h("span", {}, each))));
}
