/**
 * Answers that follow the hand: one request at a time, and when it comes back only the newest wish
 * goes out. Whoever shows them is told when one doesn't come in time, so that an answer to an older
 * wish doesn't stand for the newest; while the program is away the newest is asked for again.
 */
import { Refusal, Unreachable } from "./ask.js";

const in_time = 2000; // ms
const ask_again = 2000; // ms

/** @template Wish */
export class Latest {
  /** @param {(wish: Wish) => Promise<void>} request
   * @param {(wish: Wish, refused: string) => void} missing no answer, or none yet; with what the program said to it */
  constructor(request, missing) {
    this.request = request;
    this.missing = missing;
    this.busy = false;
    /** @type {Wish | null} still to be asked */
    this.newest = null;
    /** @type {Wish | null} the last of all */
    this.last = null;
  }

  /** @param {Wish} wish */
  want(wish) {
    this.last = this.newest = wish;
    if (!this.busy) this.#go();
  }

  async #go() {
    this.busy = true;
    while (this.newest !== null) {
      const wish = this.newest;
      this.newest = null;
      const late = setTimeout(() => this.missing(wish, ""), in_time);
      try {
        await this.request(wish);
      } catch (error) {
        this.missing(wish, error instanceof Refusal ? error.message : "");
        if (error instanceof Unreachable) setTimeout(() => this.last === wish && this.want(wish), ask_again);
        else if (!(error instanceof Refusal)) console.error(error);
      }
      clearTimeout(late);
    }
    this.busy = false;
  }
}
