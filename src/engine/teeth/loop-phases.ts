/**
 * Loops of teeth: whether the last mesh of a loop finds a tooth in a gap.
 *
 * Every shaft's rotation is walked from the shaft that stands by itself (a root, a coaxial shaft) along the meshes that
 * placed the others, in exact fractions of a turn. The rotation of a whole tree is free; a mesh that joins two trees
 * fixes that. A mesh within one tree is a loop: its residual, in pitches, must be a whole number.
 *
 * A placed shaft may as well stand a whole pitch further on. With a compound shaft that shifts its other gears: the
 * residual may change by any multiple of a lattice, Λ' = gcd(Λ z_out / z_in, 1 / z_in), starting at one turn.
 * Source: the phase law of phases.ts; for planets it becomes the known rule (sun + ring) × spacing = whole.
 */
import type { Drive } from "../drive/types";
import {
  fromNumber,
  invert,
  isZero,
  minus,
  multiply,
  negate,
  ONE,
  plus,
  type Rational,
  rational,
  toNumber,
  ZERO,
} from "../motion/rational";
import type { DriveIndex, Placement } from "../solved";
import { exactTurns, turnsOfDegrees } from "./exact-azimuth";
import { LONGEST_EXACT, latticeStep, loopPath, upwards } from "./loop-path";
import { type PhaseMesh, parentOf, phaseMesh } from "./phases";

const HALF = rational(1n, 2n);

export interface LoopPhase {
  readonly mesh: number;
  /** Pitches by which the teeth miss, -1/2 to 1/2; exact where all azimuths are fractions of a turn. */
  readonly miss: number;
  readonly exact: Rational | null;
  /** True where the mesh only joins shafts that stand by themselves: one of them could be turned to fit. */
  readonly isJoin: boolean;
  /** True where it fits once a compound shaft of the loop stands some whole pitches further on. */
  readonly fitsElsewhere: boolean;
  /** The shafts of the loop from the closing mesh's first shaft to its second; empty for a join. */
  readonly path: readonly number[];
  /** For each shaft of the path the pitches by which the residual changes for one turn of it, those beyond it following. */
  readonly rates: ReadonlyMap<number, Rational>;
}

/** A shaft's rotation: t + k · (rotation of the shaft at the start of its tree). */
interface Standing {
  readonly root: number;
  readonly depth: number;
  readonly k: Rational;
  readonly exact: Rational | null;
  readonly near: number;
}

/** Rotation of a tree's start: of all that hangs together only the whole is free. */
interface Tree {
  group: number;
  /** Turns of this start for one of the group's. */
  k: Rational;
  exact: Rational | null;
  near: number;
}

/** `x` less its nearest whole number. */
export const centred = (x: Rational): Rational => {
  const doubled = 2n * x.n + x.d;
  const base = 2n * x.d;
  const whole = doubled >= 0n ? doubled / base : -((base - 1n - doubled) / base);
  return { n: x.n - whole * x.d, d: x.d };
};

interface ExactMesh {
  readonly mesh: PhaseMesh;
  readonly towards: readonly [Rational | null, Rational | null];
  readonly keys: readonly [Rational, Rational];
}

/** s z, the weight of a gear's rotation in the law. */
const weight = (mesh: PhaseMesh, side: 0 | 1): Rational => fromNumber(mesh.signs[side] * mesh.teeth[side]);

