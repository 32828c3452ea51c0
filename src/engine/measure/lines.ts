/** Two straight lines in space: how they lie to one another, and where they come nearest. */
import type { Vec3 } from "../drive/types";
import { ON_AXIS, ZERO_RELATIVE } from "../tolerances";
import { along, angleBetween, cross, DEGREE, distance, dot, length, sub } from "../vector";

/** A point of the line in mm, and its direction, unit. */
export interface Line {
  readonly origin: Vec3;
  readonly axis: Vec3;
}

/** On one line; side by side; in one plane through one point; past one another (skew). */
export type Relation = "one line" | "parallel" | "meeting" | "crossing";

export interface LinePair {
  readonly relation: Relation;
  /** mm, the least from line to line: along the common perpendicular. */
  readonly distance: number;
  /** The ends of the common perpendicular, on the first and the second line, mm; between parallels the one at the first line's origin. */
  readonly feet: readonly [Vec3, Vec3];
  /** Degrees between the two lines, 0 to 90, whichever way they point. */
  readonly angle: number;
  /** Degrees between the two directions, 0 to 180. */
  readonly turn: number;
}

/** The point of a line that is nearest to `point`. */
export const footOn = ({ origin, axis }: Line, point: Vec3): Vec3 => along(origin, axis, dot(sub(point, origin), axis));

/**
 * The common perpendicular of two lines p + s u and q + t v: with w = u × v it is parallel to w, and
 * s = ((q - p) × v) · w / w², t = ((q - p) × u) · w / w². Any text on analytic geometry. Lines count as parallel up to 1e-6 rad, and
 * as meeting up to 1e-6 mm, or the rounding of numbers as large as their coordinates.
 */
export function linePair(first: Line, second: Line): LinePair {
  const between = angleBetween(first.axis, second.axis);
  const turn = between / DEGREE;
  const angle = Math.min(turn, 180 - turn);
  const w = cross(first.axis, second.axis);
  const offset = sub(second.origin, first.origin);
  const touches = Math.max(ON_AXIS, ZERO_RELATIVE * Math.max(length(first.origin), length(second.origin)));
  if (length(w) <= ON_AXIS) {
    const feet = [first.origin, footOn(second, first.origin)] as const;
    const apart = distance(...feet);
    return { relation: apart <= touches ? "one line" : "parallel", distance: apart, feet, angle, turn };
  }
  const size = dot(w, w);
  const feet = [
    along(first.origin, first.axis, dot(cross(offset, second.axis), w) / size),
    along(second.origin, second.axis, dot(cross(offset, first.axis), w) / size),
  ] as const;
  const apart = Math.abs(dot(offset, w)) / Math.sqrt(size);
  return { relation: apart <= touches ? "meeting" : "crossing", distance: apart, feet, angle, turn };
}
