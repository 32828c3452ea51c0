/** Two smooth cones pressed together, axes meeting at the common apex: d1 w1 + d2 w2 = 0 about the outward axes. */
import type { MeshKind } from "./contract";
import { intersectingPair } from "./intersecting";
import { pressed } from "./pressed";
import { coneHasApex } from "./sizes";

export const conePair: MeshKind = {
  id: "cone-pair",
  pairs: ["cone", "cone"],
  words: {
    name: "friction cones",
    direction: "Cones turn so that their surfaces run alike where they touch, at every shaft angle.",
    usualEfficiency: null,
  },
  ...intersectingPair,
  ...pressed,
  checks: (pair) => coneHasApex(pair),
};
