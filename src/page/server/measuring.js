/**
 * Numbers that follow the hand: one request at a time, and when it comes back only the latest
 * landmarks go out. Answers carry a turn so that an older one never covers a newer.
 */
import { ask, path_of } from "./ask.js";

export class Measuring {
  /** @param {(action: import("../state/state.js").Action) => void} dispatch */
  constructor(dispatch) {
    this.dispatch = dispatch;
    this.busy = false;
    this.turn = 0;
    /** @type {{case_id: string, digest: string, about: string,
     *   landmarks: import("../state/types.js").Landmarks} | null} */
    this.latest = null;
  }

  /** @param {string} case_id @param {string} digest
   * @param {import("../state/types.js").Landmarks} landmarks
   * @param {string | null} lit measurement whose construction alone is wanted */
  measure(case_id, digest, landmarks, lit) {
    this.latest = { case_id, digest, landmarks, about: lit ?? "" };
    if (!this.busy) this.#go();
  }

  async #go() {
    while (this.latest) {
      const { case_id, digest, landmarks, about } = this.latest;
      this.latest = null;
      this.busy = true;
      const turn = ++this.turn;
      try {
        const path = path_of("api", "cases", case_id, "measure", digest);
        const answer = await ask("POST", path, { landmarks, about });
        this.dispatch({ type: "result", digest, turn, result: answer.result ?? answer });
      } catch {
        // The last numbers stay; the keeper says when the program is away and asks again.
      }
    }
    this.busy = false;
  }
}
