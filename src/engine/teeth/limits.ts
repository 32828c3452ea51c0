/**
 * How far a tip may reach: it must not touch the mate beyond the start of the mate's involute (interference). All
 * touch happens on the line of action (on a sphere: the great circle of action); the two tangent points on the base
 * circles are L apart, so the tip's own parameter plus the start of the mate's involute may not exceed L.
 * Source: law of gearing; for outside spur gears the usual formula of the handbooks (Khurmi & Gupta, ch. 12).
 */
import { rackRoot } from "./rack-root";
import type { ToothSpec } from "./spec";

/** Length on the line of action from the base circle to the start of the involute, mm. */
const startLength = (spec: ToothSpec): number => rackRoot(spec).start * spec.pitchRadius * Math.cos(spec.pressureAngle);

/**
 * Largest tip radius of an outside gear against an outside mate, mm. A tip that reaches no deeper than the straight flanks of the rack that
 * cut the mate lies within that rack's tooth at every moment, undercut or not, and so meets nothing; a deeper one is held to the mate's
 * involute, and none goes past the bottom of its gaps.
 */
export function outsideTipLimit(own: ToothSpec, mate: ToothSpec): number {
  const rb = own.pitchRadius * Math.cos(own.pressureAngle);
  const centres = own.pitchRadius + mate.pitchRadius;
  const cut = rackRoot(mate);
  const byInvolute = Math.hypot(rb, Math.max(0, centres * Math.sin(own.pressureAngle) - startLength(mate)));
  const byRack = cut.isRaised ? 0 : own.pitchRadius + cut.straight;
  return Math.min(centres - cut.root, Math.max(byInvolute, byRack));
}

/** Smallest tip radius of a ring against its pinion, mm. */
export function ringTipLimit(own: ToothSpec, pinion: ToothSpec): number {
  const rb = own.pitchRadius * Math.cos(own.pressureAngle);
  const centres = own.pitchRadius - pinion.pitchRadius;
  const offset = centres * Math.sin(own.pressureAngle);
  const byInvolute = Math.hypot(rb, Math.max(0, offset + startLength(pinion)));
  return Math.max(centres + rackRoot(pinion).root, byInvolute);
}

/** Largest tip radius of a pinion in a ring, mm: the bottom of the ring's gaps. */
export const tipLimitInRing = (own: ToothSpec, ring: ToothSpec): number => own.pitchRadius + ring.dedendum + ring.shift;

/** Largest tip polar angle of a conical gear against its mate, radians: cos d = cos δb cos(L - start), or the bottom of the mate's gaps. */
export function conicalTipLimit(own: ToothSpec, mate: ToothSpec): number {
  const [b1, b2] = [baseAngle(own), baseAngle(mate)];
  const length = Math.min(Math.PI, arcAt(own.pitchAngle, b1) + arcAt(mate.pitchAngle, b2));
  const start = conicalStart(mate);
  const byInvolute = Math.acos(Math.cos(b1) * Math.cos(Math.max(0, length - start)));
  return Math.min(byInvolute, own.pitchAngle + Math.atan((mate.dedendum - mate.shift) / mate.coneDistance));
}

/** ψ at which the involute of a conical gear begins: at its base cone, or above the rounding of its root. */
function conicalStart(spec: ToothSpec): number {
  const root = spec.pitchAngle - Math.atan((spec.dedendum - spec.shift) / spec.coneDistance);
  return arcAt(root + spec.filletHeight / spec.coneDistance, baseAngle(spec));
}

const baseAngle = (spec: ToothSpec): number => Math.asin(Math.cos(spec.pressureAngle) * Math.sin(spec.pitchAngle));

const arcAt = (d: number, base: number): number =>
  d <= base ? 0 : d >= Math.PI - base ? Math.PI : Math.acos(Math.max(-1, Math.min(1, Math.cos(d) / Math.cos(base))));
