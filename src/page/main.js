/**
 * Puts the page together: one state, one dispatch, everything painted from the state once a frame.
 * The only module with state of its own.
 * @typedef {import("./state/state.js").Action} Action
 * @typedef {import("./state/state.js").State} State
 */
import { gestures_on, gestures_beside } from "./gestures/gestures.js";
import { case_screen } from "./panels/case.js";
import { cases } from "./panels/cases.js";
import { keys_help } from "./panels/keys_help.js";
import { notice } from "./panels/notice.js";
import { picture_screen } from "./panels/picture.js";
import { plan_screen } from "./panels/plan.js";
import { reader } from "./panels/reader.js";
import { top } from "./panels/top.js";
import { on_hands_free } from "./panels/writing.js";
import { Photo } from "./picture/photo.js";
import { Radiograph } from "./picture/radiograph.js";
import { Stage } from "./picture/stage.js";
import { hash_of, place_at } from "./routes.js";
import { Live } from "./server/live.js";
import { Measuring } from "./server/measuring.js";
import * as memory from "./server/memory.js";
import { Refresh } from "./server/refresh.js";
import { Server, photo_path } from "./server/server.js";
import { Trying } from "./server/trying.js";
import { beside_in } from "./state/beside.js";
import { shoe_in } from "./state/trying.js";
import { asking_in, begin, entry_of, expected_in, is_proposing, look_of, next, protocol_of } from "./state/state.js";
import { Claim } from "./gestures/claim.js";

/** What this device remembers of the state. @type {Record<memory.Preference, (now: State) => string>} */
const preferences = {
  reader: (now) => now.reader,
  theme: (now) => now.theme,
  settles: (now) => (now.settles ? "yes" : "no"),
  following: (now) => (now.following ? "yes" : "no"),
  others: (now) => (now.others_shown ? "shown" : "away"),
};
/** @type {State} */
let state = begin({
  reader: memory.preference("reader"),
  theme: memory.preference("theme") === "outdoors" ? "outdoors" : "indoors",
  settles: memory.preference("settles") !== "no",
  following: memory.preference("following") !== "no",
  others_shown: memory.preference("others") !== "away",
});
let frame = 0;
const still = 120; // ms without a change until what was painted in haste is painted in full
let rest = 0;

/** @param {Action} action */
function dispatch(action) {
  const before = state;
  state = next(state, action);
  if (state === before) return;
  react(before, state, action);
  paint_soon();
}

const server = new Server(dispatch);
const refresh = new Refresh(server, () => state);
const live = new Live(() => refresh.all(), (yes) => dispatch({ type: "reachable", yes }));
const trying = new Trying(dispatch);
const measuring_beside = new Measuring(dispatch);
/** @type {string | null} */
let lit_beside = null;
const stage = new Stage("hand");
const second = new Stage("looker");
const wishes = {
  dispatch, server,
  state: () => state,
  go: (/** @type {import("./state/state.js").Place} */ place) => (location.hash = hash_of(place)),
};
const picture = picture_screen(wishes, [stage.below, stage.above], [second.below, second.above]);
const panels = [top(wishes), notice(wishes), cases(wishes), case_screen(wishes), picture, plan_screen(wishes), reader(wishes), keys_help(wishes)];

function paint() {
  frame = 0;
  document.documentElement.dataset.theme = state.theme;
  document.body.dataset.screen = state.place.screen;
  for (const each of panels) each.update(state);
  stage.paint(state);
  second.paint(beside_in(state));
  clearTimeout(rest);
  if (stage.rough || second.rough) rest = setTimeout(paint_soon, still);
}

function paint_soon() {
  if (frame === 0) frame = requestAnimationFrame(paint);
}

/**
 * What follows from a change outside the state: requests, and what this device remembers.
 * @param {State} before @param {State} after @param {Action} action
 */
