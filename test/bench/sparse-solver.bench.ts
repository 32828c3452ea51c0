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
import { measureBoth, report } from "./measure";

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

const against = (theirSolve: () => Matrix): readonly [number, number] =>
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
    { rounds: 9, warmUp: 5 },
  );

const [ours, theirs] = against(() => lusolve(matrix, right));
report({
  name: "solve 1,000 shafts, times as fast as mathjs lusolve on the same sparse equations",
  value: ours,
  unit: "ms",
  against: theirs,
  ratio: theirs / ours,
  target: ">= 20",
});

const ordered = [0, 1, 2, 3].map((order) => against(() => lusolve(matrix, right, order, 1) as Matrix));
const [oursBest, theirsBest] = ordered.reduce((best, next) => (next[1] < best[1] ? next : best));
report({
  name: "solve 1,000 shafts, times as fast as mathjs lusolve with its fastest ordering",
  value: oursBest,
  unit: "ms",
  against: theirsBest,
  ratio: theirsBest / oursBest,
  target: null,
});
