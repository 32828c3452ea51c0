/** What each joined part of a drive carries, and what its ports make known and ask for. */

import { RADIANS_PER_SECOND } from "../motion/move";
import type { Drive, DriveIndex, Motion, Placement, Port } from "../solved";

/**
 * `nothing`: no output, torques 0. `unknown`: loads null (something in it stands still that should not, isn't fixed, or
 * has an error). `carries`: the balance is solved.
 */
export type PartState = "nothing" | "unknown" | "carries";

export interface PartLoads {
  readonly state: readonly PartState[];
  /** Shafts of each part, in document order. */
  readonly shafts: readonly (readonly number[])[];
  /** Shafts with an input or an output port in each part, in the order of the ports in the document. */
  readonly inputs: readonly (readonly number[])[];
  readonly outputs: readonly (readonly number[])[];
  /** For each part whether an output's load was given (0 counts). */
  readonly isLoadGiven: readonly boolean[];
  /** 1 for shafts whose port gives the torque that balance asks for. */
  readonly free: Uint8Array;
  /** N·m about the positive axis, known at a port; NaN for a load left out that nothing tells. */
  readonly applied: Float64Array;
}

const sized = (port: Port): boolean => port.torque !== undefined || port.power !== undefined;

/** A port's size as a torque in N·m, 0 or more, on a shaft that turns at `speed` rev/min (null: no double holds it). */
export function sizeOf(port: Port, speed: number | null): number | null {
  if (port.torque !== undefined) return port.torque;
  if (port.power === undefined) return null;
  return port.power === 0 ? 0 : port.power / (Math.abs(speed ?? Number.NaN) * RADIANS_PER_SECOND);
}

/** Linear in shafts, meshes and ports. */
export function readPorts(drive: Drive, index: DriveIndex, placement: Placement, motion: Motion): PartLoads {
  const count = motion.part.reduce((most, part) => Math.max(most, part + 1), 0);
  const lists = (): number[][] => Array.from({ length: count }, () => []);
  const [shafts, inputs, outputs] = [lists(), lists(), lists()];
  const isUnknown: boolean[] = new Array(count).fill(motion.status === "conflict" || motion.status === "locked");
  const isFixed: boolean[] = new Array(count).fill(true);
  const isLoadGiven: boolean[] = new Array(count).fill(false);
  const free = new Uint8Array(drive.shafts.length);
  const applied = new Float64Array(drive.shafts.length);

  motion.part.forEach((part, s) => {
    if (part < 0 || !placement.shafts[s]) return;
    shafts[part]?.push(s);
    if (!motion.isFixed[s]) isFixed[part] = false;
    if (motion.locked[s]) isUnknown[part] = true;
  });
  placement.meshes.forEach((placed, m) => {
    if (!placed || (placed.holds && motion.rows[m])) return;
    for (const end of [2 * m, 2 * m + 1]) isUnknown[motion.part[index.shaftAt[end] ?? -1] ?? -1] = true;
  });
  for (const port of drive.ports) {
    const s = index.shafts.get(port.shaft) ?? -1;
    const part = motion.part[s] ?? -1;
    const way = motion.way[s] ?? 0;
    if (part < 0 || !placement.shafts[s]) continue;
    if (port.role !== "output") free[s] = 1;
    if (port.role === "input") inputs[part]?.push(s);
    if (port.role !== "output") continue;
    outputs[part]?.push(s);
    if (!sized(port)) {
      applied[s] = Number.NaN;
      continue;
    }
    isLoadGiven[part] = true;
    if (!motion.isFixed[s]) continue;
    const size = sizeOf(port, motion.speed[s] ?? null);
    if (way === 0 && (port.torque ?? port.power ?? 0) > 0) isUnknown[part] = true;
    else applied[s] = size === 0 || size === null ? 0 : -way * size;
  }
  const state = isUnknown.map((unknown, part): PartState => {
    if (unknown) return "unknown";
    if ((outputs[part]?.length ?? 0) === 0) return "nothing";
    return isFixed[part] ? "carries" : "unknown";
  });
  state.forEach((known, part) => {
    if (known === "carries") takeFromInputs(inputs[part] ?? [], outputs[part] ?? []);
  });
  return { state, shafts, inputs, outputs, isLoadGiven, free, applied };

  /** Loads left out: as many sized inputs, the first in the document, give their torque and the loads follow. */
  function takeFromInputs(from: readonly number[], to: readonly number[]): void {
    const missing = to.filter((s) => Number.isNaN(applied[s]));
    const giving: [number, number][] = [];
    for (const s of from) {
      const port = drive.ports[index.portOfShaft[s] ?? -1];
      const way = motion.way[s] ?? 0;
      const size = port && sizeOf(port, motion.speed[s] ?? null);
      // An input at rest has no direction in which to give its torque.
      if (way !== 0 && size !== null && size !== undefined) giving.push([s, way * size]);
    }
    if (missing.length === 0 || giving.length < missing.length) return;
    for (const s of missing) free[s] = 1;
    for (const [s, torque] of giving.slice(0, missing.length)) {
      free[s] = 0;
      applied[s] = torque;
    }
  }
}
