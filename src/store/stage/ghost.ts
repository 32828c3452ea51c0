/** What of a drive that would be is new, other, or stands elsewhere: the bench draws that as a ghost. */
import type { Solved } from "../../engine/solved";
import { distance } from "../../engine/vector";
import type { ViewState } from "../view";
import { isOther } from "./candidate";

export function ghostOf(now: Solved, next: Solved): ViewState["ghost"] {
  const { shafts, gears, meshes } = next.drive;
  const isMoved = (i: number): boolean => {
    const [was, to] = [now.placement.shafts[i], next.placement.shafts[i]];
    if (i >= now.drive.shafts.length) return true;
    return Boolean(was && to && (distance(was.origin, to.origin) > 1e-6 || distance(was.axis, to.axis) > 1e-9));
  };
  const moved = new Set(shafts.flatMap(({ id }, i) => (isMoved(i) ? id : [])));
  const others = gears.flatMap(({ id, shaft }, i) => (!moved.has(shaft) && isOther(now, next, i) ? id : []));
  const last = meshes.length > now.drive.meshes.length ? meshes.at(-1) : undefined;
  return {
    solved: next,
    shafts: [...moved],
    gears: others,
    ...(last?.shaftAngle === undefined ? {} : { leaning: last.id }),
  };
}
