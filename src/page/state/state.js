/**
 * Everything the page knows, as one value, and what an action makes of it. Pure: no document, no
 * request, no clock.
 * @typedef {import("./types.js").Case} Case
 * @typedef {import("./types.js").CaseSummary} CaseSummary
 * @typedef {import("./types.js").Landmarks} Landmarks
 * @typedef {import("./types.js").PictureEntry} PictureEntry
 * @typedef {import("./types.js").PictureInfo} PictureInfo
 * @typedef {import("./types.js").FitAsked} FitAsked
 * @typedef {import("./types.js").Plan} Plan
 * @typedef {{limb: string, rows: import("./types.js").PostureRow[]}} PostureFoot
 * @typedef {{limbs: PostureFoot[], joints: import("./types.js").JointRow[]}} Compared
 * @typedef {import("./types.js").Practice} Practice
 * @typedef {import("./types.js").Result} Result
 * @typedef {import("./types.js").Window} Window
 * @typedef {import("./points.js").Points} Points
 * @typedef {import("./view.js").View} View
 * @typedef {import("./view.js").Size} Size
 *
 * @typedef {object} Place which screen, of what
 * @property {"cases" | "case" | "picture" | "plan"} screen
 * @property {string} [case_id]
 * @property {string} [visit]
 * @property {string} [digest]
 *
 * @typedef {"saved" | "saving" | "waiting" | "conflict"} Keeping
 *
 * @typedef {object} Open the picture on the stage
 * @property {string} digest
 * @property {PictureInfo | null} info
 * @property {boolean} has_pixels
 * @property {boolean} loaded has its reading arrived?
 * @property {boolean} confirming is the picture being asked about?
 * @property {Points} points
 * @property {number} revision
 * @property {number} turn this reader's n-th reading of the picture
 * @property {"open" | "blind"} sight
 * @property {boolean} done has the reader said so?
 * @property {import("./types.js").ReadingLine[] | null} readers who has read the picture
 * @property {import("./types.js").PictureAgreement | null} agreement
 * @property {Keeping} keeping
 * @property {{landmarks: Landmarks, revision: number, saved: string} | null} theirs after a conflict
 * @property {Result | null} result
 * @property {number} result_turn
 * @property {string | null} lit measurement whose construction is shown
 * @property {string | null} lit_check check whose points are shown
 * @property {import("./found.js").Found} found what the program saw in the picture
 * @property {View} view
 * @property {Window | null} window
 * @property {boolean} inverted
 * @property {"points" | "brightness"} mode
 * @property {boolean} loupe
 * @property {"quiet" | "lit"} lines
 *
 * @typedef {object} State
 * @property {Place} place
 * @property {Practice | null} practice
 * @property {CaseSummary[] | null} cases
 * @property {Case | null} record
 * @property {Open | null} open
 * @property {{visit: string, plan: Plan | null, loaded: boolean, busy: boolean, fit?: FitAsked | null} | null} planning
 * @property {Record<string, Compared>} postures by visit
 * @property {string} reader
 * @property {boolean} naming is the reader's name being asked for?
 * @property {"indoors" | "outdoors"} theme
 * @property {"ask" | "points" | "numbers" | "readers"} tab
 * @property {boolean} drawer is the side panel shown?
 * @property {boolean} keys_shown
 * @property {Size} stage
 * @property {string} notice one sentence, or empty
 * @property {boolean} reachable does the program answer?
 * @property {string[]} uploading file names on their way
 *
 * @typedef {{type: string} & Record<string, any>} Action
 */
import * as found from "./found.js";
import * as points from "./points.js";
import * as views from "./view.js";

/** A photo's greys as they are. @type {Window} */
const whole_photo = { centre: 128, width: 256, shape: "linear-exact" };

/** @param {Partial<State>} [kept] @returns {State} */
export function begin(kept = {}) {
  return {
    place: { screen: "cases" },
    practice: null,
    cases: null,
    record: null,
    open: null,
    planning: null,
    postures: {},
    reader: "",
    naming: false,
    theme: "indoors",
    tab: "ask",
    drawer: true,
    keys_shown: false,
    stage: { width: 0, height: 0 },
    notice: "",
    reachable: true,
    uploading: [],
    ...kept,
  };
}

