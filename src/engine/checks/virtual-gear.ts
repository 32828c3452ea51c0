/**
 * A gear as its teeth see it: the spur gear that its back cone unrolls to (Tredgold), which is a rack for a crown gear
 * and a ring past pitch angle 90. Spur gears and rings are their own virtual gears.
 */
import type { ToothedGear } from "../drive/types";
import type { PlacedGear } from "../solved";
import { CROWN_COSINE } from "../tolerances";
import { DEGREE } from "../vector";

export interface VirtualGear {
  /** z / cos δ: negative for a ring, Infinity for a rack. */
  readonly teeth: number;
  /** mm, at the heel. */
  readonly module: number;
  /** Pressure angle, radians. */
  readonly pressureAngle: number;
  /** Height of the tooth beyond the pitch circle, mm. */
  readonly addendum: number;
  /** +1 where a positive shift makes the tooth higher, -1 on a cylindrical ring (format.md). */
  readonly shiftSense: 1 | -1;
}

/** Null where the pitch angle isn't known (a bevel gear without a mesh). `teeth` as format.md's `virtualTeeth`. */
export function virtualGear(gear: ToothedGear, placed: PlacedGear): VirtualGear | null {
  if (placed.pitchAngle === null) return null;
  const cosine = Math.cos(placed.pitchAngle * DEGREE);
  const shiftSense = placed.coneDistance === null && cosine < 0 ? -1 : 1;
  return {
    teeth: Math.abs(cosine) <= CROWN_COSINE ? Number.POSITIVE_INFINITY : gear.teeth / cosine,
    module: gear.module,
    pressureAngle: gear.pressureAngle * DEGREE,
    addendum: gear.module * (gear.addendum + shiftSense * gear.shift),
    shiftSense,
  };
}

/** Signed pitch radius, mm: negative for a ring, Infinity for a rack. */
const radius = (gear: VirtualGear): number => (gear.module * gear.teeth) / 2;

/**
 * How far along the line of action from the pitch point the gear's tip reaches, mm. Null where the tip lies within the base
 * circle, so that no involute ends there. Path of contact of any textbook; Khurmi & Gupta, Theory of Machines, ch. 12.
 */
export function tipReach(gear: VirtualGear): number | null {
  const sine = Math.sin(gear.pressureAngle);
  if (gear.teeth === Number.POSITIVE_INFINITY) return gear.addendum / sine;
  const r = radius(gear);
  const tip = Math.abs(r + gear.addendum);
  const square = tip * tip - (r * Math.cos(gear.pressureAngle)) ** 2;
  if (square < 0 || (r < 0 && gear.addendum > -r)) return null;
  return r > 0 ? Math.sqrt(square) - r * sine : -r * sine - Math.sqrt(square);
}

/** How far the gear's own tangent point (line of action to base circle) lies on the mate's tip side, mm; Infinity for racks and rings. */
export const tangentReach = (gear: VirtualGear): number =>
  gear.teeth > 0 ? radius(gear) * Math.sin(gear.pressureAngle) : Number.POSITIVE_INFINITY;

/** The height of tooth whose tip reaches just `reach` mm along the line of action; the inverse of `tipReach`. */
export function heightReaching(gear: VirtualGear, reach: number): number {
  const sine = Math.sin(gear.pressureAngle);
  if (gear.teeth === Number.POSITIVE_INFINITY) return reach * sine;
  const r = radius(gear);
  const tip = Math.hypot(r * Math.cos(gear.pressureAngle), Math.abs(r) * sine + Math.sign(r) * reach);
  return r > 0 ? tip - r : -r - tip;
}
