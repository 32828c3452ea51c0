/** Vectors in 3D as plain triples, and angles with clamped trigonometry. */
import type { Vec3 } from "./drive/types";

/** The power of `step` nearest to a size: what is drawn after it stays the same while the size changes a little. */
export const inSteps = (size: number, step: number): number => step ** Math.round(Math.log(size) / Math.log(step));

export const DEGREE = Math.PI / 180;

export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const sub = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a: Vec3, s: number): Vec3 => [a[0] * s, a[1] * s, a[2] * s];
/** a + s b */
export const along = (a: Vec3, b: Vec3, s: number): Vec3 => [a[0] + s * b[0], a[1] + s * b[1], a[2] + s * b[2]];
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const length = (a: Vec3): number => Math.hypot(a[0], a[1], a[2]);
export const distance = (a: Vec3, b: Vec3): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
/** The unit vector along `a`; scaled first, so that no square over- or underflows. `a` must not be zero. */
export const unit = (a: Vec3): Vec3 => {
  const big = Math.max(Math.abs(a[0]), Math.abs(a[1]), Math.abs(a[2]));
  const b: Vec3 = [a[0] / big, a[1] / big, a[2] / big];
  return scale(b, 1 / Math.hypot(b[0], b[1], b[2]));
};
/** The part of `a` square to the unit vector `u`. */
export const square = (a: Vec3, u: Vec3): Vec3 => along(a, u, -dot(a, u));
/** Angle between two unit vectors in radians, 0 to π, exact near both ends. */
export const angleBetween = (a: Vec3, b: Vec3): number => Math.atan2(length(cross(a, b)), dot(a, b));
/** `a` turned by `angle` radians, right-handed, about the unit vector `u`. Rodrigues' formula. */
export const turn = (a: Vec3, u: Vec3, angle: number): Vec3 => {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const k = dot(u, a) * (1 - c);
  const w = cross(u, a);
  return [a[0] * c + w[0] * s + u[0] * k, a[1] * c + w[1] * s + u[1] * k, a[2] * c + w[2] * s + u[2] * k];
};
/** Cosine of an angle in degrees, exact at multiples of 90 so that right angles stay right. */
export const cosDegrees = (angle: number): number => {
  const a = ((angle % 360) + 360) % 360;
  if (a === 90 || a === 270) return 0;
  if (a === 180) return -1;
  return Math.cos(a * DEGREE);
};
export const sinDegrees = (angle: number): number => {
  const a = ((angle % 360) + 360) % 360;
  if (a === 0 || a === 180) return 0;
  if (a === 90) return 1;
  if (a === 270) return -1;
  return Math.sin(a * DEGREE);
};
export const clamp = (x: number, least: number, most: number): number => Math.min(most, Math.max(least, x));
