/**
 * The eye of the bench as four numbers: what it looks at, from which side, how far. Pure: gestures, keys, glides and named views all
 * make one such state from another, and the scene or the flat drawing shows it. z is up; angles in radians, lengths in mm.
 */
import type { Vec3 } from "../engine/solved";
import { add, along, clamp, cross, dot, scale, sub } from "../engine/vector";

export interface Orbit {
  readonly target: Vec3;
  /** Of the eye as seen from the target, from +x towards +y. */
  readonly azimuth: number;
  /** Of the eye above the level, -π/2 to π/2; at either pole the azimuth still says which way is up on the screen. */
  readonly elevation: number;
  readonly distance: number;
}

/** Vertical angle of view: narrow, so that the picture keeps the proportions of a drawing. */
export const VIEW_ANGLE = (22 * Math.PI) / 180;
const POLE = Math.PI / 2;

export interface EyeFrame {
  /** From the target to the eye. */
  readonly back: Vec3;
  readonly right: Vec3;
  readonly up: Vec3;
}

export function eyeFrame({ azimuth, elevation }: Pick<Orbit, "azimuth" | "elevation">): EyeFrame {
  const c = Math.cos(elevation);
  const back: Vec3 = [c * Math.cos(azimuth), c * Math.sin(azimuth), Math.sin(elevation)];
  const right: Vec3 = [-Math.sin(azimuth), Math.cos(azimuth), 0];
  return { back, right, up: cross(back, right) };
}

export const eyePoint = (orbit: Orbit): Vec3 => along(orbit.target, eyeFrame(orbit).back, orbit.distance);

export const turnBy = (orbit: Orbit, azimuth: number, elevation: number): Orbit => ({
  ...orbit,
  azimuth: orbit.azimuth + azimuth,
  elevation: clamp(orbit.elevation + elevation, -POLE, POLE),
});

/** Height in mm that the screen shows at the target. */
export const shownHeight = ({ distance }: Orbit): number => 2 * distance * Math.tan(VIEW_ANGLE / 2);

/** Moves the picture by pixels, x to the right and y down, on a screen `height` pixels high. */
export function panBy(orbit: Orbit, x: number, y: number, height: number): Orbit {
  const { right, up } = eyeFrame(orbit);
  const s = shownHeight(orbit) / height;
  return { ...orbit, target: add(orbit.target, add(scale(right, -x * s), scale(up, y * s))) };
}

/** Nearer for a factor below 1. The point under (x, y), pixels from the middle of the screen with y up, stays where it is. */
export function zoomBy(orbit: Orbit, factor: number, room: Room, x = 0, y = 0, height = 1): Orbit {
  const distance = clamp(orbit.distance * factor, room.radius * 0.05, room.radius * 60);
  const k = 1 - distance / orbit.distance;
  const held = panBy(orbit, -x * k, y * k, height);
  return { ...held, distance };
}

/** What is to be seen: points on its outside. */
export interface Room {
  readonly points: readonly Vec3[];
  readonly centre: Vec3;
  readonly radius: number;
}

/** Room left round a fitted drive, for labels. */
const FIT_MARGIN = 1.1;

/** Parts of the screen's height and width that controls cover: a drive is fitted beside them. */
export interface Covered {
  readonly top: number;
  readonly right: number;
}

