/**
 * What the page asks of the program, one method a wish. Answers become actions; a refusal becomes
 * the notice, in the program's own sentence.
 * @typedef {import("../state/state.js").Action} Action
 * @typedef {import("../state/types.js").Landmarks} Landmarks
 */
import { Refusal, ask, ask_bytes, path_of } from "./ask.js";
import { Decisions } from "./decisions.js";
import { Keeper, reading_path, same_points } from "./keeper.js";
import { Measuring } from "./measuring.js";
import { Settling } from "./settling.js";
import * as memory from "./memory.js";
import { words } from "../words/words.js";

const retry_after = 2000; // ms

export class Server {
  /** @param {(action: Action) => void} dispatch */
  constructor(dispatch) {
    this.dispatch = dispatch;
    this.keeper = new Keeper(dispatch, (of) => this.load_reading(of.case_id, of.digest, of.reader));
    this.decisions = new Decisions(dispatch);
    this.writing = 0; // changes on their way
    this.written = 0; // and those that were
    this.measuring = new Measuring(dispatch);
    this.settling = new Settling(dispatch);
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
    this.writing += 1;
    try {
      this.dispatch(action(await request()));
      this.dispatch({ type: "reachable", yes: true });
      return true;
    } catch (error) {
      this.#trouble(error);
      return false;
    } finally {
      this.#has_written();
    }
  }

