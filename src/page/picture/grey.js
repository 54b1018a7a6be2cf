/**
 * From a stored sample to the grey on the screen, as DICOM defines it: rescale, window, then turned
 * over for low-is-bright pictures. Source: DICOM PS3.3 C.11.2.1.2.
 * @typedef {import("../state/types.js").PictureInfo} PictureInfo
 * @typedef {import("../state/types.js").Window} Window
 */

/** @param {Window} w @param {number} value @param {PictureInfo["voi_lut"]} lut @returns {number} 0..255 */
function grey_of(w, value, lut) {
  switch (w.shape) {
    case "sigmoid":
      return 255 / (1 + Math.exp((-4 * (value - w.centre)) / w.width));
    case "linear":
      return ((value - (w.centre - 0.5)) / Math.max(1, w.width - 1) + 0.5) * 255;
    case "table":
      return lut ? through_table(w, value, lut) : ((value - w.centre) / w.width + 0.5) * 255;
    default:
      return ((value - w.centre) / w.width + 0.5) * 255;
  }
}

/** @param {Window} w @param {number} value @param {NonNullable<PictureInfo["voi_lut"]>} lut */
function through_table(w, value, { entries, bits }) {
  const share = Math.min(1, Math.max(0, (value - w.centre) / w.width + 0.5));
  return (entries[Math.round(share * (entries.length - 1))] / (2 ** bits - 1)) * 255;
}

/** @param {PictureInfo} info @param {number} stored @returns {number} the value that windows speak of */
function value_of({ modality_lut, rescale_slope, rescale_intercept }, stored) {
  if (!modality_lut) return rescale_slope * stored + rescale_intercept;
  const { entries, first_input } = modality_lut;
  return entries[Math.min(entries.length - 1, Math.max(0, stored - first_input))];
}

const grey = new Uint16Array(65536); // written anew for each window
const steps = 16; // of a grey level, so that gamma has something between two levels to work with

/**
 * Sample -> grey, in `grey`, through the window in steps of a sixteenth of a level, for all 65,536 samples.
 * @param {PictureInfo} info @param {Window} window
 */
function window_table(info, window) {
  for (let sample = 0; sample < 65536; ++sample) {
    const level = grey_of(window, value_of(info, sample + info.offset), info.voi_lut);
    grey[sample] = Math.round(Math.min(255, Math.max(0, level)) * steps);
  }
}

/**
 * Sample -> opaque grey pixel, little-endian RGBA.
 * @param {PictureInfo} info @param {Window} window
 * @param {number} gamma by the reader: above one the middle greys are brighter
 * @param {boolean} inverted by the reader
 * @param {Uint32Array} pixels of all 65,536 samples, to be written
 * @returns {number} the sample that the window shows half bright
 */
export function grey_table(info, window, gamma, inverted, pixels) {
  window_table(info, window);
  const bright = Uint32Array.from({ length: 255 * steps + 1 }, (_, step) => {
    const level = step / steps;
    const shown = 255 * ((info.inverse ? 255 - level : level) / 255) ** (1 / gamma);
    const seen = Math.round(inverted ? 255 - shown : shown);
    return (0xff000000 | (seen << 16) | (seen << 8) | seen) >>> 0;
  });
  for (let sample = 0; sample < 65536; ++sample) pixels[sample] = bright[grey[sample]];
  return middle_of_grey();
}

function middle_of_grey() {
  const half = 127.5 * steps;
  const rises = grey[65535] > grey[0];
  const found = grey.findIndex((each) => (rises ? each >= half : each <= half));
  return found < 0 ? 32768 : found;
}
