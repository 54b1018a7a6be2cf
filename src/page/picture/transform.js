/**
 * Screen <-> picture. The only place that knows how the view lies, how it is turned or mirrored, and
 * that pixels may not be square. Picture: pixels, the centre of the first one 0,0. Screen: CSS pixels
 * from the stage's top left. Landmarks stay in picture pixels however the picture is shown.
 * @typedef {import("../state/types.js").Spot} Spot
 * @typedef {import("../state/view.js").View} View
 * @typedef {{left: number, top: number, width: number, height: number}} Area
 */
import { axes_of } from "../state/view.js";

export class Transform {
  /** @param {View} view @param {number} aspect height of a pixel over its width */
  constructor(view, aspect) {
    this.across = view.scale; // screen px per picture column
    this.down = view.scale * aspect; // and per row
    this.left = view.x; // where the first pixel's outer corner lies
    this.top = view.y;
    const { right, below } = axes_of(view);
    /** One column and one row further, on the screen. */
    this.column = { x: right.x * this.across, y: right.y * this.across };
    this.row = { x: below.x * this.down, y: below.y * this.down };
    /** Of the columns' direction on the screen, clockwise. */
    this.angle = Math.atan2(right.y, right.x);
  }

  /** As a canvas takes it: a, b, c, d, e, f. @returns {[number, number, number, number, number, number]} */
  get matrix() {
    return [this.column.x, this.column.y, this.row.x, this.row.y, this.left, this.top];
  }

  /** @param {Spot} p @returns {Spot} */
  to_screen(p) {
    const [u, v] = [p.x + 0.5, p.y + 0.5];
    return {
      x: this.left + u * this.column.x + v * this.row.x,
      y: this.top + u * this.column.y + v * this.row.y,
    };
  }

  /** @param {Spot} p @returns {Spot} */
  to_picture(p) {
    const { x, y } = this.step_to_picture({ x: p.x - this.left, y: p.y - this.top });
    return { x: x - 0.5, y: y - 0.5 };
  }

  /** A step on the screen as a step in the picture. @param {Spot} step @returns {Spot} */
  step_to_picture(step) {
    const { column, row } = this;
    const both = column.x * row.y - column.y * row.x;
    return { x: (step.x * row.y - step.y * row.x) / both, y: (step.y * column.x - step.x * column.y) / both };
  }

  /** The part of the picture that may show in an area of the screen, from its outer corner.
   * @param {Area} area @returns {Area} picture px */
  seen_in({ left, top, width, height }) {
    const corners = [[left, top], [left + width, top], [left, top + height], [left + width, top + height]]
      .map(([x, y]) => this.step_to_picture({ x: x - this.left, y: y - this.top }));
    const [xs, ys] = [corners.map((each) => each.x), corners.map((each) => each.y)];
    const [x, y] = [Math.min(...xs), Math.min(...ys)];
    return { left: x, top: y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
  }
}
