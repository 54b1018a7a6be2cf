/**
 * The facts of a picture, asked once before its first point. What the header says is filled in;
 * what it doesn't say stays open until a person has chosen, so that nothing is decided by default.
 * @typedef {import("../state/types.js").PictureEntry} PictureEntry
 * @typedef {import("../state/types.js").PictureInfo} PictureInfo
 *
 * @typedef {object} Answers
 * @property {string | null} side
 * @property {string | null} end
 * @property {string | null} view
 * @property {string | null} toward
 * @property {string | null} shoeing
 * @property {string | null} loading
 * @property {string} letter
 * @property {string} letter_side
 * @property {import("../state/types.js").Scale} scale
 */
import { entry_of } from "../state/state.js";
import { words } from "../words/words.js";
import { button, choice, h, labelled, rebuilt, show } from "./dom.js";

const hind_words = /hind|plantar/i;
const fore_words = /fore|palmar/i;

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function confirm(wishes) {
  const element = h("section", { class: "confirm", hidden: true, "aria-label": words.confirm.title });
  const fresh = rebuilt(element);
  /** @type {{of: string, answers: Answers} | null} */
  let asked = null;
  let turn = 0;
  const answer = (/** @type {Partial<Answers>} */ some) => {
    if (asked) asked = { ...asked, answers: { ...asked.answers, ...some } };
    turn += 1;
    draw(wishes.state());
  };
  /** @param {import("./panel.js").State} state */
  function draw(state) {
    const entry = entry_of(state);
    const info = state.open?.info;
    const wanted = Boolean(state.open?.confirming && entry && info);
    show(element, wanted);
    if (!wanted || !entry || !info) {
      asked = null;
      return;
    }
    const again = state.open?.revision !== 0 || entry.loading !== "not-stated";
    asked ??= { of: entry.digest, answers: first_answers(entry, info, again) };
    const { answers } = asked;
    fresh([entry.digest, turn, info], () => questions(entry, info, answers, answer, () => done(wishes, entry, answers), () => remove(wishes, entry)));
  }
  return { element, update: draw };
}

/** @param {PictureEntry} entry @param {PictureInfo} info @param {boolean} again was it asked before?
 * @returns {Answers} */
function first_answers(entry, info, again) {
  const { hints } = entry;
  const said = `${info.facts.anatomic_region ?? ""} ${info.facts.view ?? ""} ${info.facts.body_part ?? ""}`;
  const view_said = Boolean(info.facts.view || info.facts.view_position);
  const end_said = hind_words.test(said) || fore_words.test(said);
  const [side, end] = entry.limb.split("-");
  return {
    side: again || hints.limb_side ? side : null,
    end: again || end_said ? end : null,
    view: again || view_said ? entry.view : null,
    toward: again || hints.toward ? entry.toward : null,
    shoeing: again ? entry.shoeing : null,
    loading: again ? entry.loading : null,
    letter: hints.marker?.letter ?? "none",
    letter_side: hints.marker?.side ?? "",
    scale: entry.scale,
  };
}

/** @param {Answers} a which answers are still missing, in words */
function missing(a) {
  const w = words.confirm.missing_names;
  const number_of = { marker: "length_mm", magnification: "magnification", distances: "object_to_detector_mm" };
  const number = /** @type {Record<string, string>} */ (number_of)[a.scale.kind];
  return [
    a.side === null && w.side, a.end === null && w.end, a.view === null && w.view,
    a.toward === null && w.toward, a.shoeing === null && w.shoeing, a.loading === null && w.loading,
    number && !(a.scale[number] > 0) && w.number,
  ].filter((each) => typeof each === "string");
}

/** @param {PictureEntry} entry @param {PictureInfo} info @param {Answers} a
 * @param {(some: Partial<Answers>) => void} answer @param {() => void} done @param {() => void} take_away */
