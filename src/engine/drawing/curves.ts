/** The lines that a solid of revolution shows an eye far away: its rims, and the silhouettes of its cones and cylinders. */
import type { RZ } from "../collisions/gear-outline";
import type { Vec3 } from "../solved";
import { add, along, cross, dot, length, scale, unit } from "../vector";
import { type Frame, flatDirection, flatten } from "./frame";
import type { RoundSolid } from "./round-solid";
import type { Point } from "./types";

/** A curve in space, t from 0 to 1, with the direction in which it is free of the solid, and how it looks flat. */
export interface Curve {
  readonly at: (t: number) => Vec3;
  /** Unit: out of the solid, between the faces that meet there. */
  readonly free: (t: number) => Vec3;
  readonly flat: FlatLine | FlatArc;
  readonly samples: number;
}

export interface FlatLine {
  readonly shape: "line";
  readonly from: Point;
  readonly to: Point;
  /** How far from `from` to `to` the point at t lies, 0 to 1. */
  readonly part: (t: number) => number;
}

export interface FlatArc {
  readonly shape: "arc";
  readonly centre: Point;
  readonly rx: number;
  readonly ry: number;
  readonly tilt: number;
}

const CIRCLE_SAMPLES = 96;
const LINE_SAMPLES = 24;
/** Cosine between axis and line of sight under which a circle looks like a line. */
const EDGE_ON = 1e-7;

/** Outward normal of the side from point i to the next, in (r, z); null for a side on the axis. */
function sideNormal(profile: readonly RZ[], i: number): RZ | null {
  const [r0, z0] = profile[i] as RZ;
  const [r1, z1] = profile[(i + 1) % profile.length] as RZ;
  if (r0 === 0 && r1 === 0) return null;
  const size = Math.hypot(r1 - r0, z1 - z0);
  return size < 1e-12 ? null : [(z1 - z0) / size, -(r1 - r0) / size];
}

export interface FlatCircle {
  /** Unit, square to each other and to the axis: a point of the circle is centre + r (cos t first + sin t second). */
  readonly first: Vec3;
  readonly second: Vec3;
  /** Least radius over greatest; 0 seen edge-on. */
  readonly ratio: number;
  readonly tilt: number;
}

/** A circle about the axis, as an ellipse: `first` lies along its long radius. */
export function flatCircle(frame: Frame, axis: Vec3): FlatCircle {
  const ratio = dot(axis, frame.towards);
  const facing = ratio < 0 ? scale(axis, -1) : axis;
  const side = cross(frame.towards, facing);
  if (length(side) < 1e-9) return { first: frame.right, second: frame.up, ratio: 1, tilt: 0 };
  const first = unit(side);
  const [x, y] = flatDirection(frame, first);
  const second = cross(facing, first);
  return { first, second, ratio: Math.abs(ratio), tilt: Math.atan2(y, x) };
}

function rim(frame: Frame, { origin, axis }: RoundSolid, [r, z]: RZ, [nr, nz]: RZ): Curve {
  const centre = along(origin, axis, z);
  const { first, second, ratio, tilt } = flatCircle(frame, axis);
  const isEdgeOn = ratio < EDGE_ON;
  // Seen edge-on only the half towards the eye: the other lies behind the same line.
  const angle = (t: number): number => (isEdgeOn ? Math.PI * t : 2 * Math.PI * t);
  const out = (t: number): Vec3 => along(scale(first, Math.cos(angle(t))), second, Math.sin(angle(t)));
  const flat: Curve["flat"] = isEdgeOn
    ? {
        shape: "line",
        from: flatten(frame, along(centre, first, r)),
        to: flatten(frame, along(centre, first, -r)),
        part: (t) => (1 - Math.cos(Math.PI * t)) / 2,
      }
    : { shape: "arc", centre: flatten(frame, centre), rx: r, ry: r * ratio, tilt };
  return {
    at: (t) => along(centre, out(t), r),
    free: (t) => along(scale(out(t), nr), axis, nz),
    flat,
    samples: CIRCLE_SAMPLES,
  };
}

/** Both silhouettes of one side, where the eye sees any: there the surface's normal is square to the line of sight. */
function silhouettes(frame: Frame, solid: RoundSolid, i: number): Curve[] {
  const { origin, axis, ref, third, profile } = solid;
  const normal = sideNormal(profile, i);
  if (!normal || Math.abs(normal[0]) < 1e-9) return [];
  const sight = frame.towards;
  const [x, y, z] = [dot(sight, ref), dot(sight, third), dot(sight, axis)];
  const across = Math.hypot(x, y);
  const cosine = (-normal[1] * z) / (normal[0] * across);
  if (across < 1e-9 || !(Math.abs(cosine) < 1)) return [];
  const [r0, z0] = profile[i] as RZ;
  const [r1, z1] = profile[(i + 1) % profile.length] as RZ;
  return [1, -1].map((side): Curve => {
    const azimuth = Math.atan2(y, x) + side * Math.acos(cosine);
    const out = along(scale(ref, Math.cos(azimuth)), third, Math.sin(azimuth));
    const point = (r: number, at: number): Vec3 => add(along(origin, axis, at), scale(out, r));
    const [from, to] = [point(r0, z0), point(r1, z1)];
    const free = along(scale(out, normal[0]), axis, normal[1]);
    return {
      at: (t) => [from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1]), from[2] + t * (to[2] - from[2])],
      free: () => free,
      flat: { shape: "line", from: flatten(frame, from), to: flatten(frame, to), part: (t) => t },
      samples: LINE_SAMPLES,
    };
  });
}

export function curvesOf(frame: Frame, solid: RoundSolid): Curve[] {
  const { profile } = solid;
  return profile.flatMap((point, i) => {
    const before = sideNormal(profile, (i + profile.length - 1) % profile.length);
    const after = sideNormal(profile, i);
    const [a, b] = [before ?? after, after ?? before];
    const curves = silhouettes(frame, solid, i);
    if (!a || !b || point[0] < 1e-9) return curves;
    const sum: RZ = [a[0] + b[0], a[1] + b[1]];
    const size = Math.hypot(...sum);
    const isSmooth = a[0] * b[0] + a[1] * b[1] > 1 - 1e-9;
    if (!isSmooth && size > 1e-9) curves.push(rim(frame, solid, point, [sum[0] / size, sum[1] / size]));
    return curves;
  });
}
