/**
 * How carriers move bodies past one another. A body that a carrier carries goes round the carrier's axis; that carrier may be
 * carried itself. Lines of carriers are those of time zero: first the innermost turns what it carries, then the next.
 */
import type { Solved } from "../solved";
import type { Turned } from "./turned";

type Point = readonly [number, number, number];

export interface Line {
  readonly origin: Point;
  readonly axis: Point;
}

/** A turn of one carrier that moves one of two bodies against the other. */
export interface Turning {
  /** Index of the carrier. */
  readonly carrier: number;
  /** Which of the two it moves. */
  readonly side: 0 | 1;
  readonly line: Line;
  /** mm: no point of the body ever is further than this from the line. */
  readonly reach: number;
}

/** The carriers above a shaft, the innermost first. */
export function carriersOf({ index }: Solved, shaft: number): number[] {
  const chain: number[] = [];
  for (let c = index.frameOfShaft[shaft] ?? -1; c >= 0; c = index.frameOfShaft[c] ?? -1) chain.push(c);
  return chain;
}

const cross = (a: Point, b: Point): Point => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const dot = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

const SAME_LINE = 1e-6;

/** Whether two lines are one: directions within 1e-6 radians, origins within 1e-6 mm of it (the more for large places). */
export function isSameLine(a: Line, b: Line): boolean {
  if (Math.hypot(...cross(a.axis, b.axis)) > SAME_LINE) return false;
  const d: Point = [b.origin[0] - a.origin[0], b.origin[1] - a.origin[1], b.origin[2] - a.origin[2]];
  const away = Math.hypot(...cross(d, a.axis));
  return away <= SAME_LINE * (1 + Math.abs(dot(d, a.axis)));
}

/** mm from a line to a point. */
export function awayFrom(line: Line, x: Point): number {
  const d: Point = [x[0] - line.origin[0], x[1] - line.origin[1], x[2] - line.origin[2]];
  return Math.hypot(...cross(d, line.axis));
}

/** A point of a body's axis. */
export const pointOn = ({ origin, axis }: Line, at: number): Point => [
  origin[0] + at * axis[0],
  origin[1] + at * axis[1],
  origin[2] + at * axis[2],
];

/** How far from a line any point of a body is at the most: its two end circles are the furthest. */
export function reachFrom(line: Line, body: Turned): number {
  let most = 0;
  const { radii, places } = body.profile;
  for (let i = 0; i < radii.length; i++) {
    most = Math.max(most, awayFrom(line, pointOn(body, places[i] as number)) + (radii[i] as number));
  }
  return most;
}

/** Turned about a line by an angle, right-handed. Rodrigues' formula. */
function turnAbout(x: Point, { axis }: Line, c: number, s: number): Point {
  const k = dot(axis, x) * (1 - c);
  const w = cross(axis, x);
  return [x[0] * c + w[0] * s + axis[0] * k, x[1] * c + w[1] * s + axis[1] * k, x[2] * c + w[2] * s + axis[2] * k];
}

/** A body as a carrier has moved it by `angle` radians. */
export function turned(body: Turned, line: Line, angle: number): Turned {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const o = line.origin;
  const d = turnAbout([body.origin[0] - o[0], body.origin[1] - o[1], body.origin[2] - o[2]], line, c, s);
  return {
    profile: body.profile,
    origin: [o[0] + d[0], o[1] + d[1], o[2] + d[2]],
    axis: turnAbout(body.axis, line, c, s),
  };
}

/**
 * The turns of carriers that move two bodies against each other: those of carriers that only one of them rides on, without
 * those that change nothing (a carrier round whose axis the other body stands, or its own). The innermost first, side by side.
 */
export function turningsOf(
  solved: Solved,
  bodies: readonly [Turned, Turned],
  shafts: readonly [number, number],
): Turning[] {
  const chains = [carriersOf(solved, shafts[0]), carriersOf(solved, shafts[1])] as const;
  while (chains[0].length > 0 && chains[0].at(-1) === chains[1].at(-1)) {
    chains[0].pop();
    chains[1].pop();
  }
  const lineOf = (carrier: number): Line => solved.placement.shafts[carrier] ?? { origin: [0, 0, 0], axis: [0, 0, 1] };
  // The same about its own axis: a carried shaft on its carrier's line.
  for (const side of [0, 1] as const) {
    while (chains[side].length > 0 && isSameLine(lineOf(chains[side][0] as number), bodies[side])) chains[side].shift();
  }
  // Two outermost carriers on one line turn against each other: one of them tells all.
  const outer = [chains[0].at(-1), chains[1].at(-1)] as const;
  if (outer[0] !== undefined && outer[1] !== undefined && isSameLine(lineOf(outer[0]), lineOf(outer[1]))) {
    chains[1].pop();
  }
  for (const side of [0, 1] as const) {
    const other = side === 0 ? 1 : 0;
    while (chains[side].length > 0 && chains[other].length === 0) {
      if (!isSameLine(lineOf(chains[side].at(-1) as number), bodies[other])) break;
      chains[side].pop();
    }
  }
  return ([0, 1] as const).flatMap((side) => {
    let round: { readonly line: Line; readonly reach: number } | null = null;
    return chains[side].map((carrier): Turning => {
      const line = lineOf(carrier);
      // What an inner carrier has moved about its own line stays as near to that as it was.
      const reach = round
        ? awayFrom(line, nearestTo(round.line, bodies[side])) + spread(round.line, bodies[side])
        : reachFrom(line, bodies[side]);
      round = { line, reach };
      return { carrier, side, line, reach };
    });
  });
}

/** The foot of a body's middle on a line. */
function nearestTo(line: Line, body: Turned): Point {
  const middle = pointOn(body, (body.profile.low + body.profile.high) / 2);
  const d: Point = [middle[0] - line.origin[0], middle[1] - line.origin[1], middle[2] - line.origin[2]];
  return pointOn(line, dot(d, line.axis));
}

/** Radius of a sphere about that foot that holds the body however it is turned about the line. */
function spread(line: Line, body: Turned): number {
  const foot = nearestTo(line, body);
  let most = 0;
  const { radii, places } = body.profile;
  for (let i = 0; i < radii.length; i++) {
    const at = pointOn(body, places[i] as number);
    most = Math.max(most, Math.hypot(at[0] - foot[0], at[1] - foot[1], at[2] - foot[2]) + (radii[i] as number));
  }
  return most;
}
