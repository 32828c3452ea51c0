/**
 * Cranking by hand: how far to turn a shaft so that the point of it which was grabbed comes as near the pointer as it can. Works on
 * carried shafts too, where the point also goes round with the carrier: its path is asked from the poses, not assumed a circle.
 */

import { crankMode } from "../engine/motion/crank";
import { MATRIX, newPoses, type PoseModel, poseAt } from "../engine/motion/pose-at";
import type { Solved, Vec3 } from "../engine/solved";
import { type Orbit, project } from "./orbit";
import { directionAt, pointAt } from "./turning";

/** How every shaft moves (each in its own frame) for one radian of `shaft`; null where it can't turn. */
export function ratesFor(solved: Solved, shaft: number): Float64Array | null {
  if (solved.veil) return null;
  const { status, speed } = solved.motion;
  if (status === "locked" || status === "conflict") return null;
  const own = speed[shaft];
  if (own) return Float64Array.from(speed, (s) => (s ?? 0) / own);
  const mode = crankMode(solved, shaft);
  return mode?.[shaft] ? mode.map((m) => m / (mode[shaft] ?? 1)) : null;
}

export interface Grab {
  readonly shaft: number;
  /** The grabbed point in coordinates that turn with the shaft. */
  readonly point: Vec3;
  readonly rates: Float64Array;
  /**
   * Where the eye looks at a gear from its side, the rim is pulled past like a belt and never reaches an end: radians for a
   * pixel along `x`, `y` (y up). Null where one sees the face and the point itself is led round.
   */
  readonly belt: { readonly x: number; readonly y: number } | null;
}

/** Below this cosine between axis and line of sight a gear is seen from its side. */
const SIDE_ON = 0.3;
const STEP = 1e-4;

interface Scene {
  readonly model: PoseModel;
  readonly rest: Float64Array;
  readonly angles: Float64Array;
  readonly orbit: Orbit;
  /** Pixels. */
  readonly height: number;
}

/** Where the grabbed point is seen when all has moved on by `turn` radians of its shaft. */
function seenAt(grab: Pick<Grab, "shaft" | "point" | "rates">, scene: Scene, turn: number): { x: number; y: number } {
  const angles = scene.angles.map((angle, i) => angle + turn * (grab.rates[i] ?? 0));
  const poses = poseAt(scene.model, angles, scene.rest, newPoses(scene.model.count));
  return project(scene.orbit, pointAt(poses.turned, grab.shaft, grab.point), scene.height);
}

/** Takes hold of a shaft at a point given in its coordinates with its own turning left out. Null where it can't turn. */
export function grab(solved: Solved, shaft: number, local: Vec3, scene: Scene): Grab | null {
  const rates = ratesFor(solved, shaft);
  if (!rates) return null;
  const turned = (scene.angles[shaft] ?? 0) + (scene.rest[shaft] ?? 0);
  const [c, s] = [Math.cos(turned), Math.sin(turned)];
  const point: Vec3 = [local[0] * c + local[1] * s, local[1] * c - local[0] * s, local[2]];
  const { still } = poseAt(scene.model, scene.angles, scene.rest, newPoses(scene.model.count));
  const axis = directionAt(still, shaft, [0, 0, 1]);
  const at = [
    still[shaft * MATRIX + 12] ?? 0,
    still[shaft * MATRIX + 13] ?? 0,
    still[shaft * MATRIX + 14] ?? 0,
  ] as const;
  const hold = { shaft, point, rates };
  let belt: Grab["belt"] = null;
  if (facing(scene.orbit, axis, at) < SIDE_ON) {
    // The side of the rim nearest the eye, so that the belt runs the way that is seen to run.
    const before = seenAt(hold, scene, -STEP);
    const after = seenAt(hold, scene, STEP);
    const radius = Math.hypot(local[0], local[1]);
    const speed = { x: (after.x - before.x) / (2 * STEP), y: (after.y - before.y) / (2 * STEP) };
    const size = Math.hypot(speed.x, speed.y);
    const pixels = Math.max(size, (radius * scene.height) / (2 * scene.orbit.distance));
    if (size > 1e-6) belt = { x: speed.x / size / pixels, y: speed.y / size / pixels };
  }
  return { ...hold, belt };
}

function facing(orbit: Orbit, axis: Vec3, point: Vec3): number {
  const c = Math.cos(orbit.elevation);
  const eye: Vec3 = [
    orbit.target[0] + orbit.distance * c * Math.cos(orbit.azimuth) - point[0],
    orbit.target[1] + orbit.distance * c * Math.sin(orbit.azimuth) - point[1],
    orbit.target[2] + orbit.distance * Math.sin(orbit.elevation) - point[2],
  ];
  return Math.abs(eye[0] * axis[0] + eye[1] * axis[1] + eye[2] * axis[2]) / Math.hypot(...eye);
}

/**
 * Radians by which the shaft must turn, in its own frame, for the grabbed point to follow the pointer.
 * @param to the pointer now, pixels from the middle of the screen, y up
 * @param from where it was on the event before
 */
export function follow(held: Grab, scene: Scene, to: { x: number; y: number }, from: { x: number; y: number }): number {
  if (held.belt) return (to.x - from.x) * held.belt.x + (to.y - from.y) * held.belt.y;
  let turn = 0;
  // Gauss and Newton: the turn at which the point is nearest the pointer. Few steps, each of them no leap.
  for (let k = 0; k < 6; k++) {
    const at = seenAt(held, scene, turn);
    const after = seenAt(held, scene, turn + STEP);
    const [sx, sy] = [(after.x - at.x) / STEP, (after.y - at.y) / STEP];
    const square = sx * sx + sy * sy;
    if (square < 1e-9) break;
    const step = ((to.x - at.x) * sx + (to.y - at.y) * sy) / square;
    turn += Math.max(-0.5, Math.min(0.5, step));
    if (Math.abs(step) < 1e-4) break;
  }
  return turn;
}
