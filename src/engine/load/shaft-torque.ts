/** The torque inside a shaft between its gears. */
import type { Drive, DriveIndex } from "../solved";
import { ROUNDING } from "../tolerances";
import type { Equations } from "./equations";
import type { Balance } from "./solve-balance";

/**
 * For each shaft the largest torque in it, N·m, as format.md says of a shaft without a port: its gears by `at` (on a
 * carrier all its planets' pushes count as one, first; at the same `at` in document order), cut between neighbours, the
 * tooth torques on the earlier side summed; of the sums the largest in size, the first of equals; 0 with fewer than two
 * gears. NaN where a torque in it is unknown; 0 on shafts that aren't `wanted`. Linear, but for the sorting of each shaft's gears.
 */
export function innerTorques(
  drive: Drive,
  index: DriveIndex,
  equations: Equations,
  balance: Balance,
  wanted: (shaft: number) => boolean = () => true,
): Float64Array {
  const ofGear = new Float64Array(drive.gears.length);
  const pushes = new Float64Array(drive.shafts.length);
  const carries = new Uint8Array(drive.shafts.length);
  for (let mesh = 0; mesh < equations.meshCount; mesh++) {
    if (!equations.has[mesh]) continue;
    for (let end = 2 * mesh; end < 2 * mesh + 2; end++) {
      const gear = index.gearAt[end] ?? -1;
      ofGear[gear] = (ofGear[gear] ?? 0) + (balance.torque[end] ?? 0);
    }
    for (let slot = 2; slot < 4; slot++) {
      const carrier = equations.termShaft[4 * mesh + slot] ?? -1;
      if (carrier < 0) continue;
      carries[carrier] = 1;
      const push = (equations.termSign[4 * mesh + slot] ?? 0) * (balance.torque[2 * mesh + (slot & 1)] ?? 0);
      pushes[carrier] = (pushes[carrier] ?? 0) + push;
    }
  }
  const { start, members } = index.gearsAt;
  const atOf = (gear: number): number => drive.gears[gear]?.at ?? 0;
  const result = new Float64Array(drive.shafts.length);
  // Lists that each shaft fills anew: most shafts have few gears.
  const gears: number[] = [];
  const torques: number[] = [];
  for (let s = 0; s < result.length; s++) {
    const [from, to] = [start[s] ?? 0, start[s + 1] ?? 0];
    if (to - from + (carries[s] ?? 0) < 2 || !wanted(s)) continue;
    gears.length = 0;
    for (let k = from; k < to; k++) gears.push(members[k] ?? -1);
    // Stable, so that gears at the same place keep the order of the document.
    gears.sort((a, b) => atOf(a) - atOf(b));
    torques.length = 0;
    if (carries[s]) torques.push(pushes[s] ?? 0);
    for (const gear of gears) torques.push(ofGear[gear] ?? 0);
    result[s] = largestSum(torques);
  }
  return result;
}

/** Of the sums of the first torque, the first two, and so on (but not all) the largest in size; the first of equals. */
function largestSum(torques: readonly number[]): number {
  let sum = 0;
  let size = 0;
  let largest = 0;
  for (let k = 0; k < torques.length - 1; k++) {
    const torque = torques[k] ?? 0;
    sum += torque;
    size += Math.abs(torque);
    if (Number.isNaN(sum)) return sum;
    if (Math.abs(sum) <= ROUNDING * size) sum = 0;
    // Equal but for rounding is equal: the first stays.
    if (Math.abs(sum) > Math.abs(largest) * (1 + ROUNDING)) largest = sum;
  }
  return largest;
}
