/** Where a placed shaft lies, seen from the one that it was placed from: in words of the room, and as an hour on a clock face. */

import type { PlacedShaft, Solved, Vec3 } from "../solved";
import { add, cross, DEGREE, dot, scale, square, turn, unit } from "../vector";
import { FIRST_EYE } from "./directions";
import { type End, endNames } from "./ends";

/** Words for -x, +x; -y, +y; -z, +z. The world: z up, x to the right, y away from the viewer. */
const WORDS = [
  ["to the left", "to the right"],
  ["in front", "behind"],
  ["below", "above"],
] as const;
/** A second direction is named where it is at least this part of the first. */
const SECOND_PART = Math.tan(25 * DEGREE);
/** An axis steeper than this, as the sine against the ground, has the far side at its 12 o'clock, not the top. */
const STEEP = 0.9;
/** Degrees are rounded to this many decimals, so that 90 is 90. */
const DECIMALS = 9;

/** "above", "above and to the right". */
export function placeWords(direction: Vec3): string {
  const size = (axis: number) => Math.abs(direction[axis] ?? 0);
  const word = (axis: number) => WORDS[axis]?.[(direction[axis] ?? 0) > 0 ? 1 : 0] ?? "";
  const [first = 0, second = 0] = [2, 0, 1].sort((a, b) => size(b) - size(a));
  return size(second) < SECOND_PART * size(first)
    ? word(first)
    : [first, second]
        .sort((a, b) => b - a)
        .map(word)
        .join(" and ");
}

export interface ClockFace {
  /** From which end of the placed shaft the face is seen. */
  readonly end: End;
  readonly endName: string;
  /** World directions of 12 and 3 o'clock. */
  readonly up: Vec3;
  readonly right: Vec3;
}

/** The clock face round a placed shaft, seen from the end that faces the first view. */
export function clockFace(solved: Solved, shaft: number, placed: PlacedShaft): ClockFace {
  const end: End = dot(placed.axis, FIRST_EYE) >= 0 ? "plus" : "minus";
  const towardsEye = scale(placed.axis, end === "plus" ? 1 : -1);
  const top: Vec3 = Math.abs(placed.axis[2]) > STEEP ? [0, 1, 0] : [0, 0, 1];
  const up = unit(square(top, placed.axis));
  return { end, endName: endNames(solved, shaft)[end], up, right: cross(up, towardsEye) };
}

/** The direction at an azimuth round a placed shaft: unit, square to its axis. */
export const directionAt = (placed: PlacedShaft, azimuth: number): Vec3 =>
  turn(placed.ref, placed.axis, azimuth * DEGREE);

/** Degrees clockwise from 12 o'clock, 0 to 360. */
export function clockwiseOf(face: ClockFace, direction: Vec3): number {
  const degrees = Math.atan2(dot(direction, face.right), dot(direction, face.up)) / DEGREE;
  return (Math.round(degrees * 1e6) / 1e6 + 360) % 360;
}

/** The azimuth, 0 to 360, that points to an hour given in degrees clockwise from 12 o'clock. */
export function azimuthOf(face: ClockFace, placed: PlacedShaft, clockwise: number): number {
  const angle = clockwise * DEGREE;
  const direction = add(scale(face.up, Math.cos(angle)), scale(face.right, Math.sin(angle)));
  const azimuth = Math.atan2(dot(direction, cross(placed.axis, placed.ref)), dot(direction, placed.ref)) / DEGREE;
  return Number(((azimuth + 360) % 360).toFixed(DECIMALS)) % 360;
}
