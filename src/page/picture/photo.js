/** A photo, painted as it came; brightness is a filter of the canvas. */
export class Photo {
  /** @param {HTMLImageElement} image */
  constructor(image) {
    this.image = image;
    this.filter = "none";
  }

  /** @param {import("../state/types.js").Window} window centre and width in grey levels
   * @param {boolean} inverted */
  grade(window, inverted) {
    const contrast = 256 / Math.max(1, window.width);
    const brightness = Math.max(0.05, 1 + (128 - window.centre) / 128);
    this.filter = `brightness(${brightness}) contrast(${contrast}) invert(${inverted ? 1 : 0})`;
  }

  /** @param {CanvasRenderingContext2D} to @param {import("./transform.js").Transform} transform */
  paint(to, transform) {
    to.filter = this.filter;
    to.drawImage(
      this.image, transform.left, transform.top,
      this.image.naturalWidth * transform.across, this.image.naturalHeight * transform.down,
    );
    to.filter = "none";
  }
}