  #has_written() {
    this.writing -= 1;
    this.written += 1;
  }

  load_cases() {
    return this.load("cases", () => ask("GET", "/api/cases"), (answer) => ({
      type: "cases", cases: answer.cases,
    }));
  }

  /** @param {string} name @returns {Promise<string | null>} the new case's id */
  add_case(name) {
    return this.#new_case(() => ask("POST", "/api/cases", { horse: { name } }));
  }

  /** The invented horse that came with the program. @returns {Promise<string | null>} its id */
  add_sample() {
    return this.#new_case(() => ask("POST", "/api/sample", {}));
  }

  /** @param {() => Promise<any>} request */
  async #new_case(request) {
    /** @type {string | null} */
    let id = null;
    await this.#once(request, (record) => ((id = record.id), { type: "record", record }));
    return id;
  }

  /** @param {string} id */
  load_case(id) {
    return this.load("case", () => ask("GET", path_of("api", "cases", id)), (record) => ({
      type: "record", record,
    }));
  }

  /**
   * Shown at once and sent in turn, so that two fields changed in haste don't undo each other; the
   * changed field alone, so that two people don't either.
   * @param {import("../state/types.js").Case} record @param {object} changed as little of it as holds the change
   */
  save_case(record, changed) {
    this.dispatch({ type: "record", record });
    return this.#in_turn(
      () => ask("PUT", path_of("api", "cases", record.id), changed),
      () => this.load_case(record.id),
    );
  }

  /** @param {() => Promise<any>} request @param {() => void} on_refusal */
  #in_turn(request, on_refusal) {
    this.writing += 1;
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
    this.turn = this.turn.then(answered).finally(() => this.#has_written());
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

  /** How high a drawing is, for its width. @param {string} name */
  load_drawing(name) {
    return this.load("drawing", () => ask_bytes(drawing_path(name)), (bytes) => {
      const [, , width, height] = (new TextDecoder().decode(bytes).match(/viewBox="([^"]*)"/)?.[1] ?? "").split(" ").map(Number);
      return { type: "drawing", name, aspect: height / width || 0 };
    });
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
    if (mine) this.dispatch(this.#reading(of, { turn: 1, sight: "open", done: "", base: {}, ...mine }, "saving"));
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
      const base = kept.revision === reading.revision ? reading.landmarks : kept.base ?? {};
      return this.#reading(of, { ...reading, landmarks: kept.landmarks, revision: kept.revision, base }, "saving");
    });
  }

  /** @param {{case_id: string, digest: string, reader: string}} of
   * @param {{landmarks: Landmarks, revision: number, turn: number, sight: string, done: string, base?: Landmarks}} reading
   *   base: the points of that revision where they aren't these
   * @param {import("../state/state.js").Keeping} keeping @returns {Action} */
  #reading(of, { landmarks, revision, turn, sight, done, base }, keeping) {
    const steps = memory.steps(of.case_id, of.digest, of.reader);
    const fits = steps !== null && same_points(steps.now.landmarks, landmarks);
    const fresh = revision === 0 && Object.keys(landmarks).length === 0;
    return {
      type: "reading",
      digest: of.digest,
      revision,
      base: base ?? landmarks,
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

  /** Landmarks that the program proposes; none when it is away or not sure enough of any.
   * @param {string} case_id @param {string} digest
   * @returns {Promise<Record<string, import("../state/types.js").Spot>>} by landmark */
  async proposals(case_id, digest) {
    try {
      const { suggestions } = await ask("POST", path_of("api", "cases", case_id, "find", digest, "landmarks"), {});
      return Object.fromEntries(suggestions.map((/** @type {any} */ each) => [each.id, { x: each.x, y: each.y }]));
    } catch {
      return {};
    }
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

  /** Where a limb was seen hanging free, or twice from the side, the program compares its pictures.
   * @param {import("../state/types.js").Case | null} record */
  load_all_postures(record) {
    const sides = (/** @type {import("../state/types.js").Visit} */ visit) =>
      visit.pictures.filter((each) => each.view === "lateromedial").map((each) => each.limb);
    for (const visit of record?.visits ?? [])
      if (visit.pictures.some((each) => each.view === "limb-hanging") || new Set(sides(visit)).size < sides(visit).length)
        this.load_postures(record?.id ?? "", visit.id);
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
    await this.load("readers", () => this.readers(of), (readers) => ({ type: "readers", digest: of.digest, readers }));
    await this.load("agreement", () => ask("GET", readers_path(of, "agreement")), (answer) => ({
      type: "agreement", digest: of.digest, agreement: answer.agreement,
    }));
  }

  /** Asks once. @param {{case_id: string, digest: string, reader: string}} of
   * @returns {Promise<import("../state/types.js").ReadingLine[]>} */
  async readers(of) {
    return (await ask("GET", readers_path(of, "all"))).readings;
  }

  /** Asks once. @param {{case_id: string, digest: string, reader: string}} of */
  async load_agreement(of) {
    const { agreement } = await ask("GET", readers_path(of, "agreement"));
    this.dispatch({ type: "agreement", digest: of.digest, agreement });
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
  plan_path(case_id, visit) {
    return path_of("api", "cases", case_id, "visits", visit, "plan");
  }

  /** @param {string} case_id @param {string} visit */
  #fit_path(case_id, visit) {
    return path_of("api", "cases", case_id, "visits", visit, "fit");
  }

  /** @param {string} case_id @param {string} visit */
  load_plan(case_id, visit) {
    return this.load("plan", () => ask("GET", this.plan_path(case_id, visit)), (answer) => this.plan_came(visit, answer));
  }

  /** @param {string} visit
   * @param {{plan?: import("../state/types.js").Plan | null, outlooks?: import("../state/types.js").Outlook[]}} answer
   *   without outlooks where they can't be others than before
   * @returns {Action} */
  plan_came(visit, { plan, outlooks }) {
    this.decisions.seen(visit, plan ?? null);
    return outlooks ? { type: "outlooks", visit, outlooks } : { type: "reachable", yes: true };
  }

  /** @param {string} case_id @param {string} visit @param {string} made_by */
  async make_plan(case_id, visit, made_by) {
    this.dispatch({ type: "planning", busy: true });
    await this.#once(
      () => ask("POST", this.plan_path(case_id, visit), { made_by }),
      (answer) => this.plan_came(visit, answer),
    );
    this.dispatch({ type: "planning", busy: false });
  }

  /** @param {string} case_id @param {string} visit @param {{limb: string, aims: unknown[]}} asked */
  best_fit(case_id, visit, asked) {
    return this.#once(
      () => ask("POST", this.#fit_path(case_id, visit), asked),
      (answer) => ({ type: "best-fit", fit: { asked, found: answer.fit } }),
    );
  }

  /** @param {string} case_id @param {string} visit
   * @param {{limb: string, aims: unknown[], means: string, made_by: string}} taken */
  take_way(case_id, visit, taken) {
    return this.#once(
      () => ask("POST", `${this.#fit_path(case_id, visit)}/take`, taken),
      (answer) => this.plan_came(visit, answer),
    );
  }

  /** @param {string} case_id @param {string} visit
   * @param {{change: object, made_by: string}} taken */
  take_by_hand(case_id, visit, taken) {
    return this.#once(
      () => ask("POST", `${path_of("api", "cases", case_id, "visits", visit)}/try/take`, taken),
      (answer) => this.plan_came(visit, answer),
    );
  }

  /** @param {string} case_id @param {string} visit @param {import("../state/types.js").Plan} plan
   *   with the lines as they shall be */
  save_plan(case_id, visit, plan) {
    this.decisions.want(visit, plan);
    return this.#in_turn(
      () => this.decisions.send(this.plan_path(case_id, visit), visit),
      () => this.load_plan(case_id, visit),
    );
  }

  /** What was decided here is saved first; when something else came in with it, a person looks again.
   * @param {string} case_id @param {string} visit
   * @param {{name: string, registration: string, date: string, note: string}} sign_off */
  async sign_plan(case_id, visit, sign_off) {
    const { surprises } = this.decisions;
    await this.turn;
    const plan = this.decisions.known.get(visit);
    if (!plan) return false;
    if (this.decisions.surprises !== surprises) {
      this.dispatch({ type: "notice", sentence: words.plan.look_again });
      return false;
    }
    const { version, revision } = plan;
    return this.#once(
      () => ask("POST", `${this.plan_path(case_id, visit)}/sign`, { version, revision, ...sign_off }),
      (answer) => this.plan_came(visit, answer),
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

