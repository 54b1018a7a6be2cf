/** Draws a stroke along an edge, when that is what is asked for. */
import { Gesture } from "./gesture.js";

const apart = 3; // screen px between two places of the stroke

export class Stroke extends Gesture {
  /** @type {import("./gesture.js").Spot[]} */
  path = [];

  /** @override @param {PointerEvent} event @param {import("./gesture.js").Spot} at */
  begins(event, at) {
    const { ground } = this;
    if (event.button !== 0 || ground.held.space || ground.state().open?.found.picking !== "stroke") return false;
    ground.claim.take(this);
    this.path = [at];
    return true;
  }

  /** @override @param {PointerEvent} _event @param {import("./gesture.js").Spot} at */
  moves(_event, at) {
    const before = this.path[this.path.length - 1];
    if (Math.hypot(at.x - before.x, at.y - before.y) < apart) return;
    this.path.push(at);
    this.ground.dispatch({ type: "stroke", stroke: this.path.map(this.ground.to_picture) });
  }

  /** @override */
  ends() {
    const stroke = this.path.map(this.ground.to_picture);
    if (stroke.length > 1) this.ground.dispatch({ type: "stroke-drawn", stroke });
  }

  /** @override */
  lets_go() {
    if (this.ground.state().open?.found.stroke.length) this.ground.dispatch({ type: "stroke", stroke: [] });
  }
}