function react(before, after, action) {
  if (after.place !== before.place) arrive(after);
  keep_preferences(before, after);
  if (after.reader !== before.reader) open_reading(after);
  if (after.place.screen === "case" && (after.record?.visits !== before.record?.visits || after.place !== before.place)) server.load_all_postures(after.record);
  live.about(after.place.case_id ?? "", after.reader);
  if (after.open?.loaded && !before.open?.loaded) refresh.readers().catch(() => {});
  if (after.tab === "readers" && (before.tab !== "readers" || after.reader !== before.reader)) look_for_readers(after);
  const entry = entry_of(after);
  if (entry !== entry_of(before)) measure(after);
  if (is_proposing(after) && !(is_proposing(before) && after.open?.digest === before.open?.digest)) propose(after);
  settle(before, after, action);
  if (after.trying !== before.trying || (after.tab === "try" && before.tab !== "try")) try_it(before, after, action);
  if (after.open?.info && !before.open?.info) load_pixels(after.open, stage);
  const drawing = protocol_of(after)?.schematic;
  if (drawing && drawing !== protocol_of(before)?.schematic) server.load_drawing(drawing);
  if (after.following && asks_for_next.includes(action.type)) follow(before, after);
  beside_changed(before.open?.beside?.open, after.open?.beside?.open, after);
  if (after.open && before.open?.digest === after.open.digest) {
    points_changed(before.open, after.open, action);
    look_changed(before.open, after.open);
  }
}

/** @param {State} before @param {State} after */
function keep_preferences(before, after) {
  for (const [name, of] of Object.entries(preferences))
    if (of(after) !== of(before)) memory.keep_preference(/** @type {memory.Preference} */ (name), of(after));
}

const asks_for_next = ["place", "confirm", "skip", "choose", "also", "points-added", "offers-confirmed", "follow"];

/** The next point comes up near to where it should be; after the last one the whole picture.
 * @param {State} before @param {State} after */
function follow(before, after) {
  const [was, is] = [asking_in(before), asking_in(after)];
  if (was?.id === is?.id && before.following) return;
  const place = expected_in(after);
  if (place) dispatch({ type: "come-near", place });
  else if (was && !is) dispatch({ type: "fit" });
}

/** @param {import("./state/state.js").Open | undefined} before @param {import("./state/state.js").Open | undefined} after
 * @param {State} now */
function beside_changed(before, after, { place, reader: name, open }) {
  if (!after || !place.case_id) return;
  if (before?.digest !== after.digest) {
    second.content = null;
    server.load_info(after.digest);
    if (name) server.load_reading(place.case_id, after.digest, name);
  } else if (after.info && !before.info) load_pixels(after, second);
  else if (after.loaded && (after.points !== before.points || open?.lit !== lit_beside)) {
    lit_beside = open?.lit ?? null;
    measuring_beside.measure({ case_id: place.case_id, digest: after.digest, reader: name, landmarks: after.points.now.landmarks, about: lit_beside ?? "" });
  }
}

/** @param {import("./state/state.js").Open} before @param {import("./state/state.js").Open} after */
function look_changed(before, after) {
  const of = (/** @type {import("./state/state.js").Open} */ { window, tone, inverted, view }) => [window, tone, inverted, view.turn, view.mirrored];
  const [was, is] = [of(before), of(after)];
  if (before.info && is.some((each, at) => each !== was[at])) memory.keep_look(after.digest, look_of(after));
}

/** @param {State} now */
function arrive({ place }) {
  if (place.screen === "cases") server.load_cases();
  if (place.case_id && state.record?.id !== place.case_id) server.load_case(place.case_id);
  if (place.screen === "plan" && place.case_id && place.visit) server.load_plan(place.case_id, place.visit);
  if (place.screen === "picture" && place.digest) {
    stage.content = null;
    dispatch({ type: "look", digest: place.digest, look: memory.look(place.digest) });
    server.load_info(place.digest);
    open_reading(state);
  }
}

/** @param {State} now */
function open_reading({ place, reader: name }) {
  if (place.screen === "picture" && place.case_id && place.digest && name)
    server.load_reading(place.case_id, place.digest, name);
}

/** @param {State} now */
function look_for_readers({ place, open, reader: name }) {
  if (open && place.case_id && name) server.load_readers({ case_id: place.case_id, digest: open.digest, reader: name });
}

/** @param {import("./state/state.js").Open} open @param {Stage} onto */
async function load_pixels({ digest, info }, onto) {
  if (!info) return;
  const wanted = () => {
    const shown = onto === stage ? state.open : state.open?.beside?.open;
    return shown?.digest === digest ? shown : null;
  };
  try {
    const content = info.kind === "photo" ? new Photo(await photo(digest)) : new Radiograph(info, await server.samples(digest));
    if (!wanted()) return;
    onto.content = content;
    dispatch({ type: "pixels", digest });
  } catch {
    setTimeout(() => {
      const open = wanted();
      if (open) load_pixels(open, onto);
    }, 2000);
  }
}

/** @param {string} digest @returns {Promise<HTMLImageElement>} */
async function photo(digest) {
  const image = new Image();
  image.src = photo_path(digest);
  await image.decode();
  return image;
}

