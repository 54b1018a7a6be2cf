/** Numbers that follow the hand. Answers carry a turn so that an older one never covers a newer. */
import { ask, path_of } from "./ask.js";
import { Latest } from "./latest.js";

/** @typedef {{case_id: string, digest: string, about: string,
 *   landmarks: import("../state/types.js").Landmarks}} Wish */

export class Measuring {
  /** @param {(action: import("../state/state.js").Action) => void} dispatch */
  constructor(dispatch) {
    this.turn = 0;
    this.latest = new Latest(async (/** @type {Wish} */ { case_id, digest, landmarks, about }) => {
      const turn = ++this.turn;
      const path = path_of("api", "cases", case_id, "measure", digest);
      const answer = await ask("POST", path, { landmarks, about });
      dispatch({ type: "result", digest, turn, result: answer.result ?? answer });
    });
  }

  /** @param {string} case_id @param {string} digest
   * @param {import("../state/types.js").Landmarks} landmarks
   * @param {string | null} lit measurement whose construction alone is wanted */
  measure(case_id, digest, landmarks, lit) {
    this.latest.want({ case_id, digest, landmarks, about: lit ?? "" });
  }
}
