/**
 * Screen <-> picture. The only place that knows how the view lies and that pixels may not be
 * square. Picture: pixels, the centre of the first one 0,0. Screen: CSS pixels from the stage's
 * top left.
 * @typedef {import("../state/types.js").Spot} Spot
 * @typedef {import("../state/view.js").View} View
 */
export class Transform {
  /** @param {View} view @param {number} aspect height of a pixel over its width */
  constructor(view, aspect) {
    this.across = view.scale;
    this.down = view.scale * aspect;
    this.left = view.x;
    this.top = view.y;
  }

  /** @param {Spot} p @returns {Spot} */
  to_screen(p) {
    return { x: this.left + (p.x + 0.5) * this.across, y: this.top + (p.y + 0.5) * this.down };
  }

  /** @param {Spot} p @returns {Spot} */
  to_picture(p) {
    return { x: (p.x - this.left) / this.across - 0.5, y: (p.y - this.top) / this.down - 0.5 };
  }

  /** A step on the screen as a step in the picture. @param {Spot} step @returns {Spot} */
  step_to_picture(step) {
    return { x: step.x / this.across, y: step.y / this.down };
  }
}
