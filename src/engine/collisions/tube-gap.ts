/**
 * The gap between a tube (a ring, a shell, a gear with a bore) and another body: the least over all half planes through the tube's
 * axis. In each half plane the tube is its convex half section, so with a convex other body the least value there is found as
 * between convex bodies. A second tube is looked for by halving the section's box, since distances change no faster than places, and
 * then takes part as the straight bar that it is to the point found. Round the axis the planes that can't hold the least are left out
 * (a point moves no further than its radius times the angle), and the least of the rest is sought by golden section.
 */
import { barDistanceTo, distanceTo, radialOf } from "./distance-to";
import { effort, minimise, type Sloped, type Stop } from "./minimise";
import { signedDistance, slope } from "./profile";
import { type Gap, type GapWish, halfOf, type Turned } from "./turned";

type Point = readonly [number, number, number];

/** Half planes looked at first, and how often those that may hold the least are halved. The valleys of a distance are wide. */
const FIRST = 8;
const LEVELS = 3;
const MOST_VALLEYS = 12;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** Cells looked at in one half plane between two tubes; parts of the tube's radius to which halving goes; rounds after it. */
const MOST_CELLS = 2000;
const HALVING = 0.01;
const BAR_ROUNDS = 6;

interface InPlane {
  /** The least value in the plane is no less. */
  readonly low: number;
  readonly value: number;
  readonly r: number;
  readonly z: number;
}

/** The half planes up to `width` / 2 radians to both sides of `angle`. */
interface Slice {
  readonly angle: number;
  readonly width: number;
  readonly found: InPlane;
  readonly low: number;
}

