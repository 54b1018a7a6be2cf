/** Draws a stroke along an edge, when that is what is asked for. */
import { Gesture } from "./gesture.js";

const apart = 3; // screen px between two places of the stroke

export class Stroke extends Gesture {
  /** @type {import("./gesture.js").Spot[]} picture px */
  path = [];
  drawn_to = { x: 0, y: 0 }; // screen

  /** @override @param {PointerEvent} event @param {import("./gesture.js").Spot} at */
  begins(event, at) {
    const { ground } = this;
    if (event.button !== 0 || ground.held.space || ground.state().open?.found.picking !== "stroke") return false;
    ground.claim.take(this);
    this.path = [ground.to_picture(at)];
    this.drawn_to = at;
    return true;
  }

  /** @override @param {PointerEvent} _event @param {import("./gesture.js").Spot} at */
  moves(_event, at) {
    if (Math.hypot(at.x - this.drawn_to.x, at.y - this.drawn_to.y) < apart) return;
    this.path = [...this.path, this.ground.to_picture(at)];
    this.drawn_to = at;
    this.ground.dispatch({ type: "stroke", stroke: this.path });
  }

  /** @override */
  ends() {
    if (this.path.length > 1) this.ground.dispatch({ type: "stroke-drawn", stroke: this.path });
  }

  /** @override */
  lets_go() {
    if (this.ground.state().open?.found.stroke.length) this.ground.dispatch({ type: "stroke", stroke: [] });
  }
}
