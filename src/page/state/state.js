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
 * @property {"try"} [tab] of the picture screen, when not the first
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
 * @property {Landmarks} base the points of that revision
 * @property {number} turn this reader's n-th reading of the picture
 * @property {"open" | "blind"} sight
 * @property {boolean} done has the reader said so?
 * @property {import("./types.js").ReadingLine[] | null} readers who has read the picture
 * @property {import("./types.js").PictureAgreement | null} agreement
 * @property {Keeping} keeping
 * @property {{landmarks: Landmarks, revision: number, clashes: string[]} | null} theirs of another
 *   device of the same reader, while points that both moved are being asked about
 * @property {Result | null} result
 * @property {number} result_turn
 * @property {Landmarks | null} measured the points that the result is of
 * @property {string | null} lit measurement whose construction is shown
 * @property {string | null} lit_check check whose points are shown
 * @property {import("./found.js").Found} found what the program saw in the picture
 * @property {View} view
 * @property {Window | null} window
 * @property {import("./view.js").Tone} tone
 * @property {boolean} inverted
 * @property {"points" | "brightness" | "turning"} mode what a drag on empty ground does
 * @property {{visit: string, mirrored: boolean, open: Open} | null} beside a second picture, only looked at
 * @property {boolean} choosing_beside is it being asked which?
 * @property {boolean} loupe
 * @property {"quiet" | "lit"} lines
 *
 * @typedef {object} State
 * @property {Place} place
 * @property {Practice | null} practice
 * @property {CaseSummary[] | null} cases
 * @property {Case | null} record
 * @property {Open | null} open
 * @property {{visit: string, plan: Plan | null, loaded: boolean, busy: boolean, fit?: FitAsked | null,
 *   outlooks?: import("./types.js").Outlook[], asks: Record<number, import("./merge.js").Decided>} | null} planning asks: my decisions on lines
 *   that somebody else decided otherwise meanwhile
 * @property {Record<string, Compared>} postures by visit
 * @property {import("./trying.js").Trying | null} trying a change of a foot that is tried on its pictures
 * @property {string} reader
 * @property {boolean} naming is the reader's name being asked for?
 * @property {"indoors" | "outdoors"} theme
 * @property {"ask" | "points" | "numbers" | "readers" | "try"} tab
 * @property {boolean} others_shown are the other readers' points drawn?
 * @property {boolean} drawer is the side panel shown?
 * @property {boolean} keys_shown
 * @property {boolean} settles do points settle on edges?
 * @property {boolean} following does each next point come up near to where it should be?
 * @property {Record<string, number>} drawings height over width of the drawings known so far, by name
 * @property {Size} stage
 * @property {string} notice one sentence, or empty
 * @property {boolean} reachable does the program answer?
 * @property {string[]} uploading file names on their way
 *
 * @typedef {{type: string} & Record<string, any>} Action
 */
