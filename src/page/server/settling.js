/**
 * Points that settle on an edge once the hand lets go of them, circles once three of their points
 * are there, and strokes that become both ends of a line. The program finds the edge; where it sees
 * none the point stays where the hand put it.
 * @typedef {import("../state/state.js").State} State
 * @typedef {import("../state/types.js").Landmarks} Landmarks
 * @typedef {import("../state/types.js").LandmarkGuide} LandmarkGuide
 * @typedef {import("../state/types.js").Spot} Spot
 */
import { ends_of, on_circle_of, runs_alike } from "../state/edges.js";
import { asked_in, entry_of, is_radiograph } from "../state/state.js";
import { words } from "../words/words.js";
import { ask, path_of } from "./ask.js";

const reach_mm = 5; // what docs/accuracy.md was measured with
const fewest_of_circle = 3;

export class Settling {
  /** @param {(action: import("../state/state.js").Action) => void} dispatch */
  constructor(dispatch) {
    this.dispatch = dispatch;
  }

  /** After the hand let go of a point. @param {State} state @param {string} id */
  async point(state, id) {
    const guide = asked_in(state).find((each) => each.id === id);
    const from = state.open?.points.now.landmarks ?? {};
    if (!guide?.snap || guide.snap === "none" || !from[id] || !is_radiograph(state)) return;
    const to = guide.snap === "circle" ? await this.#circle(state, guide, from) : await this.#edge(state, id, from[id]);
    this.dispatch({ type: "on-edge", digest: state.open?.digest, from, landmarks: to });
  }

  /** Both ends of a line come to lie on the edge along a stroke.
   * @param {State} state @param {string} along the line's name @param {readonly Spot[]} stroke */
  async stroke(state, along, stroke) {
    const ends = ends_of(asked_in(state), along);
    if (ends.length === 0) return;
    const { from, to } = await this.#ask(state, { kind: "line", stroke: stroke.map(plain), landmark: ends[0].id });
    if (!from || !to) return this.dispatch({ type: "notice", sentence: words.settling.no_line });
    const [first, last] = runs_alike(ends, from, to, entry_of(state)?.toward) ? [from, to] : [to, from];
    const landmarks = { [ends[0].id]: snapped(first), [ends[1].id]: snapped(last) };
    this.dispatch({ type: "points-added", digest: state.open?.digest, landmarks });
  }

  /** @param {State} state @param {string} id @param {Spot} at @returns {Promise<Landmarks>} */
  async #edge(state, id, at) {
    const seen = await this.#ask(state, { kind: "point", at: plain(at), landmark: id });
    return seen.at ? { [id]: snapped(seen.at) } : {};
  }

  /** @param {State} state @param {LandmarkGuide} guide @param {Landmarks} from
   * @returns {Promise<Landmarks>} */
  async #circle(state, guide, from) {
    const ids = on_circle_of(asked_in(state), guide, from);
    if (ids.length < fewest_of_circle) return {};
    const seen = await this.#ask(state, { kind: "circle", points: ids.map((each) => plain(from[each])), landmark: guide.id });
    const places = /** @type {number[][]} */ (seen.points ?? []);
    return Object.fromEntries(places.map((at, n) => [ids[n], snapped(at)]));
  }

  /** @param {State} state @param {object} wish @returns {Promise<any>} empty when nobody answers */
  async #ask({ open, place }, wish) {
    const guess = 0.15; // where the picture has no scale
    const reach_px = reach_mm / (open?.result?.calibration.pixel_mm?.[0] ?? guess);
    try {
      return await ask("POST", path_of("api", "cases", place.case_id ?? "", "snap", open?.digest ?? ""), { ...wish, reach_px });
    } catch {
      return {};
    }
  }
}

/** @param {Spot} at */
const plain = ({ x, y }) => [x, y];

/** @param {readonly number[]} at */
const snapped = ([x, y]) => ({ x, y, how: "snapped" });
