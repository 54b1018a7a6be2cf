/**
 * Paints 16-bit samples through a window table: only what the stage shows, at the size it needs.
 * @typedef {import("../state/types.js").PictureInfo} PictureInfo
 * @typedef {import("../state/types.js").Window} Window
 * @typedef {import("./transform.js").Transform} Transform
 */
import { grey_table } from "./grey.js";
import { level_for, pyramid } from "./pyramid.js";

export class Radiograph {
  /** @param {PictureInfo} info @param {Uint16Array} samples */
  constructor(info, samples) {
    this.info = info;
    this.levels = pyramid(samples, info.columns, info.rows);
    this.table = new Uint32Array(65536);
    this.table_of = "";
    this.cut = document.createElement("canvas");
  }

  /** @param {Window} window @param {boolean} inverted */
  grade(window, inverted) {
    const of = `${window.centre} ${window.width} ${window.shape} ${inverted}`;
    if (of === this.table_of) return;
    this.table = grey_table(this.info, window, inverted);
    this.table_of = of;
  }

  /**
   * @param {CanvasRenderingContext2D} to scaled to CSS pixels
   * @param {Transform} transform
   * @param {{left: number, top: number, width: number, height: number}} area CSS pixels to paint
   * @param {number} density device pixels per CSS pixel
   */
  paint(to, transform, area, density) {
    const level = level_for(this.levels, transform.across * density);
    const part = visible_part(level, transform, area);
    if (part.width <= 0 || part.height <= 0) return;
    this.#fill(level, part);
    to.imageSmoothingEnabled = transform.across * density * level.shrink < 3;
    to.imageSmoothingQuality = "medium";
    to.drawImage(
      this.cut, 0, 0, part.width, part.height,
      transform.left + part.left * level.shrink * transform.across,
      transform.top + part.top * level.shrink * transform.down,
      part.width * level.shrink * transform.across,
      part.height * level.shrink * transform.down,
    );
  }

  /** @param {import("./pyramid.js").Level} level
   * @param {{left: number, top: number, width: number, height: number}} part */
  #fill(level, part) {
    const pixels = new Uint32Array(part.width * part.height);
    for (let row = 0, at = 0; row < part.height; ++row) {
      let from = (part.top + row) * level.columns + part.left;
      for (let column = 0; column < part.width; ++column)
        pixels[at++] = this.table[level.samples[from++]];
    }
    if (this.cut.width < part.width) this.cut.width = part.width;
    if (this.cut.height < part.height) this.cut.height = part.height;
    const image = new ImageData(new Uint8ClampedArray(pixels.buffer), part.width, part.height);
    this.cut.getContext("2d")?.putImageData(image, 0, 0);
  }
}

/** @param {import("./pyramid.js").Level} level @param {Transform} transform
 * @param {{left: number, top: number, width: number, height: number}} area */
function visible_part(level, transform, area) {
  const across = transform.across * level.shrink;
  const down = transform.down * level.shrink;
  const left = Math.max(0, Math.floor((area.left - transform.left) / across) - 1);
  const top = Math.max(0, Math.floor((area.top - transform.top) / down) - 1);
  const right = Math.min(level.columns, Math.ceil((area.left + area.width - transform.left) / across) + 1);
  const bottom = Math.min(level.rows, Math.ceil((area.top + area.height - transform.top) / down) + 1);
  return { left, top, width: right - left, height: bottom - top };
}
