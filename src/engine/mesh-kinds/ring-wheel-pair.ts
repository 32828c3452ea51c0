/** A smooth wheel pressed against the inside of a ring: d1 w1 - d2 w2 = 0 as long as it doesn't slip. */
import type { Gear } from "../drive/types";
import type { MeshKind } from "./contract";
import { parallelPair } from "./parallel";
import { pressed } from "./pressed";
import { ringHoldsPinion } from "./sizes";

const ringOf = (gears: readonly [Gear, Gear]): 0 | 1 => (gears[0].kind === "internal-wheel" ? 0 : 1);

export const ringWheelPair: MeshKind = {
  id: "ring-wheel-pair",
  pairs: ["wheel", "internal-wheel"],
  words: {
    name: "friction wheel in a ring",
    direction: "A wheel and the ring around it turn the same way.",
    usualEfficiency: null,
  },
  ...parallelPair(ringOf),
  ...pressed,
  checks: (pair) => ringHoldsPinion(pair, ringOf(pair.gears)),
};
