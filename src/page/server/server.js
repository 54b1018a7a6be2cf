/**
 * What the page asks of the program, one method a wish. Answers become actions; a refusal becomes
 * the notice, in the program's own sentence.
 * @typedef {import("../state/state.js").Action} Action
 * @typedef {import("../state/types.js").Landmarks} Landmarks
 */
import { Refusal, ask, ask_bytes, path_of } from "./ask.js";
import { Keeper, reading_path, same_points } from "./keeper.js";
import { Measuring } from "./measuring.js";
import * as memory from "./memory.js";

const retry_after = 2000; // ms

export class Server {
  /** @param {(action: Action) => void} dispatch */
  constructor(dispatch) {
    this.dispatch = dispatch;
    this.keeper = new Keeper(dispatch);
    this.measuring = new Measuring(dispatch);
    /** @type {Promise<void>} the last save of a record or plan */
    this.turn = Promise.resolve();
  }

  on() {
    this.keeper.on();
    this.load("practice", () => ask("GET", "/api/practice"), (practice) => ({
      type: "practice", practice,
    }));
  }

  off() {
    this.keeper.off();
  }

  /**
   * Asks until the program answers.
   * @param {string} what
   * @param {() => Promise<any>} request
   * @param {(answer: any) => Action} action
   * @returns {Promise<void>}
   */
  async load(what, request, action) {
    try {
      const answer = await request();
      this.dispatch({ type: "reachable", yes: true });
      this.dispatch(action(answer));
    } catch (error) {
      this.#trouble(error);
      if (!(error instanceof Refusal))
        setTimeout(() => this.load(what, request, action), retry_after);
    }
  }

