/** Checks of size that several kinds share. */

import type { Finding } from "../findings";
import { LEAST_PITCH_ANGLE } from "../tolerances";
import { DEGREE } from "../vector";
import { nameText, quantity } from "../wording";
import type { Pair } from "./contract";

/** A ring must be larger than the wheel that rolls in it. */
export function ringHoldsPinion(pair: Pair, ring: 0 | 1): Finding[] {
  const pinion = (1 - ring) as 0 | 1;
  if (pair.shape.radii[ring] > pair.shape.radii[pinion]) return [];
  const [outer, inner] = [pair.gears[ring], pair.gears[pinion]];
  return [
    {
      severity: "error",
      code: "ring-too-small",
      at: [pair.mesh.id, outer.id, inner.id],
      message: `Ring ${nameText(outer.id)} (pitch diameter ${quantity(pair.shape.radii[ring] * 2, "mm", 6)}) can't hold ${nameText(inner.id)} (${quantity(pair.shape.radii[pinion] * 2, "mm", 6)}): give the ring the larger diameter, or let the two mesh as outside gears.`,
    },
  ];
}

/** A pitch angle next to 0 or 180 leaves no cone: its apex lies out of all reach. */
export function coneHasApex(pair: Pair): Finding[] {
  const least = LEAST_PITCH_ANGLE * DEGREE;
  if (pair.shape.pitchAngles.every((angle) => angle >= least && angle <= Math.PI - least)) return [];
  const angle = pair.mesh.shaftAngle ?? 0;
  return [
    {
      severity: "error",
      code: "cone-degenerate",
      at: [pair.mesh.id, pair.gears[0].id, pair.gears[1].id],
      message: `At a shaft angle of ${quantity(angle, "°", 9)} the pitch cones of ${nameText(pair.gears[0].id)} and ${nameText(pair.gears[1].id)} have no apex within reach: use ${angle < 90 ? "a spur pair on parallel shafts" : "a pinion in a ring on parallel shafts"}, or an angle further from ${angle < 90 ? 0 : 180}°.`,
    },
  ];
}
