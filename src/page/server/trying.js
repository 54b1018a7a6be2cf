/** What a change of the foot would do, while a hand drags it. */
import { ask, path_of } from "./ask.js";
import { Latest } from "./latest.js";

/** @typedef {{case_id: string, visit: string, limb: string,
 *   wished: Record<string, number> | null, shoe: import("../state/types.js").ShoeFacts, moved: string}} Wish */

/** Pairs of numbers as places. @param {any} tried @returns {import("../state/types.js").Tried} */
function with_spots(tried) {
  const spot = (/** @type {[number, number]} */ [x, y]) => ({ x, y });
  const pictures = tried.pictures.map((/** @type {any} */ each) => ({
    ...each,
    grips: each.grips.map((/** @type {any} */ grip) => ({ ...grip, at: spot(grip.at), per_unit: spot(grip.per_unit) })),
  }));
  return { ...tried, pictures };
}

export class Trying {
  /** @param {(action: import("../state/state.js").Action) => void} dispatch */
  constructor(dispatch) {
    this.latest = new Latest(async (/** @type {Wish} */ { case_id, visit, limb, wished, shoe, moved }) => {
      const path = `${path_of("api", "cases", case_id, "visits", visit)}/try`;
      const body = { change: { limb, ...wished, shoe }, moved, weeks: true, from_plan: wished === null };
      const answer = await ask("POST", path, body);
      dispatch({ type: "tried", visit, limb, wished, tried: with_spots(answer.try) });
    }, ({ visit, limb }, refused) => {
      dispatch({ type: "untried", visit, limb });
      if (refused) dispatch({ type: "notice", sentence: refused });
    });
  }

  /** @param {Wish} wish `wished` is null where the plan's own amounts are wanted */
  want(wish) {
    this.latest.want(wish);
  }
}