export function loopPhases(drive: Drive, index: DriveIndex, placement: Placement, rest: Float64Array): LoopPhase[] {
  const standings = new Map<number, Standing>();

  const exactMesh = (mesh: number, known: readonly Rational[]): ExactMesh | null => {
    const phase = phaseMesh(drive, index, placement, mesh);
    const data = drive.meshes[mesh];
    const pair = index.gearsOfMesh[mesh];
    if (!phase || !data || !pair) return null;
    return {
      mesh: phase,
      towards: [exactTurns(phase.towards[0], known), exactTurns(phase.towards[1], known)],
      keys: [turnsOfDegrees(drive.gears[pair[0]]?.phase ?? 0), turnsOfDegrees(drive.gears[pair[1]]?.phase ?? 0)],
    };
  };

  const standing = (shaft: number): Standing => {
    const path: number[] = [];
    let at = shaft;
    let known = standings.get(at);
    while (!known) {
      path.push(at);
      const parent = parentOf(drive, index, placement, at);
      if (!parent) break;
      at = parent.shaft;
      known = standings.get(at);
    }
    let below = known;
    for (let next = path.pop(); next !== undefined; next = path.pop()) {
      below = below ? childOf(below, next) : startOf(next);
      standings.set(next, below);
    }
    return below as Standing;
  };

  const startOf = (shaft: number): Standing => ({ root: shaft, depth: 0, k: ONE, exact: ZERO, near: 0 });

  const childOf = (parent: Standing, shaft: number): Standing => {
    const link = parentOf(drive, index, placement, shaft);
    const data = link && exactMesh(link.mesh, [turnsOfDegrees(drive.meshes[link.mesh]?.azimuth ?? 0)]);
    // Placed by friction: it may stand anyhow.
    if (!link || !data) return startOf(shaft);
    const { mesh, towards, keys } = data;
    const side = link.side;
    const other = side === 0 ? 1 : 0;
    const depth = parent.depth + 1;
    const isShort = depth <= LONGEST_EXACT;
    const quotient = rational(
      BigInt(-mesh.signs[other] * mesh.teeth[other]),
      BigInt(mesh.signs[side] * mesh.teeth[side]),
    );
    const [here, there] = [towards[side], towards[other]];
    let exact: Rational | null = null;
    if (isShort && parent.exact && here && there) {
      const mate = multiply(weight(mesh, other), minus(plus(parent.exact, keys[other]), there));
      const own = multiply(weight(mesh, side), minus(here, keys[side]));
      const pitches = plus(minus(HALF, mate), own);
      const signed = mesh.signs[side] === 1 ? pitches : negate(pitches);
      const whole = signed.n >= 0n ? signed.n / signed.d : -((signed.d - 1n - signed.n) / signed.d);
      exact = multiply({ n: signed.n - whole * signed.d, d: signed.d }, rational(1n, BigInt(mesh.teeth[side])));
    }
    return {
      root: parent.root,
      depth,
      // Past the exact ones only the double counts: ratios of long chains are checked by the motion layer.
      k: isShort ? multiply(parent.k, quotient) : ZERO,
      exact,
      near: (rest[shaft] ?? 0) / (2 * Math.PI),
    };
  };

  const trees = new Map<number, Tree>();
  const groups = new Map<number, number[]>();
  const treeOf = (root: number): Tree => {
    const had = trees.get(root);
    if (had) return had;
    const tree: Tree = { group: root, k: ONE, exact: ZERO, near: 0 };
    trees.set(root, tree);
    groups.set(root, [root]);
    return tree;
  };

  const found: LoopPhase[] = [];
  drive.meshes.forEach((_, i) => {
    const placed = placement.meshes[i];
    const on = index.shaftsOfMesh[i];
    if (!placed?.closesLoop || !placed.holds || placed.kind.isFriction || !on) return;
    const ends = [standing(on[0]), standing(on[1])] as const;
    if (ends.some((end) => end.depth > LONGEST_EXACT)) return;
    const data = exactMesh(i, azimuthsNear(drive, index, on));
    if (!data) return;
    const { mesh, towards, keys } = data;
    const starts = [treeOf(ends[0].root), treeOf(ends[1].root)] as const;

    // Residual = Σ s z (T + phase - B) - 1/2, each T with its tree's own turn.
    let near = -0.5;
    let exact: Rational | null = negate(HALF);
    const turning: Rational[] = [];
    for (const side of [0, 1] as const) {
      const [end, start, w] = [ends[side], starts[side], weight(mesh, side)];
      const rotation = end.near + toNumber(end.k) * start.near;
      near += mesh.signs[side] * mesh.teeth[side] * (rotation + mesh.keys[side] - mesh.towards[side]);
      const direction = towards[side];
      exact =
        exact && end.exact && start.exact && direction
          ? plus(exact, multiply(w, minus(plus(plus(end.exact, multiply(end.k, start.exact)), keys[side]), direction)))
          : null;
      turning.push(multiply(w, multiply(end.k, start.k)));
    }
    if (exact) exact = centred(exact);
    const miss = exact ? toNumber(exact) : near - Math.round(near);
    const [rateA, rateB] = [turning[0] ?? ZERO, turning[1] ?? ZERO];

    if (starts[0].group !== starts[1].group) {
      found.push({
        mesh: i,
        miss: drawnMiss(mesh, ends),
        exact: null,
        isJoin: true,
        fitsElsewhere: false,
        path: [],
        rates: new Map(),
      });
      // Turn all of the second group so that this mesh fits: w_b k_b Δ = -residual, and let it follow the first.
      const wide = multiply(weight(mesh, 1), multiply(ends[1].k, starts[1].k));
      if (isZero(wide)) return;
      const follow = negate(multiply(rateA, rational(wide.d, wide.n)));
      const turn = exact ? negate(multiply(exact, rational(wide.d, wide.n))) : null;
      const turnNear = turn ? toNumber(turn) : -miss / toNumber(wide);
      const [into, from] = [starts[0].group, starts[1].group];
      for (const root of groups.get(from) ?? []) {
        const tree = trees.get(root) as Tree;
        tree.exact = tree.exact && turn ? plus(tree.exact, multiply(tree.k, turn)) : null;
        tree.near += toNumber(tree.k) * turnNear;
        tree.k = multiply(tree.k, follow);
        tree.group = into;
        groups.get(into)?.push(root);
      }
      groups.delete(from);
      return;
    }
    // Where the loop's ratios don't come round to 1 it is locked, or a carrier moves to fit: no matter of phase.
    if (!isZero(plus(rateA, rateB))) return;
    const path = loopPath(drive, index, placement, on);
    const step = latticeStep(drive, index, placement, mesh, on, path);
    const parts = exact ? multiply(exact, rational(step.d, step.n)) : null;
    const fitsElsewhere = parts ? parts.d === 1n : isWhole(miss / toNumber(step));
    const rates = new Map<number, Rational>();
    const inLoop = new Set(path);
    for (const side of [0, 1] as const) {
      const full = multiply(weight(mesh, side), ends[side].k);
      for (const shaft of upwards(drive, index, placement, on[side])) {
        if (inLoop.has(shaft) && !rates.has(shaft)) rates.set(shaft, multiply(full, invert(standing(shaft).k)));
      }
    }
    found.push({ mesh: i, miss, exact, isJoin: false, fitsElsewhere, path, rates });
  });
  return found;
}

