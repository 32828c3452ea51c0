/** Signed distances from points of the world to bodies of revolution, with their slopes. */

import { signedDistance, slope } from "./profile";
import type { Turned } from "./turned";

/** Signed distance to a body at a world point, mm, and its slope there. */
export function distanceTo({ profile, origin, axis }: Turned, x: Float64Array, out: Float64Array): number {
  const [dx, dy, dz] = [(x[0] as number) - origin[0], (x[1] as number) - origin[1], (x[2] as number) - origin[2]];
  const z = dx * axis[0] + dy * axis[1] + dz * axis[2];
  const [px, py, pz] = [dx - z * axis[0], dy - z * axis[1], dz - z * axis[2]];
  const r = Math.sqrt(px * px + py * py + pz * pz);
  const value = signedDistance(profile, r, z);
  // On the axis itself every direction is as good as none.
  const radial = r > 1e-12 ? slope.r / r : 0;
  out[0] = radial * px + slope.z * axis[0];
  out[1] = radial * py + slope.z * axis[1];
  out[2] = radial * pz + slope.z * axis[2];
  return value;
}

/** The unit direction from a body's axis to a world point. */
export function radialOf({ origin, axis }: Turned, x: Float64Array): readonly [number, number, number] {
  const [dx, dy, dz] = [(x[0] as number) - origin[0], (x[1] as number) - origin[1], (x[2] as number) - origin[2]];
  const z = dx * axis[0] + dy * axis[1] + dz * axis[2];
  const [px, py, pz] = [dx - z * axis[0], dy - z * axis[1], dz - z * axis[2]];
  const r = Math.sqrt(px * px + py * py + pz * pz) || 1;
  return [px / r, py / r, pz / r];
}

/** The same as `distanceTo` for the straight bar that the half section makes when it is drawn out square to `radial` and the axis. */
export function barDistanceTo(
  { profile, origin, axis }: Turned,
  x: Float64Array,
  radial: readonly [number, number, number],
  out: Float64Array,
): number {
  const [dx, dy, dz] = [(x[0] as number) - origin[0], (x[1] as number) - origin[1], (x[2] as number) - origin[2]];
  const z = dx * axis[0] + dy * axis[1] + dz * axis[2];
  const value = signedDistance(profile, dx * radial[0] + dy * radial[1] + dz * radial[2], z);
  for (let k = 0; k < 3; k++) out[k] = slope.r * (radial[k] as number) + slope.z * (axis[k] as number);
  return value;
}
