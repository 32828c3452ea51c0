import { lusolve, type Matrix, sparse, slu } from "mathjs";
import * as S from "../../src/engine/solve";
import { randomTree } from "../support/random-drives";
import { measure } from "./measure";
const SHAFTS = 1000;
const drive = randomTree(11, SHAFTS, 12);
const solved = S.solve(drive);
const rows: number[][] = solved.motion.rows.map((row, i) => {
  const pair = solved.index.shaftsOfMesh[i]!;
  const line = new Array<number>(SHAFTS).fill(0);
  for (const side of [0, 1] as const) line[pair[side]] = Number(row!.coefficients[side]);
  return line;
});
rows.push(Array.from({ length: SHAFTS }, (_, i) => (i === 0 ? 1 : 0)));
const matrix = sparse(rows);
const right: number[][] = Array.from({ length: SHAFTS }, (_, i) => [i === SHAFTS - 1 ? 100 : 0]);



const big = randomTree(7, 10000, 12);
for (let i = 0; i < 15; i++) S.solve(big);
