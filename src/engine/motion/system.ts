/**
 * The speed equations of a drive, reduced: shafts that two-shaft meshes tie together form a group with one unknown (the
 * speed of its root), found by walking the meshes; what is left (carriers) is eliminated over those few unknowns.
 */
import type { Drive } from "../drive/types";
import type { DriveIndex, MeshRow, Placement } from "../solved";
import { addTerm, Elimination, type Sum } from "./elimination";
import { Fractions } from "./fractions";
import { multiply, negate, ONE, type Rational, rational, ZERO } from "./rational";

export interface System {
  /** For each shaft the root shaft of its group; -1 where unplaced. */
  readonly root: Int32Array;
  /** For each shaft its speed over that of its root; 0 in a group that can't turn. */
  readonly factor: Fractions;
  /** The carriers' equations, over roots. */
  readonly carriers: Elimination;
  /** Rank of all mesh equations. */
  readonly rank: number;
  readonly placed: number;
}

const isTwoShaft = (row: MeshRow): boolean => row.carrier[0] === -1 && row.carrier[1] === -1;

/** Puts into `to` at `other` the speed that a row gives the other shaft: -c_here / c_other times that at `here`. */
function passOn(row: MeshRow, side: 0 | 1, factor: Fractions, here: number, to: Fractions, other: number): void {
  const [own, far] = side === 0 ? [row.first, row.second] : [row.second, row.first];
  if (!Number.isNaN(own)) to.setProduct(other, factor, here, -own, far);
  else
    to.set(other, multiply(factor.at(here), rational(-row.coefficients[side], row.coefficients[1 - side] as bigint)));
}

export function reduce(
  drive: Drive,
  index: DriveIndex,
  placement: Placement,
  rows: readonly (MeshRow | null)[],
): System {
  const count = drive.shafts.length;
  const root = new Int32Array(count).fill(-1);
  // One more than there are shafts: room for the speed that a closing mesh asks for.
  const factor = new Fractions(count + 1);
  const asked = count;
  const { start, members: meshes } = index.meshesAt;
  // Shafts in the order in which they are reached, all groups in one list, each with the mesh that reached it.
  const reached = new Int32Array(count);
  const reachedBy = new Int32Array(count);
  let length = 0;
  let rank = 0;
  let placed = 0;

  const reach = (shaft: number, group: number, mesh: number): void => {
    root[shaft] = group;
    reached[length] = shaft;
    reachedBy[length] = mesh;
    length++;
  };

  const walk = (first: number): void => {
    const begin = length;
    reach(first, first, -1);
    factor.set(first, ONE);
    let isLocked = false;
    for (let next = begin; next < length; next++) {
      const here = reached[next] as number;
      for (let k = start[here] as number; k < (start[here + 1] as number); k++) {
        const mesh = meshes[k] as number;
        const row = rows[mesh];
        if (mesh === reachedBy[next] || !row || !isTwoShaft(row)) continue;
        const side = index.shaftAt[2 * mesh] === here ? 0 : 1;
        const other = index.shaftAt[2 * mesh + 1 - side] as number;
        if (root[other] === -1) {
          passOn(row, side, factor, here, factor, other);
          reach(other, first, mesh);
          rank++;
          continue;
        }
        passOn(row, side, factor, here, factor, asked);
        if (!factor.equals(other, asked)) isLocked = true;
      }
    }
    if (!isLocked) return;
    rank++;
    for (let next = begin; next < length; next++) factor.set(reached[next] as number, ZERO);
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
    for (const side of [0, 1] as const) {
      const c = rational(row.coefficients[side]);
      addSpeed(sum, root, factor, index.shaftAt[2 * row.mesh + side] as number, c);
      const carrier = row.carrier[side];
      if (carrier !== -1) addSpeed(sum, root, factor, carrier, row.carrierSign[side] === 1 ? negate(c) : c);
    }
    if (carriers.take(sum) === "independent") rank++;
  }
  return { root, factor, carriers, rank, placed };
}

/** Adds c · speed of a shaft to a sum over roots. */
export function addSpeed(sum: Sum, root: Int32Array, factor: Fractions, shaft: number, c: Rational): void {
  if (!factor.isZero(shaft)) addTerm(sum, root[shaft] as number, multiply(c, factor.at(shaft)));
}

/** Speed of one shaft over roots, with the equations of `over` put in. */
export function speedOver(system: System, over: Elimination, shaft: number): Sum {
  const sum: Sum = new Map();
  addSpeed(sum, system.root, system.factor, shaft, ONE);
  return over.resolve(sum);
}
