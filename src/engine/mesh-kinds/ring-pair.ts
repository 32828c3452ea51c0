/**
 * Ring pair: a pinion inside an internal gear, on parallel shafts. z1 w1 - z2 w2 = 0 about one common direction: both
 * turn the same way. It is the outside pair with the ring's radius taken negative.
 */
import type { Gear } from "../drive/types";
import type { MeshKind } from "./contract";
import { parallelPair } from "./parallel";
import { shiftSum } from "./shift-sum";
import { ringHoldsPinion } from "./sizes";
import { agreement, toothContactRatio, toothForces } from "./tooth-action";

const ringOf = (gears: readonly [Gear, Gear]): 0 | 1 => (gears[0].kind === "internal" ? 0 : 1);

export const ringPair: MeshKind = {
  id: "ring-pair",
  pairs: ["spur", "internal"],
  isFriction: false,
  words: {
    name: "ring pair",
    direction: "A pinion and the ring around it turn the same way.",
    usualEfficiency: { value: 0.99, source: "common practice, no source" },
  },
  ...parallelPair(ringOf),
  forces: toothForces,
  contactRatio: toothContactRatio,
  checks: (pair) => {
    const ring = ringOf(pair.gears);
    return [...agreement(pair), ...ringHoldsPinion(pair, ring), ...shiftSum(pair, ring)];
  },
};
