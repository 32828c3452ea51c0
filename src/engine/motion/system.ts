/**
 * The speed equations of a drive, reduced: shafts that two-shaft meshes tie together form a group with one unknown (the
 * speed of its root), found by walking the meshes; what is left (carriers) is eliminated over those few unknowns.
 */
import type { Drive } from "../drive/types";
import type { DriveIndex, MeshRow, Placement } from "../solved";
import { addTerm, Elimination, type Sum } from "./elimination";
import { equals, isZero, multiply, negate, ONE, type Rational, rational, ZERO } from "./rational";

export interface System {
  /** For each shaft the root shaft of its group; -1 where unplaced. */
  readonly root: Int32Array;
  /** For each shaft its speed over that of its root; 0 in a group that can't turn. */
  readonly factor: readonly Rational[];
  /** The carriers' equations, over roots. */
  readonly carriers: Elimination;
  /** Rank of all mesh equations. */
  readonly rank: number;
  readonly placed: number;
}

/** For one of its shafts, what a row makes of the other's speed: the quotient -c_this / c_other. */
const quotient = (here: bigint, there: bigint): Rational => negate(rational(here, there));

const isTwoShaft = (row: MeshRow): boolean => row.carrier[0] === -1 && row.carrier[1] === -1;

export function reduce(
  drive: Drive,
  index: DriveIndex,
  placement: Placement,
  rows: readonly (MeshRow | null)[],
): System {
  const count = drive.shafts.length;
  const root = new Int32Array(count).fill(-1);
  const factor: Rational[] = new Array(count).fill(ZERO);
  let rank = 0;
  let placed = 0;

  const walk = (start: number): void => {
    const members = [start];
    root[start] = start;
    factor[start] = ONE;
    let isLocked = false;
    for (let next = 0; next < members.length; next++) {
      const here = members[next] as number;
      for (const mesh of index.meshesOfShaft[here] ?? []) {
        const row = rows[mesh];
        if (!row || !isTwoShaft(row)) continue;
        const ends = index.shaftsOfMesh[mesh] as readonly [number, number];
        const side = ends[0] === here ? 0 : 1;
        const other = ends[1 - side] as number;
        const speed = multiply(
          factor[here] as Rational,
          quotient(row.coefficients[side], row.coefficients[1 - side] as bigint),
        );
        if (root[other] === -1) {
          root[other] = start;
          factor[other] = speed;
          members.push(other);
          rank++;
        } else if (!equals(factor[other] as Rational, speed)) isLocked = true;
      }
    }
    if (!isLocked) return;
    rank++;
    for (const member of members) factor[member] = ZERO;
  };

  // Groups begin at inputs where there are some, so that factors there are the ratios themselves.
  for (const port of drive.ports) {
    const shaft = index.shafts.get(port.shaft) as number;
    if (port.role === "input" && placement.shafts[shaft] && root[shaft] === -1) walk(shaft);
  }
  for (let shaft = 0; shaft < count; shaft++) {
    if (!placement.shafts[shaft]) continue;
    placed++;
    if (root[shaft] === -1) walk(shaft);
  }

  const carriers = Elimination.empty();
  for (const row of rows) {
    if (!row || isTwoShaft(row)) continue;
    const sum: Sum = new Map();
    const ends = index.shaftsOfMesh[row.mesh] as readonly [number, number];
    for (const side of [0, 1] as const) {
      const c = rational(row.coefficients[side]);
      addSpeed(sum, root, factor, ends[side], c);
      const carrier = row.carrier[side];
      if (carrier !== -1) addSpeed(sum, root, factor, carrier, row.carrierSign[side] === 1 ? negate(c) : c);
    }
    if (carriers.take(sum) === "independent") rank++;
  }
  return { root, factor, carriers, rank, placed };
}

/** Adds c · speed of a shaft to a sum over roots. */
export function addSpeed(sum: Sum, root: Int32Array, factor: readonly Rational[], shaft: number, c: Rational): void {
  const f = factor[shaft] as Rational;
  if (!isZero(f)) addTerm(sum, root[shaft] as number, multiply(c, f));
}

/** Speed of one shaft over roots, with the equations of `over` put in. */
export function speedOver(system: System, over: Elimination, shaft: number): Sum {
  const sum: Sum = new Map();
  addSpeed(sum, system.root, system.factor, shaft, ONE);
  return over.resolve(sum);
}
