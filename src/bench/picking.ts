/**
 * What the eye's line meets first: gears (as turned bodies up to their tips) and rods, by exact intersection with cones and discs.
 * Turning about its own axis changes nothing of a turned body, so the shafts' still poses serve. No three in it.
 */

import type { RZ } from "../engine/collisions/gear-outline";
import type { Vec3 } from "../engine/solved";
import type { BenchLayout } from "./bench-layout";
import type { Ray } from "./orbit";
import { localRay } from "./turning";

export interface Hit {
  readonly kind: "gear" | "shaft";
  /** Index of the gear or shaft. */
  readonly index: number;
  readonly shaft: number;
  /** mm from the eye. */
  readonly distance: number;
  /** In the shaft's own coordinates, its own turning left out. */
  readonly local: Vec3;
}

/** Distance along the line to the band that the line from `p` to `q` turns into; Infinity where it passes by. */
export function meetBand({ origin: [x, y, z], direction: [u, v, w] }: Ray, p: RZ, q: RZ): number {
  const dz = q[1] - p[1];
  if (Math.abs(dz) < 1e-9) {
    const t = (p[1] - z) / w;
    const r = Math.hypot(x + u * t, y + v * t);
    return t > 0 && r >= Math.min(p[0], q[0]) && r <= Math.max(p[0], q[0]) ? t : Infinity;
  }
  // r = r0 + k (z - z0) on the band: a quadratic in the distance t.
  const k = (q[0] - p[0]) / dz;
  const r0 = p[0] + k * (z - p[1]);
  const a = u * u + v * v - k * k * w * w;
  const b = x * u + y * v - r0 * k * w;
  const c = x * x + y * y - r0 * r0;
  const roots: number[] = [];
  if (Math.abs(a) < 1e-12) {
    if (b !== 0) roots.push(-c / (2 * b));
  } else {
    const under = b * b - a * c;
    if (under < 0) return Infinity;
    const root = Math.sqrt(under);
    roots.push((-b - root) / a, (-b + root) / a);
  }
  let nearest = Infinity;
  for (const t of roots) {
    const part = (z + w * t - p[1]) / dz;
    // The mirror nappe of the cone has a negative radius.
    if (t > 0 && t < nearest && part >= 0 && part <= 1 && r0 + k * w * t >= 0) nearest = t;
  }
  return nearest;
}

function meetBody(ray: Ray, profile: readonly RZ[]): number {
  let nearest = Infinity;
  profile.forEach((p, i) => {
    const q = profile[(i + 1) % profile.length];
    if (q) nearest = Math.min(nearest, meetBand(ray, p, q));
  });
  return nearest;
}

/** The first thing that a line of sight meets; null for the ground. `still`: the shafts' still poses. */
export function pick(layout: BenchLayout, still: Float64Array, ray: Ray): Hit | null {
  let hit: Hit | null = null;
  const offer = (kind: Hit["kind"], index: number, shaft: number, profile: readonly RZ[]): void => {
    const local = localRay(still, shaft, ray);
    const distance = meetBody(local, profile);
    if (distance >= (hit?.distance ?? Infinity)) return;
    const [o, d] = [local.origin, local.direction];
    hit = {
      kind,
      index,
      shaft,
      distance,
      local: [o[0] + d[0] * distance, o[1] + d[1] * distance, o[2] + d[2] * distance],
    };
  };
  for (const outline of layout.gears) offer("gear", outline.gear, outline.shaft, outline.body);
  for (const rod of layout.rods) {
    if (!rod) continue;
    // A little thicker than drawn: a thin rod is hard to hit.
    const r = rod.radius * 1.5;
    offer("shaft", rod.shaft, rod.shaft, [
      [0, rod.low],
      [r, rod.low],
      [r, rod.high],
      [0, rod.high],
    ]);
  }
  return hit;
}
