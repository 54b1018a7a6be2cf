/**
 * Answers that follow the hand: one request at a time, and when it comes back only the newest wish
 * goes out. What fails is left: the last answer stays, and the next wish asks again.
 * @template Wish
 */
export class Latest {
  /** @param {(wish: Wish) => Promise<void>} request */
  constructor(request) {
    this.request = request;
    this.busy = false;
    /** @type {Wish | null} */
    this.newest = null;
  }

  /** @param {Wish} wish */
  want(wish) {
    this.newest = wish;
    if (!this.busy) this.#go();
  }

  async #go() {
    this.busy = true;
    while (this.newest !== null) {
      const wish = this.newest;
      this.newest = null;
      try {
        await this.request(wish);
      } catch {
        // The keeper says when the program is away.
      }
    }
    this.busy = false;
  }
}
