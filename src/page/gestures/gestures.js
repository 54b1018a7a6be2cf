/**
 * All gestures of the stage, in the order in which they get a say when the hand comes down.
 * @typedef {{on(): void, off(): void}} Switch
 */
import { Drag } from "./drag.js";
import { Grade } from "./grade.js";
import { Hover } from "./hover.js";
import { Keys } from "./keys.js";
import { Pan } from "./pan.js";
import { Pinch } from "./pinch.js";
import { Place } from "./place.js";
import { Pull } from "./pull.js";
import { Stroke } from "./stroke.js";
import { Turn } from "./turn.js";
import { Wheel } from "./wheel.js";

/** On the second pane, which moves with the first and is only looked at.
 * @param {import("./gesture.js").Ground} ground @returns {Switch[]} */
export function gestures_beside(ground) {
  return [Pinch, Grade, Turn, Pan, Wheel].map((Kind) => new Kind(ground));
}

/** @param {import("./gesture.js").Ground} ground @returns {Switch[]} */
export function gestures_on(ground) {
  return [Pinch, Grade, Turn, Stroke, Pull, Drag, Place, Pan, Wheel, Hover, Keys].map((Kind) => new Kind(ground));
}
