/**
 * What this device keeps by itself: the reader's name, the theme, points not yet acknowledged and
 * the steps of undo. Every entry may be missing or broken; then there is none.
 */
import { packed, unpacked } from "../state/steps.js";

/** @param {Storage} storage @param {string} key @returns {any} */
function read(storage, key) {
  try {
    return JSON.parse(storage.getItem(key) ?? "null");
  } catch {
    return null;
  }
}

/** @param {Storage} storage @param {string} key @param {unknown} value null takes it away */
function write(storage, key, value) {
  try {
    if (value === null) storage.removeItem(key);
    else storage.setItem(key, JSON.stringify(value));
  } catch {
    // A full or forbidden storage must not stop the work; saving to the program goes on.
  }
}

const prefix = "pritchel/";
const pending_prefix = `${prefix}pending/`;

/** @typedef {"reader" | "theme" | "settles" | "following" | "others"} Preference */

/** @param {Preference} name */
export const preference = (name) => String(read(localStorage, prefix + name) ?? "");

/** @param {Preference} name @param {string} value */
export const keep_preference = (name, value) => write(localStorage, prefix + name, value);

/**
 * Points that the program hasn't acknowledged.
 * @typedef {object} Pending
 * @property {string} case_id
 * @property {string} digest
 * @property {string} reader
 * @property {number} [turn] 1 where it isn't said
 * @property {number} revision the last one seen
 * @property {import("../state/types.js").Landmarks} [base] its points; empty where it isn't said
 * @property {import("../state/types.js").Landmarks} landmarks
 */

/** @param {Pick<Pending, "case_id" | "digest" | "reader">} of */
const pending_key = (of) => pending_prefix + [of.case_id, of.digest, of.reader].join("/");

/** @param {Pick<Pending, "case_id" | "digest" | "reader">} of @returns {Pending | null} */
export function pending(of) {
  write_waiting();
  return read(localStorage, pending_key(of));
}

/** @param {Pending} value */
export const keep_pending = (value) => keep_soon(localStorage, pending_key(value), () => value);

/** @param {Pick<Pending, "case_id" | "digest" | "reader">} of */
export const drop_pending = (of) => keep_soon(localStorage, pending_key(of), () => null);

/** @returns {Pending[]} */
export function all_pending() {
  const keys = Object.keys(localStorage).filter((key) => key.startsWith(pending_prefix));
  return keys.map((key) => read(localStorage, key)).filter((each) => each !== null);
}

/**
 * The steps of undo of one picture, as long as the tab lives.
 * @param {string} case_id @param {string} digest @param {string} reader
 * @returns {import("../state/steps.js").Steps | null}
 */
export function steps(case_id, digest, reader) {
  write_waiting();
  const kept = read(sessionStorage, steps_key(case_id, digest, reader));
  return kept && unpacked(kept);
}

/** @param {string} case_id @param {string} digest @param {string} reader */
const steps_key = (case_id, digest, reader) => `${prefix}steps-of/${case_id}/${digest}/${reader}`;

/** @param {string} case_id @param {string} digest @param {string} reader
 * @param {import("../state/points.js").Points} points */
export function keep_steps(case_id, digest, reader, points) {
  keep_soon(sessionStorage, steps_key(case_id, digest, reader), () => packed(points));
}

/** Not written yet: a dragged point would write it all anew in every frame.
 * @type {Map<string, {storage: Storage, value: () => unknown}>} */
const waiting = new Map();
const longest_wait = 200; // ms
let writing = 0;

/** @param {Storage} storage @param {string} key @param {() => unknown} value */
function keep_soon(storage, key, value) {
  waiting.set(key, { storage, value });
  writing ||= setTimeout(write_waiting, longest_wait);
}

function write_waiting() {
  clearTimeout(writing);
  writing = 0;
  for (const [key, { storage, value }] of waiting) write(storage, key, value());
  waiting.clear();
}

globalThis.addEventListener?.("pagehide", write_waiting);

/** How a picture was last looked at on this device: greys, turn, mirror. @param {string} digest */
export const look = (digest) => read(localStorage, `${prefix}look/${digest}`);

/** @param {string} digest @param {object | null} look null: as it came */
export const keep_look = (digest, look) => write(localStorage, `${prefix}look/${digest}`, look);

/** Pictures whose facts a person confirmed on this device. @param {string} digest */
export const is_confirmed = (digest) => read(localStorage, `${prefix}confirmed/${digest}`) === true;

/** @param {string} digest */
export const keep_confirmed = (digest) => write(localStorage, `${prefix}confirmed/${digest}`, true);