function questions(entry, info, a, answer, done, take_away) {
  const w = words.confirm;
  const says = (/** @type {string | undefined | null} */ what) => (what ? `(${w.file_says(what)})` : "");
  /** @type {[string, string][]} */
  const sides = [["left", w.left], ["right", w.right]];
  const open = missing(a);
  return [
    h("h2", {}, w.title),
    h("p", { class: "hint" }, w.lead),
    choice(w.view, "view", Object.entries(words.views_full), a.view, (view) => answer({ view }), says(info.facts.view)),
    choice(w.side, "side", sides, a.side, (side) => answer({ side }), says(entry.hints.limb_side)),
    choice(w.end, "end", [["fore", w.fore], ["hind", w.hind]], a.end, (end) => answer({ end }), says(info.facts.anatomic_region)),
    choice(a.view === "dorsopalmar" ? w.toward_lateral : w.toward_toe, "toward", sides, a.toward, (toward) => answer({ toward }), says(entry.hints.toward)),
    choice(w.shoeing, "shoeing", [["bare", w.bare], ["shod", w.shod]], a.shoeing, (shoeing) => answer({ shoeing })),
    choice(w.loading, "loading", Object.entries(w.loadings), a.loading, (loading) => answer({ loading })),
    choice(w.letter, "letter", Object.entries(w.letters), a.letter, (letter) => answer({ letter })),
    a.letter !== "none" && choice(w.letter_side, "letter-side", sides, a.letter_side, (letter_side) => answer({ letter_side })),
    choice(w.scale, "scale", scale_choices(a.scale.kind), a.scale.kind, (kind) => answer({ scale: { ...a.scale, kind } })),
    scale_numbers(a, answer),
    h("div", { class: "row done" },
      button(w.done, done, { class: "main", disabled: open.length > 0, "data-key": "done" }),
      open.length > 0 && h("p", { class: "hint", role: "status" }, w.missing(open.join(", ")))),
    button(words.visits.remove_picture, take_away, { class: "plain", "data-key": "take-away" }),
  ];
}

/** Kinds that the page doesn't offer but the record has stay choosable. @param {string} kind
 * @returns {[string, string][]} */
function scale_choices(kind) {
  const known = Object.entries(words.confirm.scales);
  return known.some(([each]) => each === kind) ? known : [...known, [kind, kind]];
}

/** @param {Answers} a @param {(some: Partial<Answers>) => void} answer */
function scale_numbers(a, answer) {
  const w = words.confirm;
  const number = (/** @type {string} */ label, /** @type {string} */ name) =>
    labelled(label, h("input", {
      type: "number", min: 0, step: "any", inputmode: "decimal", name, "data-key": name, value: a.scale[name] ?? "",
      onchange: (/** @type {any} */ event) => answer({ scale: { ...a.scale, [name]: Number(event.target.value) } }),
    }));
  switch (a.scale.kind) {
    case "marker": return h("div", { class: "row" }, number(w.marker_mm, "length_mm"), h("p", { class: "hint" }, w.marker_hint));
    case "magnification": return number(w.magnification, "magnification");
    case "distances":
      return h("div", { class: "row" }, number(w.source_to_detector, "source_to_detector_mm"), number(w.object_to_detector, "object_to_detector_mm"));
    default: return null;
  }
}

/** The file and its points are kept: adding the file again brings them back.
 * @param {import("./panel.js").Wishes} wishes @param {PictureEntry} entry */
async function remove(wishes, entry) {
  const { record, place } = wishes.state();
  if (!record || !place.visit) return;
  if (await wishes.server.remove_picture(record.id, place.visit, entry.digest)) wishes.go({ screen: "case", case_id: record.id });
}

/** @param {import("./panel.js").Wishes} wishes @param {PictureEntry} entry @param {Answers} a */
async function done(wishes, entry, a) {
  const visit = wishes.state().place.visit;
  const case_id = wishes.state().record?.id;
  if (!visit || !case_id) return;
  const marker = a.letter === "none" ? {} : { letter: a.letter, ...(a.letter_side ? { side: a.letter_side } : {}) };
  const saved = await wishes.server.save_picture(case_id, visit, {
    ...entry,
    limb: `${a.side}-${a.end}`,
    view: a.view ?? entry.view,
    toward: a.toward ?? entry.toward,
    shoeing: a.shoeing ?? entry.shoeing,
    loading: a.loading ?? entry.loading,
    sides_checked: "no",
    hints: { ...entry.hints, marker },
    scale: a.scale,
  });
  if (saved) wishes.dispatch({ type: "confirming", digest: entry.digest, yes: false });
}
