/** How much room a drive takes, over a full turn of its carriers, and what of it sticks out of the space that it must fit. */
import { type Space, spaceOf } from "../drive/space";
import type { Solved } from "../solved";
import { type Body, bodiesOf, trueBody } from "./bodies";
import { sweepRound } from "./candidates";
import { carriersOf, type Line } from "./carrying";
import { supportAlong } from "./profile";
import type { Turned } from "./turned";

type Point = readonly [number, number, number];

export interface Extents {
  /** World, mm. */
  readonly low: Point;
  readonly high: Point;
}

const UNITS: readonly Point[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
const dot = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Steps round an end circle that are looked at first. */
const STEPS = 64;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** Radians within which the furthest point of a circle is sought: of no weight, the reach is flat there. */
const NEAR = 1e-6;

/**
 * How far a body reaches in the direction `n` (unit) while it goes all the way round `line`, from the world's origin. Of a point at
 * place z along the line and radius ρ from it, that is z (n · k) + ρ |n across|: convex over the body, so greatest on a rim.
 */
function reachRound(body: Turned, line: Line, n: Point): number {
  const k = line.axis;
  const c = dot(n, k);
  const s = Math.sqrt(Math.max(0, 1 - c * c));
  const helper: Point = Math.abs(body.axis[0]) < 0.6 ? [1, 0, 0] : [0, 1, 0];
  const e = dot(helper, body.axis);
  const u0 = helper.map((x, i) => x - e * (body.axis[i] as number));
  const size = Math.hypot(...u0);
  const u = u0.map((x) => x / size) as unknown as Point;
  const [a, b] = [body.axis, u];
  const v: Point = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
  const { radii, places } = body.profile;
  let most = -Infinity;
  for (let i = 0; i < radii.length; i++) {
    const [r, z] = [radii[i] as number, places[i] as number];
    const at = (angle: number): number => {
      const [p, q] = [r * Math.cos(angle), r * Math.sin(angle)];
      const d = [0, 1, 2].map(
        (m) =>
          (body.origin[m] as number) +
          z * (a[m] as number) +
          p * (u[m] as number) +
          q * (v[m] as number) -
          (line.origin[m] as number),
      ) as unknown as Point;
      const along = dot(d, k);
      return c * along + s * Math.sqrt(Math.max(0, dot(d, d) - along * along));
    };
    most = Math.max(most, r > 0 ? greatest(at) : at(0));
  }
  return most + dot(n, line.origin);
}

function greatest(at: (angle: number) => number): number {
  const step = (2 * Math.PI) / STEPS;
  let [best, middle] = [-Infinity, 0];
  for (let k = 0; k < STEPS; k++) {
    const value = at(k * step);
    if (value > best) [best, middle] = [value, k * step];
  }
  let [from, to] = [middle - step, middle + step];
  while (to - from > NEAR) {
    const [x, y] = [to - GOLDEN * (to - from), from + GOLDEN * (to - from)];
    if (at(x) >= at(y)) to = y;
    else from = x;
  }
  return Math.max(best, at((from + to) / 2));
}

/**
 * Least and greatest x, y, z of a body over a full turn of all that carry it. Exact with one carrier; with carriers on carriers never
 * too small: what the inner ones sweep counts as a full cylinder.
 */
function extentsOf(solved: Solved, body: Body): Extents {
  const carriers = carriersOf(solved, body.shaft).flatMap((c) => solved.placement.shafts[c] ?? []);
  const outer = carriers.at(-1);
  let swept: Turned = body;
  for (const line of carriers.slice(0, -1)) swept = sweepRound(swept, line) ?? swept;
  const reach = (n: Point): number =>
    outer ? reachRound(swept, outer, n) : dot(swept.origin, n) + supportAlong(swept.profile, dot(swept.axis, n));
  const back = ([x, y, z]: Point): Point => [-x, -y, -z];
  return {
    low: UNITS.map((n) => -reach(back(n))) as unknown as Point,
    high: UNITS.map(reach) as unknown as Point,
  };
}

export interface Taken extends Extents {
  readonly bodies: readonly { readonly body: Body; readonly extents: Extents }[];
}

const known = new WeakMap<Solved, Taken | null>();

/**
 * The room that gears (up to the drawn tips) and rods of shafts take; motors, cranks, loads and the arms of carriers are not counted.
 * Null where nothing stands anywhere.
 */
export function roomTaken(solved: Solved): Taken | null {
  const had = known.get(solved);
  if (had !== undefined) return had;
  const bodies = bodiesOf(solved).map((asked) => {
    const body = trueBody(solved, asked);
    return { body, extents: extentsOf(solved, body) };
  });
  const least = (k: number): number =>
    bodies.reduce((m, { extents }) => Math.min(m, extents.low[k] as number), Infinity);
  const most = (k: number): number =>
    bodies.reduce((m, { extents }) => Math.max(m, extents.high[k] as number), -Infinity);
  const taken =
    bodies.length === 0
      ? null
      : { bodies, low: [least(0), least(1), least(2)] as const, high: [most(0), most(1), most(2)] as const };
  known.set(solved, taken);
  return taken;
}

/** Where the sides of the space stand, mm; null where it is open. A side without a corner has the drive in its middle. */
export function spaceStands(
  { size, corner }: Space,
  taken: Extents,
): readonly (readonly [low: number, high: number] | null)[] {
  return ([0, 1, 2] as const).map((k) => {
    const long = size[k];
    if (long === null) return null;
    const from = corner[k] ?? (taken.low[k] + taken.high[k] - long) / 2;
    return [from, from + long] as const;
  });
}

export interface SticksOut {
  readonly body: Body;
  /** mm beyond the left, near and bottom side, and beyond the right, far and top side; 0 where it doesn't stick out. */
  readonly low: Point;
  readonly high: Point;
  /** The greatest of them. */
  readonly most: number;
}

export interface Fit {
  readonly space: Space;
  readonly taken: Taken;
  readonly stands: ReturnType<typeof spaceStands>;
  /** What sticks out, the furthest first. */
  readonly out: readonly SticksOut[];
}

/** mm: a drive that is a hair too large by rounding fits. Our own limit. */
const FITS = 1e-6;

/** How the drive stands in its space; null where it has none, or nothing stands anywhere. */
export function fitInSpace(solved: Solved): Fit | null {
  const space = spaceOf(solved.drive);
  const taken = space && roomTaken(solved);
  if (!space || !taken) return null;
  const stands = spaceStands(space, taken);
  const out: SticksOut[] = [];
  const beyond = (by: number): number => (by > FITS ? by : 0);
  for (const { body, extents } of taken.bodies) {
    const low = stands.map((side, k) => (side ? beyond(side[0] - (extents.low[k] as number)) : 0)) as unknown as Point;
    const high = stands.map((side, k) =>
      side ? beyond((extents.high[k] as number) - side[1]) : 0,
    ) as unknown as Point;
    const most = Math.max(...low, ...high);
    if (most > 0) out.push({ body, low, high, most });
  }
  out.sort((a, b) => b.most - a.most);
  return { space, taken, stands, out };
}
