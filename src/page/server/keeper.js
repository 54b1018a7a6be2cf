/**
 * Saves points without being asked and never lets one go: whatever isn't acknowledged stays on this
 * device and is sent again, also after a reload, until the program has it. What the same reader saved
 * from another device meanwhile is put together with it.
 * @typedef {import("./memory.js").Pending} Pending
 * @typedef {import("../state/state.js").Action} Action
 */
import { told_apart, with_brought } from "../state/merge.js";
import { words } from "../words/words.js";
import { Refusal, ask, path_of } from "./ask.js";
import * as memory from "./memory.js";

const shortest_wait = 1000; // ms
const longest_wait = 10000;
const pace = 200; // ms from one saving to the next: a point that is dragged isn't saved in every frame

/** @param {Pick<Pending, "case_id" | "digest" | "reader">} of */
export function reading_path(of) {
  const path = path_of("api", "cases", of.case_id, "readings", of.digest);
  return `${path}?reader=${encodeURIComponent(of.reader)}`;
}

/** @param {import("../state/types.js").Landmarks} a @param {import("../state/types.js").Landmarks} b */
export function same_points(a, b) {
  const ids = Object.keys(a);
  return (
    ids.length === Object.keys(b).length &&
    ids.every((id) => b[id] && a[id].x === b[id].x && a[id].y === b[id].y)
  );
}

export class Keeper {
  /** @param {(action: Action) => void} dispatch
   * @param {(of: Pick<Pending, "case_id" | "digest" | "reader">) => void} reload shows a reading anew */
  constructor(dispatch, reload) {
    this.dispatch = dispatch;
    this.reload = reload;
    /** @type {Map<string, Pending>} newest value of each reading that waits */
    this.waiting = new Map();
    /** @type {Set<string>} */
    this.held = new Set();
    /** @type {Map<string, import("../state/types.js").Landmarks>} sent, and not yet answered */
    this.sent = new Map();
    this.busy = false;
    this.wait = shortest_wait;
    this.timer = 0;
    this.pause = 0;
    this.again = () => this.send();
  }

  on() {
    window.addEventListener("online", this.again);
    for (const each of memory.all_pending()) this.waiting.set(key(each), each);
    this.send();
  }

  off() {
    window.removeEventListener("online", this.again);
    clearTimeout(this.timer);
    clearTimeout(this.pause);
    this.timer = 0;
    this.pause = 0;
  }

  /** @param {Pending} value the landmarks as they are now */
  keep(value) {
    memory.keep_pending(value);
    if (this.held.has(key(value))) return;
    this.waiting.set(key(value), value);
    this.send();
  }

  /** Are points of this reading on their way? @param {Pick<Pending, "case_id" | "digest" | "reader">} of */
  sends(of) {
    return this.waiting.has(key(of));
  }

  /** A conflict is being decided: keep the points here, send nothing. @param {Pending} value */
  hold(value) {
    memory.keep_pending(value);
    this.held.add(key(value));
    this.waiting.delete(key(value));
  }

  /** @param {Pick<Pending, "case_id" | "digest" | "reader">} of */
  drop(of) {
    this.held.delete(key(of));
    this.waiting.delete(key(of));
    memory.drop_pending(of);
  }

  /** @param {Pending} value after a conflict: over the other's revision */
  put_on_top(value) {
    this.held.delete(key(value));
    this.keep(value);
  }

  async send() {
    const first = this.waiting.values().next().value;
    if (this.busy || this.pause !== 0 || !first) return;
    clearTimeout(this.timer);
    this.busy = true;
    this.pause = window.setTimeout(() => {
      this.pause = 0;
      if (this.timer === 0) this.send();
    }, pace);
    try {
      await this.#put(first);
      this.wait = shortest_wait;
    } catch (error) {
      await this.#not_saved(first, error).catch(() => this.#later(first));
    } finally {
      this.busy = false;
    }
    if (this.timer === 0) this.send();
  }

