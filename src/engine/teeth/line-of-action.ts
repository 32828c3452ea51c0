/**
 * The line of action: along it one tooth pushes the other, square to both flanks where they touch. It passes through the pitch point
 * and is tangent to both base circles; between cones it is the tangent of the great circle of action there. Not the contact line, which
 * runs along the tooth. Source: law of gearing (ISO 21771).
 */
import type { Solved, Vec3 } from "../solved";
import { add, dot, scale, sub, unit } from "../vector";
import { type ContactPath, type FlankSide, tangentOf } from "./contact-path";

export interface LineOfAction {
  /** The pitch point, world, mm, at time zero. */
  readonly point: Vec3;
  /** Unit. */
  readonly direction: Vec3;
  /** Radians between it and the common tangent of the pitch surfaces: the working pressure angle. */
  readonly angle: number;
}

/** Part of a base pitch over which the way of the contact is followed to see its direction. */
const STEP = 1e-3;

/** @param part 0 at the heel (or first end of the face) to 1 at the toe */
export function lineOfAction(solved: Solved, path: ContactPath, flank: FlankSide, part: number): LineOfAction {
  const at = (p: number): Vec3 => {
    const [heel, toe] = path.line(p, flank);
    return add(heel, scale(sub(toe, heel), part));
  };
  const step = STEP * path.step;
  const direction = unit(sub(at(path.pitch + step), at(path.pitch - step)));
  const cosine = Math.min(1, Math.abs(dot(direction, tangentOf(solved, path))));
  return { point: at(path.pitch), direction, angle: Math.acos(cosine) };
}