const isWhole = (x: number): boolean => Math.abs(x - Math.round(x)) < 1e-6;

/** By how much the teeth of a joining mesh miss as the drive is drawn, its starts at rotation 0. */
function drawnMiss(mesh: PhaseMesh, ends: readonly [Standing, Standing]): number {
  let sum = -0.5;
  for (const side of [0, 1] as const) {
    sum += mesh.signs[side] * mesh.teeth[side] * (ends[side].near + mesh.keys[side] - mesh.towards[side]);
  }
  return sum - Math.round(sum);
}

/** Azimuths of the file that the directions of a closing mesh may be made of: those of the meshes on its two shafts and on theirs. */
function azimuthsNear(drive: Drive, index: DriveIndex, shafts: readonly [number, number]): Rational[] {
  const degrees = new Set<number>();
  for (const shaft of shafts) {
    for (const mesh of (index.meshesOfShaft[shaft] ?? []).slice(0, 24)) {
      degrees.add(drive.meshes[mesh]?.azimuth ?? 0);
      for (const other of index.shaftsOfMesh[mesh] ?? []) {
        for (const next of (index.meshesOfShaft[other] ?? []).slice(0, 12))
          degrees.add(drive.meshes[next]?.azimuth ?? 0);
      }
    }
  }
  return [...degrees].slice(0, 24).map(turnsOfDegrees);
}
