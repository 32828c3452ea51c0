/**
 * Spur pair: two outside gears on parallel shafts. z1 w1 + z2 w2 = 0 about one common direction: the pitch cylinders
 * roll on one another (equal surface velocity at the pitch point).
 */
import type { MeshKind } from "./contract";
import { parallelPair } from "./parallel";
import { shiftSum } from "./shift-sum";
import { agreement, toothContactRatio, toothForces } from "./tooth-action";

export const spurPair: MeshKind = {
  id: "spur-pair",
  pairs: ["spur", "spur"],
  isFriction: false,
  words: {
    name: "spur pair",
    direction: "Outside gears on parallel shafts turn opposite ways.",
    usualEfficiency: { value: 0.98, source: "common practice, no source: 0.98 to 0.99 a well-lubricated mesh" },
  },
  ...parallelPair(() => null),
  forces: toothForces,
  contactRatio: toothContactRatio,
  checks: (pair) => [...agreement(pair), ...shiftSum(pair, null)],
};
