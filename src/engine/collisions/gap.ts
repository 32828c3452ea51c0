/**
 * The gap between two bodies of revolution, wherever they stand, mm: above 0 their least distance, below 0 minus the thickness of the
 * space that both take up (the diameter of the largest ball that fits in both).
 *
 * Both are one question. With f and g the signed distances to the two bodies, the least value of max(f, g) over all points is
 * half the distance of bodies that are apart (at the middle between the nearest points), and minus the radius of that ball
 * where they overlap. f and g of convex bodies are convex, so the least value is found and bounded at once; where one is a tube it
 * is sought in each half plane through the tube's axis, in which the tube's half section is convex too.
 */
import { distanceTo } from "./distance-to";
import { type Least, minimise, type Sloped } from "./minimise";
import { type Profile, supportAlong } from "./profile";
import { tubeGap } from "./tube-gap";
import { type Gap, type GapWish, halfOf, type Turned } from "./turned";

/** How far the two are apart along one direction (unit): no more than their gap. */
export function apartAlong(a: Turned, b: Turned, x: number, y: number, z: number): number {
  const ca = a.axis[0] * x + a.axis[1] * y + a.axis[2] * z;
  const cb = b.axis[0] * x + b.axis[1] * y + b.axis[2] * z;
  const between = (b.origin[0] - a.origin[0]) * x + (b.origin[1] - a.origin[1]) * y + (b.origin[2] - a.origin[2]) * z;
  const forth = between - supportAlong(a.profile, ca) - supportAlong(b.profile, -cb);
  const back = -between - supportAlong(a.profile, -ca) - supportAlong(b.profile, cb);
  return Math.max(forth, back);
}

const SMALL = 1e-9;

/** A quick lower bound of the gap: the best of a few directions in which they may be apart. Tubes count as full. */
export function quickGap(a: Turned, b: Turned, enough = Infinity): number {
  const [ax, ay, az] = a.axis;
  let best = apartAlong(a, b, ax, ay, az);
  if (best >= enough) return best;
  const tryAlong = (x: number, y: number, z: number): void => {
    const size = Math.hypot(x, y, z);
    if (size > SMALL) best = Math.max(best, apartAlong(a, b, x / size, y / size, z / size));
  };
  const [bx, by, bz] = b.axis;
  // From the middle of the one to the middle of the other, as it is, and square to each axis.
  const [ma, mb] = [(a.profile.low + a.profile.high) / 2, (b.profile.low + b.profile.high) / 2];
  const dx = b.origin[0] + mb * bx - a.origin[0] - ma * ax;
  const dy = b.origin[1] + mb * by - a.origin[1] - ma * ay;
  const dz = b.origin[2] + mb * bz - a.origin[2] - ma * az;
  const da = dx * ax + dy * ay + dz * az;
  const db = dx * bx + dy * by + dz * bz;
  tryAlong(dx - da * ax, dy - da * ay, dz - da * az);
  if (best >= enough) return best;
  tryAlong(bx, by, bz);
  tryAlong(dx - db * bx, dy - db * by, dz - db * bz);
  if (best >= enough) return best;
  tryAlong(dx, dy, dz);
  tryAlong(ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx);
  return best;
}

const slopeB = new Float64Array(3);

/** max(f, g) of two bodies. */
const larger =
  (a: Turned, b: Turned): Sloped =>
  (x, out) => {
    const fa = distanceTo(a, x, out);
    const fb = distanceTo(b, x, slopeB);
    if (fb <= fa) return fa;
    out.set(slopeB);
    return fb;
  };

/** An ellipsoid round the cylinder round a body, grown by `more` mm: radius and half length times √2. */
function startRound({ profile, origin, axis }: Turned, more: number): { centre: Float64Array; matrix: Float64Array } {
  const middle = (profile.low + profile.high) / 2;
  const long = 2 * ((profile.high - profile.low) / 2 + more) ** 2;
  const wide = 2 * (profile.reach + more) ** 2;
  const centre = Float64Array.from(axis, (part, k) => (origin[k] as number) + middle * part);
  const matrix = new Float64Array(9);
  for (let i = 0; i < 3; i++) {
    for (let j = 0; j < 3; j++) {
      matrix[3 * i + j] = (i === j ? wide : 0) + (long - wide) * (axis[i] as number) * (axis[j] as number);
    }
  }
  return { centre, matrix };
}

const sizeOf = ({ reach, low, high }: Profile): number => reach * reach * (high - low);

/** Of two convex bodies. */
function solidGap(a: Turned, b: Turned, wish: GapWish): Gap {
  const [small, large] = sizeOf(a.profile) <= sizeOf(b.profile) ? [a, b] : [b, a];
  const value = larger(small, large);
  // The least value is at most that at the smaller body's middle, so it lies no further than that from the smaller body.
  const middle = startRound(small, 0).centre;
  const more = Math.max(0, value(middle, new Float64Array(3)));
  const { centre, matrix } = startRound(small, more);
  return fromHalf(minimise(centre, matrix, value, halfOf(wish)));
}

const fromHalf = ({ low, high, at }: Least): Gap => ({
  low: 2 * low,
  high: 2 * high,
  at: [at[0] ?? 0, at[1] ?? 0, at[2] ?? 0],
});

const withoutHole = (body: Turned): Turned => (body.profile.isSolid ? body : { ...body, profile: body.profile.filled });

/** The gap between two bodies. Of a tube `low` is what a search round its axis makes sure of to the tolerance, not a proof. */
export function gapBetween(a: Turned, b: Turned, wish: GapWish): Gap {
  const outer = solidGap(withoutHole(a), withoutHole(b), wish);
  if (a.profile.isSolid && b.profile.isSolid) return outer;
  // Apart by enough even with the holes filled: the holes don't matter.
  if (outer.low >= (wish.enough ?? Infinity)) return outer;
  const isFirst = !a.profile.isSolid && (b.profile.isSolid || a.profile.reach <= b.profile.reach);
  return isFirst ? tubeGap(a, b, wish, outer.low) : tubeGap(b, a, wish, outer.low);
}