/** @type {Record<string, (state: State, action: Action) => State>} */
const whole = {
  "practice": (s, a) => ({ ...s, practice: a.practice }),
  "cases": (s, a) => ({ ...s, cases: a.cases }),
  "record": (s, a) => ({ ...s, record: a.record }),
  "picture-entry": (s, a) => ({ ...s, record: with_entry(s.record, a.visit, a.picture) }),
  "go": (s, a) => go(s, a.place),
  "reader": (s, a) => ({ ...s, reader: a.name, naming: false, open: s.open && unread(s.open) }),
  "ask-reader": (s) => ({ ...s, naming: true }),
  "close-reader": (s) => ({ ...s, naming: false }),
  "theme": (s) => ({ ...s, theme: s.theme === "indoors" ? "outdoors" : "indoors" }),
  "tab": (s, a) => ({ ...s, tab: a.tab, drawer: true }),
  "drawer": (s) => ({ ...s, drawer: !s.drawer }),
  "keys": (s) => ({ ...s, keys_shown: !s.keys_shown }),
  "notice": (s, a) => ({ ...s, notice: a.sentence }),
  "reachable": (s, a) => (s.reachable === a.yes ? s : { ...s, reachable: a.yes }),
  "uploading": (s, a) => ({ ...s, uploading: [...s.uploading, a.name] }),
  "uploaded": (s, a) => ({ ...s, uploading: s.uploading.filter((each) => each !== a.name) }),
  "stage": (s, a) => on_stage(s, a.size),
  "plan": (s, a) => ({
    ...s,
    planning: { visit: a.visit, plan: a.plan, loaded: true, busy: false },
  }),
  "fit": (s, a) => (s.planning ? { ...s, planning: { ...s.planning, fit: a.fit } } : s),
  "postures": (s, a) => ({ ...s, postures: { ...s.postures, [a.visit]: a.compared } }),
  "light": (s, a) => (s.open ? { ...s, tab: "numbers", open: light(s.open, a.id) } : s),
  "planning": (s, a) =>
    s.planning ? { ...s, planning: { ...s.planning, busy: a.busy } } : s,
};

/** @type {Record<string, (open: Open, action: Action, state: State) => Open>} */
const of_picture = {
  "info": (o, a, s) => fitted({ ...o, info: a.info, window: o.window ?? a.info.window ?? whole_photo }, s.stage),
  "pixels": (o) => ({ ...o, has_pixels: true }),
  "reading": (o, a) => ({
    ...o,
    loaded: true,
    revision: a.revision,
    turn: a.turn,
    sight: a.sight,
    done: a.done,
    keeping: a.keeping,
    points: points.points_from(a.landmarks, a.kept),
    confirming: a.confirming ?? o.confirming,
  }),
  "confirming": (o, a) => ({ ...o, confirming: a.yes, found: { ...found.nothing, offers: o.found.offers } }),
  "found": (o, a) => ({ ...o, found: { ...o.found, ...a.found } }),
  "picked": (o, a) => ({ ...o, found: found.picked(o.found, a.at, a.reach) }),
  "offers-confirmed": (o, a) => ({
    ...touched(o, points.add(o.points, found.landmarks_of(o.found, a.numbers))),
    found: found.without_offers(o.found, a.numbers),
  }),
  "offers-dropped": (o, a) => ({ ...o, found: found.without_offers(o.found, a.numbers) }),
  "offer-named": (o, a) => ({ ...o, found: found.named(o.found, a.n, a.id) }),
  "light-check": (o, a) => ({ ...o, lit: null, lit_check: o.lit_check === a.id ? null : a.id }),
  "result": (o, a) =>
    a.turn > o.result_turn ? { ...o, result: a.result, result_turn: a.turn } : o,
  "saved": (o, a) => ({
    ...o,
    revision: a.revision,
    done: is_frozen(o),
    keeping: a.landmarks === o.points.now.landmarks ? "saved" : o.keeping,
  }),
  "turn-done": (o, a) => ({ ...o, revision: a.revision, done: true }),
  "readers": (o, a) => ({ ...o, readers: a.readers }),
  "agreement": (o, a) => ({ ...o, agreement: a.agreement }),
  "keeping": (o, a) => ({ ...o, keeping: a.keeping }),
  "conflict": (o, a) => ({ ...o, keeping: "conflict", theirs: a.theirs }),
  "mine-on-top": (o) =>
    o.theirs
      ? { ...o, theirs: null, revision: o.theirs.revision, keeping: "saving" }
      : o,
  "take-theirs": (o) =>
    o.theirs
      ? {
          ...o,
          theirs: null,
          revision: o.theirs.revision,
          keeping: "saved",
          points: points.replace(o.points, o.theirs.landmarks),
        }
      : o,
  "place": (o, a) => touched(o, points.place(o.points, a.id, a.x, a.y)),
  "move": (o, a) => touched(o, points.move(o.points, a.id, a.x, a.y, a.run)),
  "points-added": (o, a) => touched(o, points.add(o.points, a.landmarks)),
  "remove": (o, a) => touched(o, points.remove(o.points, a.id)),
  "skip": (o, a) => touched(o, points.skip(o.points, a.id)),
  "undo": (o) => touched(o, points.undo(o.points)),
  "redo": (o) => touched(o, points.redo(o.points)),
  "select": (o, a) => ({ ...o, points: { ...o.points, selected: a.id, named: true, chosen: null, run: "" } }),
  "choose": (o, a) => ({ ...o, points: { ...o.points, chosen: a.id, selected: null } }),
  "also": (o, a) => ({ ...o, points: { ...o.points, also: [...o.points.also, a.want] } }),
  "view": (o, a) => ({ ...o, view: a.view }),
  "fit": (o, _, s) => fitted({ ...o, view: { ...o.view, fitted: true } }, s.stage),
  "window": (o, a) => ({ ...o, window: a.window }),
  "invert": (o) => ({ ...o, inverted: !o.inverted }),
  "mode": (o, a) => ({ ...o, mode: a.mode }),
  "loupe": (o) => ({ ...o, loupe: !o.loupe }),
  "lines": (o) => ({ ...o, lines: o.lines === "quiet" ? "lit" : "quiet" }),
};

