/**
 * The picture by keyboard alone. Keys on the stage act while it has the focus; undo and redo act on
 * the whole picture screen unless somebody writes in a field.
 */
import { asked_in, asking_in, is_trying, proposed_in } from "../state/state.js";
import { neighbour } from "../state/points.js";
import { middle_of, pan, regrade, reveal, zoom } from "../state/view.js";

/** @type {Record<string, [number, number]>} */
const arrows = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

export class Keys {
  /** @param {import("./gesture.js").Ground} ground */
  constructor(ground) {
    this.ground = ground;
    this.pressed = (/** @type {KeyboardEvent} */ event) => this.#pressed(event);
    this.lifted = (/** @type {KeyboardEvent} */ event) => this.#lifted(event);
    this.blurred = () => (this.ground.held.space = false);
    this.everywhere = (/** @type {KeyboardEvent} */ event) => this.#everywhere(event);
  }

  on() {
    const { element } = this.ground;
    element.addEventListener("keydown", this.pressed);
    element.addEventListener("keyup", this.lifted);
    element.addEventListener("blur", this.blurred);
    document.addEventListener("keydown", this.everywhere);
  }

  off() {
    const { element } = this.ground;
    element.removeEventListener("keydown", this.pressed);
    element.removeEventListener("keyup", this.lifted);
    element.removeEventListener("blur", this.blurred);
    document.removeEventListener("keydown", this.everywhere);
  }

  /** @param {KeyboardEvent} event */
  #everywhere(event) {
    const writing = event.target instanceof HTMLElement && event.target.matches("input, textarea, select");
    if (writing || !(event.ctrlKey || event.metaKey)) return;
    const key = event.key.toLowerCase();
    if (key !== "z" && key !== "y") return;
    event.preventDefault();
    this.ground.dispatch({ type: key === "y" || event.shiftKey ? "redo" : "undo" });
  }

  /** @param {KeyboardEvent} event */
  #lifted(event) {
    if (event.key === " ") this.ground.held.space = false;
  }

  /** @param {KeyboardEvent} event */
  #pressed(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const done = event.key in arrows ? this.#arrow(event) : this.#other(event);
    if (done) event.preventDefault();
  }

  /** @param {KeyboardEvent} event */
  #arrow(event) {
    const { state, dispatch, step_to_picture } = this.ground;
    const { open, stage } = state();
    if (!open) return false;
    const [x, y] = arrows[event.key];
    const much = event.shiftKey ? 10 : 1;
    const { selected, now } = open.points;
    if (open.mode === "brightness" && open.window)
      dispatch({ type: "window", window: regrade(open.window, x * 0.02 * much, -y * 0.01 * much) });
    else if (open.mode === "turning") dispatch({ type: "turn", degrees: (x + y) * 0.5 * much });
    else if (selected !== null && now.landmarks[selected]) {
      const step = step_to_picture({ x: x * much, y: y * much });
      const from = now.landmarks[selected];
      const to = { x: from.x + step.x, y: from.y + step.y };
      dispatch({ type: "move", id: selected, ...to, run: `nudge ${selected}` });
    } else dispatch({ type: "view", view: pan(open.view, (-x * stage.width) / 12, (-y * stage.height) / 12) });
    return true;
  }

  /** @param {KeyboardEvent} event @returns {boolean} was it one of ours? */
  #other(event) {
    const { state, dispatch } = this.ground;
    const { open, stage } = state();
    if (!open) return false;
    const middle = middle_of(stage);
    const scaled = (/** @type {number} */ factor) =>
      dispatch({ type: "view", view: zoom(open.view, factor, middle) });
    switch (event.key) {
      case "Enter": return this.#place(middle, event.shiftKey);
      case "Tab": return this.#tab(event.shiftKey ? -1 : 1);
      case " ": this.ground.held.space = true; return true;
      case "Delete": case "Backspace": return this.#remove();
      case "Escape":
        if (open.found.picking) dispatch({ type: "found", found: { picking: "" } });
        else if (open.mode !== "points") dispatch({ type: "mode", mode: "points" });
        else dispatch({ type: "select", id: null });
        return true;
      case "+": case "=": scaled(1.25); return true;
      case "-": scaled(0.8); return true;
      case "0": dispatch({ type: "fit" }); return true;
      case "1": scaled(1 / open.view.scale); return true;
      case "s": case "S": return this.#skip();
      case "b": case "B": return this.#fold("brightness");
      case "t": case "T": return this.#fold("turning");
      case "q": dispatch({ type: "turn", degrees: 90 }); return true;
      case "Q": dispatch({ type: "turn", degrees: -90 }); return true;
      case "m": case "M": dispatch({ type: "mirror" }); return true;
      case "u": case "U": dispatch({ type: "upright" }); return true;
      case "g": case "G":
        dispatch({ type: "tone", tone: { gamma: open.tone.gamma * (event.key === "g" ? 1.1 : 1 / 1.1) } }); return true;
      case "c": case "C":
        dispatch({ type: "tone", tone: { local: open.tone.local + (event.key === "c" ? 0.1 : -0.1) } }); return true;
      case "f": case "F": dispatch({ type: "follow" }); return true;
      case "v": case "V": dispatch({ type: "choose-beside", yes: !open.choosing_beside }); return true;
      case "r": case "R": dispatch({ type: "as-it-came" }); return true;
      case "i": case "I": dispatch({ type: "invert" }); return true;
      case "l": case "L": dispatch({ type: "loupe" }); return true;
      case "?": dispatch({ type: "keys" }); return true;
      default: return false;
    }
  }

  /** Confirms what is proposed, else places in the middle of the view.
   * @param {import("./gesture.js").Spot} at @param {boolean} exact */
  #place(at, exact) {
    const { state, dispatch, to_picture } = this.ground;
    const asked = asking_in(state());
    if (asked && proposed_in(state())[asked.id] && !exact) dispatch({ type: "confirm", id: asked.id });
    else if (asked) dispatch({ type: "place", id: asked.id, ...to_picture(at), exact });
    return asked !== null;
  }

  /** @param {"brightness" | "turning"} mode whose strip is folded out, or away again */
  #fold(mode) {
    const { state, dispatch } = this.ground;
    dispatch({ type: "mode", mode: state().open?.mode === mode ? "points" : mode });
    return true;
  }

  #skip() {
    const asked = asking_in(this.ground.state());
    if (asked) this.ground.dispatch({ type: "skip", id: asked.id });
    return asked !== null;
  }

  #remove() {
    const id = this.ground.state().open?.points.selected;
    if (id) this.ground.dispatch({ type: "remove", id });
    return Boolean(id);
  }

  /** Through the points in turn; past the last one the focus goes on as everywhere.
   * @param {1 | -1} direction */
  #tab(direction) {
    const { state, dispatch, to_screen } = this.ground;
    const { open, stage } = state();
    if (!open || is_trying(state())) return false;
    const id = neighbour(open.points, asked_in(state()), direction);
    dispatch({ type: "select", id });
    if (id === null) return false;
    const view = reveal(open.view, stage, to_screen(open.points.now.landmarks[id]));
    if (view !== open.view) dispatch({ type: "view", view });
    return true;
  }
}
