/** Everything that makes a shaft turn so many times as fast: inputs, members, tooth counts of one stage or two, planets. */
import type { Rational } from "../motion/rational";
import type { Solved } from "../solved";
import type { Proposal } from "./change";
import { jointsTo } from "./parts";
import { otherPlanetCounts } from "./planet-counts";
import { otherInputSpeeds, otherMembers } from "./settings";
import { otherCounts, otherCountsOfTwo } from "./tooth-counts";

export interface SpeedOptions {
  /** Whether the inputs' own speeds may change; they may unless this says no. */
  readonly inputs?: boolean;
}

export function speedChanges(solved: Solved, shaft: number, times: Rational, options: SpeedOptions = {}): Proposal[] {
  const joints = jointsTo(solved, shaft);
  const one = joints.flatMap((joint) => otherCounts(solved, joint, times));
  const [first, second] = joints;
  return [
    ...(options.inputs === false ? [] : otherInputSpeeds(solved, times)),
    ...otherMembers(solved, shaft),
    ...one,
    ...otherPlanetCounts(solved, shaft, times),
    // Two stages are searched only where one does not do it.
    ...(one.length === 0 && first && second ? otherCountsOfTwo(solved, second, first, times) : []),
  ];
}