/** `floor`: mm that the gap can't be less than, known from the bodies with their holes filled. */
export function tubeGap(tube: Turned, other: Turned, wish: GapWish, floor: number): Gap {
  const { profile, origin, axis } = tube;
  const { first, second, isCoaxial } = directions(tube, other);
  const x = new Float64Array(3);
  const s = new Float64Array(3);
  const place = (r: number, z: number, u: Point): void => {
    for (let k = 0; k < 3; k++) x[k] = (origin[k] as number) + r * (u[k] as number) + z * (axis[k] as number);
  };
  const at = (angle: number): Point => {
    const [c, d] = [Math.cos(angle), Math.sin(angle)];
    return [c * first[0] + d * second[0], c * first[1] + d * second[1], c * first[2] + d * second[2]];
  };
  const middle: Point = [(profile.hole + profile.reach) / 2, (profile.low + profile.high) / 2, 0];
  let most = Infinity;
  for (let k = 0; k < 4; k++) {
    place(middle[0], middle[1], at((k * Math.PI) / 2));
    most = Math.min(most, Math.max(signedDistance(profile, middle[0], middle[1]), distanceTo(other, x, s)));
  }
  const more = Math.max(0, most);

  /** `bar`: the direction from the other tube's axis in which it is taken for a straight bar; null: as it is. */
  const valueIn =
    (u: Point, bar: Point | null): Sloped =>
    (p, out) => {
      const [r, z] = [p[0] as number, p[1] as number];
      place(r, z, u);
      const own = signedDistance(profile, r, z);
      const [sr, sz] = [slope.r, slope.z];
      const far = bar ? barDistanceTo(other, x, bar, s) : distanceTo(other, x, s);
      if (far <= own) {
        out[0] = sr;
        out[1] = sz;
        return own;
      }
      out[0] = (s[0] as number) * u[0] + (s[1] as number) * u[1] + (s[2] as number) * u[2];
      out[1] = (s[0] as number) * axis[0] + (s[1] as number) * axis[1] + (s[2] as number) * axis[2];
      return far;
    };
  const [halfR, halfZ] = [(profile.reach - profile.hole) / 2 + more, (profile.high - profile.low) / 2 + more];

  const ask = (value: Sloped, stop: Stop): InPlane => {
    const matrix = Float64Array.of(2 * halfR * halfR, 0, 0, 2 * halfZ * halfZ);
    const found = minimise(Float64Array.of(middle[0], middle[1]), matrix, value, stop);
    return { low: found.low, value: found.high, r: found.at[0] ?? 0, z: found.at[1] ?? 0 };
  };
  const least = (angle: number, stop: Stop): InPlane => {
    const u = at(angle);
    const value = valueIn(u, null);
    if (other.profile.isSolid) return ask(value, stop);
    let best = byHalving(value, middle, halfR, halfZ, Math.max(stop.tolerance, HALVING * profile.reach));
    for (let round = 0; round < BAR_ROUNDS && best.low < (stop.enough ?? Infinity); round++) {
      place(best.r, best.z, u);
      const near = ask(valueIn(u, radialOf(other, x)), { tolerance: stop.tolerance });
      const real = value(Float64Array.of(near.r, near.z), new Float64Array(2));
      if (real >= best.value) break;
      best = { ...near, low: best.low, value: real };
    }
    return best;
  };
  const answer = (angle: number, { value, r, z }: InPlane, sure = Infinity): Gap => {
    place(r, z, at(angle));
    const [low, high] = [2 * value - wish.tolerance, 2 * value];
    return { low: Math.min(low, sure), high, at: [x[0] ?? 0, x[1] ?? 0, x[2] ?? 0] };
  };

  const half = halfOf(wish);
  const fine: Stop = { tolerance: wish.tolerance / 4 };
  if (isCoaxial) return answer(0, least(0, fine));
  const { enough = Infinity, below = -Infinity } = half;
  const radius = profile.reach + more;
  let best: Slice | null = null;
  /** Lower bound of what was left out. */
  let aside = Infinity;
  const look = (angle: number, width: number): Slice => {
    // Within half a width of this plane no value differs by more than that.
    const change = (radius * width) / 2;
    const limit = Math.min(best ? best.found.value : Infinity, enough) + change;
    const found = least(angle, { tolerance: Math.max(half.tolerance, change / 4), enough: limit });
    const slice = { angle, width, found, low: found.low - change };
    if (!best || found.value < best.found.value) best = slice;
    return slice;
  };
  let slices = Array.from({ length: FIRST }, (_, k) => look((k * 2 * Math.PI) / FIRST, (2 * Math.PI) / FIRST));
  for (let level = 0; level < LEVELS; level++) {
    const limit = Math.min(bestOf(best).found.value, enough);
    const open: Slice[] = [];
    for (const slice of slices) {
      if (slice.low < limit) open.push(slice);
      else aside = Math.min(aside, slice.low);
    }
    slices = open.flatMap(({ angle, width }) => [
      look(angle - width / 4, width / 2),
      look(angle + width / 4, width / 2),
    ]);
    if (slices.length === 0 || bestOf(best).found.value < below) break;
  }
  const limit = Math.min(bestOf(best).found.value, enough);
  const open = slices.filter(({ low }) => low < limit).sort((a, b) => a.found.value - b.found.value);
  const refined: Slice[] = [];
  for (const slice of open) {
    if (refined.length >= MOST_VALLEYS || bestOf(best).found.value < below) break;
    if (2 * bestOf(best).found.value <= floor + wish.tolerance) break;
    // Its neighbours were looked into with it.
    const isNear = ({ angle }: Slice): boolean => Math.abs(Math.sin((angle - slice.angle) / 2)) < 0.51 * slice.width;
    if (refined.some(isNear)) continue;
    refined.push(slice);
    golden(slice.angle - slice.width, slice.angle + slice.width, wish.tolerance / radius, (angle) => {
      const one = { angle, width: 0, found: least(angle, fine), low: 0 };
      if (one.found.value < bestOf(best).found.value) best = one;
      return one.found.value;
    });
  }
  const { angle, found } = bestOf(best);
  return answer(angle, found, 2 * aside);
}

const bestOf = (slice: Slice | null): Slice => {
  if (!slice) throw new Error("No half plane was looked at.");
  return slice;
};

