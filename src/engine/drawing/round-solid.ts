/** Gears without teeth and the rods of shafts as solids of revolution: what a ray meets of them. Lengths in mm. */
import type { RZ } from "../collisions/gear-outline";
import { rodsOf } from "../collisions/rods";
import type { Solved, Vec3 } from "../solved";
import { along, cross, dot, sub } from "../vector";
import type { DrawnPart } from "./types";

export interface RoundSolid {
  readonly part: DrawnPart;
  /** Index of the gear; -1 for a rod. */
  readonly gear: number;
  readonly shaft: number;
  readonly origin: Vec3;
  readonly axis: Vec3;
  readonly ref: Vec3;
  /** Square to both: azimuth 90 degrees. */
  readonly third: Vec3;
  /** Closed half section, counterclockwise in (r, z) with r to the right. */
  readonly profile: readonly RZ[];
  /** A ball round the solid. */
  readonly middle: Vec3;
  readonly reach: number;
}

const area = (profile: readonly RZ[]): number =>
  profile.reduce((sum, [r, z], i) => {
    const [s, y] = profile[(i + 1) % profile.length] as RZ;
    return sum + r * y - s * z;
  }, 0);

/** All bodies of the drive that have a place: gears first, in the order of the document, then rods. */
export function roundSolids(solved: Solved): RoundSolid[] {
  const { drive, placement } = solved;
  const { gears, rods } = rodsOf(solved);
  const make = (part: DrawnPart, gear: number, shaft: number, body: readonly RZ[]): RoundSolid[] => {
    const placed = placement.shafts[shaft];
    if (!placed) return [];
    const profile = area(body) < 0 ? body.toReversed() : body;
    const places = profile.map(([, z]) => z);
    const middle = (Math.min(...places) + Math.max(...places)) / 2;
    return [
      {
        part,
        gear,
        shaft,
        origin: placed.origin,
        axis: placed.axis,
        ref: placed.ref,
        third: cross(placed.axis, placed.ref),
        profile,
        middle: along(placed.origin, placed.axis, middle),
        reach: Math.max(...profile.map(([r, z]) => Math.hypot(r, z - middle))),
      },
    ];
  };
  return [
    ...gears.flatMap((outline) =>
      make({ kind: "gear", id: drive.gears[outline.gear]?.id ?? "" }, outline.gear, outline.shaft, outline.body),
    ),
    ...rods.flatMap((rod, shaft) =>
      rod
        ? make({ kind: "shaft", id: drive.shafts[shaft]?.id ?? "" }, -1, shaft, [
            [0, rod.low],
            [rod.radius, rod.low],
            [rod.radius, rod.high],
            [0, rod.high],
          ])
        : [],
    ),
  ];
}

/** Whether the point lies within the solid. */
export function isInside(solid: RoundSolid, point: Vec3): boolean {
  const d = sub(point, solid.origin);
  const z = dot(d, solid.axis);
  const r = Math.sqrt(Math.max(0, dot(d, d) - z * z));
  let inside = false;
  const { profile } = solid;
  for (let i = 0, j = profile.length - 1; i < profile.length; j = i++) {
    const [ri, zi] = profile[i] as RZ;
    const [rj, zj] = profile[j] as RZ;
    if (zi > z !== zj > z && r < ri + ((z - zi) / (zj - zi)) * (rj - ri)) inside = !inside;
  }
  return inside;
}

/** Whether a ray from the point in the direction (unit) meets the solid anywhere ahead. */
export function meetsRay({ origin, axis, profile }: RoundSolid, point: Vec3, direction: Vec3): boolean {
  const d = sub(point, origin);
  const z = dot(d, axis);
  const rise = dot(direction, axis);
  const r2 = dot(d, d) - z * z;
  const across2 = Math.max(0, 1 - rise * rise);
  const mixed = dot(d, direction) - z * rise;
  for (let i = 0; i < profile.length; i++) {
    const [r0, z0] = profile[i] as RZ;
    const [r1, z1] = profile[(i + 1) % profile.length] as RZ;
    if (r0 === 0 && r1 === 0) continue;
    if (Math.abs(z1 - z0) < 1e-9) {
      if (Math.abs(rise) < 1e-9) continue;
      const t = (z0 - z) / rise;
      if (t <= 0) continue;
      const at = Math.sqrt(Math.max(0, r2 + t * (2 * mixed + t * across2)));
      if (at >= Math.min(r0, r1) && at <= Math.max(r0, r1)) return true;
      continue;
    }
    const slope = (r1 - r0) / (z1 - z0);
    const radius = r0 + slope * (z - z0);
    const grow = slope * rise;
    const [low, high] = z0 < z1 ? [z0, z1] : [z1, z0];
    const isMet = (t: number): boolean => {
      const at = z + t * rise;
      return t > 0 && at >= low && at <= high && radius + t * grow >= 0;
    };
    // |across the axis|² = radius² along the ray: a t² + 2 b t + c = 0.
    const a = across2 - grow * grow;
    const b = mixed - radius * grow;
    const c = r2 - radius * radius;
    if (Math.abs(a) < 1e-12) {
      if (Math.abs(b) > 1e-12 && isMet(-c / (2 * b))) return true;
      continue;
    }
    const under = b * b - a * c;
    if (under < 0) continue;
    const root = Math.sqrt(under);
    if (isMet((-b - root) / a) || isMet((-b + root) / a)) return true;
  }
  return false;
}
