/** Turns the picture about the middle of the stage, in the mode for that: as one turns a sheet of paper. */
import { middle_of } from "../state/view.js";
import { Gesture } from "./gesture.js";

export class Turn extends Gesture {
  /** @override @param {PointerEvent} event */
  begins(event) {
    const { ground } = this;
    const turning = event.button === 0 && ground.state().open?.mode === "turning";
    if (!turning || ground.held.space || !ground.claim.free) return false;
    ground.claim.take(this);
    return true;
  }

  /** @override @param {PointerEvent} _event @param {import("./gesture.js").Spot} at
   * @param {import("./gesture.js").Spot} step */
  moves(_event, at, step) {
    const { claim, dispatch, state } = this.ground;
    if (claim.owner !== this) return;
    const middle = middle_of(state().stage);
    const from = Math.atan2(at.y - step.y - middle.y, at.x - step.x - middle.x);
    const to = Math.atan2(at.y - middle.y, at.x - middle.x);
    const angle = Math.atan2(Math.sin(to - from), Math.cos(to - from));
    dispatch({ type: "turn", degrees: (angle * 180) / Math.PI });
  }
}