/** The same direction, so near that everything just fits a screen of this width over height. */
export function fitView(
  direction: Pick<Orbit, "azimuth" | "elevation">,
  room: Room,
  aspect: number,
  { top, right: aside }: Covered = { top: 0, right: 0 },
): Orbit {
  const { back, right, up } = eyeFrame(direction);
  const tx = (Math.tan(VIEW_ANGLE / 2) / FIT_MARGIN) * Math.max(0.1, aspect) * (1 - aside);
  const ty = (Math.tan(VIEW_ANGLE / 2) / FIT_MARGIN) * (1 - top);
  let target = room.centre;
  let distance = room.radius;
  // Twice: the middle of what is seen depends a little on how near the eye is.
  for (let pass = 0; pass < 3; pass++) {
    let [left, rightmost, low, high] = [Infinity, -Infinity, Infinity, -Infinity];
    distance = room.radius * 0.2;
    for (const point of room.points) {
      const d = sub(point, target);
      const depth = dot(d, back);
      distance = Math.max(distance, depth + Math.abs(dot(d, right)) / tx, depth + Math.abs(dot(d, up)) / ty);
    }
    for (const point of room.points) {
      const d = sub(point, target);
      const near = distance / Math.max(distance * 0.1, distance - dot(d, back));
      left = Math.min(left, dot(d, right) * near);
      rightmost = Math.max(rightmost, dot(d, right) * near);
      low = Math.min(low, dot(d, up) * near);
      high = Math.max(high, dot(d, up) * near);
    }
    if (pass < 2 && left <= rightmost) {
      target = add(target, add(scale(right, (left + rightmost) / 2), scale(up, (low + high) / 2)));
    }
  }
  const height = shownHeight({ ...direction, target, distance });
  const aimed = add(
    target,
    add(scale(up, (height * top) / 2), scale(right, (height * Math.max(0.1, aspect) * aside) / 2)),
  );
  return { ...direction, target: aimed, distance };
}

/** From the lower left of the front: a corner view, a little from above. */
export const HOME = { azimuth: (-62 * Math.PI) / 180, elevation: (24 * Math.PI) / 180 };
/** The eye at -y: x to the right, z up. */
export const FRONT = { azimuth: -POLE, elevation: 0 };
export const TOP = { azimuth: -POLE, elevation: POLE };
/** The eye at +x. */
export const RIGHT = { azimuth: 0, elevation: 0 };

/** The direction of an eye that stands at the end of `axis`, looking back along it. */
export function alongAxis(axis: Vec3): Pick<Orbit, "azimuth" | "elevation"> {
  const level = Math.hypot(axis[0], axis[1]);
  // An upright shaft: the same way up as the view from the top.
  const azimuth = level < 1e-6 ? -POLE : Math.atan2(axis[1], axis[0]);
  return { azimuth, elevation: Math.atan2(axis[2], level) };
}

/** Between two states, `t` from 0 to 1, the short way round; eased at both ends. */
export function between(a: Orbit, b: Orbit, t: number): Orbit {
  const s = t * t * (3 - 2 * t);
  const turn = b.azimuth - a.azimuth;
  const short = turn - 2 * Math.PI * Math.round(turn / (2 * Math.PI));
  return {
    target: along(a.target, sub(b.target, a.target), s),
    azimuth: a.azimuth + short * s,
    elevation: a.elevation + (b.elevation - a.elevation) * s,
    distance: a.distance * (b.distance / a.distance) ** s,
  };
}

export interface Ray {
  readonly origin: Vec3;
  /** Unit. */
  readonly direction: Vec3;
}

/** The line of sight through a point of the screen: x and y in pixels from its middle, y up. */
export function sightThrough(orbit: Orbit, x: number, y: number, height: number): Ray {
  const { back, right, up } = eyeFrame(orbit);
  const s = (2 * Math.tan(VIEW_ANGLE / 2)) / height;
  const d = add(add(scale(right, x * s), scale(up, y * s)), scale(back, -1));
  const size = Math.hypot(...d);
  return { origin: eyePoint(orbit), direction: scale(d, 1 / size) };
}

/** Where a point is seen: pixels from the middle of the screen, y up, and how far before the eye (mm; not above 0: behind it). */
export function project(orbit: Orbit, point: Vec3, height: number): { x: number; y: number; depth: number } {
  const { back, right, up } = eyeFrame(orbit);
  const d = sub(point, eyePoint(orbit));
  const depth = -dot(d, back);
  const s = height / (2 * Math.tan(VIEW_ANGLE / 2) * Math.max(depth, 1e-9));
  return { x: dot(d, right) * s, y: dot(d, up) * s, depth };
}
