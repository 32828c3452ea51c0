/**
 * Tips that foul: inside a ring, or an internal bevel gear, a pinion of nearly as many teeth runs its tips into the other's
 * tips where they part, beside the place where they mesh.
 *
 * At the crossing of the two tip circles (triangle of the two axes and the crossing; on the sphere for cones) ζ1 and ζ2 are
 * the angles of the crossing at either axis from the pitch line. The pinion's tooth corner stands there when its own
 * tooth is at ζ1 ∓ h1; the ring's tooth corner must by then be clear of it:
 * F = π/z2 - h2 - max |ζ2 - (z1/z2)(ζ1 ∓ h1)| >= 0. Source: worked out here; tried against solids in the tests.
 */
import { toothProfile } from "./profile";
import type { ToothSpec } from "./spec";

/** Radians at the ring's axis by which the tips clear each other; negative where they foul; null where none can. */
export function foulingMargin(first: ToothSpec, second: ToothSpec): number | null {
  const [pinion, ring] = first.pitchAngle <= second.pitchAngle ? [first, second] : [second, first];
  if (ring.pitchAngle <= Math.PI / 2 || pinion.teeth === 0 || ring.teeth === 0) return null;
  const [a1, a2] = [toothProfile(pinion), toothProfile(ring)];
  const [tip1, tip2] = [a1.tip, a2.tip];
  const h1 = a1.stretches.at(-1)?.half.at(-1) ?? 0;
  const h2 = a2.stretches.at(-1)?.half.at(-1) ?? 0;
  let cos1: number;
  let cos2: number;
  if (ring.form === "ring") {
    const apart = ring.pitchRadius - pinion.pitchRadius;
    if (apart <= 0) return -Math.PI;
    if (tip1 + apart <= tip2) return null;
    cos1 = (tip2 * tip2 - apart * apart - tip1 * tip1) / (2 * apart * tip1);
    cos2 = (tip2 * tip2 + apart * apart - tip1 * tip1) / (2 * apart * tip2);
  } else {
    const angle = pinion.pitchAngle + ring.pitchAngle;
    const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
    cos1 = (Math.cos(tip2) - cos * Math.cos(tip1)) / (sin * Math.sin(tip1));
    cos2 = (Math.cos(tip1) - cos * Math.cos(tip2)) / (sin * Math.sin(tip2));
  }
  // Tip circles that never part: the pinion's teeth stay within the ring's all round, and only equal counts could do that.
  if (!(Math.abs(cos1) <= 1 && Math.abs(cos2) <= 1)) return -Math.PI;
  const [z1, z2] = [Math.acos(cos1), Math.acos(cos2)];
  const ratio = pinion.teeth / ring.teeth;
  const worst = Math.max(Math.abs(z2 - ratio * (z1 - h1)), Math.abs(z2 - ratio * (z1 + h1)));
  return Math.PI / ring.teeth - h2 - worst;
}
