/** Where along a shaft a new gear goes: towards which end, and the next place there that is free. */

import { bodiesOf, shadowOn } from "../../engine/checks/bodies";
import { endNames, portEnd } from "../../engine/explain/ends";
import { GEAR_FORMS } from "../../engine/mesh-kinds/gear-forms";
import type { Solved } from "../../engine/solved";
import { dot, sub } from "../../engine/vector";
import type { Candidate } from "./candidate";

export type Side = 1 | -1;

/** mm between what stands there and a new gear. */
const ROOM = 10;

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

/** mm along the shaft: a whole number beyond all that stands within a gear's reach of it on that side; 0 where nothing does. */
export function freePlace(solved: Solved, shaft: number, side: Side, gear: Candidate["firstForm"]): number {
  const placed = solved.placement.shafts[shaft];
  if (!placed) return 0;
  let edge = Number.NEGATIVE_INFINITY;
  for (const body of bodiesOf(solved)) {
    const reach = body.shaft === shaft ? Number.POSITIVE_INFINITY : gear.tipRadius;
    const shadow = shadowOn(body, placed.origin, placed.axis, reach);
    if (shadow) edge = Math.max(edge, side * shadow[side === 1 ? 1 : 0]);
  }
  // A bevel gear that meshes with nothing yet has no cone; its face still takes room.
  for (const g of solved.index.gearsOfShaft[shaft] ?? []) {
    const own = solved.drive.gears[g];
    if (own && solved.placement.gears[g]?.pitchAngle === null) edge = Math.max(edge, side * own.at + own.face);
  }
  if (edge === Number.NEGATIVE_INFINITY) return 0;
  // A cylinder's place is its middle, a cone's its heel, with the back of its teeth behind it.
  const behind = GEAR_FORMS[gear.kind].pitchAngle === null ? 2.5 * gear.module : gear.face / 2;
  return side * Math.ceil(edge + ROOM + behind) + 0;
}
