/** Moves the picture: drag on empty ground, with the middle button, or with space held. */
import { pan } from "../state/view.js";
import { Gesture, tremble } from "./gesture.js";

export class Pan extends Gesture {
  start = { x: 0, y: 0 };

  /** @override @param {PointerEvent} event @param {import("./gesture.js").Spot} at */
  begins(event, at) {
    const { ground } = this;
    this.start = at;
    const anyway = event.button === 1 || (event.button === 0 && ground.held.space);
    if (anyway) {
      ground.claim.take(this);
      return true;
    }
    return event.button === 0 && ground.state().open?.mode === "points" && ground.claim.free;
  }

  /** @override @param {PointerEvent} event @param {import("./gesture.js").Spot} at
   * @param {import("./gesture.js").Spot} step */
  moves(event, at, step) {
    const { claim, dispatch, state } = this.ground;
    const open = state().open;
    if (!open || !(claim.free || claim.owner === this)) return;
    const far = Math.hypot(at.x - this.start.x, at.y - this.start.y);
    if (claim.free && far < tremble(event)) return;
    claim.take(this);
    dispatch({ type: "view", view: pan(open.view, step.x, step.y) });
  }
}
