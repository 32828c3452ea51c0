/**
 * The space that a drive must fit, kept in the drive as `x-space`: a box whose sides run along x (left to right), y (near to far) and
 * z (bottom to top) of the world.
 */
import type { Drive } from "./types";

/** One number for each of x, y and z. */
export type Sides = readonly [number | null, number | null, number | null];

export interface Space {
  /** mm, above 0; null where the space is open. */
  readonly size: Sides;
  /** mm: the left, near, bottom corner; null where the box is put so that the drive stands in its middle. */
  readonly corner: Sides;
}

const OPEN: Sides = [null, null, null];

const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === "object" && value !== null;

const sidesOf = (value: unknown, isGood: (x: number) => boolean): Sides | null => {
  if (!Array.isArray(value) || value.length !== 3) return null;
  const good = value.every((x) => x === null || (typeof x === "number" && Number.isFinite(x) && isGood(x)));
  return good ? (value as unknown as Sides) : null;
};

/** The space of a drive; null where it has none, or what stands under `x-space` is none (it is kept as it is). */
export function spaceOf(drive: Drive): Space | null {
  const kept = drive["x-space"];
  if (!isRecord(kept)) return null;
  const size = sidesOf(kept.size, (x) => x > 0);
  const corner = kept.corner === undefined ? OPEN : sidesOf(kept.corner, () => true);
  if (!size || !corner || size.every((x) => x === null)) return null;
  return { size, corner };
}
