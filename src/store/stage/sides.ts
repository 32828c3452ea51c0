/** The two ends of a shaft as places for a new gear: their names, which is better, which are free. */
import { endNames, portEnd } from "../../engine/explain/ends";
import type { Solved } from "../../engine/solved";
import { dot, sub } from "../../engine/vector";

/** Towards the + or the - end of a shaft. */
export type Side = 1 | -1;

/** "motor end": the end that a side leads to. */
export const sideName = (solved: Solved, shaft: number, side: Side): string =>
  endNames(solved, shaft)[side === 1 ? "plus" : "minus"];

/**
 * The two sides, the better one first: on to the load and away from what drives; but never past an apex, where the mate's
 * own shaft is in the way.
 */
export function sidesOf(solved: Solved, shaft: number): readonly [Side, Side] {
  const role = solved.drive.ports[solved.index.portOfShaft[shaft] ?? -1]?.role;
  const end = portEnd(solved, shaft);
  const atPort: Side = end === "minus" ? -1 : 1;
  const first: Side = end === null ? 1 : role === "output" ? atPort : (-atPort as Side);
  const [before, after] = [apexBeyond(solved, shaft, first), apexBeyond(solved, shaft, -first as Side)];
  return before && !after ? [-first as Side, first] : [first, -first as Side];
}

/** Whether the outermost gear on that side is a cone with its apex further out. */
function apexBeyond(solved: Solved, shaft: number, side: Side): boolean {
  const gears = [...(solved.index.gearsOfShaft[shaft] ?? [])].sort(
    (a, b) => side * ((solved.drive.gears[b]?.at ?? 0) - (solved.drive.gears[a]?.at ?? 0)),
  );
  const placed = solved.placement.gears[gears[0] ?? -1];
  const axis = solved.placement.shafts[shaft]?.axis;
  if (!placed?.apexPoint || !axis) return false;
  return side * dot(sub(placed.apexPoint, placed.centre), axis) > 1e-6;
}

/** The ends, the better one first, at which neither what drives or loads the shaft stands nor a mate beyond an apex. */
export function freeEnds(solved: Solved, shaft: number): readonly Side[] {
  const end = portEnd(solved, shaft);
  const atPort: Side | 0 = end === null ? 0 : end === "minus" ? -1 : 1;
  return sidesOf(solved, shaft).filter((side) => side !== atPort && !apexBeyond(solved, shaft, side));
}
