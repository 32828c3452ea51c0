/**
 * Half sections of bodies of revolution, as convex polygons in the plane of radius and place along the axis, and the exact signed
 * distance to the body that such a polygon turns into.
 */

/** [radius, z] in mm. */
export type RadiusPlace = readonly [number, number];

export interface Profile {
  /** Corners in turn, counterclockwise with the radius to the right and z up. */
  readonly radii: Float64Array;
  readonly places: Float64Array;
  /** Reaches its axis all along: the body is convex. A tube leaves its middle free. */
  readonly isSolid: boolean;
  /** A tube with its middle filled; a solid itself. */
  readonly filled: Profile;
  /** Greatest radius, least radius, and the interval along the axis. */
  readonly reach: number;
  readonly hole: number;
  readonly low: number;
  readonly high: number;
  /** Lines of the surface (those on the axis are none), seven numbers each: start, unit direction, length, unit normal outward. */
  readonly lines: Float64Array;
}

/** Numbers of one line in `lines`. */
const LINE = 7;

/** Corners of the smallest convex polygon round some points, counterclockwise. A. M. Andrew's monotone chain (1979). */
function hull(points: readonly RadiusPlace[]): RadiusPlace[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const chain = (list: readonly RadiusPlace[]): RadiusPlace[] => {
    const kept: RadiusPlace[] = [];
    for (const p of list) {
      while (kept.length > 1) {
        const [a, b] = [kept[kept.length - 2] as RadiusPlace, kept[kept.length - 1] as RadiusPlace];
        if ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 0) break;
        kept.pop();
      }
      kept.push(p);
    }
    kept.pop();
    return kept;
  };
  return [...chain(sorted), ...chain(sorted.toReversed())];
}

/**
 * The convex polygon round the points of a half section: what is hollow in it (a web between hub and rim) counts as full.
 * `isSolid`: filled up to the axis. Null where the points enclose nothing, or aren't finite.
 */
export function profileOf(points: readonly RadiusPlace[], isSolid: boolean): Profile | null {
  let [low, high, reach, hole] = [Infinity, -Infinity, 0, Infinity];
  for (const [r, z] of points) {
    if (!Number.isFinite(r) || !Number.isFinite(z)) return null;
    low = Math.min(low, z);
    high = Math.max(high, z);
    reach = Math.max(reach, r);
    hole = Math.min(hole, r);
  }
  if (!(high > low && reach > 0)) return null;
  const corners = hull(isSolid ? [...points, [0, low], [0, high]] : points);
  if (corners.length < 3) return null;
  const lines: number[] = [];
  corners.forEach(([r, z], i) => {
    const [r2, z2] = corners[(i + 1) % corners.length] as RadiusPlace;
    const size = Math.hypot(r2 - r, z2 - z);
    if (!(isSolid && r === 0 && r2 === 0)) {
      const [tr, tz] = [(r2 - r) / size, (z2 - z) / size];
      lines.push(r, z, tr, tz, size, tz, -tr + 0);
    }
  });
  const profile = {
    radii: Float64Array.from(corners, ([r]) => r),
    places: Float64Array.from(corners, ([, z]) => z),
    isSolid,
    reach,
    hole: isSolid ? 0 : hole,
    low,
    high,
    lines: Float64Array.from(lines),
  };
  if (!isSolid) {
    const filled = profileOf(points, true);
    return filled && { ...profile, filled };
  }
  const solid: Omit<Profile, "filled"> & { filled?: Profile } = profile;
  solid.filled = solid as Profile;
  return solid.filled;
}

/** A full cylinder from `low` to `high`; null where it has no size. */
export function rodProfile(low: number, high: number, radius: number): Profile | null {
  const long = high - low;
  if (!(long > 0 && radius > 0 && Number.isFinite(long + radius))) return null;
  const rod: Omit<Profile, "filled"> & { filled?: Profile } = {
    radii: Float64Array.of(0, radius, radius, 0),
    places: Float64Array.of(low, low, high, high),
    isSolid: true,
    reach: radius,
    hole: 0,
    low,
    high,
    // biome-ignore format: one line of the surface a line.
    lines: Float64Array.of(
      0, low, 1, 0, radius, 0, -1,
      radius, low, 0, 1, long, 1, 0,
      radius, high, -1, 0, radius, 0, 1,
    ),
  };
  rod.filled = rod as Profile;
  return rod.filled;
}

/** Direction in which the distance grows, after `signedDistance`: parts along the radius and along the axis. */
export const slope = { r: 0, z: 0 };

/**
 * Distance from the point at radius `r` and place `z` to the body, mm: below 0 within it. Convex in (r, z), and of slope 1. Leaves
 * the slope in `slope`.
 */
export function signedDistance({ lines }: Profile, r: number, z: number): number {
  let inside = -Infinity;
  let nearest = Infinity;
  for (let i = 0; i < lines.length; i += LINE) {
    const [dr, dz] = [r - (lines[i] as number), z - (lines[i + 1] as number)];
    const [nr, nz] = [lines[i + 5] as number, lines[i + 6] as number];
    const out = dr * nr + dz * nz;
    if (out <= 0) {
      if (nearest === Infinity && out > inside) {
        inside = out;
        slope.r = nr;
        slope.z = nz;
      }
      continue;
    }
    const [tr, tz] = [lines[i + 2] as number, lines[i + 3] as number];
    const part = Math.min(lines[i + 4] as number, Math.max(0, dr * tr + dz * tz));
    const [er, ez] = [dr - part * tr, dz - part * tz];
    const away = er * er + ez * ez;
    if (away < nearest) {
      nearest = away;
      slope.r = er;
      slope.z = ez;
    }
  }
  if (nearest === Infinity) return inside;
  const size = Math.sqrt(nearest);
  slope.r /= size || 1;
  slope.z /= size || 1;
  return size;
}

/** How far the body reaches in a direction that makes cosine `c` with its axis, from its origin on the axis, mm. */
export function supportAlong({ radii, places }: Profile, c: number): number {
  const s = Math.sqrt(Math.max(0, 1 - c * c));
  let most = -Infinity;
  for (let i = 0; i < radii.length; i++) {
    const at = (places[i] as number) * c + (radii[i] as number) * s;
    if (at > most) most = at;
  }
  return most;
}