  /** @param {Pending} value */
  async #put(value) {
    const { revision, landmarks, turn } = value;
    this.sent.set(key(value), landmarks);
    const answer = await ask("PUT", `${reading_path(value)}&turn=${turn ?? 1}`, { revision, landmarks });
    this.timer = 0;
    this.#acknowledged(value, answer.reading.revision);
    this.dispatch({ type: "reachable", yes: true });
    this.dispatch({
      type: "saved",
      digest: value.digest,
      reader: value.reader,
      landmarks,
      revision: answer.reading.revision,
    });
  }

  /** @param {Pending} value @param {number} revision */
  #acknowledged(value, revision) {
    const newest = this.waiting.get(key(value));
    this.sent.delete(key(value));
    if (newest === value) this.drop(value);
    else if (newest) {
      const onward = { ...newest, revision, base: value.landmarks };
      this.waiting.set(key(value), onward);
      memory.keep_pending(onward);
    }
  }

  /** @param {Pending} value */
  #later(value) {
    this.dispatch({ type: "reachable", yes: false });
    this.dispatch({ type: "keeping", digest: value.digest, keeping: "waiting" });
    clearTimeout(this.timer);
    this.timer = window.setTimeout(() => {
      this.timer = 0;
      this.send();
    }, this.wait);
    this.wait = Math.min(longest_wait, this.wait * 2);
  }

  /** @param {Pending} value @param {unknown} why */
  async #not_saved(value, why) {
    if (!(why instanceof Refusal && why.status < 500)) return this.#later(value);
    this.timer = 0;
    const newest = this.waiting.get(key(value)) ?? value;
    if (why.status === 409) {
      const { reading } = await ask("GET", `${reading_path(value)}&turn=${value.turn ?? 1}`);
      return this.settle(this.waiting.get(key(value)) ?? newest, reading);
    }
    // Sending the same again would be refused again; the next change of a point tries anew.
    this.waiting.delete(key(value));
    this.dispatch({ type: "keeping", digest: value.digest, keeping: "waiting" });
    this.dispatch({ type: "notice", sentence: why.message });
  }

  /**
   * Points of this device against what the program has: the same, put together, or a point that both
   * moved, which a person decides on.
   * @param {Pending} mine
   * @param {{revision: number, landmarks: import("../state/types.js").Landmarks, saved: string,
   *   turn: number, sight: "open" | "blind", done: string}} theirs of the same turn
   */
  settle(mine, theirs) {
    if (theirs.sight === "blind" && theirs.done) return this.#too_late(mine, theirs);
    if (same_points(mine.landmarks, theirs.landmarks)) {
      this.sent.delete(key(mine));
      this.drop(mine);
      this.dispatch({
        type: "saved", digest: mine.digest, reader: mine.reader, landmarks: mine.landmarks, revision: theirs.revision,
      });
      return;
    }
    const { landmarks, revision } = theirs;
    const base = mine.revision === revision ? landmarks : mine.base ?? {};
    const sent = this.sent.get(key(mine)) ?? null;
    const { brought, clashes } = told_apart(base, mine.landmarks, landmarks, sent);
    this.sent.delete(key(mine));
    if (clashes.length > 0) this.hold(mine);
    else this.put_on_top({ ...mine, revision, base: landmarks, landmarks: with_brought(mine.landmarks, brought) });
    // The picture that is open goes by its own points, which may be newer.
    this.dispatch({
      type: "elsewhere", digest: mine.digest, reader: mine.reader, turn: mine.turn ?? 1, sent,
      theirs: { landmarks, revision, sight: theirs.sight, done: theirs.done !== "" },
    });
  }

  /** A blind reading that is done takes nothing any more. @param {Pending} mine
   * @param {{landmarks: import("../state/types.js").Landmarks}} theirs */
  #too_late(mine, theirs) {
    this.drop(mine);
    if (same_points(mine.landmarks, theirs.landmarks)) return;
    this.dispatch({ type: "notice", sentence: words.trouble.too_late });
    this.reload(mine);
  }
}

/** @param {Pick<Pending, "case_id" | "digest" | "reader">} of */
const key = (of) => [of.case_id, of.digest, of.reader].join("/");
