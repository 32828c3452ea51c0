/**
 * Collisions at rest and round their carriers. A drive of 40 gears whose parts keep clear of one another, as a drive that is being
 * sketched mostly does; and a chain of 10,000 shafts against one of 100: cost grows with the number of shafts and little faster.
 */
import { type Collisions, collisionsOf } from "../../src/engine/collisions/find";
import type { Drive } from "../../src/engine/drive/types";
import { solve } from "../../src/engine/solve";
import { chain, planetary } from "../support/random-drives";
import { measure, measureBoth, report } from "./measure";

/** A solution is asked once and remembers its answer: each round asks a fresh one. */
const fresh = (drive: Drive): Collisions => collisionsOf(solve(drive));
const checkClear = ({ list, unchecked }: Collisions): void => {
  if (list.length > 0 || unchecked > 0) throw new Error("Something collides, or was not looked at.");
};

const forty = chain(20);
report({
  name: "solve 40 gears and look for collisions",
  value: measure(() => fresh(forty), checkClear, { rounds: 101, warmUp: 50 }),
  unit: "ms",
  against: null,
  ratio: null,
  target: "<= 4",
});

const carried = planetary(24, 18, 60, 4);
report({
  name: "solve a planetary set of four planets and look all the way round",
  value: measure(() => fresh(carried), checkClear, { rounds: 101, warmUp: 50 }),
  unit: "ms",
  against: null,
  ratio: null,
  target: "<= 4",
});

const LONG = 10_000;
const SHORT = 100;
const [long, short] = [solve(chain(LONG)), solve(chain(SHORT))];
const perShaft = measureBoth(
  () => collisionsOf({ ...long }),
  () => collisionsOf({ ...short }),
  (ours, theirs) => {
    checkClear(ours);
    checkClear(theirs);
  },
  { runs: [1, LONG / SHORT], rounds: 7, warmUp: 3 },
);
report({
  name: "cost of collisions per shaft, 10,000 shafts over 100",
  value: (perShaft.first / LONG) * 1000,
  unit: "µs",
  against: (perShaft.second / SHORT) * 1000,
  ratio: (perShaft.ratio * SHORT) / LONG,
  target: "<= 3",
});
