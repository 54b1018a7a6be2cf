/**
 * The facts of a picture, asked once before its first point. What the header says is filled in;
 * what it doesn't say stays open until a person has chosen, so that nothing is decided by default.
 * @typedef {import("../state/types.js").PictureEntry} PictureEntry
 * @typedef {import("../state/types.js").PictureInfo} PictureInfo
 * @typedef {import("../state/types.js").Protocol} Protocol
 *
 * @typedef {object} Answers
 * @property {string | null} protocol
 * @property {string | null} side
 * @property {string | null} end
 * @property {string | null} toward
 * @property {string | null} shoeing
 * @property {string | null} loading
 * @property {string} letter
 * @property {string} letter_side
 * @property {import("../state/types.js").Scale | null} scale
 * @property {import("../state/types.js").CalibrationSaid | null} said of the scale
 * @property {string} looking what is being looked for in the picture
 *
 * @typedef {(some: (now: Answers) => Partial<Answers>) => void} Answer what became known, given the
 *     answers as they are by then
 */
import { entry_of, protocol_for } from "../state/state.js";
import { words } from "../words/words.js";
import { button, choice, h, rebuilt, show } from "./dom.js";
import { for_leg, protocols } from "./protocols.js";
import { found_in, scale_questions, scale_missing, with_numbers } from "./scale.js";

const hind_words = /hind|plantar/i;
const fore_words = /fore|palmar/i;
/** Views in which the limb is held up. */
const lifted = ["sole", "limb-hanging"];

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function confirm(wishes) {
  const element = h("section", { class: "confirm", hidden: true, "aria-label": words.confirm.title });
  const fresh = rebuilt(element);
  /** @type {{of: string, answers: Answers} | null} */
  let asked = null;
  let turn = 0;
  /** @type {Answer} */
  const answer = (change) => {
    if (!asked) return;
    const some = change(asked.answers);
    asked = { ...asked, answers: { ...asked.answers, ...some } };
    turn += 1;
    draw(wishes.state());
    if (some.scale) try_scale(some.scale);
  };
  /** @param {import("../state/types.js").Scale} scale */
  async function try_scale(scale) {
    const { open, place } = wishes.state();
    /** @type {import("../state/types.js").Landmarks} */
    const landmarks = open?.points.now.landmarks ?? {};
    const ends_missing = scale.kind === "marker" && !(landmarks["marker-1"] && landmarks["marker-2"]);
    if (!open || !place.case_id || ends_missing || scale_missing(scale)) return answer(() => ({ said: null }));
    const said = await wishes.server.try_scale(place.case_id, open.digest, scale, landmarks);
    if (asked?.answers.scale === scale) answer(() => ({ said }));
  }
  /** What was found and kept earlier is drawn again. @param {import("../state/types.js").Scale} scale */
  function show_known(scale) {
    const found = found_in(scale);
    if (found) wishes.dispatch({ type: "found", found });
    if (scale.kind !== "automatic") try_scale(scale);
  }
  /** @param {import("./panel.js").State} state */
  function draw(state) {
    const entry = entry_of(state);
    const info = state.open?.info;
    const all = state.practice?.protocols;
    const wanted = Boolean(state.open?.confirming && entry && info && all);
    show(element, wanted);
    if (!wanted || !entry || !info || !all) {
      asked = null;
      return;
    }
    const again = state.open?.revision !== 0 || entry.loading !== "not-stated";
    if (asked?.of !== entry.digest) {
      asked = { of: entry.digest, answers: first_answers(entry, info, all, again) };
      if (again) queueMicrotask(() => show_known(entry.scale));
    }
    const { answers } = asked;
    const finish = () => asked && missing(asked.answers).length === 0 && save(wishes, entry, all, asked.answers);
    fresh([entry.digest, turn, info, all, state.open?.found], () =>
      questions(wishes, entry, info, all, answers, answer, finish));
  }
  return { element, update: draw };
}

/** @param {PictureEntry} entry @param {PictureInfo} info @param {Protocol[]} all
 * @param {boolean} again was it asked before? @returns {Answers} */
function first_answers(entry, info, all, again) {
  const { hints } = entry;
  const said = `${info.facts.anatomic_region ?? ""} ${info.facts.view ?? ""} ${info.facts.body_part ?? ""}`;
  const view_said = Boolean(info.facts.view || info.facts.view_position);
  const end_said = hind_words.test(said) || fore_words.test(said);
  const [side, end] = entry.limb.split("-");
  return {
    protocol: again || view_said ? protocol_for(all, entry)?.id ?? null : null,
    side: again || hints.limb_side ? side : null,
    end: again || end_said ? end : null,
    toward: again || hints.toward ? entry.toward : null,
    shoeing: again ? entry.shoeing : null,
    loading: again ? entry.loading : null,
    letter: hints.marker?.letter ?? "none",
    letter_side: hints.marker?.side ?? "",
    scale: again || info.kind === "radiograph" ? entry.scale : null,
    said: null,
    looking: "",
  };
}

