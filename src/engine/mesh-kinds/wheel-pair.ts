/** Two smooth wheels pressed together on parallel shafts: d1 w1 + d2 w2 = 0 as long as they don't slip. */
import type { MeshKind } from "./contract";
import { parallelPair } from "./parallel";
import { pressed } from "./pressed";

export const wheelPair: MeshKind = {
  id: "wheel-pair",
  pairs: ["wheel", "wheel"],
  words: {
    name: "friction wheels",
    direction: "Wheels that touch on the outside turn opposite ways.",
    usualEfficiency: null,
  },
  ...parallelPair(() => null),
  ...pressed,
  checks: () => [],
};