import { expected_place } from "./expected.js";
import * as found from "./found.js";
import { told_apart, with_brought } from "./merge.js";
import { others_among } from "./others.js";
import * as points from "./points.js";
import { kept_same } from "./same.js";
import * as trying from "./trying.js";
import * as views from "./view.js";
import { ways_of } from "./ways.js";

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
    trying: null,
    reader: "",
    naming: false,
    theme: "indoors",
    tab: "ask",
    others_shown: true,
    drawer: true,
    keys_shown: false,
    settles: true,
    following: true,
    drawings: {},
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
  "record": (s, a) => changed(s, "record", a.record),
  "picture-entry": (s, a) => ({ ...s, record: with_entry(s.record, a.visit, a.picture) }),
  "go": (s, a) => go(s, a.place),
  "reader": (s, a) => ({ ...s, reader: a.name, naming: false, open: s.open && unread(s.open) }),
  "ask-reader": (s) => ({ ...s, naming: true }),
  "close-reader": (s) => ({ ...s, naming: false }),
  "theme": (s) => ({ ...s, theme: s.theme === "indoors" ? "outdoors" : "indoors" }),
  "others": (s) => ({ ...s, others_shown: !s.others_shown }),
  "tab": (s, a) => (a.tab === "try" ? with_trying(s) : { ...s, tab: a.tab, drawer: true }),
  "wish": (s, a) => (s.trying ? { ...s, trying: trying.wish(s.trying, a.variable, a.value) } : s),
  "let-go": (s) => (s.trying ? { ...s, trying: trying.let_go(s.trying) } : s),
  "wish-shoe": (s, a) => (s.trying ? { ...s, trying: trying.wish_shoe(s.trying, a.shoe) } : s),
  "try-nothing": (s) => (s.trying ? { ...s, trying: trying.wish_nothing(s.trying) } : s),
  "untried": (s, a) => (s.trying && trying.is_about(s.trying, a) ? { ...s, trying: trying.unanswered(s.trying) } : s),
  "tried": (s, a) => (s.trying && trying.is_about(s.trying, a) ? { ...s, trying: trying.answered(s.trying, a.tried, a.wished) } : s),
  "drawer": (s) => ({ ...s, drawer: !s.drawer }),
  "settles": (s) => ({ ...s, settles: !s.settles }),
  "keys": (s) => ({ ...s, keys_shown: !s.keys_shown }),
  "notice": (s, a) => ({ ...s, notice: a.sentence }),
  "reachable": (s, a) => (s.reachable === a.yes ? s : { ...s, reachable: a.yes }),
  "follow": (s) => ({ ...s, following: !s.following }),
  "drawing": (s, a) => ({ ...s, drawings: { ...s.drawings, [a.name]: a.aspect } }),
  "uploading": (s, a) => ({ ...s, uploading: [...s.uploading, a.name] }),
  "uploaded": (s, a) => ({ ...s, uploading: s.uploading.filter((each) => each !== a.name) }),
  "stage": (s, a) => on_stage(s, a.size),
  "plan": (s, a) => with_plan(s, a),
  "outlooks": (s, a) => (s.planning && s.planning.visit === a.visit ? { ...s, planning: changed(s.planning, "outlooks", a.outlooks) } : s),
  "plan-asks": (s, a) => with_asks(s, (asks) => ({ ...asks, ...a.asks })),
  "plan-answered": (s, a) => with_asks(s, ({ [a.at]: _, ...rest }) => rest),
  "best-fit": (s, a) => (s.planning ? { ...s, planning: { ...s.planning, fit: a.fit } } : s),
  "postures": (s, a) => changed(s, "postures", { ...s.postures, [a.visit]: a.compared }),
  "light": (s, a) => (s.open ? { ...s, tab: "numbers", open: light(s.open, a.id) } : s),
  "planning": (s, a) =>
    s.planning ? { ...s, planning: { ...s.planning, busy: a.busy } } : s,
};

