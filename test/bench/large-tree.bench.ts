/**
 * Placing and solving 10,000 shafts, held against what JSON.parse takes for the text of the same drive. The drive has
 * losses in its meshes and a load at every hundredth shaft, so that its torques are solved too. Findings, which are made
 * when first read, stand on a line of their own.
 */
import { writeDrive } from "../../src/engine/drive/write";
import { solve } from "../../src/engine/solve";
import type { Port, Solved } from "../../src/engine/solved";
import { randomTree } from "../support/random-drives";
import { measureBoth, report } from "./measure";

const SHAFTS = 10_000;
const DEPTH = 12;
const PARSED = "over JSON.parse of the same file";

const loadedTree = (shafts: number) => {
  const input: Port = { shaft: "s0", role: "input", speed: 100 };
  const outputs = Array.from({ length: shafts / 100 }, (_, i): Port => {
    return { shaft: `s${100 * i + 99}`, role: "output", torque: 5 };
  });
  return randomTree(7, shafts, DEPTH, { losses: true, ports: [input, ...outputs] });
};

/** All placed, every speed exact and as a double, every torque and every tooth force known. */
const checkSolved = ({ placement, motion, load }: Solved, shafts: number): void => {
  const isPlaced = placement.shafts.length === shafts && placement.shafts.every((shaft) => shaft !== null);
  const isMoved = motion.speeds.every((speed) => speed !== null) && motion.speed.every((speed) => speed !== null);
  const isLoaded = load.shafts.every(({ torque }) => torque !== null) && (load.shafts[0]?.torque ?? 0) > 0;
  const hasForces = load.meshes.every(({ tangentialForce }) => tangentialForce !== null);
  if (!isPlaced || !isMoved || !isLoaded || !hasForces) throw new Error("Not all solved.");
};

const drive = loadedTree(SHAFTS);
const text = writeDrive(drive);
const parse = () => JSON.parse(text) as { readonly shafts: readonly unknown[] };

/** With the exact speeds, which are written out as fractions when first read. */
const solveNumbers = (): Solved => {
  const solved = solve(drive);
  if (solved.motion.speeds.length !== SHAFTS) throw new Error("Speeds are missing.");
  return solved;
};

const numbers = measureBoth(solveNumbers, parse, (solved, parsed) => {
  checkSolved(solved, SHAFTS);
  if (parsed.shafts.length !== SHAFTS) throw new Error("Not all parsed.");
});
report({
  name: `index, place and solve 10,000 shafts (exact speeds, torques and tooth forces), ${PARSED}`,
  value: numbers.first,
  unit: "ms",
  against: numbers.second,
  ratio: numbers.ratio,
  target: "<= 3",
});

// Per shaft, large over small, at the same depth: cost grows with the number of shafts and no faster.
const SMALL = 100;
const small = loadedTree(SMALL);
const perShaft = measureBoth(
  () => solve(drive),
  () => solve(small),
  (ours, theirs) => {
    checkSolved(ours, SHAFTS);
    checkSolved(theirs, SMALL);
  },
  { runs: [1, SHAFTS / SMALL] },
);
report({
  name: "cost per shaft, 10,000 shafts over 100",
  value: (perShaft.first / SHAFTS) * 1000,
  unit: "µs",
  against: (perShaft.second / SMALL) * 1000,
  ratio: (perShaft.ratio * SMALL) / SHAFTS,
  target: "<= 2",
});

const whole = measureBoth(
  () => {
    const solved = solve(drive);
    return { solved, count: solved.findings.length };
  },
  parse,
  ({ count }) => {
    if (count === 0) throw new Error("Nothing was found.");
  },
  { rounds: 7, warmUp: 3 },
);
report({
  name: `index, place and solve 10,000 shafts with all findings written as sentences, those of the teeth too, ${PARSED}`,
  value: whole.first,
  unit: "ms",
  against: whole.second,
  ratio: whole.ratio,
  target: null,
});
