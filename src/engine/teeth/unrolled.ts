/** One tooth of a gear at any place between heel and toe, unrolled along its pitch circle as it would be on the board. Pure numbers. */
import { outlineOf } from "./outline";
import type { ToothSpec } from "./spec";

export interface UnrolledTooth {
  /** mm [along the pitch circle from the tooth's middle, from the pitch circle towards the tip]; from one root over the tip to the other. */
  readonly points: readonly (readonly [number, number])[];
  /** mm, along the pitch circle. */
  readonly thickness: number;
  /** mm from root to tip. */
  readonly depth: number;
}

/**
 * On a conical gear the back cone at that distance from the apex is laid flat, on a cylinder the circles are laid straight: heights and
 * thicknesses along circles stay true.
 * @param fromApex mm from the apex; without meaning on parallel kinds
 * @returns null on a body without teeth
 */
export function unrolledTooth(spec: ToothSpec, fromApex: number): UnrolledTooth | null {
  const { rowPlace, rowHalf, outward } = outlineOf(spec);
  if (rowPlace.length === 0) return null;
  const height = (q: number): number =>
    spec.form === "conical" ? fromApex * Math.tan(q - spec.pitchAngle) : outward * (q - spec.pitchRadius);
  const radius = (q: number): number =>
    spec.form === "conical" ? (fromApex / Math.cos(q - spec.pitchAngle)) * Math.sin(q) : q;
  const side = Array.from(rowPlace, (q, i) => [radius(q) * (rowHalf[i] ?? 0), height(q)] as const);
  const [first, last] = [side[0] as readonly [number, number], side.at(-1) as readonly [number, number]];
  return {
    points: [...side.map(([x, y]) => [-x, y] as const), ...side.toReversed()],
    thickness: 2 * halfAtPitch(side),
    depth: last[1] - first[1],
  };
}

/** Between the rows beside the pitch circle. */
function halfAtPitch(side: readonly (readonly [number, number])[]): number {
  const above = side.findIndex(([, y]) => y >= 0);
  const [high, low] = [side[above] ?? side.at(-1), side[above - 1] ?? side[0]];
  if (!high || !low) return 0;
  const part = high[1] === low[1] ? 0 : -low[1] / (high[1] - low[1]);
  return low[0] + part * (high[0] - low[0]);
}
