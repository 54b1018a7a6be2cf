/**
 * While something is being chosen in the picture, a tap chooses it. Else a tap places the point asked for; holding still brings the loupe, and the point goes where the
 * hand lets go. A tap right on a point selects it; with nothing asked, on a line lights its number.
 */
import { asking_in, is_trying } from "../state/state.js";
import { Gesture, by, reach, tremble } from "./gesture.js";

const hold = 350; // ms until a still finger means "aim"

export class Place extends Gesture {
  start = { x: 0, y: 0 };
  moved = false;
  aiming = false;
  timer = 0;
  takes = 0;

  /** @override @param {PointerEvent} event @param {import("./gesture.js").Spot} at */
  begins(event, at) {
    const { ground } = this;
    const open = ground.state().open;
    if (event.button !== 0 || open?.mode !== "points" || ground.held.space || !ground.claim.free || is_trying(ground.state())) return false;
    this.start = at;
    this.moved = false;
    this.aiming = false;
    this.takes = ground.claim.takes;
    const empty = ground.mark_at(at, 24) === null;
    if (empty && asking_in(ground.state())) this.timer = window.setTimeout(() => this.#aim(event), hold);
    return true;
  }

  /** @param {PointerEvent} event */
  #aim(event) {
    if (this.pointer < 0 || this.moved || !this.ground.claim.free) return;
    this.ground.claim.take(this);
    this.aiming = true;
    this.ground.look({ aim: this.last, hand: this.last, by: by(event) });
  }

  /** @override @param {PointerEvent} event @param {import("./gesture.js").Spot} at */
  moves(event, at) {
    if (Math.hypot(at.x - this.start.x, at.y - this.start.y) >= tremble(event)) this.moved = true;
    if (this.aiming) this.ground.look({ aim: at, hand: at, by: by(event) });
    else if (this.moved) clearTimeout(this.timer);
  }

  /** @override @param {PointerEvent} event @param {import("./gesture.js").Spot} at */
  ends(event, at) {
    if (this.aiming) this.#place(event, at);
    else if (!this.moved && this.ground.claim.takes === this.takes) this.#tap(event, at);
  }

  /** @param {PointerEvent} event @param {import("./gesture.js").Spot} at */
  #tap(event, at) {
    const { ground } = this;
    if (ground.state().open?.found.picking) return this.#pick(event, at);
    const asked = asking_in(ground.state());
    const exact = by(event) === "mouse" ? 4 : 6;
    const id = ground.mark_at(at, asked ? exact : 4 * exact);
    if (id !== null && ground.state().open?.points.now.landmarks[id]) ground.dispatch({ type: "select", id });
    else if (id !== null && id !== asked?.id) ground.dispatch({ type: "choose", id });
    else if (asked) this.#place(event, at);
    else this.#light(at);
  }

  /** @param {PointerEvent} event @param {import("./gesture.js").Spot} at */
  #pick(event, at) {
    const { dispatch, to_picture, step_to_picture } = this.ground;
    const far = step_to_picture({ x: 2 * reach(event), y: 0 });
    dispatch({ type: "picked", at: to_picture(at), reach: Math.hypot(far.x, far.y) });
  }

  /** @param {PointerEvent} event @param {import("./gesture.js").Spot} at */
  #place(event, at) {
    const asked = asking_in(this.ground.state());
    if (asked) this.ground.dispatch({ type: "place", id: asked.id, ...this.ground.to_picture(at), exact: event.shiftKey });
  }

  /** @param {import("./gesture.js").Spot} at */
  #light(at) {
    const about = this.ground.about_at(at, 12);
    if (about !== null) this.ground.dispatch({ type: "light", id: about });
    else this.ground.dispatch({ type: "select", id: null });
  }

  /** @override */
  lets_go() {
    clearTimeout(this.timer);
    if (this.aiming) this.ground.look(null);
    this.aiming = false;
  }
}
