/**
 * A gesture on the stage: on() begins to listen, off() ends it. Pointer Events only. A subclass
 * says when it starts and what moving and letting go mean; capture is always released here.
 * @typedef {import("./claim.js").Claim} Claim
 * @typedef {import("../state/types.js").Spot} Spot
 * @typedef {import("../state/state.js").State} State
 * @typedef {import("../state/state.js").Action} Action
 *
 * What a gesture may ask and do; main.js gives it, so that gestures needn't know the picture.
 * @typedef {object} Ground
 * @property {HTMLElement} element
 * @property {Claim} claim
 * @property {() => State} state
 * @property {(action: Action) => void} dispatch
 * @property {(at: Spot) => Spot} to_picture
 * @property {(step: Spot) => Spot} step_to_picture
 * @property {(at: Spot) => Spot} to_screen
 * @property {(at: Spot, reach: number) => string | null} mark_at
 * @property {(at: Spot, reach: number) => {variable: string, unit: Spot} | null} grip_at with its way on
 *   the screen for one unit of its amount
 * @property {(at: Spot, reach: number) => string | null} about_at
 * @property {(looking: {aim: Spot, hand: Spot, by: "finger" | "mouse"} | null) => void} look
 * @property {{space: boolean}} held keys held down
 */

export class Gesture {
  /** @param {Ground} ground */
  constructor(ground) {
    this.ground = ground;
    this.pointer = -1;
    this.last = { x: 0, y: 0 };
    this.listeners = /** @type {[string, (event: any) => void][]} */ ([
      ["pointerdown", (event) => this.#down(event)],
      ["pointermove", (event) => this.#moved(event)],
      ["pointerup", (event) => this.#up(event)],
      ["pointercancel", () => this.cancel()],
    ]);
  }

  on() {
    for (const [name, listener] of this.listeners) this.ground.element.addEventListener(name, listener);
  }

  off() {
    this.cancel();
    for (const [name, listener] of this.listeners) this.ground.element.removeEventListener(name, listener);
  }

  /** Should it begin here? @param {PointerEvent} _event @param {Spot} _at @returns {boolean} */
  begins(_event, _at) {
    return false;
  }

  /** @param {PointerEvent} _event @param {Spot} _at @param {Spot} _step since the last move */
  moves(_event, _at, _step) {}

  /** @param {PointerEvent} _event @param {Spot} _at */
  ends(_event, _at) {}

  /** Let go without effect, also when another gesture takes the hand. */
  cancel() {
    if (this.pointer < 0) return;
    this.#release();
    this.lets_go();
  }

  lets_go() {}

  /** @param {PointerEvent} event */
  #down(event) {
    const at = spot(event, this.ground.element);
    if (this.pointer >= 0 || !this.begins(event, at)) return;
    this.pointer = event.pointerId;
    this.last = at;
    this.ground.element.setPointerCapture(event.pointerId);
  }

  /** @param {PointerEvent} event */
  #moved(event) {
    if (event.pointerId !== this.pointer) return;
    const at = spot(event, this.ground.element);
    const step = { x: at.x - this.last.x, y: at.y - this.last.y };
    this.last = at;
    this.moves(event, at, step);
  }

  /** @param {PointerEvent} event */
  #up(event) {
    if (event.pointerId !== this.pointer) return;
    const at = spot(event, this.ground.element);
    this.ends(event, at);
    this.#release();
    this.lets_go();
  }

  #release() {
    const element = this.ground.element;
    if (element.hasPointerCapture(this.pointer)) element.releasePointerCapture(this.pointer);
    this.pointer = -1;
    this.ground.claim.leave(this);
  }
}

/** @param {PointerEvent | WheelEvent} event @param {HTMLElement} element @returns {Spot} */
export function spot(event, element) {
  const box = element.getBoundingClientRect();
  return { x: event.clientX - box.left, y: event.clientY - box.top };
}

/** @param {PointerEvent} event */
export const by = (event) => (event.pointerType === "mouse" ? "mouse" : "finger");

/** How near a hand comes to what it means, screen px. @param {PointerEvent} event */
export const reach = (event) => (by(event) === "mouse" ? 13 : 24);

/** How far a hand trembles without meaning to move, screen px. @param {PointerEvent} event */
export const tremble = (event) => (by(event) === "mouse" ? 3 : 9);
