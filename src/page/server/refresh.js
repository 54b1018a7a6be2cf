/**
 * Asks anew for what is shown after somebody saved something, and says so only where it became
 * another. What is on its way from here is left alone: its own answer, or the change that it makes,
 * brings the rest.
 * @typedef {import("../state/state.js").State} State
 */
import { Refusal, ask, path_of } from "./ask.js";

const ask_again = 300; // ms, when our own points were on their way

export class Refresh {
  /** @param {import("./server.js").Server} server @param {() => State} state */
  constructor(server, state) {
    this.server = server;
    this.state = state;
    this.timer = 0;
  }

  async all() {
    const { place } = this.state();
    if (!place.case_id) return;
    await Promise.all([this.#record(place.case_id), this.readers(), this.#plan()]);
    if (this.state().place.screen === "case") this.server.load_all_postures(this.state().record);
  }

  /** @param {string} id */
  async #record(id) {
    const record = await this.#unless_written(() => ask("GET", path_of("api", "cases", id)));
    if (record && this.state().record?.id === id) this.server.dispatch({ type: "record", record });
  }

  /** An answer is nothing when we wrote meanwhile: it may be older than what is shown.
   * @param {() => Promise<any>} request */
  async #unless_written(request) {
    const { server } = this;
    if (server.writing > 0) return null;
    const before = server.written;
    const answer = await request();
    return server.writing > 0 || server.written !== before ? null : answer;
  }

  /** Everybody's points of the open picture. */
  async readers() {
    const { place, open, reader, tab } = this.state();
    if (place.screen !== "picture" || !place.case_id || !open?.loaded || reader === "") return;
    const of = { case_id: place.case_id, digest: open.digest, reader };
    const readers = await this.#read(() => this.server.readers(of));
    if (!readers || this.state().reader !== reader) return;
    this.server.dispatch({ type: "readers", digest: of.digest, readers });
    this.#own(of, readers);
    if (tab === "readers") await this.#read(() => this.server.load_agreement(of));
  }

  /** A picture that was taken out meanwhile is no trouble. @template T @param {() => Promise<T>} request */
  async #read(request) {
    try {
      return await request();
    } catch (error) {
      if (error instanceof Refusal) return null;
      throw error;
    }
  }

  /** The same reader on another device.
   * @param {{case_id: string, digest: string, reader: string}} of
   * @param {import("../state/types.js").ReadingLine[]} readers */
  #own(of, readers) {
    const { open } = this.state();
    const newest = readers.filter((each) => each.reader === of.reader && each.seen).sort((a, b) => b.turn - a.turn)[0];
    if (!open?.loaded || open.digest !== of.digest || !newest) return;
    const { turn, sight, done, landmarks = {}, revision = 0 } = newest;
    if (turn < open.turn || (turn === open.turn && revision <= (open.theirs?.revision ?? open.revision))) return;
    if (this.server.keeper.sends(of)) return this.#soon();
    if (turn > open.turn) this.server.load_reading(of.case_id, of.digest, of.reader);
    else this.server.dispatch({ type: "elsewhere", digest: of.digest, reader: of.reader, turn, sent: null, theirs: { landmarks, revision, sight, done } });
  }

  #soon() {
    clearTimeout(this.timer);
    this.timer = window.setTimeout(() => this.readers().catch(() => {}), ask_again);
  }

  async #plan() {
    const { place, planning } = this.state();
    if (place.screen !== "plan" || !place.case_id || !place.visit || planning?.busy) return;
    const { case_id, visit } = place;
    const answer = await this.#unless_written(() => this.#read(() => ask("GET", this.server.plan_path(case_id, visit))));
    if (answer && this.state().planning?.visit === visit) this.server.dispatch(this.server.plan_came(visit, answer));
  }
}
