/** On which end of each shaft its port stands, or where there is none, its arrow: 1 for the + end. */
import { portEnd } from "../explain/ends";
import type { Solved } from "../solved";
import { dot, sub } from "../vector";

/** The port's end as the words have it; without a port the + end, unless a cone's apex (and so its mate) lies there alone. */
export const portSides = (solved: Solved): (1 | -1)[] =>
  solved.drive.shafts.map((_, shaft) => {
    const end = portEnd(solved, shaft);
    if (end) return end === "plus" ? 1 : -1;
    return apexBeyond(solved, shaft, 1) && !apexBeyond(solved, shaft, -1) ? -1 : 1;
  });

/** Whether the last gear on that side has its apex still further out. */
function apexBeyond({ drive, index, placement }: Solved, shaft: number, side: 1 | -1): boolean {
  let last = -1;
  for (const gear of index.gearsOfShaft[shaft] ?? []) {
    if (last < 0 || ((drive.gears[gear]?.at ?? 0) - (drive.gears[last]?.at ?? 0)) * side > 0) last = gear;
  }
  const placed = placement.gears[last];
  const axis = placement.shafts[shaft]?.axis;
  return Boolean(placed?.apexPoint && axis && dot(sub(placed.apexPoint, placed.centre), axis) * side > 1e-6);
}
