/** The one solve: place, move, load, check. */
import { runChecks } from "./checks/run";
import type { Drive, Gear } from "./drive/types";
import type { Finding, Severity } from "./findings";
import { computeLoad } from "./load/load";
import { move } from "./motion/move";
import { indexDrive } from "./placement/index-drive";
import { place } from "./placement/place";
import type { DriveIndex, PlacedGear, PlacedShaft, Placement, Solved } from "./solved";

const RANK: Readonly<Record<Severity, number>> = { error: 0, warning: 1, note: 2 };

/** What each kind of mesh has to say of its own pairs, in document order. */
function checkPairs(drive: Drive, index: DriveIndex, placement: Placement): Finding[] {
  return drive.meshes.flatMap((mesh, i) => {
    const placed = placement.meshes[i];
    if (!placed) return [];
    const [g1, g2] = index.gearsOfMesh[i] as readonly [number, number];
    const [s1, s2] = index.shaftsOfMesh[i] as readonly [number, number];
    return placed.kind.checks({
      mesh,
      gears: [drive.gears[g1] as Gear, drive.gears[g2] as Gear],
      shape: placed.shape,
      shafts: [placement.shafts[s1] as PlacedShaft, placement.shafts[s2] as PlacedShaft],
      placedGears: [placement.gears[g1] as PlacedGear, placement.gears[g2] as PlacedGear],
      placed,
    });
  });
}

/**
 * Solves a parsed drive whole. Pure: the same drive gives the same answer; the drive is not touched. Throws only on a
 * drive that no parser would let through (an id that names nothing).
 */
export function solve(drive: Drive): Solved {
  const index = indexDrive(drive);
  const placement = place(drive, index);
  const motion = move(drive, index, placement);
  const load = computeLoad(drive, index, placement, motion);
  const findings = [
    ...placement.findings,
    ...checkPairs(drive, index, placement),
    ...motion.findings,
    ...load.findings,
    ...runChecks(drive, index, placement, motion, load),
  ].sort((a, b) => RANK[a.severity] - RANK[b.severity]);
  return { drive, index, placement, motion, load, findings };
}
