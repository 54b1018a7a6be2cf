/** Numbers that follow the hand. Answers carry a turn so that an older one never covers a newer. */
import { ask, path_of } from "./ask.js";
import { Latest } from "./latest.js";

/** @typedef {{case_id: string, digest: string, reader: string, landmarks: import("../state/types.js").Landmarks,
 *   about: string}} Wish `about`: measurement whose construction alone is wanted */

export class Measuring {
  /** @param {(action: import("../state/state.js").Action) => void} dispatch */
  constructor(dispatch) {
    this.turn = 0;
    this.latest = new Latest(async (/** @type {Wish} */ { case_id, digest, reader, landmarks, about }) => {
      const turn = ++this.turn;
      const answer = await ask("POST", path_of("api", "cases", case_id, "measure", digest), { landmarks, about });
      dispatch({ type: "result", digest, reader, landmarks, turn, result: answer.result ?? answer });
    }, ({ digest }, refused) => {
      dispatch({ type: "unmeasured", digest });
      if (refused) dispatch({ type: "notice", sentence: refused });
    });
  }

  /** @param {Wish} wish */
  measure(wish) {
    this.latest.want(wish);
  }
}