/**
 * Points that became others are measured, kept and sent; those that came from the program only
 * measured.
 * @param {import("./state/state.js").Open} before @param {import("./state/state.js").Open} after
 * @param {Action} action
 */
function points_changed(before, after, action) {
  const of = { case_id: state.place.case_id ?? "", digest: after.digest, reader: state.reader };
  const { landmarks } = after.points.now;
  if (after.points !== before.points && after.loaded) memory.keep_steps(of.case_id, of.digest, of.reader, after.points);
  if (landmarks !== before.points.now.landmarks || after.lit !== before.lit) measure(state);
  const pending = { ...of, turn: after.turn, revision: after.revision, base: after.base, landmarks };
  if (action.type === "elsewhere" || action.type === "settle") put_together(pending, after.keeping);
  else if (landmarks !== before.points.now.landmarks && action.type !== "reading") server.keeper.keep(pending);
}

/** Points of two devices became one reading. @param {import("./server/memory.js").Pending} pending
 * @param {import("./state/state.js").Keeping} keeping */
function put_together(pending, keeping) {
  if (keeping === "conflict") server.keeper.hold(pending);
  else if (keeping === "saved") server.keeper.drop(pending);
  else server.keeper.put_on_top(pending);
}

/** @param {State} now */
async function propose({ place, open }) {
  const proposals = await server.proposals(place.case_id ?? "", open?.digest ?? "");
  if (is_proposing(state)) dispatch({ type: "found", digest: open?.digest, found: { proposals } });
}

/** What is wished of the foot goes out; what comes back doesn't.
 * @param {State} before @param {State} after @param {Action} action */
function try_it(before, after, action) {
  const { trying: now, place } = after;
  if (!now || !place.case_id || action.type === "tried") return;
  if (now.wished === before.trying?.wished && before.tab === "try") return;
  const { visit, limb, wished, moved } = now;
  trying.want({ case_id: place.case_id, visit, limb, wished, shoe: shoe_in(now), moved });
}

/** What the hand let go of settles on an edge.
 * @param {State} before @param {State} after @param {Action} action */
function settle(before, after, action) {
  if (action.type === "stroke-drawn") server.settling.stroke(after, before.open?.found.along ?? "", action.stroke);
  else if ((action.type === "place" || action.type === "drop") && !action.run && !action.exact && after.settles)
    server.settling.point(after, action.id);
}

/** @param {State} now */
function measure({ open, place, reader: name }) {
  if (!open?.loaded || !place.case_id) return;
  server.measuring.measure({ case_id: place.case_id, digest: open.digest, reader: name, landmarks: open.points.now.landmarks, about: open.lit ?? "" });
}

const ground = {
  element: stage.above,
  claim: new Claim(),
  dispatch,
  state: () => state,
  held: { space: false },
  to_picture: (/** @type {import("./state/types.js").Spot} */ at) => stage.transform(state)?.to_picture(at) ?? at,
  to_screen: (/** @type {import("./state/types.js").Spot} */ at) => stage.transform(state)?.to_screen(at) ?? at,
  step_to_picture: (/** @type {import("./state/types.js").Spot} */ step) => stage.transform(state)?.step_to_picture(step) ?? step,
  grip_at: (/** @type {import("./state/types.js").Spot} */ at, /** @type {number} */ reach) => stage.grip_at(state, at, reach),
  mark_at: (/** @type {import("./state/types.js").Spot} */ at, /** @type {number} */ reach) => stage.mark_at(state, at, reach),
  about_at: (/** @type {import("./state/types.js").Spot} */ at, /** @type {number} */ reach) => stage.about_at(state, at, reach),
  look: (/** @type {Stage["looking"]} */ looking) => {
    stage.looking = looking;
    paint_soon();
  },
};

document.body.append(...panels.map((each) => each.element));
for (const each of gestures_on(ground)) each.on();
for (const each of gestures_beside({ ...ground, element: second.above, claim: new Claim() })) each.on();
new ResizeObserver(([entry]) => {
  const { width, height } = entry.contentRect;
  if (width > 0 && height > 0) dispatch({ type: "stage", size: { width, height } });
}).observe(picture.stage);
window.addEventListener("hashchange", () => dispatch({ type: "go", place: place_at(location.hash) }));
server.on();
live.on();
on_hands_free(paint_soon);
dispatch({ type: "go", place: place_at(location.hash) });
