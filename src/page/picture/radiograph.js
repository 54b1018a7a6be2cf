/**
 * Paints 16-bit samples through a window table: only what the stage shows, at the size it needs.
 * @typedef {import("../state/types.js").PictureInfo} PictureInfo
 * @typedef {import("../state/view.js").Look} Look
 * @typedef {import("./transform.js").Transform} Transform
 */
import { broad_of, evened, fill_evened } from "./evening.js";
import { grey_table } from "./grey.js";
import { level_for, pyramid } from "./pyramid.js";

export class Radiograph {
  /** @param {PictureInfo} info @param {Uint16Array} samples */
  constructor(info, samples) {
    this.info = info;
    this.levels = pyramid(samples, info.columns, info.rows);
    this.table = new Uint32Array(65536);
    this.table_of = "";
    this.middle = 0; // the sample that is shown half bright
    /** @type {import("./evening.js").Broad | null} computed when local contrast is first wanted */
    this.broad = null;
    /** @type {import("./evening.js").Even | null} */
    this.even = null;
    this.local = 0; // its strength
    // One for the stage and one for the loupe: a canvas is copied whole when it is painted from.
    this.cuts = { large: document.createElement("canvas"), small: document.createElement("canvas") };
    /** @type {ImageData | null} */
    this.image = null;
  }

  /** @param {Look} look */
  grade({ window, tone, inverted }) {
    const of = `${window.centre} ${window.width} ${window.shape} ${tone.gamma} ${tone.local} ${inverted}`;
    if (of === this.table_of) return;
    this.middle = grey_table(this.info, window, tone.gamma, inverted, this.table);
    if (tone.local !== this.local) this.even = tone.local > 0 ? evened(this.#broad(), tone.local) : null;
    this.local = tone.local;
    this.table_of = of;
  }

  #broad() {
    return (this.broad ??= broad_of(this.levels[this.levels.length - 1]));
  }

  /**
   * @param {CanvasRenderingContext2D} to scaled to CSS pixels
   * @param {Transform} transform
   * @param {{left: number, top: number, width: number, height: number}} area CSS pixels to paint
   * @param {number} density device pixels per CSS pixel
   * @param {"in full" | "in haste"} [how] in haste with a quarter of the pixels
   */
  paint(to, transform, area, density, how = "in full") {
    const level = level_for(this.levels, transform.across * density, how);
    const part = visible_part(level, transform, area);
    if (part.width <= 0 || part.height <= 0) return;
    const cut = part.width * part.height > 40000 ? this.cuts.large : this.cuts.small;
    this.#fill(level, part, cut);
    to.imageSmoothingEnabled = transform.across * density * level.shrink < 3;
    to.imageSmoothingQuality = "low"; // a level is never twice too fine, and mipmaps would be made anew each frame
    to.save();
    to.transform(...transform.matrix);
    to.scale(level.shrink, level.shrink);
    to.drawImage(cut, 0, 0, part.width, part.height, part.left, part.top, part.width, part.height);
    to.restore();
  }

  /** @param {import("./pyramid.js").Level} level
   * @param {{left: number, top: number, width: number, height: number}} part
   * @param {HTMLCanvasElement} cut */
  #fill(level, part, cut) {
    if (this.image?.width !== part.width || this.image.height !== part.height)
      this.image = new ImageData(part.width, part.height);
    const pixels = new Uint32Array(this.image.data.buffer);
    if (this.even) fill_evened(pixels, level, part, this.even, this.middle, this.table);
    else fill_plain(pixels, level, part, this.table);
    if (cut.width < part.width) cut.width = part.width;
    if (cut.height < part.height) cut.height = part.height;
    cut.getContext("2d")?.putImageData(this.image, 0, 0);
  }
}

/** @param {Uint32Array} pixels @param {import("./pyramid.js").Level} level
 * @param {{left: number, top: number, width: number, height: number}} part @param {Uint32Array} table */
function fill_plain(pixels, level, part, table) {
  const { samples } = level;
  for (let row = 0, at = 0; row < part.height; ++row) {
    let from = (part.top + row) * level.columns + part.left;
    for (let column = 0; column < part.width; ++column) pixels[at++] = table[samples[from++]];
  }
}

/** @param {import("./pyramid.js").Level} level @param {Transform} transform
 * @param {{left: number, top: number, width: number, height: number}} area */
function visible_part(level, transform, area) {
  const seen = transform.seen_in(area);
  const left = Math.max(0, Math.floor(seen.left / level.shrink) - 1);
  const top = Math.max(0, Math.floor(seen.top / level.shrink) - 1);
  const right = Math.min(level.columns, Math.ceil((seen.left + seen.width) / level.shrink) + 1);
  const bottom = Math.min(level.rows, Math.ceil((seen.top + seen.height) / level.shrink) + 1);
  return { left, top, width: right - left, height: bottom - top };
}
