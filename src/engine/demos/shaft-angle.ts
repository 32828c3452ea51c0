/**
 * One pair of teeth numbers at every angle between its shafts, from two cylinders at 0 over cones and the flat crown to a pinion in a
 * ring at 180 degrees. Pure numbers: no drive.
 */
import { pitchAnglesAt } from "../mesh-kinds/intersecting";
import { cosDegrees, DEGREE, sinDegrees } from "../vector";

/** What the two pitch surfaces are. */
export type Form = "cylinders" | "cones" | "crown" | "inside" | "ring" | "crowns";

export interface SweptPair {
  /** Degrees, 0 to 180; their sum is the shaft angle. */
  readonly pitchAngles: readonly [number, number];
  /** mm from the apex to the heel along the contact line; Infinity where the axes are parallel. */
  readonly coneDistance: number;
  /** mm from each heel circle back to the apex along its own axis, negative where it lies before it; Infinity or -Infinity as above. */
  readonly apex: readonly [number, number];
  readonly form: Form;
}

/** Degrees within which a pitch angle counts as 90. */
const CROWN_NEAR = 1e-9;

/**
 * By the formula of `pitchAnglesAt`, which the pairs of a drive follow too. Equal teeth share the angle evenly, at 180 too, where the quotient itself is 0/0.
 * @param teeth each > 0
 * @param angle degrees between the outward axes, 0 to 180
 * @param radius mm, pitch radius of the first gear at the heel, > 0
 * @throws RangeError where one of them is out of its range.
 */
export function sweptPair(teeth: readonly [number, number], angle: number, radius: number): SweptPair {
  const [z1, z2] = teeth;
  if (!(angle >= 0 && angle <= 180)) throw new RangeError(`The shaft angle ${angle}° is not between 0° and 180°.`);
  if (![z1, z2, radius].every((x) => x > 0 && Number.isFinite(x))) throw new RangeError("Sizes must be above 0.");
  const [first, second] = pitchAnglesAt(angle, z1, z2);
  const pitchAngles = z1 === z2 ? ([angle / 2, angle / 2] as const) : ([first / DEGREE, second / DEGREE] as const);
  const isParallel = angle === 0 || (angle === 180 && z1 !== z2);
  const radii = [radius, (radius * z2) / z1] as const;
  const apexOf = (k: 0 | 1): number => {
    if (isParallel) return pitchAngles[k] > 90 ? -Infinity : Infinity;
    return (radii[k] * cosDegrees(pitchAngles[k])) / sinDegrees(pitchAngles[k]);
  };
  return {
    pitchAngles,
    coneDistance: isParallel ? Infinity : radius / sinDegrees(pitchAngles[0]),
    apex: [apexOf(0), apexOf(1)],
    form: formOf(angle, z1 === z2, Math.max(...pitchAngles)),
  };
}

function formOf(angle: number, isEqual: boolean, largest: number): Form {
  if (angle === 0) return "cylinders";
  if (angle === 180) return isEqual ? "crowns" : "ring";
  if (Math.abs(largest - 90) < CROWN_NEAR) return "crown";
  return largest < 90 ? "cones" : "inside";
}

export interface SpecialAngle {
  /** Degrees. */
  readonly angle: number;
  readonly what: "parallel" | "right angle" | "crown" | "ring" | "two crowns";
}

/** The angles at which something changes, in order. The crown stands where cos Σ = -smaller/larger (from the formula above, δ = 90). */
export function specialAngles([z1, z2]: readonly [number, number]): readonly SpecialAngle[] {
  const marks: SpecialAngle[] = [
    { angle: 0, what: "parallel" },
    { angle: 90, what: "right angle" },
  ];
  if (z1 === z2) return [...marks, { angle: 180, what: "two crowns" }];
  const crown = Math.acos(-Math.min(z1, z2) / Math.max(z1, z2)) / DEGREE;
  return [...marks, { angle: crown, what: "crown" }, { angle: 180, what: "ring" }];
}
