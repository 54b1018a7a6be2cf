/** The wheel, and a trackpad's pinch, zoom about the pointer. */
import { zoom } from "../state/view.js";
import { spot } from "./gesture.js";

export class Wheel {
  /** @param {import("./gesture.js").Ground} ground */
  constructor(ground) {
    this.ground = ground;
    this.listener = (/** @type {WheelEvent} */ event) => this.#turned(event);
  }

  on() {
    this.ground.element.addEventListener("wheel", this.listener, { passive: false });
  }

  off() {
    this.ground.element.removeEventListener("wheel", this.listener);
  }

  /** @param {WheelEvent} event */
  #turned(event) {
    event.preventDefault();
    const open = this.ground.state().open;
    if (!open) return;
    const pixels = event.deltaY * { 0: 1, 1: 16, 2: 400 }[/** @type {0 | 1 | 2} */ (event.deltaMode)];
    const factor = Math.exp(-pixels * (event.ctrlKey ? 0.01 : 0.0015));
    const view = zoom(open.view, factor, spot(event, this.ground.element));
    this.ground.dispatch({ type: "view", view });
  }
}
