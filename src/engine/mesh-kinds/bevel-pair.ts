/**
 * Bevel pair: two straight bevel gears whose axes meet at the common apex, at any shaft angle between 0 and 180 degrees.
 * z1 w1 + z2 w2 = 0 about the outward axes: the pitch cones roll on one another along their whole contact line.
 */
import type { MeshKind } from "./contract";
import { intersectingPair } from "./intersecting";
import { bevelShiftSum } from "./shift-sum";
import { coneHasApex } from "./sizes";
import { agreement, toothContactRatio, toothForces } from "./tooth-action";

export const bevelPair: MeshKind = {
  id: "bevel-pair",
  pairs: ["bevel", "bevel"],
  isFriction: false,
  words: {
    name: "bevel pair",
    direction: "Bevel gears turn so that their rims run alike where they touch, at every shaft angle.",
    usualEfficiency: { value: 0.97, source: "common practice, no source" },
  },
  ...intersectingPair,
  forces: toothForces,
  contactRatio: toothContactRatio,
  checks: (pair) => [...agreement(pair), ...coneHasApex(pair), ...bevelShiftSum(pair)],
};
