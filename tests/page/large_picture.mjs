/**
 * A radiograph of 3000 x 2500 pixels of 16 bits: a sample picture enlarged between its pixels, with
 * empty rows below, in a DICOM file written here. Source: DICOM PS3.5 (explicit VR little endian),
 * PS3.10 (file meta information).
 */
const [columns, rows] = [3000, 2500];

/** @param {Uint16Array} samples @param {{columns: number, rows: number}} of @returns {{file: Buffer, scale: number}} */
export function large_picture(samples, of) {
  const scale = columns / of.columns;
  const pixels = new Uint16Array(columns * rows);
  for (let y = 0; y < rows; ++y)
    for (let x = 0; x < columns; ++x) pixels[y * columns + x] = between(samples, of, (x + 0.5) / scale - 0.5, (y + 0.5) / scale - 0.5);
  return { file: dicom(pixels), scale };
}

/** @param {Uint16Array} samples @param {{columns: number, rows: number}} of @param {number} x @param {number} y */
function between(samples, of, x, y) {
  if (y > of.rows - 1) return 0;
  const [left, top] = [Math.max(0, Math.floor(x)), Math.max(0, Math.floor(y))];
  const [right, below] = [Math.min(of.columns - 1, left + 1), Math.min(of.rows - 1, top + 1)];
  const [t, u] = [Math.max(0, x - left), Math.max(0, y - top)];
  const row = (/** @type {number} */ at) => (1 - t) * samples[at * of.columns + left] + t * samples[at * of.columns + right];
  return (1 - u) * row(top) + u * row(below);
}

const long = new Set(["OB", "OW"]);

/** @param {number} group @param {number} element @param {string} vr @param {Buffer} value */
function tag(group, element, vr, value) {
  const head = Buffer.alloc(long.has(vr) ? 12 : 8);
  head.writeUInt16LE(group, 0);
  head.writeUInt16LE(element, 2);
  head.write(vr, 4, "latin1");
  if (long.has(vr)) head.writeUInt32LE(value.length, 8);
  else head.writeUInt16LE(value.length, 6);
  return Buffer.concat([head, value]);
}

/** @param {string} words @param {string} [pad] */
const text = (words, pad = " ") => Buffer.from(words.length % 2 ? words + pad : words, "latin1");

/** @param {number} value */
function short(value) {
  const bytes = Buffer.alloc(2);
  bytes.writeUInt16LE(value);
  return bytes;
}

const uid = (/** @type {string} */ words) => text(words, "\0");
const image_class = "1.2.840.10008.5.1.4.1.1.1.1";
const image = "2.25.3000250016";

/** @param {Uint16Array} pixels */
function dicom(pixels) {
  const meta = Buffer.concat([
    tag(2, 1, "OB", Buffer.from([0, 1])), tag(2, 2, "UI", uid(image_class)), tag(2, 3, "UI", uid(image)),
    tag(2, 0x10, "UI", uid("1.2.840.10008.1.2.1")), tag(2, 0x12, "UI", uid("2.25.1")),
  ]);
  const length = Buffer.alloc(4);
  length.writeUInt32LE(meta.length);
  const body = [
    tag(8, 0x16, "UI", uid(image_class)), tag(8, 0x18, "UI", uid(image)), tag(8, 0x60, "CS", text("DX")),
    tag(0x10, 0x10, "PN", text("Speed^Invented")), tag(0x10, 0x20, "LO", text("SPEED")),
    tag(0x18, 0x1164, "DS", text("0.1\\0.1")), tag(0x20, 0xd, "UI", uid("2.25.2")), tag(0x20, 0xe, "UI", uid("2.25.3")),
    tag(0x28, 2, "US", short(1)), tag(0x28, 4, "CS", text("MONOCHROME2")), tag(0x28, 0x10, "US", short(rows)),
    tag(0x28, 0x11, "US", short(columns)), tag(0x28, 0x100, "US", short(16)), tag(0x28, 0x101, "US", short(16)),
    tag(0x28, 0x102, "US", short(15)), tag(0x28, 0x103, "US", short(0)),
    tag(0x7fe0, 0x10, "OW", Buffer.from(pixels.buffer)),
  ];
  return Buffer.concat([Buffer.alloc(128), Buffer.from("DICM"), tag(2, 0, "UL", length), meta, ...body]);
}
