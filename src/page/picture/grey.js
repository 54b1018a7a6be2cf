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

/**
 * Sample -> opaque grey pixel, little-endian RGBA, for all 65,536 samples.
 * @param {PictureInfo} info @param {Window} window @param {boolean} inverted by the reader
 */
export function grey_table(info, window, inverted) {
  const grey = new Uint8ClampedArray(65536);
  for (let sample = 0; sample < 65536; ++sample)
    grey[sample] = grey_of(window, value_of(info, sample + info.offset), info.voi_lut);
  const turned = info.inverse !== inverted;
  const pixels = new Uint32Array(65536);
  for (let sample = 0; sample < 65536; ++sample) {
    const level = turned ? 255 - grey[sample] : grey[sample];
    pixels[sample] = (0xff000000 | (level << 16) | (level << 8) | level) >>> 0;
  }
  return pixels;
}
