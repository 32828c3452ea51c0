/**
 * The torque balance of a drive as flat arrays: one unknown for each mesh, one equation for each shaft.
 *
 * Derivation. A mesh says c1 w1 + c2 w2 = 0 of the two spins in its frame. Virtual power (the tooth torques of a
 * loss-free mesh do no work on any motion that it allows) gives tooth torques T1 = λ c1 and T2 = λ c2. A spin that is
 * taken relative to a carrier, w = w_shaft - s w_carrier, puts -s T on that carrier's equation. As unknown we take the
 * tangential force F at the pitch circle, in N, signed: T1 = F r1 sgn(c1) and T2 = F r1 c2/|c1|, so |F| is the
 * tangential force whichever gear drives, and its least squares are those of the format.
 */

import { RADIANS_PER_SECOND } from "../motion/move";
import { minus, type Rational, sign, toNumber } from "../motion/rational";
import type { Drive, DriveIndex, MeshRow, Motion, Placement } from "../solved";

export interface Equations {
  readonly shaftCount: number;
  readonly meshCount: number;
  /** 1 where the mesh has an equation. */
  readonly has: Uint8Array;
  /** Force radius of gear 1, m; NaN where there is no sensible one (a face wider than its cone). */
  readonly radius: Float64Array;
  /** Two a mesh: loss-free torque on the gear's shaft about its positive axis for 1 N of the unknown, m. */
  readonly lever: Float64Array;
  /** One a mesh. */
  readonly efficiency: Float64Array;
  /** Two a mesh: spin in the mesh's frame, rad/s; NaN where it isn't fixed. */
  readonly spin: Float64Array;
  /** Two a mesh: exact sign of that spin; 0 at rest or not fixed. */
  readonly spinSign: Int8Array;
  /** Four a mesh (gear 1, gear 2, carrier of gear 1's spin, of gear 2's): the shaft whose equation it is in; -1 for none. */
  readonly termShaft: Int32Array;
  /** Four a mesh: 1 for a gear's own shaft, minus the carrier's sign for a carrier. */
  readonly termSign: Int8Array;
  /** The terms of shaft s are termsOf[start[s]] to termsOf[start[s + 1] - 1]. */
  readonly start: Int32Array;
  readonly termsOf: Int32Array;
}

/** c2/|c1|, also where neither whole number fits a double. */
function quotient(row: MeshRow): number {
  if (!Number.isNaN(row.first)) return row.second / Math.abs(row.first);
  const [c1, c2] = row.coefficients;
  return toNumber({ n: c2, d: c1 < 0n ? -c1 : c1 });
}

const isNegative = (row: MeshRow): boolean => (Number.isNaN(row.first) ? row.coefficients[0] < 0n : row.first < 0);

/** A spin relative to a carrier, rev/min: exact, for gears that turn with their carrier must not seem to roll. */
function relativeSpin(row: MeshRow, side: 0 | 1, shaft: number, motion: Motion): Rational | null {
  const own = motion.speeds[shaft];
  const carried = motion.speeds[row.carrier[side]];
  if (!own || !carried) return null;
  return row.carrierSign[side] === 1 ? minus(own, carried) : minus(own, { n: -carried.n, d: carried.d });
}

/** Builds the balance of all meshes that have an equation. Linear in shafts and meshes. */
export function buildEquations(drive: Drive, index: DriveIndex, placement: Placement, motion: Motion): Equations {
  const shaftCount = drive.shafts.length;
  const meshCount = drive.meshes.length;
  const has = new Uint8Array(meshCount);
  const radius = new Float64Array(meshCount).fill(Number.NaN);
  const lever = new Float64Array(2 * meshCount);
  const efficiency = new Float64Array(meshCount).fill(1);
  const spin = new Float64Array(2 * meshCount).fill(Number.NaN);
  const spinSign = new Int8Array(2 * meshCount);
  const termShaft = new Int32Array(4 * meshCount).fill(-1);
  const termSign = new Int8Array(4 * meshCount);
  const start = new Int32Array(shaftCount + 1);

  const addSide = (m: number, side: 0 | 1, row: MeshRow, shaft: number): void => {
    const carrier = row.carrier[side];
    const speed = motion.speed[shaft];
    if (carrier === -1 && speed) {
      spin[2 * m + side] = speed * RADIANS_PER_SECOND;
      spinSign[2 * m + side] = Math.sign(speed);
    } else {
      const exact = carrier === -1 ? motion.speeds[shaft] : relativeSpin(row, side, shaft, motion);
      if (exact) {
        spin[2 * m + side] = toNumber(exact) * RADIANS_PER_SECOND;
        spinSign[2 * m + side] = sign(exact);
      }
    }
    // A gear fast on the carrier itself pushes and takes the push on one shaft: nothing is left of it.
    if (carrier === shaft) return;
    termShaft[4 * m + side] = shaft;
    termSign[4 * m + side] = 1;
    if (carrier === -1) return;
    termShaft[4 * m + 2 + side] = carrier;
    termSign[4 * m + 2 + side] = -row.carrierSign[side];
  };
  for (let m = 0; m < meshCount; m++) {
    const row = motion.rows[m];
    const placed = placement.meshes[m];
    if (!row || !placed) continue;
    has[m] = 1;
    efficiency[m] = placed.pair.mesh.efficiency;
    const force = placed.kind.forceRadii(placed.pair, placed.width)[0] / 1000;
    const isSound = force > 0 && force < Infinity;
    if (isSound) radius[m] = force;
    // Without a sensible radius torques balance all the same; only the forces are withheld.
    const arm = isSound ? force : 1;
    lever[2 * m] = isNegative(row) ? -arm : arm;
    lever[2 * m + 1] = arm * quotient(row);
    addSide(m, 0, row, index.shaftAt[2 * m] as number);
    addSide(m, 1, row, index.shaftAt[2 * m + 1] as number);
  }
  for (let t = 0; t < termShaft.length; t++) {
    const shaft = termShaft[t] ?? -1;
    if (shaft >= 0) start[shaft + 1] = (start[shaft + 1] ?? 0) + 1;
  }
  for (let s = 0; s < shaftCount; s++) start[s + 1] = (start[s + 1] ?? 0) + (start[s] ?? 0);
  const termsOf = new Int32Array(start[shaftCount] ?? 0);
  const next = start.slice(0, shaftCount);
  for (let t = 0; t < termShaft.length; t++) {
    const shaft = termShaft[t] ?? -1;
    if (shaft < 0) continue;
    const place = next[shaft] ?? 0;
    termsOf[place] = t;
    next[shaft] = place + 1;
  }
  return {
    shaftCount,
    meshCount,
    has,
    radius,
    lever,
    efficiency,
    spin,
    spinSign,
    termShaft,
    termSign,
    start,
    termsOf,
  };
}
