/**
 * Profile shifts of mates on parallel shafts: version 1 places gears at their pitch circles, so the sum of shifts (ring:
 * the difference) must be 0; else this says the centre distance that they would need.
 *
 * inv αw = inv α + 2 tan α (x1 + x2)/(z1 + z2), a = a0 cos α / cos αw (ring: x2 - x1 and z2 - z1).
 * Source: ISO 21771; any gear handbook.
 */

import type { Finding } from "../findings";
import { DEGREE } from "../vector";
import { figures, nameText, quantity } from "../wording";
import type { Pair } from "./contract";
import { toothed } from "./tooth-action";

/** Involute function, radians. */
export const involute = (angle: number): number => Math.tan(angle) - angle;

/** The angle whose involute is `value` (0 <= value), radians; Newton from a start that is above, so that it falls steadily. */
export function inverseInvolute(value: number): number {
  if (value <= 0) return 0;
  let angle = Math.min(1.5, Math.cbrt(3 * value));
  for (let round = 0; round < 60; round++) {
    const t = Math.tan(angle);
    const step = (t - angle - value) / (t * t);
    angle -= step;
    if (Math.abs(step) < 1e-15) break;
  }
  return angle;
}

/** mm: the centre distance at which a pair with these shifts would mesh without backlash; null where there is none. */
export function workingCentreDistance(pair: Pair, ring: 0 | 1 | null): number | null {
  const [first, second] = [toothed(pair.gears[0]), toothed(pair.gears[1])];
  const alpha = first.pressureAngle * DEGREE;
  const [shift, teeth] =
    ring === null
      ? [first.shift + second.shift, first.teeth + second.teeth]
      : ring === 1
        ? [second.shift - first.shift, second.teeth - first.teeth]
        : [first.shift - second.shift, first.teeth - second.teeth];
  const target = involute(alpha) + (2 * Math.tan(alpha) * shift) / teeth;
  if (!(target >= 0) || !Number.isFinite(target)) return null;
  return (pair.shape.centreDistance * Math.cos(alpha)) / Math.cos(inverseInvolute(target));
}

export function shiftSum(pair: Pair, ring: 0 | 1 | null): Finding[] {
  const [first, second] = [toothed(pair.gears[0]), toothed(pair.gears[1])];
  const excess = ring === null ? first.shift + second.shift : first.shift - second.shift;
  // Decimal shifts such as 0.3 and -0.3 cancel exactly; 0.1 + 0.2 - 0.3 must too.
  if (Math.abs(excess) < 1e-12) return [];
  const needed = workingCentreDistance(pair, ring);
  const rule = ring === null ? "be equal and opposite" : "be equal";
  const where =
    needed === null
      ? "no centre distance would let them mesh"
      : `they would need a centre distance of ${quantity(Number(needed.toFixed(3)), "mm", 6)} in place of ${quantity(Number(pair.shape.centreDistance.toFixed(3)), "mm", 6)}`;
  return [
    {
      severity: "error",
      code: "shift-sum",
      at: [pair.mesh.id, first.id, second.id],
      message: `The profile shifts of ${nameText(first.id)} (${figures(first.shift, 9)}) and ${nameText(second.id)} (${figures(second.shift, 9)}) must ${rule}, since gears stand here at their pitch circles: ${where}; change one of the shifts.`,
    },
  ];
}

/** The same for a bevel pair, whose shaft angle can't give way: only equal and opposite shifts mesh. */
export function bevelShiftSum(pair: Pair): Finding[] {
  const [first, second] = [toothed(pair.gears[0]), toothed(pair.gears[1])];
  if (Math.abs(first.shift + second.shift) < 1e-12) return [];
  return [
    {
      severity: "error",
      code: "shift-sum",
      at: [pair.mesh.id, first.id, second.id],
      message: `The profile shifts of ${nameText(first.id)} (${figures(first.shift, 9)}) and ${nameText(second.id)} (${figures(second.shift, 9)}) must be equal and opposite, since both pitch cones share one apex and no centre distance can give way; make one of them ${figures(-first.shift, 9)}.`,
    },
  ];
}