/** @type {Record<string, (open: Open, action: Action, state: State) => Open>} */
const of_picture = {
  "info": (o, a, s) => fitted({ ...o, info: a.info, window: o.window ?? came_window({ info: a.info }) }, s.stage),
  "pixels": (o) => ({ ...o, has_pixels: true }),
  "reading": (o, a) => ({
    ...o,
    loaded: true,
    revision: a.revision,
    base: a.base,
    theirs: null,
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
  "result": (o, a, s) =>
    o.loaded && a.reader === s.reader && a.turn > o.result_turn ? { ...o, result: a.result, result_turn: a.turn, measured: a.landmarks } : o,
  "unmeasured": (o) => ({ ...o, result: null, measured: null }),
  "saved": (o, a, s) => (a.reader === s.reader && o.loaded ? saved(o, a.landmarks, a.revision) : o),
  "turn-done": (o, a) => ({ ...o, revision: a.revision, done: true }),
  "readers": (o, a) => changed(o, "readers", a.readers),
  "agreement": (o, a) => changed(o, "agreement", a.agreement),
  "keeping": (o, a) => ({ ...o, keeping: a.keeping }),
  "elsewhere": (o, a, s) => (a.reader === s.reader && a.turn === o.turn && o.loaded ? elsewhere(o, a.theirs, a.sent) : o),
  "settle": (o, a) => settled(o, a.id, a.whose),
  "place": (o, a) => touched(o, points.place(o.points, a.id, a.x, a.y, a.run)),
  "confirm": (o, a) => touched(o, points.confirm(o.points, a.id, o.found.proposals[a.id])),
  "drop": (o) => ({ ...o, points: { ...o.points, run: "" } }),
  "on-edge": (o, a) => touched(o, points.settle(o.points, a.from, a.landmarks)),
  "stroke": (o, a) => ({ ...o, found: { ...o.found, stroke: a.stroke } }),
  "stroke-drawn": (o) => ({ ...o, found: { ...o.found, picking: "", stroke: [] } }),
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
  "come-near": (o, a, s) => (o.info ? { ...o, view: views.near(o.view, s.stage, shape_of(o.info), a.place) } : o),
  "fit": (o, _, s) => fitted({ ...o, view: { ...o.view, fitted: true } }, s.stage),
  "window": (o, a) => ({ ...o, window: a.window }),
  "tone": (o, a) => ({ ...o, tone: views.retoned(o.tone, a.tone) }),
  "as-it-came": (o) => ({ ...o, window: came_window(o), tone: views.plain_tone, inverted: false }),
  "look": (o, a) => with_look(o, views.look_from(a.look)),
  "turn": (o, a, s) => fitted({ ...o, view: views.turned(o.view, a.degrees, views.middle_of(s.stage)) }, s.stage),
  "mirror": (o, _, s) => fitted({ ...o, view: views.mirrored(o.view, s.stage) }, s.stage),
  "upright": (o, _, s) => fitted({ ...o, view: views.first_view }, s.stage),
  "invert": (o) => ({ ...o, inverted: !o.inverted }),
  "beside": (o, a) => ({ ...o, beside: a.other ? { visit: a.visit, mirrored: false, open: opened(a.other) } : null }),
  "choose-beside": (o, a) => ({ ...o, choosing_beside: a.yes }),
  "beside-mirror": (o) => o.beside ? { ...o, beside: { ...o.beside, mirrored: !o.beside.mirrored } } : o,
  "mode": (o, a) => ({ ...o, mode: a.mode }),
  "loupe": (o) => ({ ...o, loupe: !o.loupe }),
  "lines": (o) => ({ ...o, lines: o.lines === "quiet" ? "lit" : "quiet" }),
};

/**
 * An action with a `digest` speaks of that picture, open or beside it, and is dropped when neither is.
 * @param {State} state
 * @param {Action} action
 * @returns {State}
 */
export function next(state, action) {
  const change = whole[action.type];
  if (change) return change(state, action);
  const picture_change = of_picture[action.type];
  if (!picture_change) throw new Error(`No such action: ${action.type}`);
  const { open } = state;
  if (!open) return state;
  if (!action.digest || action.digest === open.digest) return { ...state, open: picture_change(open, action, state) };
  const { beside } = open;
  if (!beside || action.digest !== beside.open.digest) return state;
  return { ...state, open: { ...open, beside: { ...beside, open: picture_change(beside.open, action, state) } } };
}

/** The picture without anybody's points, until the new reader's arrive. @param {Open} open @returns {Open} */
function unread(open) {
  return { ...open, loaded: false, points: points.no_points, revision: 0, base: {}, theirs: null, result: null, measured: null, found: found.nothing, keeping: "saved", readers: null, agreement: null, beside: null };
}

/** @param {Open} open @param {Landmarks} landmarks of that revision @param {number} revision @returns {Open} */
function saved(open, landmarks, revision) {
  const keeping = landmarks === open.points.now.landmarks ? "saved" : open.keeping;
  return { ...open, revision, base: landmarks, done: is_frozen(open), keeping };
}

/** @param {Open} open @param {string} id @returns {Open} */
function light(open, id) {
  return { ...open, lit: open.lit === id ? null : id, lit_check: null };
}

/**
 * The same reader's points were saved from another device. What only that one changed comes in, what
 * only this one changed stays; a point that both moved is asked about.
 * @param {Open} open
 * @param {{landmarks: Landmarks, revision: number, sight: "open" | "blind", done: boolean}} theirs
 * @param {Landmarks | null} sent @returns {Open}
 */
function elsewhere(open, { landmarks, revision, sight, done }, sent) {
  const { brought, clashes } = told_apart(open.base, open.points.now.landmarks, landmarks, sent);
  const after = points.bring(open.points, brought);
  const both = { ...open, sight, done, points: after };
  if (clashes.length > 0)
    return { ...both, base: with_brought(open.base, brought), theirs: { landmarks, revision, clashes }, keeping: "conflict" };
  const same = kept_same(landmarks, after.now.landmarks) === landmarks;
  return { ...both, base: landmarks, revision, theirs: null, keeping: same ? "saved" : "saving" };
}

/** One of the points that both moved was decided on. @param {Open} open @param {string} id
 * @param {"mine" | "theirs"} whose @returns {Open} */
function settled(open, id, whose) {
  const { theirs } = open;
  if (!theirs?.clashes.includes(id)) return open;
  const at = theirs.landmarks[id] ?? null;
  const after = whose === "theirs" ? points.take(open.points, id, at) : open.points;
  const clashes = theirs.clashes.filter((each) => each !== id);
  const base = with_brought(open.base, { [id]: at });
  if (clashes.length > 0) return { ...open, points: after, base, theirs: { ...theirs, clashes } };
  return { ...open, points: after, base: theirs.landmarks, revision: theirs.revision, theirs: null, keeping: "saving" };
}

/**
 * The same value when the new part is equal to the old one.
 * @template {object} Whole @param {Whole} whole @param {keyof Whole} name @param {any} part
 * @returns {Whole}
 */
function changed(whole, name, part) {
  const kept = kept_same(whole[name], part);
  return kept === whole[name] ? whole : { ...whole, [name]: kept };
}

/** Begins anew where another foot was tried; no point stays under the hand. @param {State} state @returns {State} */
function with_trying(state) {
  const entry = entry_of(state);
  const visit = state.place.visit ?? "";
  if (!entry || !state.open) return state;
  const of = { visit, limb: entry.limb };
  return {
    ...state,
    tab: "try",
    drawer: true,
    open: { ...state.open, points: { ...state.open.points, selected: null } },
    trying: trying.is_about(state.trying, of) ? state.trying : trying.begun(visit, entry.limb),
  };
}

/** Questions about lines are of one version. @param {State} state @param {Action} action @returns {State} */
function with_plan(state, { visit, plan }) {
  const known = state.planning;
  const same_version = known?.visit === visit && known?.plan?.version === plan?.version && !plan?.sign_off;
  const kept = kept_same(known?.plan, plan);
  const { asks, fit = null, outlooks = [] } = known && same_version ? known : { asks: {} };
  return { ...state, planning: { visit, plan: kept, loaded: true, busy: false, asks, fit, outlooks } };
}

/** @typedef {Record<number, import("./merge.js").Decided>} Asks */

/** @param {State} state @param {(asks: Asks) => Asks} change @returns {State} */
function with_asks(state, change) {
  const { planning } = state;
  return planning ? { ...state, planning: { ...planning, asks: change(planning.asks) } } : state;
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
  const there = {
    ...state,
    place,
    tab: place.screen === "picture" && !same_picture ? "ask" : state.tab,
    notice: "",
    record: same_case ? state.record : null,
    open: place.screen !== "picture" ? null : same_picture ? state.open : opened(place.digest ?? ""),
    planning: place.screen !== "plan" ? null : same_plan ? state.planning
      : { visit: place.visit ?? "", plan: null, loaded: false, busy: false, asks: {} },
  };
  return place.tab === "try" ? with_trying(there) : there;
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
    base: {},
    turn: 1,
    sight: "open",
    done: false,
    readers: null,
    agreement: null,
    keeping: "saved",
    theirs: null,
    result: null,
    result_turn: 0,
    measured: null,
    lit: null,
    lit_check: null,
    found: found.nothing,
    view: views.first_view,
    window: null,
    tone: views.plain_tone,
    inverted: false,
    mode: "points",
    beside: null,
    choosing_beside: false,
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
  return { ...open, view: views.fit(stage, shape_of(open.info), open.view) };
}

/** The window that the picture is first shown with. @param {Pick<Open, "info">} open @returns {Window} */
export const came_window = ({ info }) => info?.window ?? whole_photo;

/** @param {Open} open are its greys other than it came with? */
export function greys_changed(open) {
  const { window, tone, inverted } = open;
  return inverted || tone.gamma !== 1 || tone.local !== 0 || (window !== null && !views.same_window(window, came_window(open)));
}

/** Are the numbers those of the points as they lie now? @param {Open} open */
export const is_measured = (open) => open.measured === open.points.now.landmarks;

/** @param {Pick<Open, "view">} open */
export const lies_otherwise = ({ view }) => view.mirrored || view.turn !== 0;

/** What is worth keeping of how the picture is looked at; null when it is looked at as it came.
 * @param {Open} open */
export function look_of(open) {
  const { window, tone, inverted, view } = open;
  if (!greys_changed(open) && !lies_otherwise(open)) return null;
  return { window, tone, inverted, turn: view.turn, mirrored: view.mirrored };
}

/** @param {Open} open @param {ReturnType<typeof views.look_from>} look @returns {Open} */
function with_look(open, { window, tone, inverted, turn, mirrored }) {
  return { ...open, window: window ?? open.window, tone, inverted, view: { ...open.view, turn, mirrored } };
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
  if (!state.open?.loaded || state.open.confirming || state.open.found.picking || is_trying(state)) return null;
  return points.asking(state.open.points, asked_in(state));
}

/** Where the landmark asked for is proposed or should be; null while nobody can say. @param {State} state */
export function expected_in(state) {
  const [asked, protocol, entry] = [asking_in(state), protocol_of(state), entry_of(state)];
  const aspect = state.drawings[protocol?.schematic ?? ""];
  const { open } = state;
  if (!asked || !protocol || !entry || !aspect || !open?.info) return null;
  const { toward } = entry;
  const expected = expected_place(asked, protocol.landmarks, graspable_in(state),
    { aspect, toward, pixel_aspect: shape_of(open.info).aspect });
  return expected && { ...expected, ...proposed_in(state)[asked.id] };
}

/** Which way is which on the stage; null until it is known. @param {State} state */
export function ways_in(state) {
  const { open } = state;
  const entry = open?.loaded && !open.confirming ? entry_of(state) : null;
  const date = (open?.beside && visit_of(state)?.date) ?? "";
  return entry && open && ways_of(entry, protocol_of_entry(state, entry), open.view, date);
}

/**
 * What the program proposes and this reader has neither placed nor skipped. @param {State} state
 * @returns {Readonly<Record<string, import("./types.js").Spot>>}
 */
export function proposed_in({ open }) {
  if (!open || open.sight === "blind") return {};
  const still = Object.entries(open.found.proposals).filter(([id]) => points.is_open(open.points, id));
  return Object.fromEntries(still);
}

/** What a hand can take hold of: the points, and what is proposed. @param {State} state
 * @returns {Readonly<Record<string, import("./types.js").Spot>>} */
export const graspable_in = (state) => (is_trying(state) ? {} : { ...proposed_in(state), ...state.open?.points.now.landmarks });

/**
 * Where the program may propose landmarks: on a radiograph, to a reader who isn't blind, once its
 * facts are confirmed.
 * @param {State} state
 */
export function is_proposing(state) {
  const { open } = state;
  return Boolean(open?.loaded && !open.confirming && open.sight === "open" && is_radiograph(state));
}

/** @param {State} state */
export const is_radiograph = (state) => protocol_of(state)?.shows === "radiograph";

/** Is a change of the foot being tried on this picture? @param {State} state */
export function is_trying(state) {
  return state.tab === "try" && Boolean(state.open?.loaded) && !state.open?.confirming && is_radiograph(state);
}

/** The open picture as the change that is tried would leave it; null when none is, or none can be.
 * @param {State} state */
export function changed_in(state) {
  if (!is_trying(state) || state.trying?.missing) return null;
  return state.trying?.tried?.pictures.find((each) => each.digest === state.open?.digest) ?? null;
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

/**
 * The other readers whose points are drawn in the picture; nobody while they are put away.
 * @param {State} state
 */
export function others_in({ open, reader, others_shown }) {
  return others_shown && open?.loaded && !open.confirming ? others_among(open.readers, reader) : [];
}
