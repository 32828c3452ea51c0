/**
 * What a usual slip in one mesh leads to: the drive solved once more with that mesh's equation as the slip has it. The slips are the ones
 * that teachers name: from experience with the subject, no source.
 */
import { wayTo } from "../explain/route";
import { speedsWith } from "../motion/move";
import { equals, isZero, type Rational } from "../motion/rational";
import { exactSize } from "../motion/rows";
import type { MeshRow, Solved } from "../solved";

export const SLIPS = ["idler-twice", "ring-outside", "bevel-other-side", "inverted", "way-kept"] as const;
export type SlipKind = (typeof SLIPS)[number];

export interface Slip {
  readonly kind: SlipKind;
  /** Index of the mesh in which it is made. */
  readonly mesh: number;
  /** The asked shaft's speed as it would come out, rev/min about its positive axis. */
  readonly speed: Rational;
}

/**
 * The meshes from the input to a shaft, in that order. Where the way leads by a planet to its carrier or back, the planet's other meshes
 * count as well: they make the ratio with it.
 */
export function meshesOnWay(solved: Solved, shaft: number): readonly number[] {
  const { index } = solved;
  const meshes = new Set<number>();
  for (const { link, from, shaft: to } of wayTo(solved, shaft)) {
    if (link.kind === "mesh") meshes.add(link.mesh);
    else for (const mesh of index.meshesOfShaft[link.isOutward ? to : from] ?? []) meshes.add(mesh);
  }
  return [...meshes].filter((mesh) => solved.motion.rows[mesh]);
}

type Coefficients = readonly [bigint, bigint];

const size = (x: bigint): bigint => (x < 0n ? -x : x);
const signOf = (x: bigint): bigint => (x < 0n ? -1n : 1n);

/** c1 w1 + c2 w2 = 0 as the slip has it. */
const SLIPPED: Readonly<Record<SlipKind, (c: Coefficients) => Coefficients>> = {
  // The idler's mesh is gone through twice: w2 = f w1 becomes w2 = f² w1.
  "idler-twice": ([a, b]) => [a * a, -b * b],
  "ring-outside": ([a, b]) => [a, -b],
  "bevel-other-side": ([a, b]) => [a, -b],
  "way-kept": ([a, b]) => [a, -b],
  inverted: ([a, b]) => [signOf(a) * size(b), signOf(b) * size(a)],
};

/** Whether the slip can be made at all in this mesh, which stands at this place of the way. */
function canSlip(solved: Solved, kind: SlipKind, way: readonly number[], at: number): boolean {
  const mesh = way[at] ?? -1;
  const placed = solved.placement.meshes[mesh];
  const row = solved.motion.rows[mesh];
  if (!placed || !row) return false;
  const isRing = !placed.kind.needsShaftAngle && placed.shape.shaftAngle > Math.PI / 2;
  switch (kind) {
    case "idler-twice": {
      const next = solved.index.gearsOfMesh[way[at + 1] ?? -1];
      return next?.some((gear) => solved.index.gearsOfMesh[mesh]?.includes(gear)) ?? false;
    }
    case "ring-outside":
      return isRing;
    case "bevel-other-side":
      return placed.kind.needsShaftAngle;
    case "inverted":
      return size(row.coefficients[0]) !== size(row.coefficients[1]);
    case "way-kept":
      return !isRing && !placed.kind.needsShaftAngle;
  }
}

/**
 * Meshes like this one round the same gear, as those of several planets are: one slip is made in all of them. An idler meshes with two
 * like gears one after the other, so only what a carrier carries counts as standing there in several copies.
 */
function alike({ drive, index }: Solved, mesh: number): readonly number[] {
  const isLike = (one: number, other: number): boolean => {
    const [a, b] = [drive.gears[one], drive.gears[other]];
    return a !== undefined && b !== undefined && a.kind === b.kind && equals(exactSize(a), exactSize(b));
  };
  const carriers = (at: number): readonly number[] =>
    (index.shaftsOfMesh[at] ?? []).map((shaft) => index.frameOfShaft[shaft] ?? -1);
  /** Not one of the copies themselves: a planet's two meshes are not alike. */
  const isCentral = (gear: number): boolean => index.frameOfShaft[index.shaftOfGear[gear] ?? -1] !== ownCarrier;
  const own = index.gearsOfMesh[mesh] ?? [-1, -1];
  const ownCarrier = Math.max(...carriers(mesh));
  if (ownCarrier < 0) return [mesh];
  return drive.meshes.flatMap((_, i) => {
    const pair = index.gearsOfMesh[i] ?? [-1, -1];
    const shares = ([0, 1] as const).some((a) =>
      ([0, 1] as const).some(
        (b) => pair[a] === own[b] && isCentral(own[b]) && isLike(pair[a === 0 ? 1 : 0], own[b === 0 ? 1 : 0]),
      ),
    );
    return i === mesh || (shares && carriers(i).includes(ownCarrier)) ? [i] : [];
  });
}

function rowsWith(solved: Solved, kind: SlipKind, mesh: number): (MeshRow | null)[] {
  const rows = [...solved.motion.rows];
  for (const i of alike(solved, mesh)) {
    const row = rows[i];
    if (!row) continue;
    const coefficients = SLIPPED[kind](row.coefficients);
    const [first, second] = [Number(coefficients[0]), Number(coefficients[1])];
    const isSmall = Number.isSafeInteger(first) && Number.isSafeInteger(second);
    rows[i] = {
      mesh: i,
      coefficients,
      first: isSmall ? first : Number.NaN,
      second: isSmall ? second : Number.NaN,
      carrier: row.carrier,
      carrierSign: row.carrierSign,
    };
  }
  return rows;
}

/** A longer way than this is not gone through slip by slip: each costs a solve. Our own limit. */
const LONGEST_WAY = 40;

/**
 * Every slip on the way from the input to a shaft that changes how it turns, mesh by mesh in the order of the way, in each mesh as `SLIPS`
 * has them. `truth` is a solution with nothing hidden. Empty where the shaft's speed isn't fixed.
 */
export function slipsOf(truth: Solved, shaft: number): readonly Slip[] {
  const right = truth.motion.speeds[shaft] ?? null;
  if (right === null) return [];
  const way = meshesOnWay(truth, shaft).slice(0, LONGEST_WAY);
  return way.flatMap((mesh, at) =>
    SLIPS.flatMap((kind): Slip[] => {
      if (!canSlip(truth, kind, way, at)) return [];
      const speed = speedsWith(truth, rowsWith(truth, kind, mesh))[shaft] ?? null;
      // A slip that lets nothing turn is noticed at once.
      return speed === null || isZero(speed) || equals(speed, right) ? [] : [{ kind, mesh, speed }];
    }),
  );
}
