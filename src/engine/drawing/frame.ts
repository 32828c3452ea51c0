/** Where an eye stands, and how the world looks flat from there: x to the right, y up, depth towards the eye. Lengths in mm. */
import type { Vec3 } from "../solved";
import { cross, dot, sub } from "../vector";
import type { Point } from "./types";

export interface Frame {
  readonly origin: Vec3;
  /** Unit, square to each other; right × up = towards. */
  readonly right: Vec3;
  readonly up: Vec3;
  /** From the drive to the eye. */
  readonly towards: Vec3;
}

/** First angle: a view stands on the far side of what it looks at. Third angle: on the near side. ISO 5456-2. */
export type Angle = "first" | "third";

export const frameOf = (up: Vec3, towards: Vec3, origin: Vec3 = [0, 0, 0]): Frame => ({
  origin,
  right: cross(up, towards),
  up,
  towards,
});

/** The side view stands to the right of the front view: seen from the left in first angle, from the right in third. */
export function viewFrame(view: "front" | "top" | "side", angle: Angle): Frame {
  if (view === "front") return frameOf([0, 0, 1], [0, -1, 0]);
  if (view === "top") return frameOf([0, 1, 0], [0, 0, 1]);
  return frameOf([0, 0, 1], angle === "first" ? [-1, 0, 0] : [1, 0, 0]);
}

export const flatten = (frame: Frame, point: Vec3): Point => {
  const d = sub(point, frame.origin);
  return [dot(d, frame.right), dot(d, frame.up)];
};

/** A direction, flat. */
export const flatDirection = (frame: Frame, v: Vec3): Point => [dot(v, frame.right), dot(v, frame.up)];