/** @param {Answers} a which answers are still missing, in words */
function missing(a) {
  const w = words.confirm.missing_names;
  return [
    a.protocol === null && w.protocol, a.side === null && w.side, a.end === null && w.end,
    a.toward === null && w.toward, a.shoeing === null && w.shoeing, a.loading === null && w.loading,
    scale_missing(a.scale),
  ].filter((each) => typeof each === "string" && each !== "");
}

/** @param {import("./panel.js").Wishes} wishes @param {PictureEntry} entry @param {PictureInfo} info
 * @param {Protocol[]} all @param {Answers} a @param {Answer} answer @param {() => void} finish */
function questions(wishes, entry, info, all, a, answer, finish) {
  const w = words.confirm;
  const says = (/** @type {string | undefined | null} */ what) => (what ? `(${w.file_says(what)})` : "");
  /** @type {[string, string][]} */
  const sides = [["left", w.left], ["right", w.right]];
  const open = missing(a);
  const protocol = all.find((each) => each.id === a.protocol);
  const radiograph = info.kind === "radiograph";
  const end = (/** @type {string} */ chosen) => answer((now) => ({ end: chosen, protocol: for_leg(all, now.protocol, chosen) }));
  return [
    h("h2", {}, w.title),
    h("p", { class: "hint" }, radiograph ? w.lead : w.lead_photo),
    protocols(all, info.kind, a.end, a.protocol, (id) => answer((now) => chosen_protocol(all, id, now)), says(info.facts.view)),
    choice(w.side, "side", sides, a.side, (side) => answer(() => ({ side })), says(entry.hints.limb_side)),
    choice(w.end, "end", [["fore", w.fore], ["hind", w.hind]], a.end, end, says(info.facts.anatomic_region)),
    choice(toward_words(protocol), "toward", sides, a.toward, (toward) => answer(() => ({ toward })), says(entry.hints.toward)),
    choice(w.shoeing, "shoeing", [["bare", w.bare], ["shod", w.shod]], a.shoeing, (shoeing) => answer(() => ({ shoeing }))),
    choice(protocol?.shows === "limb" ? w.loading_limb : w.loading, "loading",
      Object.entries(w.loadings), a.loading, (loading) => answer(() => ({ loading }))),
    radiograph && choice(w.letter, "letter", Object.entries(w.letters), a.letter, (letter) => answer(() => ({ letter }))),
    a.letter !== "none" && choice(w.letter_side, "letter-side", sides, a.letter_side, (letter_side) => answer(() => ({ letter_side }))),
    scale_questions(wishes, info.kind, a, answer),
    h("div", { class: "row done" },
      button(w.done, finish, { class: "main", disabled: open.length > 0, "data-key": "done" }),
      open.length > 0 && h("p", { class: "hint", role: "status" }, w.missing(open.join(", ")))),
    button(words.visits.remove_picture, () => remove(wishes, entry), { class: "plain", "data-key": "take-away" }),
  ];
}

/** What follows from the kind of picture is filled in; it can be changed.
 * @param {Protocol[]} all @param {string} id @param {Answers} a @returns {Partial<Answers>} */
function chosen_protocol(all, id, a) {
  const protocol = all.find((each) => each.id === id);
  const end = protocol && protocol.legs !== "all" ? protocol.legs : a.end;
  const loading = protocol && lifted.includes(protocol.view) ? "not-loaded" : a.loading;
  return { protocol: id, end, loading };
}

/** @param {Protocol | undefined} protocol */
function toward_words(protocol) {
  const w = words.confirm;
  if (!protocol) return w.toward_unknown;
  if (!protocol.from_the_side) return w.toward_lateral;
  return protocol.shows === "limb" ? w.toward_front : w.toward_toe;
}

/** The file and its points are kept: adding the file again brings them back.
 * @param {import("./panel.js").Wishes} wishes @param {PictureEntry} entry */
async function remove(wishes, entry) {
  const { record, place } = wishes.state();
  if (!record || !place.visit) return;
  if (await wishes.server.remove_picture(record.id, place.visit, entry.digest)) wishes.go({ screen: "case", case_id: record.id });
}

/** @param {import("./panel.js").Wishes} wishes @param {PictureEntry} entry @param {Protocol[]} all
 * @param {Answers} a */
async function save(wishes, entry, all, a) {
  const visit = wishes.state().place.visit;
  const case_id = wishes.state().record?.id;
  if (!visit || !case_id) return;
  const marker = a.letter === "none" ? {} : { letter: a.letter, ...(a.letter_side ? { side: a.letter_side } : {}) };
  const protocol = all.find((each) => each.id === a.protocol);
  const saved = await wishes.server.save_picture(case_id, visit, {
    ...entry,
    limb: `${a.side}-${a.end}`,
    view: protocol?.view ?? entry.view,
    protocol: protocol?.id ?? "",
    toward: a.toward ?? entry.toward,
    shoeing: a.shoeing ?? entry.shoeing,
    loading: a.loading ?? entry.loading,
    sides_checked: "no",
    hints: { ...entry.hints, marker },
    scale: a.scale ? with_numbers(a.scale) : entry.scale,
  });
  if (saved) wishes.dispatch({ type: "confirming", digest: entry.digest, yes: false });
}
