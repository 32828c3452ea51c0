/** The poses of a solution as it turns now: one memory, rewritten each frame, read by everything that is drawn. */
import { MATRIX, newPoses, type PoseModel, type Poses, poseAt, poseModel } from "../engine/motion/pose-at";
import type { Solved, Vec3 } from "../engine/solved";
import { restPhases } from "../engine/teeth/phases";
import { now, shaftAngle } from "../store/clock";
import type { Ray } from "./orbit";

export interface Turning {
  readonly solved: Solved;
  readonly model: PoseModel;
  readonly rest: Float64Array;
  /** Radians each shaft has turned in its own frame since time zero. */
  readonly angles: Float64Array;
  readonly poses: Poses;
  /** Reads the clock and rewrites angles and poses. */
  update(): void;
}

/** @param angleOf radians that a shaft (by index) has turned in its own frame */
export function makeTurning(solved: Solved, angleOf: (shaft: number) => number): Turning {
  const model = poseModel(solved);
  const rest = restPhases(solved.drive, solved.index, solved.placement);
  const angles = new Float64Array(model.count);
  const poses = newPoses(model.count);
  const update = (): void => {
    for (let i = 0; i < angles.length; i++) angles[i] = angleOf(i);
    poseAt(model, angles, rest, poses);
  };
  update();
  return { solved, model, rest, angles, poses, update };
}

/** The document's own drive, turning by the clock and by hand. */
export const turningOf = (solved: Solved): Turning => makeTurning(solved, shaftAngle);

/** A drive that would be: it turns by the clock at its own speeds. */
export const ghostTurningOf = (solved: Solved): Turning =>
  makeTurning(solved, (shaft) => 2 * Math.PI * (solved.motion.speed[shaft] ?? 0) * now.time);

/** A point of a shaft's own coordinates in the world, by the matrices given (`still` or `turned`). */
export function pointAt(matrices: Float64Array, shaft: number, [x, y, z]: Vec3): Vec3 {
  const o = shaft * MATRIX;
  const row = (k: number): number =>
    (matrices[o + k] ?? 0) * x +
    (matrices[o + 4 + k] ?? 0) * y +
    (matrices[o + 8 + k] ?? 0) * z +
    (matrices[o + 12 + k] ?? 0);
  return [row(0), row(1), row(2)];
}

/** Likewise a direction: turned, not moved. */
export function directionAt(matrices: Float64Array, shaft: number, [x, y, z]: Vec3): Vec3 {
  const o = shaft * MATRIX;
  const row = (k: number): number =>
    (matrices[o + k] ?? 0) * x + (matrices[o + 4 + k] ?? 0) * y + (matrices[o + 8 + k] ?? 0) * z;
  return [row(0), row(1), row(2)];
}

/** A point that rides on a carrier, from where it stands at time zero to where it is now; -1 for ground. */
export const inFrame = (poses: Poses, carrier: number, point: Vec3): Vec3 =>
  carrier < 0 ? point : pointAt(poses.frame, carrier, point);

/** A line of sight as an eye on the carrier would have it at time zero. */
export function outOfFrame(poses: Poses, carrier: number, ray: Ray): Ray {
  return carrier < 0 ? ray : localRay(poses.frame, carrier, ray);
}

/** A line of sight in the coordinates of one shaft. */
export function localRay(matrices: Float64Array, shaft: number, { origin, direction }: Ray): Ray {
  const o = shaft * MATRIX;
  const rotate = (v: Vec3): Vec3 => {
    const part = (column: number): number =>
      (matrices[o + 4 * column] ?? 0) * v[0] +
      (matrices[o + 4 * column + 1] ?? 0) * v[1] +
      (matrices[o + 4 * column + 2] ?? 0) * v[2];
    return [part(0), part(1), part(2)];
  };
  const from: Vec3 = [
    origin[0] - (matrices[o + 12] ?? 0),
    origin[1] - (matrices[o + 13] ?? 0),
    origin[2] - (matrices[o + 14] ?? 0),
  ];
  return { origin: rotate(from), direction: rotate(direction) };
}