  /** @param {unknown} error */
  #trouble(error) {
    if (error instanceof Refusal) this.dispatch({ type: "notice", sentence: error.message });
    else this.dispatch({ type: "reachable", yes: false });
    if (!(error instanceof Error)) throw error;
  }

  /**
   * Asks once; false when it was refused or nobody answered.
   * @param {() => Promise<any>} request
   * @param {(answer: any) => Action} action
   */
  async #once(request, action) {
    this.dispatch({ type: "notice", sentence: "" });
    try {
      this.dispatch(action(await request()));
      this.dispatch({ type: "reachable", yes: true });
      return true;
    } catch (error) {
      this.#trouble(error);
      return false;
    }
  }

  load_cases() {
    return this.load("cases", () => ask("GET", "/api/cases"), (answer) => ({
      type: "cases", cases: answer.cases,
    }));
  }

  /** @param {string} name @returns {Promise<string | null>} the new case's id */
  async add_case(name) {
    /** @type {string | null} */
    let id = null;
    await this.#once(
      () => ask("POST", "/api/cases", { horse: { name } }),
      (record) => ((id = record.id), { type: "record", record }),
    );
    return id;
  }

  /** @param {string} id */
  load_case(id) {
    return this.load("case", () => ask("GET", path_of("api", "cases", id)), (record) => ({
      type: "record", record,
    }));
  }

  /**
   * Shown at once and sent in turn, so that two fields changed in haste don't undo each other.
   * @param {import("../state/types.js").Case} record
   */
  save_case(record) {
    this.dispatch({ type: "record", record });
    return this.#in_turn(
      () => ask("PUT", path_of("api", "cases", record.id), record),
      () => this.load_case(record.id),
    );
  }

  /** @param {() => Promise<any>} request @param {() => void} on_refusal */
  #in_turn(request, on_refusal) {
    const answered = async () => {
      try {
        await request();
        this.dispatch({ type: "reachable", yes: true });
      } catch (error) {
        this.#trouble(error);
        if (error instanceof Refusal) return on_refusal();
        await new Promise((resolve) => setTimeout(resolve, retry_after));
        await answered();
      }
    };
    this.turn = this.turn.then(answered);
    return this.turn;
  }

  /** @param {string} id @param {{date: string, last_trim: string}} visit */
  add_visit(id, visit) {
    return this.#once(
      () => ask("POST", path_of("api", "cases", id, "visits"), visit),
      (record) => ({ type: "record", record }),
    );
  }

  /** @param {string} id @param {string} visit @param {File} file */
  async add_picture(id, visit, file) {
    this.dispatch({ type: "uploading", name: file.name });
    const path = path_of("api", "cases", id, "visits", visit, "pictures");
    await this.#once(
      () => ask("POST", `${path}?name=${encodeURIComponent(file.name)}`, file),
      (answer) => ({ type: "picture-entry", visit, picture: answer.picture }),
    );
    this.dispatch({ type: "uploaded", name: file.name });
  }

  /** @param {string} id @param {string} visit
   * @param {import("../state/types.js").PictureEntry} entry */
  async save_picture(id, visit, entry) {
    const path = path_of("api", "cases", id, "visits", visit, "pictures", entry.digest);
    const done = await this.#once(
      () => ask("PUT", path, entry),
      (answer) => ({ type: "picture-entry", visit, picture: answer.picture }),
    );
    if (done) memory.keep_confirmed(entry.digest);
    return done;
  }

  /** @param {string} id @param {string} visit @param {string} digest */
  remove_picture(id, visit, digest) {
    return this.#once(
      () => ask("DELETE", path_of("api", "cases", id, "visits", visit, "pictures", digest)),
      (record) => ({ type: "record", record }),
    );
  }

  /** @param {string} digest */
  load_info(digest) {
    return this.load("info", () => ask("GET", path_of("api", "pictures", digest)), (info) => ({
      type: "info", digest, info,
    }));
  }

  /** @param {string} digest @returns {Promise<Uint16Array>} */
  async samples(digest) {
    return new Uint16Array(await ask_bytes(path_of("api", "pictures", digest, "samples")));
  }

  /**
   * The reading as the program has it, or as this device kept it when that is newer.
   * @param {string} case_id @param {string} digest @param {string} reader
   */
  async load_reading(case_id, digest, reader) {
    const of = { case_id, digest, reader };
    const mine = memory.pending(of);
    if (mine) this.dispatch(this.#reading(of, { turn: 1, sight: "open", done: "", ...mine }, "saving"));
    await this.load("reading", () => ask("GET", reading_path(of)), (answer) => {
      const { reading } = answer;
      const kept = memory.pending(of);
      if (mine && !kept) {
        // Saved while the answer was on its way, which may be older: the points shown stay.
        this.load_reading(case_id, digest, reader);
        return { type: "reachable", yes: true };
      }
      if (!kept || (kept.turn ?? 1) !== reading.turn) return this.#reading(of, reading, "saved");
      queueMicrotask(() => this.keeper.settle(kept, reading));
      return this.#reading(of, { ...reading, landmarks: kept.landmarks, revision: kept.revision }, "saving");
    });
  }

  /** @param {{case_id: string, digest: string, reader: string}} of
   * @param {{landmarks: Landmarks, revision: number, turn: number, sight: string, done: string}} reading
   * @param {import("../state/state.js").Keeping} keeping @returns {Action} */
  #reading(of, { landmarks, revision, turn, sight, done }, keeping) {
    const steps = memory.steps(of.case_id, of.digest, of.reader);
    const fits = steps !== null && same_points(steps.now.landmarks, landmarks);
    const fresh = revision === 0 && Object.keys(landmarks).length === 0;
    return {
      type: "reading",
      digest: of.digest,
      revision,
      turn,
      sight,
      done: done !== "",
      landmarks,
      keeping,
      kept: fits ? { ...steps, skipped: steps.now.skipped } : {},
      confirming: fresh && !memory.is_confirmed(of.digest),
    };
  }

  /**
   * What the program sees in a picture: card, balls, ends of a bar, dots. Null when it was refused;
   * the notice says why.
   * @param {"card" | "balls" | "ends" | "dots"} what @param {string} case_id @param {string} digest
   * @param {object} [body] @returns {Promise<any>}
   */
  async find(what, case_id, digest, body = {}) {
    /** @type {any} */
    let seen = null;
    await this.#once(
      () => ask("POST", path_of("api", "cases", case_id, "find", digest, what), body),
      (answer) => ((seen = answer), { type: "found", digest, found: {} }),
    );
    return seen;
  }

  /**
   * What a scale would give, before it is kept. A refusal is part of the answer.
   * @param {string} case_id @param {string} digest @param {import("../state/types.js").Scale} scale
   * @param {Landmarks} landmarks
   * @returns {Promise<import("../state/types.js").CalibrationSaid | null>}
   */
  async try_scale(case_id, digest, scale, landmarks) {
    try {
      const answer = await ask("POST", path_of("api", "cases", case_id, "scale", digest), { scale, landmarks });
      return answer.calibration;
    } catch (error) {
      if (error instanceof Refusal) return no_scale(error.message);
      this.#trouble(error);
      return null;
    }
  }

  /** @param {string} case_id @param {string} visit */
  load_postures(case_id, visit) {
    const path = path_of("api", "cases", case_id, "visits", visit, "postures");
    return this.load("postures", () => ask("GET", path), (compared) => ({ type: "postures", visit, compared }));
  }

  /**
   * Who has read the picture, and how far their readings agree.
   * @param {{case_id: string, digest: string, reader: string}} of
   */
  async load_readers(of) {
    await this.load("readers", () => ask("GET", readers_path(of, "all")), (answer) => ({
      type: "readers", digest: of.digest, readers: answer.readings,
    }));
    await this.load("agreement", () => ask("GET", readers_path(of, "agreement")), (answer) => ({
      type: "agreement", digest: of.digest, agreement: answer.agreement,
    }));
  }

  /** An empty reading. @param {{case_id: string, digest: string, reader: string}} of
   * @param {"open" | "blind"} sight */
  async begin_turn(of, sight) {
    await this.#once(
      () => ask("POST", readers_path(of, "turn"), { sight }),
      (answer) => this.#reading(of, answer.reading, "saved"),
    );
    return this.load_readers(of);
  }

  /** @param {{case_id: string, digest: string, reader: string}} of */
  async finish_reading(of) {
    await this.#once(
      () => ask("POST", readers_path(of, "done"), {}),
      (answer) => ({ type: "turn-done", digest: of.digest, revision: answer.reading.revision }),
    );
    return this.load_readers(of);
  }

  /** For plan and paper. @param {{case_id: string, digest: string, reader: string}} of
   * @param {{reader: string, turn: number}} picked */
  pick_reading(of, { reader, turn }) {
    return this.#once(
      () => ask("POST", readers_path(of, "pick"), { reader, turn }),
      (answer) => ({ type: "readers", digest: of.digest, readers: answer.readings }),
    );
  }

  /** @param {string} case_id @param {string} visit */
  #plan_path(case_id, visit) {
    return path_of("api", "cases", case_id, "visits", visit, "plan");
  }

  /** @param {string} case_id @param {string} visit */
  #fit_path(case_id, visit) {
    return path_of("api", "cases", case_id, "visits", visit, "fit");
  }

  /** @param {string} case_id @param {string} visit */
  load_plan(case_id, visit) {
    return this.load("plan", () => ask("GET", this.#plan_path(case_id, visit)), (answer) => ({
      type: "plan", visit, plan: answer.plan ?? null,
    }));
  }

  /** @param {string} case_id @param {string} visit @param {string} made_by */
  async make_plan(case_id, visit, made_by) {
    this.dispatch({ type: "planning", busy: true });
    await this.#once(
      () => ask("POST", this.#plan_path(case_id, visit), { made_by }),
      (answer) => ({ type: "plan", visit, plan: answer.plan }),
    );
    this.dispatch({ type: "planning", busy: false });
  }

  /** @param {string} case_id @param {string} visit @param {{limb: string, aims: unknown[]}} asked */
  best_fit(case_id, visit, asked) {
    return this.#once(
      () => ask("POST", this.#fit_path(case_id, visit), asked),
      (answer) => ({ type: "fit", fit: { asked, found: answer.fit } }),
    );
  }

  /** @param {string} case_id @param {string} visit
   * @param {{limb: string, aims: unknown[], means: string, made_by: string}} taken */
  take_way(case_id, visit, taken) {
    return this.#once(
      () => ask("POST", `${this.#fit_path(case_id, visit)}/take`, taken),
      (answer) => ({ type: "plan", visit, plan: answer.plan }),
    );
  }

  /** @param {string} case_id @param {string} visit @param {import("../state/types.js").Plan} plan */
  save_plan(case_id, visit, plan) {
    const lines = plan.lines.map(({ decision, note }) => ({ decision, note }));
    this.dispatch({ type: "plan", visit, plan });
    return this.#in_turn(
      () => ask("PUT", this.#plan_path(case_id, visit), { version: plan.version, lines }),
      () => this.load_plan(case_id, visit),
    );
  }

  /** @param {string} case_id @param {string} visit @param {number} version
   * @param {{name: string, registration: string, date: string, note: string}} sign_off */
  async sign_plan(case_id, visit, version, sign_off) {
    await this.turn;
    return this.#once(
      () => ask("POST", `${this.#plan_path(case_id, visit)}/sign`, { version, ...sign_off }),
      (answer) => ({ type: "plan", visit, plan: answer.plan }),
    );
  }
}

/** @param {string} sentence @returns {import("../state/types.js").CalibrationSaid} */
const no_scale = (sentence) => ({ has_scale: false, sentence, relative_uncertainty: 0, cautions: [], conflicts: [] });

/** @param {{case_id: string, digest: string, reader: string}} of
 * @param {"all" | "turn" | "done" | "pick" | "agreement"} what */
function readers_path(of, what) {
  const path = path_of("api", "cases", of.case_id, "readings", of.digest, what);
  return `${path}?reader=${encodeURIComponent(of.reader)}`;
}

/** @param {string} case_id @param {string} visit @param {"A4" | "Letter"} paper */
export function paper_path(case_id, visit, paper) {
  return `${path_of("api", "cases", case_id, "visits", visit, "report.pdf")}?paper=${paper}`;
}

/** @param {string} digest */
export const thumbnail_path = (digest) => path_of("api", "pictures", digest, "thumbnail.jpg");

/** @param {string} digest */
export const photo_path = (digest) => path_of("api", "pictures", digest, "image.jpg");

/** @param {string} name */
export const drawing_path = (name) => path_of("templates", "protocols", name);

