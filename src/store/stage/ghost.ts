/** What of a drive that would be is new, other, or stands elsewhere: the bench draws that as a ghost. */
import type { Solved } from "../../engine/solved";
import { differenceOf } from "../../engine/wishes/cost";
import type { ViewState } from "../view";
import { isOther } from "./candidate";

export function ghostOf(now: Solved, next: Solved): ViewState["ghost"] {
  const { gears, meshes } = next.drive;
  const { newShafts, moved: elsewhere } = differenceOf(now, next);
  const moved = new Set([...newShafts, ...elsewhere]);
  const others = gears.flatMap(({ id, shaft }, i) => (!moved.has(shaft) && isOther(now, next, i) ? id : []));
  const last = meshes.length > now.drive.meshes.length ? meshes.at(-1) : undefined;
  return {
    solved: next,
    shafts: [...moved],
    gears: others,
    ...(last?.shaftAngle === undefined ? {} : { leaning: last.id }),
  };
}
