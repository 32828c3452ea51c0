/** Where along a shaft a new gear goes: the next place towards an end that is free. */

import { bodiesOf, shadowOn } from "../../engine/checks/bodies";
import { GEAR_FORMS } from "../../engine/mesh-kinds/gear-forms";
import type { Solved } from "../../engine/solved";
import type { Candidate } from "./candidate";
import type { Side } from "./sides";

/** mm between what stands there and a new gear. */
const ROOM = 10;

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
