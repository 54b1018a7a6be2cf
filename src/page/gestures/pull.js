/** Pulls a grip of the changed foot: its amount follows the hand along the grip's own way. */
import { is_trying } from "../state/state.js";
import { Gesture, reach } from "./gesture.js";

export class Pull extends Gesture {
  variable = "";
  from = 0;
  start = { x: 0, y: 0 };
  unit = { x: 0, y: 0 };

  /** @override @param {PointerEvent} event @param {import("./gesture.js").Spot} at */
  begins(event, at) {
    const { ground } = this;
    const state = ground.state();
    if (event.button !== 0 || !is_trying(state) || ground.held.space || !ground.claim.free) return false;
    const pulled = ground.grip_at(at, reach(event));
    if (!pulled) return false;
    this.variable = pulled.variable;
    this.unit = pulled.unit;
    this.from = state.trying?.tried?.change[pulled.variable] ?? 0;
    this.start = at;
    ground.claim.take(this);
    return true;
  }

  /** @override @param {PointerEvent} _event @param {import("./gesture.js").Spot} at */
  moves(_event, at) {
    const { x, y } = this.unit;
    const along = ((at.x - this.start.x) * x + (at.y - this.start.y) * y) / (x * x + y * y);
    this.ground.dispatch({ type: "wish", variable: this.variable, value: this.from + along });
  }

  /** @override */
  lets_go() {
    this.ground.dispatch({ type: "let-go" });
  }
}