/** Golden section between two angles until they are as near as `within`. */
function golden(low: number, high: number, within: number, value: (angle: number) => number): void {
  let [from, to] = [low, high];
  value((from + to) / 2);
  let [a, b] = [to - GOLDEN * (to - from), from + GOLDEN * (to - from)];
  let [va, vb] = [value(a), value(b)];
  while (to - from > within) {
    if (va <= vb) {
      [to, b, vb] = [b, a, va];
      a = to - GOLDEN * (to - from);
      va = value(a);
    } else {
      [from, a, va] = [a, b, vb];
      b = from + GOLDEN * (to - from);
      vb = value(b);
    }
  }
}

/** Two directions square to the tube's axis, the first towards the other body's middle. */
function directions(tube: Turned, other: Turned): { first: Point; second: Point; isCoaxial: boolean } {
  const [ax, ay, az] = tube.axis;
  const middle = (other.profile.low + other.profile.high) / 2;
  const d = [0, 1, 2].map((k) => {
    return (other.origin[k] as number) + middle * (other.axis[k] as number) - (tube.origin[k] as number);
  }) as unknown as Point;
  const squared = ([x, y, z]: Point): Point => {
    const along = x * ax + y * ay + z * az;
    return [x - along * ax, y - along * ay, z - along * az];
  };
  const [offset, lean] = [squared(d), squared(other.axis)];
  const isCoaxial = Math.hypot(...offset) < 1e-9 * (1 + tube.profile.reach) && Math.hypot(...lean) < 1e-12;
  // Both in the plane of the two axes, where they have one.
  const helper: Point = Math.abs(ax) < 0.6 ? [1, 0, 0] : [0, 1, 0];
  const [fx, fy, fz] = [offset, lean, squared(helper)].find((u) => Math.hypot(...u) > 1e-9) ?? helper;
  const size = Math.hypot(fx, fy, fz);
  const first: Point = [fx / size, fy / size, fz / size];
  return {
    first,
    second: [ay * first[2] - az * first[1], az * first[0] - ax * first[2], ax * first[1] - ay * first[0]],
    isCoaxial,
  };
}

/** The least value of a function of slope 1 at most in a box: cells that can't hold less than what was found are left out. */
function byHalving(value: Sloped, middle: Point, halfR: number, halfZ: number, tolerance: number): InPlane {
  const p = new Float64Array(2);
  const s = new Float64Array(2);
  const ask = (r: number, z: number): number => {
    effort.steps++;
    p[0] = r;
    p[1] = z;
    return value(p, s);
  };
  let best: InPlane = { low: -Infinity, value: ask(middle[0], middle[1]), r: middle[0], z: middle[1] };
  // Widest cells first: a good value is found early.
  let cells = [middle[0], middle[1], best.value];
  let [r, z] = [halfR, halfZ];
  for (let looked = 0; cells.length > 0 && looked < MOST_CELLS; ) {
    const next: number[] = [];
    const isTall = z >= r;
    if (isTall) z /= 2;
    else r /= 2;
    const room = Math.hypot(r, z);
    for (let i = 0; i < cells.length; i += 3) {
      if ((cells[i + 2] as number) - 2 * room >= best.value - tolerance) continue;
      for (const side of [-1, 1]) {
        const [cr, cz] = [
          (cells[i] as number) + (isTall ? 0 : side * r),
          (cells[i + 1] as number) + (isTall ? side * z : 0),
        ];
        const found = ask(cr, cz);
        looked++;
        if (found < best.value) best = { low: -Infinity, value: found, r: cr, z: cz };
        next.push(cr, cz, found);
      }
    }
    const limit = best.value - tolerance + room;
    const kept: number[] = [];
    for (let i = 0; i < next.length; i += 3) {
      if ((next[i + 2] as number) < limit) kept.push(next[i] as number, next[i + 1] as number, next[i + 2] as number);
    }
    cells = kept;
  }
  return { ...best, low: cells.length > 0 ? -Infinity : best.value - tolerance };
}
