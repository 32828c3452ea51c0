/** Placing and solving 10,000 shafts, held against what JSON.parse takes for the text of the same drive. */
import { writeDrive } from "../../src/engine/drive/write";
import { solve } from "../../src/engine/solve";
import { randomTree } from "../support/random-drives";
import { measure, measureBoth, report } from "./measure";

const SHAFTS = 10_000;
const drive = randomTree(7, SHAFTS, 12);
const text = writeDrive(drive);

const [ours, parse] = measureBoth(
  () => solve(drive),
  () => JSON.parse(text) as { shafts: unknown[] },
  (solved, parsed) => {
    const isSolved = solved.motion.status === "determined" && solved.motion.speed.every((speed) => speed !== null);
    if (!isSolved || solved.placement.shafts.some((shaft) => shaft === null)) throw new Error("Not all solved.");
    if (parsed.shafts.length !== SHAFTS) throw new Error("Not all parsed.");
  },
);
report({
  name: "place and solve 10,000 shafts (placement, speeds, loads), over JSON.parse of the same file",
  value: ours,
  unit: "ms",
  against: parse,
  ratio: ours / parse,
  target: "<= 3",
});

// Per shaft, large over small, at the same depth: cost grows with the number of shafts and no faster.
const small = randomTree(7, 100, 12);
const smallTime = measure(
  () => solve(small),
  (solved) => {
    if (solved.motion.status !== "determined") throw new Error("Not solved.");
  },
  { runs: 100, warmUp: 10 },
);
const [perLarge, perSmall] = [(ours / SHAFTS) * 1000, (smallTime / 100) * 1000];
report({
  name: "cost per shaft, 10,000 shafts over 100",
  value: perLarge,
  unit: "µs",
  against: perSmall,
  ratio: perLarge / perSmall,
  target: "<= 2",
});
