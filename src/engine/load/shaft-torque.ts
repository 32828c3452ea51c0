/** The torque inside a shaft between its gears. */
import type { Drive, DriveIndex } from "../solved";
import { ROUNDING } from "../tolerances";
import type { Equations } from "./equations";
import type { Balance } from "./solve-balance";

/**
 * For each shaft the largest torque in it, N·m, as format.md says of a shaft without a port: its gears by `at` (on a
 * carrier all its planets' pushes count as one, first; at the same `at` in document order), cut between neighbours, the
 * tooth torques on the earlier side summed; of the sums the largest in size, the first of equals; 0 with fewer than two
 * gears. NaN where a torque in it is unknown. Linear, but for the sorting of each shaft's gears.
 */
export function innerTorques(drive: Drive, index: DriveIndex, equations: Equations, balance: Balance): Float64Array {
  const ofGear = new Float64Array(drive.gears.length);
  const pushes = new Float64Array(drive.shafts.length);
  const carries = new Uint8Array(drive.shafts.length);
  for (let mesh = 0; mesh < equations.meshCount; mesh++) {
    if (!equations.has[mesh]) continue;
    index.gearsOfMesh[mesh]?.forEach((gear, side) => {
      ofGear[gear] = (ofGear[gear] ?? 0) + (balance.torque[2 * mesh + side] ?? 0);
    });
    for (let slot = 2; slot < 4; slot++) {
      const carrier = equations.termShaft[4 * mesh + slot] ?? -1;
      if (carrier < 0) continue;
      carries[carrier] = 1;
      const push = (equations.termSign[4 * mesh + slot] ?? 0) * (balance.torque[2 * mesh + (slot & 1)] ?? 0);
      pushes[carrier] = (pushes[carrier] ?? 0) + push;
    }
  }
  return Float64Array.from(drive.shafts, (_, s) => {
    const gears = index.gearsOfShaft[s] ?? [];
    const place = (gear: number) => drive.gears[gear]?.at ?? 0;
    const along = gears.length > 1 ? [...gears].sort((a, b) => place(a) - place(b)) : gears;
    const torques = along.map((gear) => ofGear[gear] ?? 0);
    if (carries[s]) torques.unshift(pushes[s] ?? 0);
    return largestSum(torques);
  });
}

function largestSum(torques: readonly number[]): number {
  let sum = 0;
  let size = 0;
  let largest = 0;
  for (let k = 0; k < torques.length - 1; k++) {
    sum += torques[k] ?? 0;
    size += Math.abs(torques[k] ?? 0);
    if (Number.isNaN(sum)) return sum;
    if (Math.abs(sum) <= ROUNDING * size) sum = 0;
    // Equal but for rounding is equal: the first stays.
    if (Math.abs(sum) > Math.abs(largest) * (1 + ROUNDING)) largest = sum;
  }
  return largest;
}
