/** Friction pairs: what they can pass on, and from which torque on they slip (Coulomb: at most friction · normal force). */
import type { Finding } from "../findings";
import type { Drive, DriveIndex } from "../solved";
import { ZERO_RELATIVE } from "../tolerances";
import { figures, nameText, quantity, shaftName } from "../wording";
import type { Equations } from "./equations";
import type { PartLoads } from "./ports";
import type { Balance } from "./solve-balance";

/** The largest tangential force that a pair passes without slip, N; null on teeth, or where the file doesn't say it. */
export function frictionLimit(drive: Drive, mesh: number, isFriction: boolean): number | null {
  const file = drive.meshes[mesh];
  if (!isFriction || file?.normalForce === undefined || file.friction === undefined) return null;
  return file.normalForce * file.friction;
}

/** For each shaft how many meshes lie between it and the nearest input; -1 where none is joined to it. Linear. */
export function stepsFromInputs(drive: Drive, index: DriveIndex): Int32Array {
  const steps = new Int32Array(drive.shafts.length).fill(-1);
  const { start, members } = index.meshesAt;
  const queue: number[] = [];
  const reach = (s: number, step: number) => {
    if (steps[s] !== -1) return;
    steps[s] = step;
    queue.push(s);
  };
  for (const port of drive.ports) if (port.role === "input") reach(index.shafts.get(port.shaft) ?? -1, 0);
  for (let head = 0; head < queue.length; head++) {
    const s = queue[head] ?? 0;
    for (let k = start[s] ?? 0; k < (start[s + 1] ?? 0); k++) {
      const mesh = members[k] ?? 0;
      reach(index.shaftAt[2 * mesh] ?? 0, (steps[s] ?? 0) + 1);
      reach(index.shaftAt[2 * mesh + 1] ?? 0, (steps[s] ?? 0) + 1);
    }
  }
  return steps;
}

/** Which gear of a pair that carries nothing would drive: the one nearer to an input; null where neither is. */
export function nearerGear(steps: Int32Array, shaft1: number, shaft2: number): 0 | 1 | null {
  const [first, second] = [steps[shaft1] ?? -1, steps[shaft2] ?? -1];
  if (first === second) return null;
  return second === -1 || (first !== -1 && first < second) ? 0 : 1;
}

/**
 * The torque at the driven gear's shaft from which the pair slips, N·m, a size. All forces grow in step with the load,
 * so which gear drives stays.
 */
export const slipTorque = (equations: Equations, mesh: number, driven: 0 | 1, limit: number): number =>
  limit * Math.abs(equations.lever[2 * mesh + driven] ?? 0) * (equations.efficiency[mesh] ?? 1);

/** The warning `slips` for one pair of a part that carries its loads; null where it holds. */
export function slipFinding(
  drive: Drive,
  index: DriveIndex,
  equations: Equations,
  ports: PartLoads,
  balance: Balance,
  mesh: number,
  limit: number,
  part: number,
): Finding | null {
  const needed = Math.abs(balance.force[mesh] ?? 0);
  const file = drive.meshes[mesh];
  const shafts = [index.shaftAt[2 * mesh] ?? 0, index.shaftAt[2 * mesh + 1] ?? 0] as const;
  if (!file || !(needed > limit * (1 + ZERO_RELATIVE))) return null;
  const driver = balance.driver[mesh] === 1 ? 1 : 0;
  const taking = (ports.outputs[part] ?? []).filter((s) => balance.port[s] !== 0);
  // With several loads none of them alone says when; the driven shaft of the pair does.
  const [only, another] = taking;
  const isOnly = only !== undefined && another === undefined;
  const place = isOnly ? only : (shafts[1 - driver] ?? 0);
  const from = isOnly
    ? Math.abs(balance.port[only] ?? 0) * (limit / needed)
    : slipTorque(equations, mesh, driver === 0 ? 1 : 0, limit);
  const [first, second] = [shaftName(drive, shafts[driver] ?? 0), shaftName(drive, shafts[1 - driver] ?? 0)];
  return {
    severity: "warning",
    code: "slips",
    at: [file.id, ...file.gears],
    message:
      `The friction pair ${nameText(file.id)} between ${first} and ${second} slips once the torque at ` +
      `${shaftName(drive, place)} passes ${quantity(from, "N·m")}: this load needs ${quantity(needed, "N")} of grip and ` +
      `${quantity(file.normalForce ?? 0, "N")} times friction ${figures(file.friction ?? 0, 9)} gives ${quantity(limit, "N")}; ` +
      "press the wheels harder together, make them larger or lower the load.",
  };
}
