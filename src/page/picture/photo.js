/** A photo, painted as it came; brightness is a filter of the canvas. */
export class Photo {
  /** @param {HTMLImageElement} image */
  constructor(image) {
    this.image = image;
    this.filter = "none";
  }

  /** A photo's window is in grey levels; it has no gamma and no local contrast.
   * @param {import("../state/view.js").Look} look */
  grade({ window, inverted }) {
    const contrast = 256 / Math.max(1, window.width);
    const brightness = Math.max(0.05, 1 + (128 - window.centre) / 128);
    this.filter = `brightness(${brightness}) contrast(${contrast}) invert(${inverted ? 1 : 0})`;
  }

  /** @param {CanvasRenderingContext2D} to @param {import("./transform.js").Transform} transform */
  paint(to, transform) {
    to.save();
    to.filter = this.filter;
    to.transform(...transform.matrix);
    to.drawImage(this.image, 0, 0);
    to.restore();
  }
}
