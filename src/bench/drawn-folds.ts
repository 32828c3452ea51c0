/** After which part of a turn what the bench draws on a shaft besides its gears looks alike: a loop must wait for it. */
import { isShell } from "../engine/collisions/gear-outline";
import { ROUND } from "../engine/motion/loop";
import { type BenchLayout, isCrank } from "./bench-layout";

/** The spokes that hold a ring. */
const SPOKES = 3;

/**
 * 1 for a crank and for the bar on an output's disc, 3 for the spokes of a ring, `ROUND` (0) where only a rod is drawn.
 * @param hasMarks marks are shown; else neither cranks nor bars are drawn
 */
export function drawnFolds({ solved, outlines }: BenchLayout, shaft: number, hasMarks: boolean): number {
  const role = solved.drive.ports[solved.index.portOfShaft[shaft] ?? -1]?.role;
  if (hasMarks && (role === "output" || (role === "input" && isCrank(solved, shaft)))) return 1;
  const gears = solved.index.gearsOfShaft[shaft] ?? [];
  const hasSpokes = gears.some((gear) => {
    const outline = outlines.get(gear);
    return outline !== undefined && isShell(outline);
  });
  return hasSpokes ? SPOKES : ROUND;
}
