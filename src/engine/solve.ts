/** The one solve: place, move, load; and what is found, when it is asked for. */
import { runChecks } from "./checks/run";
import { collisionFindings } from "./collisions/findings";
import type { Drive } from "./drive/types";
import type { Finding, Severity } from "./findings";
import { computeLoad } from "./load/load";
import { move } from "./motion/move";
import { indexDrive } from "./placement/index-drive";
import { place } from "./placement/place";
import type { Placement, Solved } from "./solved";
import { toothFindings } from "./teeth/tooth-findings";

const RANK: Readonly<Record<Severity, number>> = { error: 0, warning: 1, note: 2 };

/** What each kind of mesh has to say of its own pairs, in document order. */
function checkPairs(placement: Placement): Finding[] {
  const findings: Finding[] = [];
  for (const placed of placement.meshes) {
    if (!placed) continue;
    for (const finding of placed.kind.checks(placed.pair)) findings.push(finding);
  }
  return findings;
}

/**
 * Solves a parsed drive whole. Pure: the same drive gives the same answer; the drive is not touched. Throws only on a
 * drive that no parser would let through (an id that names nothing). `before`: the solution of an earlier drive that this one was
 * edited from; what did not move since keeps its place without being placed anew. The answer is the same without it.
 */
export function solve(drive: Drive, before: Solved | null = null): Solved {
  const index = indexDrive(drive);
  const placement = place(drive, index, before);
  const motion = move(drive, index, placement);
  const load = computeLoad(drive, index, placement, motion);
  let findings: readonly Finding[] | undefined;
  const solved: Solved = {
    drive,
    index,
    placement,
    motion,
    load,
    // Sentences take longer than numbers: they are made when first read.
    get findings() {
      findings ??= [
        ...placement.findings,
        ...checkPairs(placement),
        ...motion.findings,
        ...load.findings,
        ...runChecks(drive, index, placement, motion, load),
        ...toothFindings(drive, index, placement),
        ...collisionFindings(solved),
      ].sort((a, b) => RANK[a.severity] - RANK[b.severity]);
      return findings;
    },
  };
  return solved;
}
