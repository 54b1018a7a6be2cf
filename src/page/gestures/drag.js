/** Drags a point; a proposed one becomes placed by it. The hand may take it beside itself: the distance at the start is kept. */
import { graspable_in } from "../state/state.js";
import { Gesture, by, reach, tremble } from "./gesture.js";

export class Drag extends Gesture {
  id = "";
  run = "";
  runs = 0;
  moving = false;
  offset = { x: 0, y: 0 };
  start = { x: 0, y: 0 };

  /** @override @param {PointerEvent} event @param {import("./gesture.js").Spot} at */
  begins(event, at) {
    const { ground } = this;
    const mode = ground.state().open?.mode;
    if (event.button !== 0 || mode !== "points" || ground.held.space || !ground.claim.free) return false;
    const id = ground.mark_at(at, reach(event));
    const landmark = id === null ? undefined : graspable_in(ground.state())[id];
    if (id === null || !landmark) return false;
    const p = ground.to_screen(landmark);
    this.id = id;
    this.run = `drag ${++this.runs}`;
    this.moving = false;
    this.start = at;
    this.offset = { x: p.x - at.x, y: p.y - at.y };
    return true;
  }

  /** @override @param {PointerEvent} event @param {import("./gesture.js").Spot} at */
  moves(event, at) {
    const { ground } = this;
    if (!this.moving) {
      const far = Math.hypot(at.x - this.start.x, at.y - this.start.y);
      if (far < tremble(event) || !(ground.claim.free || ground.claim.owner === this)) return;
      ground.claim.take(this);
      this.moving = true;
    }
    const aim = { x: at.x + this.offset.x, y: at.y + this.offset.y };
    const to = ground.to_picture(aim);
    const placed = ground.state().open?.points.now.landmarks[this.id];
    ground.dispatch({ type: placed ? "move" : "place", id: this.id, ...to, run: this.run });
    ground.look({ aim, hand: at, by: by(event) });
  }

  /** @override @param {PointerEvent} event */
  ends(event) {
    if (this.moving) this.ground.dispatch({ type: "drop", id: this.id, exact: event.shiftKey });
  }

  /** @override */
  lets_go() {
    this.ground.look(null);
  }
}
