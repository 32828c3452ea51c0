/** Every check that is not said by placement, motion, load or a kind of mesh itself. A new check is its file and its line here. */
import type { Finding } from "../findings";
import type { Drive, DriveIndex, Load, Motion, Placement } from "../solved";
import type { Check } from "./check";
import { checkContactRatio } from "./contact-ratio";
import { checkFaceWidth } from "./face-width";
import { checkGearsOverlap } from "./gears-overlap";
import { checkInterference } from "./interference";
import { checkPitchSpeed } from "./pitch-speed";
import { checkRatioRange } from "./ratio-range";
import { checkUndercut } from "./undercut";

const CHECKS: readonly Check[] = [
  checkGearsOverlap,
  checkInterference,
  checkContactRatio,
  checkFaceWidth,
  checkRatioRange,
  checkPitchSpeed,
  checkUndercut,
];

/** Findings of all checks, in the order of the list; within a check in document order. Linear but for one sort of each shaft's gears. */
export function runChecks(
  drive: Drive,
  index: DriveIndex,
  placement: Placement,
  motion: Motion,
  load: Load,
): Finding[] {
  const findings: Finding[] = [];
  const checked = { drive, index, placement, motion, load };
  for (const check of CHECKS) check(checked, (finding) => findings.push(finding));
  return findings;
}
