/** Brightness and contrast by drag: in brightness mode, or with the right button at any time. */
import { regrade } from "../state/view.js";
import { Gesture } from "./gesture.js";

export class Grade extends Gesture {
  constructor(/** @type {import("./gesture.js").Ground} */ ground) {
    super(ground);
    this.listeners.push(["contextmenu", (event) => event.preventDefault()]);
  }

  /** @override @param {PointerEvent} event */
  begins(event) {
    const { ground } = this;
    const brightness = event.button === 0 && ground.state().open?.mode === "brightness";
    if (!(event.button === 2 || brightness) || ground.held.space || !ground.claim.free) return false;
    ground.claim.take(this);
    return true;
  }

  /** @override @param {PointerEvent} _event @param {import("./gesture.js").Spot} _at
   * @param {import("./gesture.js").Spot} step */
  moves(_event, _at, step) {
    const { dispatch, state } = this.ground;
    const { open, stage } = state();
    if (!open?.window || this.ground.claim.owner !== this) return;
    const window = regrade(open.window, (2 * step.x) / stage.width, -step.y / stage.height);
    dispatch({ type: "window", window });
  }
}