/**
 * An action with a `digest` speaks of that picture and is dropped when another one is open.
 * @param {State} state
 * @param {Action} action
 * @returns {State}
 */
export function next(state, action) {
  const change = whole[action.type];
  if (change) return change(state, action);
  const picture_change = of_picture[action.type];
  if (!picture_change) throw new Error(`No such action: ${action.type}`);
  if (!state.open || (action.digest && action.digest !== state.open.digest)) return state;
  return { ...state, open: picture_change(state.open, action, state) };
}

/** The picture without anybody's points, until the new reader's arrive. @param {Open} open @returns {Open} */
function unread(open) {
  return { ...open, loaded: false, points: points.no_points, revision: 0, theirs: null, result: null, found: found.nothing, keeping: "saved", readers: null, agreement: null };
}

/** @param {Open} open @param {string} id @returns {Open} */
function light(open, id) {
  return { ...open, lit: open.lit === id ? null : id, lit_check: null };
}

/** A blind reading stays as it was when its reader was done. @param {Open} open */
export function is_frozen(open) {
  return open.sight === "blind" && open.done;
}

/** @param {Open} open @param {Points} after @returns {Open} */
function touched(open, after) {
  const moved = after.now.landmarks !== open.points.now.landmarks;
  if (moved && is_frozen(open)) return open;
  const keeping = moved && open.keeping !== "conflict" ? "saving" : open.keeping;
  return { ...open, points: after, keeping };
}

/** @param {State} state @param {Place} place @returns {State} */
function go(state, place) {
  const same_picture = place.screen === "picture" && state.open?.digest === place.digest;
  const same_plan = place.screen === "plan" && state.planning?.visit === place.visit;
  const same_case = state.record?.id === place.case_id;
  return {
    ...state,
    place,
    tab: place.screen === "picture" && !same_picture ? "ask" : state.tab,
    notice: "",
    record: same_case ? state.record : null,
    open: place.screen !== "picture" ? null : same_picture ? state.open : opened(place.digest ?? ""),
    planning: place.screen !== "plan" ? null : same_plan ? state.planning
      : { visit: place.visit ?? "", plan: null, loaded: false, busy: false },
  };
}

