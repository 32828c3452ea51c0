/** Marks on pitch surfaces, equally far apart on mates, so that one sees rims run at the same speed: they meet mark by mark. */
import type { GearOutline } from "../engine/collisions/gear-outline";
import { type Shape, ShapeBuilder } from "./shapes";

/** Parts of the distance between two marks: half the width of a mark, and of the first one, which counts turns. */
const HALF_WIDTH = 0.06;
const FIRST_HALF_WIDTH = 0.12;
/** Parts of the distance between marks by which a mark reaches to either side of the pitch circle. */
const HALF_LENGTH = 0.17;

interface Rim {
  /** Radius and place of the pitch circle on this face. */
  readonly r: number;
  readonly z: number;
  /** Unit, (r, z): away from the axis along the face, and out of the face. */
  readonly along: readonly [number, number];
  readonly out: readonly [number, number];
  /** How large this face is against the heel. */
  readonly scale: number;
}

/** Both end faces of a gear where its pitch surface passes through them. */
export function rimsOf({
  coneDistance,
  outward,
  pitchAngle,
  pitchRadius,
  at,
  face,
  pitch,
}: GearOutline): readonly Rim[] {
  if (coneDistance === null) {
    return [pitch[0], pitch[1]].map(([r, z], end) => ({ r, z, along: [1, 0], out: [0, end === 0 ? -1 : 1], scale: 1 }));
  }
  const [sin, cos] = [Math.sin(pitchAngle), Math.cos(pitchAngle)];
  const heel: Rim = { r: pitchRadius, z: at, along: [cos, -outward * sin], out: [sin, outward * cos], scale: 1 };
  const scale = Math.max(0.02, 1 - face / coneDistance);
  const toe: Rim = {
    ...heel,
    r: pitchRadius * scale,
    z: at - outward * (1 - scale) * coneDistance * cos,
    out: [-sin, -outward * cos],
    scale,
  };
  return [heel, toe];
}

/**
 * Marks across both rims; with `onSurface` also along the pitch surface, for when no teeth hide it. With "end" the body ends there: nothing of a
 * mark then stands in the air beyond it.
 */
export function markShape(outline: GearOutline, count: number, onSurface: boolean | "end"): Shape {
  const builder = new ShapeBuilder();
  const rims = rimsOf(outline);
  // A ring's body lies outside of its pitch circle; on a cone past 90 degrees `along` has turned with it.
  const inward = outline.coneDistance === null && outline.pitchAngle > 1 ? 1 : -1;
  const step = (2 * Math.PI) / count;
  const spacing = outline.pitchRadius * step;
  for (let k = 0; k < count; k++) {
    const half = step * (k === 0 ? FIRST_HALF_WIDTH : HALF_WIDTH);
    const longer = k === 0 ? 1.9 : 1;
    for (const rim of rims) {
      const reach = Math.min(HALF_LENGTH * spacing * rim.scale * longer, rim.r * 0.4);
      const lift = 0.012 * spacing;
      const corner = (angle: number, s: number): number => {
        const r = rim.r + rim.along[0] * s + rim.out[0] * lift;
        const z = rim.z + rim.along[1] * s + rim.out[1] * lift;
        const [c, d] = [Math.cos(angle), Math.sin(angle)];
        return builder.corner(r * c, r * d, z, rim.out[0] * c, rim.out[0] * d, rim.out[1]);
      };
      const a = k * step;
      const [low, high] =
        onSurface === "end" ? [Math.min(0, 2 * inward * reach), Math.max(0, 2 * inward * reach)] : [-reach, reach];
      const corners = [
        corner(a - half, low),
        corner(a + half, low),
        corner(a + half, high),
        corner(a - half, high),
      ] as const;
      // Seen from outside counterclockwise: depends on which way this face looks.
      const turnsLeft = rim.along[0] * rim.out[1] - rim.along[1] * rim.out[0] > 0;
      if (turnsLeft) builder.quad(corners[0], corners[3], corners[2], corners[1]);
      else builder.quad(...corners);
    }
    if (onSurface) surfaceMark(builder, outline, rims, k * step, half, spacing);
  }
  return builder.shape();
}

/** A mark along the pitch surface, from one rim to the other. */
function surfaceMark(
  builder: ShapeBuilder,
  outline: GearOutline,
  rims: readonly Rim[],
  angle: number,
  half: number,
  spacing: number,
): void {
  const [p, q] = rims;
  if (!p || !q) return;
  const isCone = outline.coneDistance !== null;
  const n: readonly [number, number] = isCone ? p.along : [outline.pitchAngle > 1 ? -1 : 1, 0];
  const lift = 0.012 * spacing;
  const at = (rim: Rim, a: number): number => {
    const r = rim.r + n[0] * lift;
    return builder.corner(
      r * Math.cos(a),
      r * Math.sin(a),
      rim.z + n[1] * lift,
      n[0] * Math.cos(a),
      n[0] * Math.sin(a),
      n[1],
    );
  };
  const corners = [at(p, angle - half), at(p, angle + half), at(q, angle + half), at(q, angle - half)] as const;
  builder.quad(...corners);
  builder.quad(corners[0], corners[3], corners[2], corners[1]);
}

/** Pitch circles on both faces, as pairs of ends. */
export function rimLines(outline: GearOutline, segments = 96): Float32Array {
  const points: number[] = [];
  for (const rim of rimsOf(outline)) {
    for (let k = 0; k < segments; k++) {
      for (const end of [k, k + 1]) {
        const a = (2 * Math.PI * end) / segments;
        const r = rim.r + rim.out[0] * 0.002 * rim.r;
        points.push(r * Math.cos(a), r * Math.sin(a), rim.z + rim.out[1] * 0.002 * rim.r);
      }
    }
  }
  return new Float32Array(points);
}
