/** The road of a loop: which shafts it runs through, and what whole pitches on the way can do to its residual. */
import type { Drive } from "../drive/types";
import { gcd, multiply, ONE, type Rational, rational } from "../motion/rational";
import type { DriveIndex, Placement } from "../solved";
import { type PhaseMesh, parentOf, phaseMesh } from "./phases";

/** Beyond this many meshes between a shaft and its root fractions grow too long: doubles then. */
export const LONGEST_EXACT = 200;
const LONGEST_ROAD = LONGEST_EXACT + 1;

const gcdOf = (a: Rational, b: Rational): Rational => rational(gcd(a.n * b.d, b.n * a.d), a.d * b.d);

/** The shafts from this one up to the start of its tree, itself first. */
export function upwards(drive: Drive, index: DriveIndex, placement: Placement, shaft: number): number[] {
  const path = [shaft];
  for (let up = parentOf(drive, index, placement, shaft); up; up = parentOf(drive, index, placement, up.shaft)) {
    path.push(up.shaft);
    if (path.length > LONGEST_ROAD) break;
  }
  return path;
}

/** Shafts from one end of a closing mesh up to where both roads meet, and down to the other end. */
export function loopPath(
  drive: Drive,
  index: DriveIndex,
  placement: Placement,
  on: readonly [number, number],
): number[] {
  const [a, b] = [upwards(drive, index, placement, on[0]), upwards(drive, index, placement, on[1])];
  const seen = new Map(b.map((shaft, i) => [shaft, i]));
  const meet = a.findIndex((shaft) => seen.has(shaft));
  if (meet < 0) return [...a, ...b.toReversed()];
  return [...a.slice(0, meet + 1), ...b.slice(0, seen.get(a[meet] as number) ?? 0).toReversed()];
}

/** Smallest change of the residual that whole pitches at the loop's other meshes can bring. */
export function latticeStep(
  drive: Drive,
  index: DriveIndex,
  placement: Placement,
  closing: PhaseMesh,
  on: readonly [number, number],
  path: readonly number[],
): Rational {
  const inLoop = new Set(path);
  let step = ONE;
  for (const side of [0, 1] as const) {
    // From the meeting shaft outward to this end.
    const road = upwards(drive, index, placement, on[side]).filter((shaft) => inLoop.has(shaft));
    let lattice = ONE;
    for (const shaft of road.toReversed()) {
      const link = parentOf(drive, index, placement, shaft);
      const mesh = link && inLoop.has(link.shaft) ? phaseMesh(drive, index, placement, link.mesh) : null;
      if (!link || !mesh) continue;
      const [zIn, zOut] = [mesh.teeth[link.side], mesh.teeth[link.side === 0 ? 1 : 0]];
      lattice = gcdOf(multiply(lattice, rational(BigInt(zOut), BigInt(zIn))), rational(1n, BigInt(zIn)));
    }
    step = gcdOf(step, multiply(lattice, rational(BigInt(closing.teeth[side]))));
  }
  return step;
}
