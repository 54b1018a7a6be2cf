/** A mouse that looks for the place of the point asked for carries the loupe beside it. */
import { asking_in } from "../state/state.js";
import { spot } from "./gesture.js";

export class Hover {
  /** @param {import("./gesture.js").Ground} ground */
  constructor(ground) {
    this.ground = ground;
    this.shown = false;
    this.listeners = /** @type {[string, (event: any) => void][]} */ ([
      ["pointermove", (event) => this.#moved(event)],
      ["pointerup", (event) => this.#moved(event)],
      ["pointerleave", () => this.#hide()],
    ]);
  }

  on() {
    for (const [name, listener] of this.listeners) this.ground.element.addEventListener(name, listener);
  }

  off() {
    this.#hide();
    for (const [name, listener] of this.listeners) this.ground.element.removeEventListener(name, listener);
  }

  /** @param {PointerEvent} event */
  #moved(event) {
    if (event.pointerType !== "mouse") return;
    const { claim, state, held } = this.ground;
    const aims = state().open?.found.picking || asking_in(state());
    const wanted = claim.free && !held.space && state().open?.mode === "points" && aims;
    if (!wanted) {
      if (claim.free) this.#hide();
      return;
    }
    const at = spot(event, this.ground.element);
    this.shown = true;
    this.ground.look({ aim: at, hand: at, by: "mouse" });
  }

  #hide() {
    if (this.shown) this.ground.look(null);
    this.shown = false;
  }
}
