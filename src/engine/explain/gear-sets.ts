/**
 * Planetary sets and differentials, found by their carriers: meshes that roll in one carrier's frame and hang together.
 * In that frame all spins of a set keep fixed ratios (Willis), which is what the workings say of it.
 */
import { multiply, negate, ONE, type Rational, rational } from "../motion/rational";
import type { MeshRow, Solved } from "../solved";
import { dot } from "../vector";
import { shaftName } from "../wording";

export interface GearSet {
  /** Shaft index. */
  readonly carrier: number;
  /** Meshes of the set, in document order. */
  readonly meshes: readonly number[];
  /** Shafts on the carrier's own axis (sun, annulus, side gears), in order of appearance. */
  readonly centrals: readonly number[];
  /** Shafts that the carrier carries. */
  readonly planets: readonly number[];
  /** For a central shaft +1 or -1: its axis against the carrier's; 0 for a planet, whose speed is told in the carrier's frame already. */
  senseOf(shaft: number): -1 | 0 | 1;
}

/** The carrier in whose frame a mesh rolls; -1 for ground. */
function frameOf(solved: Solved, row: MeshRow): number {
  const [first, second] = row.carrier;
  if (first >= 0 || second >= 0) return Math.max(first, second);
  return solved.index.frameOfShaft[solved.index.shaftsOfMesh[row.mesh]?.[0] ?? -1] ?? -1;
}

const known = new WeakMap<Solved, readonly GearSet[]>();

/** All sets of a drive, in document order of their first meshes. Linear; kept for each solved drive. */
export function gearSets(solved: Solved): readonly GearSet[] {
  const found = known.get(solved);
  if (found) return found;
  const sets: GearSet[] = [];
  const isTaken = new Set<number>();
  solved.motion.rows.forEach((row, mesh) => {
    if (!row || isTaken.has(mesh) || Math.max(...row.carrier) < 0) return;
    const carrier = frameOf(solved, row);
    sets.push(collect(solved, carrier, mesh, isTaken));
  });
  known.set(solved, sets);
  return sets;
}

function collect(solved: Solved, carrier: number, first: number, isTaken: Set<number>): GearSet {
  const meshes = [first];
  const senses = new Map<number, -1 | 0 | 1>();
  isTaken.add(first);
  for (const mesh of meshes) {
    const row = solved.motion.rows[mesh];
    (solved.index.shaftsOfMesh[mesh] ?? []).forEach((shaft, side) => {
      if (senses.has(shaft)) return;
      senses.set(shaft, (row?.carrier[side] ?? -1) >= 0 ? (row?.carrierSign[side] ?? 1) : 0);
      for (const next of solved.index.meshesOfShaft[shaft] ?? []) {
        const other = solved.motion.rows[next];
        if (!other || isTaken.has(next) || frameOf(solved, other) !== carrier) continue;
        isTaken.add(next);
        meshes.push(next);
      }
    });
  }
  const shafts = [...senses.keys()];
  return {
    carrier,
    meshes: meshes.sort((a, b) => a - b),
    centrals: shafts.filter((shaft) => senses.get(shaft) !== 0),
    planets: shafts.filter((shaft) => senses.get(shaft) === 0),
    senseOf: (shaft) => senses.get(shaft) ?? 0,
  };
}

/** One mesh on the way through a set: from one shaft to the next. */
export interface SetStep {
  readonly mesh: number;
  /** Which of the mesh's two gears is on the nearer shaft. */
  readonly near: 0 | 1;
  readonly to: number;
}

/** The shortest way by meshes of the set from one of its shafts to another; null where there is none. */
export function wayThrough(solved: Solved, set: GearSet, from: number, to: number): readonly SetStep[] | null {
  const inSet = new Set(set.meshes);
  const cameBy = new Map<number, { readonly step: SetStep; readonly from: number } | null>([[from, null]]);
  const queue = [from];
  for (const shaft of queue) {
    if (shaft === to) break;
    for (const mesh of solved.index.meshesOfShaft[shaft] ?? []) {
      const pair = solved.index.shaftsOfMesh[mesh];
      if (!pair || !inSet.has(mesh)) continue;
      const near = pair[0] === shaft ? 0 : 1;
      const next = pair[near === 0 ? 1 : 0];
      if (cameBy.has(next)) continue;
      cameBy.set(next, { step: { mesh, near, to: next }, from: shaft });
      queue.push(next);
    }
  }
  if (!cameBy.has(to)) return null;
  const steps: SetStep[] = [];
  for (let at = cameBy.get(to); at; at = cameBy.get(at.from)) steps.unshift(at.step);
  return steps;
}

/** Spin of the far shaft over that of the near one in the carrier's frame, about their own positive axes, along a way. */
export function trainValue(solved: Solved, way: readonly SetStep[]): Rational {
  return way.reduce<Rational>((value, { mesh, near }) => {
    const row = solved.motion.rows[mesh];
    if (!row) return value;
    const far = near === 0 ? 1 : 0;
    return multiply(value, negate(rational(row.coefficients[near], row.coefficients[far])));
  }, ONE);
}

/** A set of two equal central gears that turn opposite ways when its carrier stands: half their sum is the carrier's speed. */
export interface Differential {
  readonly set: GearSet;
  readonly left: number;
  readonly right: number;
}

/** The set as a differential, or null where it is another planetary set. */
export function asDifferential(solved: Solved, set: GearSet): Differential | null {
  const [left, right, ...others] = [...set.centrals].sort((a, b) => a - b);
  if (left === undefined || right === undefined || others.length > 0) return null;
  const way = wayThrough(solved, set, left, right);
  if (!way) return null;
  const value = trainValue(solved, way);
  const aboutCarrier = set.senseOf(left) * set.senseOf(right) > 0 ? value : negate(value);
  return aboutCarrier.n === -1n && aboutCarrier.d === 1n ? { set, left, right } : null;
}

/** "(Left wheel + Right wheel)/2 = Cage", and about which axis speeds count where the shafts' own axes differ. */
export function differentialWords(solved: Solved, { set, left, right }: Differential): string {
  const name = (shaft: number): string => shaftName(solved.drive, shaft);
  const [l, r, c] = [left, right, set.carrier].map((shaft) => solved.placement.shafts[shaft]?.axis);
  const isAlike = l && r && c && dot(l, c) > 0 && dot(r, c) > 0;
  const about = isAlike ? "" : `, each speed counted about the axis of ${name(set.carrier)}`;
  return `(${name(left)} + ${name(right)})/2 = ${name(set.carrier)}${about}`;
}
