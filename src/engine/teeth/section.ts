/**
 * The section of a gear across its teeth at any place between the two ends of the face: square to the axis of a spur gear or ring, along
 * the back cone of a bevel gear (so that the section at the heel is the heel itself). In the gear's own frame (gear-mesh.ts).
 */
import type { Solved } from "../solved";
import { dot, length, sub } from "../vector";
import { endPoint, LARGEST_BORE } from "./blank";
import { outlineOf } from "./outline";
import type { ToothSpec } from "./spec";

export interface ToothSection {
  /** Pairs of points, x y z in mm: the outline, tooth after tooth. */
  readonly lines: Float32Array;
  /** Corners and triangles of the material between the outline and the rim under the roots. */
  readonly corners: Float32Array;
  readonly triangles: Uint32Array;
}

/** Modules of the body shown under the roots. Ours. */
const RIM = 1.1;

/** @param part 0 the heel (or the end at the shaft's +), 1 the toe (or the other end). */
export function toothSection(spec: ToothSpec, part: number): ToothSection {
  const outline = outlineOf(spec);
  const { pitches, rowPlace, rowHalf, root, outward, rootAzimuths } = outline;
  const side = spec.isFlipped ? -1 : 1;
  const at = (q: number, azimuth: number): readonly [number, number, number] => {
    const [a, b] = [endPoint(spec, q, 0), endPoint(spec, q, 1)];
    const r = a[0] + (b[0] - a[0]) * part;
    const z = a[1] + (b[1] - a[1]) * part;
    return [r * Math.cos(azimuth), side * r * Math.sin(azimuth), side * z];
  };
  const per = spec.form === "conical" ? 1 / spec.coneDistance : 1;
  const least = spec.form === "conical" ? spec.pitchAngle * 0.2 : Math.min(spec.bore, LARGEST_BORE * root);
  const rim = outward > 0 ? Math.max(least, root - RIM * spec.module * per) : root + RIM * spec.module * per;

  const lines: number[] = [];
  const corners: number[] = [];
  const triangles: number[] = [];
  const corner = (q: number, azimuth: number): number => corners.push(...at(q, azimuth)) / 3 - 1;
  const line = (q0: number, a0: number, q1: number, a1: number): void => {
    lines.push(...at(q0, a0), ...at(q1, a1));
  };
  const turn = (2 * Math.PI) / pitches;
  const rows = rowPlace.length;
  const rootHalf = rowHalf[0] ?? 0;
  for (let k = 0; k < pitches; k++) {
    const middle = k * turn;
    for (let i = 0; i < rows; i++) {
      const [q, half] = [rowPlace[i] ?? root, rowHalf[i] ?? 0];
      const right = corner(q, middle - half);
      corner(q, middle + half);
      if (i === 0) continue;
      triangles.push(right - 2, right, right + 1, right - 2, right + 1, right - 1);
      for (const s of [-1, 1]) line(rowPlace[i - 1] ?? q, middle + s * (rowHalf[i - 1] ?? 0), q, middle + s * half);
    }
    const tipHalf = rowHalf[rows - 1] ?? 0;
    const [tip, steps] = [rowPlace[rows - 1] ?? root, Math.max(1, Math.ceil(tipHalf / 0.04))];
    for (let i = 0; i < steps && rows > 0; i++) {
      line(tip, middle + tipHalf * ((2 * i) / steps - 1), tip, middle + tipHalf * ((2 * i + 2) / steps - 1));
    }
    rootAzimuths.forEach((azimuth, i) => {
      const from = middle + azimuth;
      const to = middle + (rootAzimuths[i + 1] ?? (rootAzimuths[0] ?? 0) + turn);
      const a = corner(root, from);
      corner(rim, from);
      corner(root, to);
      corner(rim, to);
      triangles.push(a, a + 1, a + 3, a, a + 3, a + 2);
      const between = (from + to) / 2 - middle;
      if (Math.abs(between) > rootHalf || rows === 0) line(root, from, root, to);
    });
  }
  return {
    lines: Float32Array.from(lines),
    corners: Float32Array.from(corners),
    triangles: Uint32Array.from(triangles),
  };
}

/**
 * Where on a gear's own face, 0 to 1 as in `toothSection`, the section lies that stands at a part of the contact line, 0 its heel (first
 * end) to 1 its toe: mates of unequal faces are cut at one place. 0 where the mesh or the gear isn't placed.
 */
export function partOfFace({ drive, index, placement }: Solved, mesh: number, gear: number, part: number): number {
  const contact = placement.meshes[mesh]?.contact;
  const placed = placement.gears[gear];
  const data = drive.gears[gear];
  const shaft = placement.shafts[index.shaftOfGear[gear] ?? -1];
  if (!contact || !placed || !data || !shaft) return 0;
  const line = sub(contact[1], contact[0]);
  if (placed.apexPoint) return (length(line) * part) / data.face;
  const from = dot(sub(contact[0], placed.centre), shaft.axis);
  return 0.5 - (from + part * dot(line, shaft.axis)) / data.face;
}
