/** Two fingers zoom and move the picture; whatever one finger had begun is let go. */
import { pan, zoom } from "../state/view.js";
import { spot } from "./gesture.js";

export class Pinch {
  /** @param {import("./gesture.js").Ground} ground */
  constructor(ground) {
    this.ground = ground;
    /** @type {Map<number, import("./gesture.js").Spot>} */
    this.fingers = new Map();
    this.listeners = /** @type {[string, (event: any) => void][]} */ ([
      ["pointerdown", (event) => this.#down(event)],
      ["pointermove", (event) => this.#moved(event)],
      ["pointerup", (event) => this.#gone(event)],
      ["pointercancel", (event) => this.#gone(event)],
    ]);
  }

  on() {
    for (const [name, listener] of this.listeners) this.ground.element.addEventListener(name, listener);
  }

  off() {
    this.cancel();
    for (const [name, listener] of this.listeners) this.ground.element.removeEventListener(name, listener);
  }

  cancel() {
    this.fingers.clear();
    this.ground.claim.leave(this);
  }

  /** @param {PointerEvent} event */
  #down(event) {
    if (event.pointerType === "mouse") return;
    this.fingers.set(event.pointerId, spot(event, this.ground.element));
    if (this.fingers.size === 2) this.ground.claim.take(this);
  }

  /** @param {PointerEvent} event */
  #moved(event) {
    const from = this.fingers.get(event.pointerId);
    const open = this.ground.state().open;
    if (!from || !open) return;
    const to = spot(event, this.ground.element);
    this.fingers.set(event.pointerId, to);
    if (this.ground.claim.owner !== this || this.fingers.size !== 2) return;
    const [other] = [...this.fingers].filter(([id]) => id !== event.pointerId).map(([, at]) => at);
    const factor = apart(to, other) / Math.max(1, apart(from, other));
    const moved = pan(open.view, (to.x - from.x) / 2, (to.y - from.y) / 2);
    const middle = { x: (to.x + other.x) / 2, y: (to.y + other.y) / 2 };
    this.ground.dispatch({ type: "view", view: zoom(moved, factor, middle) });
  }

  /** The hand stays taken until every finger is off, so that a pinch never ends in a point.
   * @param {PointerEvent} event */
  #gone(event) {
    this.fingers.delete(event.pointerId);
    if (this.fingers.size === 0) this.ground.claim.leave(this);
  }
}

/** @param {import("./gesture.js").Spot} a @param {import("./gesture.js").Spot} b */
const apart = (a, b) => Math.hypot(a.x - b.x, a.y - b.y);
