/**
 * The velocity equations of 1,000 shafts, held against mathjs, a general library, on the same equations as a sparse
 * matrix: once as its manual calls it, `lusolve(matrix, right)`, and once with the fastest of its own orderings (what
 * an expert would choose who knows that the matrix is square and its pivots sound). Its matrix is built outside the
 * clock; ours makes its equations from the placed drive, and mobility, statuses and exact fractions besides.
 */
import { lusolve, type Matrix, sparse } from "mathjs";
import { move } from "../../src/engine/motion/move";
import { solve } from "../../src/engine/solve";
import { randomTree } from "../support/random-drives";
import { type Compared, measureBoth, report } from "./measure";

const SHAFTS = 1000;
const drive = randomTree(11, SHAFTS, 12);
const solved = solve(drive);

/** One row for each mesh, c1 w1 + c2 w2 = 0, and a last one that gives the input its 100 rev/min. */
const rows: number[][] = solved.motion.rows.map((row, i) => {
  const pair = solved.index.shaftsOfMesh[i];
  if (row === null || pair === undefined) throw new Error("A mesh has no equation.");
  const line = new Array<number>(SHAFTS).fill(0);
  for (const side of [0, 1] as const) line[pair[side]] = Number(row.coefficients[side]);
  return line;
});
rows.push(Array.from({ length: SHAFTS }, (_, i) => (i === 0 ? 1 : 0)));
const matrix = sparse(rows);
const right: number[][] = Array.from({ length: SHAFTS }, (_, i) => [i === SHAFTS - 1 ? 100 : 0]);

const { index, placement } = solved;

const against = (theirSolve: () => Matrix): Compared =>
  measureBoth(
    () => move(drive, index, placement),
    theirSolve,
    (ours, theirs) => {
      const speeds = theirs.toArray() as number[][];
      ours.speed.forEach((speed, i) => {
        const other = speeds[i]?.[0] ?? Number.NaN;
        if (speed === null || !(Math.abs(speed - other) <= 1e-9 * Math.abs(speed))) throw new Error("They disagree.");
      });
    },
    // Ours takes a millisecond: ten of them a round, once it is warm.
    { rounds: 9, warmUp: 5, runs: [10, 1] },
  );

const plain = against(() => lusolve(matrix, right));
report({
  name: "solve 1,000 shafts, times as fast as mathjs lusolve on the same sparse equations",
  value: plain.first,
  unit: "ms",
  against: plain.second,
  ratio: 1 / plain.ratio,
  target: ">= 20",
});

const ordered = [0, 1, 2, 3].map((order) => against(() => lusolve(matrix, right, order, 1) as Matrix));
const best = ordered.reduce((fastest, next) => (next.second < fastest.second ? next : fastest));
report({
  name: "solve 1,000 shafts, times as fast as mathjs lusolve with its fastest ordering",
  value: best.first,
  unit: "ms",
  against: best.second,
  ratio: 1 / best.ratio,
  target: null,
});
