/** Torque multiplication of a part whose loads aren't given: what its shape and its efficiencies alone tell. */

import type { Drive } from "../drive/types";
import type { DriveIndex, Motion } from "../solved";
import type { Equations } from "./equations";
import type { PartLoads } from "./ports";
import { innerTorques } from "./shaft-torque";
import { solveBalance } from "./solve-balance";

/**
 * For each shaft the torque that it would pass on, about its positive axis, for each N·m of the only input that turns;
 * so its sign is that of its ratio. In an open train without carriers: for every shaft, with the load at that shaft.
 * In any other train with one output: with the load there, and only for shafts that carry some of it. Elsewhere null,
 * and where a load is given. Linear.
 */
export function torqueGains(
  drive: Drive,
  index: DriveIndex,
  motion: Motion,
  equations: Equations,
  ports: PartLoads,
): (number | null)[] {
  const gain: (number | null)[] = new Array(drive.shafts.length).fill(null);
  const isWanted = (part: number) =>
    ports.state[part] !== "unknown" && !ports.isLoadGiven[part] && ports.inputs[part]?.length === 1;
  if (!ports.state.some((_, part) => isWanted(part))) return gain;
  const turning = (s: number): boolean => motion.way[s] !== 0;
  const meshesOfPart = new Int32Array(ports.state.length);
  const isCarried = new Uint8Array(ports.state.length);
  for (let mesh = 0; mesh < equations.meshCount; mesh++) {
    const part = motion.part[index.shaftAt[2 * mesh] ?? -1] ?? -1;
    if (part < 0 || !equations.has[mesh]) continue;
    meshesOfPart[part] = (meshesOfPart[part] ?? 0) + 1;
    if ((equations.termShaft[4 * mesh + 2] ?? -1) >= 0 || (equations.termShaft[4 * mesh + 3] ?? -1) >= 0)
      isCarried[part] = 1;
  }
  motion.part.forEach((part, s) => {
    if (part >= 0 && (index.frameOfShaft[s] ?? -1) >= 0) isCarried[part] = 1;
  });

  const active = new Uint8Array(drive.shafts.length);
  const applied = new Float64Array(drive.shafts.length);
  const loaded: [part: number, input: number, output: number][] = [];
  ports.state.forEach((_, part) => {
    const [input] = ports.inputs[part] ?? [];
    if (!isWanted(part) || input === undefined) return;
    const shafts = ports.shafts[part] ?? [];
    if (!turning(input) || shafts.some((s) => !motion.isFixed[s])) return;
    if (!isCarried[part] && meshesOfPart[part] === shafts.length - 1) {
      alongPaths(input);
      return;
    }
    const [output, another] = ports.outputs[part] ?? [];
    if (output === undefined || another !== undefined || !turning(output)) return;
    for (const s of shafts) active[s] = 1;
    applied[output] = -(motion.way[output] ?? 0);
    loaded.push([part, input, output]);
  });
  if (loaded.length === 0) return gain;

  const free = Uint8Array.from(drive.shafts, (_, s) => {
    const role = drive.ports[index.portOfShaft[s] ?? -1]?.role;
    return role === "input" || role === "held" ? 1 : 0;
  });
  const balance = solveBalance(equations, { active, free, applied });
  const inner = innerTorques(drive, index, equations, balance);
  for (const [part, input, output] of loaded) {
    const given = balance.port[input] ?? 0;
    const way = motion.way[input] ?? 0;
    // A train that locks itself multiplies nothing.
    if (!(given * way > 0) || given === Infinity) continue;
    for (const s of ports.shafts[part] ?? []) {
      const torque = s === input ? given : s === output ? 1 : (inner[s] ?? 0);
      const value = (Math.abs(torque) / given) * (motion.way[s] ?? 0);
      if (value !== 0 && Number.isFinite(value)) gain[s] = value;
    }
  }
  return gain;

  /** Product of e · w_before / w_after along the one path to each shaft. */
  function alongPaths(input: number): void {
    const { start, members } = index.meshesAt;
    gain[input] = 1;
    const queue = [input];
    for (let head = 0; head < queue.length; head++) {
      const s = queue[head] ?? 0;
      for (let k = start[s] ?? 0; k < (start[s + 1] ?? 0); k++) {
        const mesh = members[k] ?? 0;
        if (!equations.has[mesh]) continue;
        const side = index.shaftAt[2 * mesh] === s ? 0 : 1;
        const other = index.shaftAt[2 * mesh + 1 - side] ?? 0;
        if (gain[other] !== null) continue;
        const step = -(equations.lever[2 * mesh + 1 - side] ?? 0) / (equations.lever[2 * mesh + side] ?? 0);
        const value = (gain[s] ?? 0) * (equations.efficiency[mesh] ?? 1) * step;
        if (value === 0 || !Number.isFinite(value)) continue;
        gain[other] = value;
        queue.push(other);
      }
    }
  }
}