/** @param {string} digest @returns {Open} */
function opened(digest) {
  return {
    digest,
    info: null,
    has_pixels: false,
    loaded: false,
    confirming: false,
    points: points.no_points,
    revision: 0,
    turn: 1,
    sight: "open",
    done: false,
    readers: null,
    agreement: null,
    keeping: "saved",
    theirs: null,
    result: null,
    result_turn: 0,
    lit: null,
    lit_check: null,
    found: found.nothing,
    view: { scale: 1, x: 0, y: 0, fitted: true },
    window: null,
    inverted: false,
    mode: "points",
    loupe: true,
    lines: "quiet",
  };
}

/** @param {State} state @param {Size} size @returns {State} */
function on_stage(state, size) {
  if (size.width === state.stage.width && size.height === state.stage.height) return state;
  return { ...state, stage: size, open: state.open && fitted(state.open, size) };
}

/** @param {Open} open @param {Size} stage @returns {Open} */
function fitted(open, stage) {
  if (!open.info || !open.view.fitted || stage.width === 0) return open;
  return { ...open, view: views.fit(stage, shape_of(open.info)) };
}

/** @param {PictureInfo} info @returns {import("./view.js").Shape} */
export function shape_of(info) {
  return { columns: info.columns, rows: info.rows, aspect: info.pixel_aspect ?? 1 };
}

/** @param {Case | null} record @param {string} visit @param {PictureEntry} picture */
function with_entry(record, visit, picture) {
  if (!record) return record;
  const visits = record.visits.map((each) =>
    each.id === visit ? { ...each, pictures: with_picture(each.pictures, picture) } : each,
  );
  return { ...record, visits };
}

/** @param {PictureEntry[]} pictures @param {PictureEntry} picture */
function with_picture(pictures, picture) {
  const known = pictures.some((each) => each.digest === picture.digest);
  return known
    ? pictures.map((each) => (each.digest === picture.digest ? picture : each))
    : [...pictures, picture];
}

/** @param {State} state */
export function visit_of(state) {
  return state.record?.visits.find((each) => each.id === state.place.visit) ?? null;
}

/** @param {State} state @returns {PictureEntry | null} */
export function entry_of(state) {
  return visit_of(state)?.pictures.find((each) => each.digest === state.open?.digest) ?? null;
}

/** @param {State} state @returns {import("./types.js").Protocol | null} */
export function protocol_of(state) {
  const entry = entry_of(state);
  return entry && protocol_of_entry(state, entry);
}

/** @param {State} state @param {PictureEntry} entry */
export function protocol_of_entry(state, entry) {
  return protocol_for(state.practice?.protocols ?? [], entry);
}

/**
 * The protocol that a picture names, else the first of its view and leg.
 * @param {import("./types.js").Protocol[]} protocols
 * @param {Pick<PictureEntry, "protocol" | "view" | "limb">} entry
 */
export function protocol_for(protocols, entry) {
  const of_view = protocols.filter((each) => each.view === entry.view);
  return of_view.find((each) => each.id === entry.protocol)
    ?? of_view.find((each) => fits_leg(each, entry.limb.endsWith("hind") ? "hind" : "fore")) ?? of_view[0] ?? null;
}

/** @param {import("./types.js").Protocol} protocol @param {string | null} end fore, hind or not known */
export const fits_leg = (protocol, end) => end === null || protocol.legs === "all" || protocol.legs === end;

/** @param {State} state @returns {import("./types.js").LandmarkGuide[]} */
export function asked_in(state) {
  const protocol = protocol_of(state);
  const entry = entry_of(state);
  return protocol && entry ? points.asked_of(protocol.landmarks, entry) : [];
}

/** @param {State} state @returns {import("./types.js").LandmarkGuide | null} */
export function asking_in(state) {
  if (!state.open?.loaded || state.open.confirming || state.open.found.picking) return null;
  return points.asking(state.open.points, asked_in(state));
}

/**
 * The two readers' points that are held against each other, while that is looked at.
 * @param {State} state @returns {{first: Landmarks, second: Landmarks} | null}
 */
export function pair_in({ open, tab }) {
  const found = tab === "readers" ? open?.agreement : null;
  if (!found) return null;
  const of = (/** @type {{reader: string, turn: number}} */ who) =>
    open?.readers?.find((each) => each.reader === who.reader && each.turn === who.turn)?.landmarks ?? {};
  return { first: of(found.first), second: of(found.second) };
}
