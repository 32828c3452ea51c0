/**
 * Torque, power, losses and mesh forces of a drive. Torques balance by the transpose of the speed equations
 * (equations.ts); the losses are charged on the power that a mesh rolls in its own frame (directions.ts).
 */
import type { Finding } from "../findings";
import { RADIANS_PER_SECOND } from "../motion/move";
import type { Drive, DriveIndex, Load, MeshLoad, Motion, Placement, ShaftLoad } from "../solved";
import { buildEquations, type Equations } from "./equations";
import { equalSharing, inputShort, outOfRange, selfLocking } from "./findings";
import { torqueGains } from "./gain";
import { type PartLoads, type PartState, readPorts } from "./ports";
import { innerTorques } from "./shaft-torque";
import { frictionLimit, nearerGear, slipFinding, slipTorque, stepsFromInputs } from "./slip";
import { type Balance, solveBalance } from "./solve-balance";

const NO_LOAD: ShaftLoad = { torque: null, power: null };
const NO_MESH_LOAD: MeshLoad = {
  driver: null,
  torques: null,
  pitchSpeed: null,
  tangentialForce: null,
  radialForces: null,
  axialForces: null,
  contactRatio: null,
  loss: null,
  slipTorque: null,
};

/** Null for what is no finite number, and never -0. */
const held = (x: number): number | null => (Number.isFinite(x) ? x + 0 : null);
const pairHeld = (pair: readonly [number, number]): readonly [number, number] | null => {
  const [first, second] = pair;
  if (!Number.isFinite(first) || !Number.isFinite(second)) return null;
  return first !== 0 && second !== 0 ? pair : [first + 0, second + 0];
};

/**
 * Loads of a drive: torque and power at every shaft, forces and losses at every mesh, as format.md, Load, says.
 * Torques in N·m about the shaft's positive axis, powers and losses in W, forces in N, pitch speeds in m/s; null where
 * undetermined. Never throws on a drive that the parser lets through. Linear for open trains.
 */
export function computeLoad(drive: Drive, index: DriveIndex, placement: Placement, motion: Motion): Load {
  const equations = buildEquations(drive, index, placement, motion);
  const ports = readPorts(drive, index, placement, motion);
  const active = new Uint8Array(drive.shafts.length);
  for (let s = 0; s < active.length; s++)
    if (placement.shafts[s] && stateOf(ports.state, motion, s) === "carries") active[s] = 1;
  const balance = solveBalance(equations, { active, free: ports.free, applied: ports.applied });
  const { state, findings } = judge(drive, index, motion, equations, ports, balance);

  const inner = innerTorques(
    drive,
    index,
    equations,
    balance,
    (s) => active[s] === 1 && (index.portOfShaft[s] ?? -1) < 0,
  );
  const shafts = drive.shafts.map((_, s): ShaftLoad => {
    const known = stateOf(state, motion, s);
    if (known === "unknown" || !placement.shafts[s] || !motion.speeds[s]) return NO_LOAD;
    if (known === "nothing") return { torque: 0, power: 0 };
    const isPort = (index.portOfShaft[s] ?? -1) >= 0;
    const torque = (isPort ? balance.port[s] : inner[s]) ?? Number.NaN;
    const power = torque * (torque === 0 ? 0 : (motion.speed[s] ?? Number.NaN)) * RADIANS_PER_SECOND;
    return { torque: held(torque), power: held(isPort ? power : Math.abs(power)) };
  });
  const meshes = drive.meshes.map((_, m) => meshLoad(index, placement, motion, equations, state, balance, m));
  addSlipTorques(drive, index, placement, equations, state, motion, meshes);
  const gain = torqueGains(drive, index, motion, equations, { ...ports, state });
  drive.meshes.forEach((_, m) => {
    const part = motion.part[index.shaftsOfMesh[m]?.[0] ?? -1] ?? -1;
    const limit = frictionLimit(drive, m, placement.meshes[m]?.kind.isFriction ?? false);
    if (limit === null || !equations.has[m] || state[part] !== "carries") return;
    const finding = slipFinding(drive, index, equations, ports, balance, m, limit, part);
    if (finding) findings.push(finding);
  });
  return { shafts, meshes, gain, findings };
}

const stateOf = (state: readonly PartState[], motion: Motion, shaft: number): PartState =>
  state[motion.part[shaft] ?? -1] ?? "unknown";

/** Which parts' solutions stand, and what is to be said of them. */
function judge(
  drive: Drive,
  index: DriveIndex,
  motion: Motion,
  equations: Equations,
  ports: PartLoads,
  balance: Balance,
): { state: PartState[]; findings: Finding[] } {
  const state = [...ports.state];
  const findings: Finding[] = [];
  const partOfMesh = (mesh: number) => motion.part[index.shaftsOfMesh[mesh]?.[0] ?? -1] ?? -1;
  const lossy = (meshes: readonly number[]) => meshes.filter((mesh) => (equations.efficiency[mesh] ?? 1) < 1);
  for (const { group, reason } of balance.failures) {
    const part = partOfMesh(group.meshes[0] ?? -1);
    if (state[part] === "carries" && reason !== "contradiction")
      findings.push(selfLocking(drive, ports, part, lossy(group.meshes), reason === "too-many"));
    state[part] = "unknown";
  }
  const strange: number[][] = state.map(() => []);
  const losing: number[][] = state.map(() => []);
  for (let mesh = 0; mesh < equations.meshCount; mesh++) {
    const part = partOfMesh(mesh);
    if (balance.outOfRange[mesh]) strange[part]?.push(mesh);
    if (equations.has[mesh] && (equations.efficiency[mesh] ?? 1) < 1) losing[part]?.push(mesh);
  }
  const powerAt = (s: number) => {
    const torque = balance.port[s] ?? Number.NaN;
    return torque === 0 ? 0 : torque * (motion.speed[s] ?? Number.NaN);
  };
  state.forEach((known, part) => {
    if (known !== "carries") return;
    const total = (shafts: readonly number[]) => shafts.reduce((sum, s) => sum + powerAt(s), 0);
    const given = total(ports.inputs[part] ?? []);
    const taken = -total(ports.outputs[part] ?? []);
    // No net power from the inputs for outputs that take some, or outputs that would have to push.
    if ((given <= 0 && taken > 0) || (taken < 0 && given > 0)) {
      state[part] = "unknown";
      findings.push(selfLocking(drive, ports, part, losing[part] ?? [], false));
      return;
    }
    const beyond = strange[part] ?? [];
    if (beyond.length > 0) findings.push(outOfRange(drive, beyond));
    findings.push(...inputShort(drive, index, motion, ports, balance, part));
  });
  const isLoaded = state.map((_, part) =>
    [...(ports.inputs[part] ?? []), ...(ports.outputs[part] ?? [])].some((s) => balance.port[s] !== 0),
  );
  for (const meshes of balance.shared) {
    const part = partOfMesh(meshes[0] ?? -1);
    if (state[part] === "carries" && isLoaded[part]) findings.push(equalSharing(drive, meshes));
  }
  return { state, findings };
}

/** What friction pairs can pass on, also where nothing is carried yet. */
function addSlipTorques(
  drive: Drive,
  index: DriveIndex,
  placement: Placement,
  equations: Equations,
  state: readonly PartState[],
  motion: Motion,
  meshes: MeshLoad[],
): void {
  let steps: Int32Array | null = null;
  meshes.forEach((mesh, m) => {
    const limit = frictionLimit(drive, m, placement.meshes[m]?.kind.isFriction ?? false);
    const joined = index.shaftsOfMesh[m];
    if (limit === null || !joined || !equations.has[m] || stateOf(state, motion, joined[0]) === "unknown") return;
    steps ??= stepsFromInputs(drive, index);
    const driver = mesh.driver ?? nearerGear(steps, joined);
    if (driver !== null && mesh.pitchSpeed !== null)
      meshes[m] = { ...mesh, slipTorque: held(slipTorque(equations, m, driver === 0 ? 1 : 0, limit)) };
  });
}

function meshLoad(
  index: DriveIndex,
  placement: Placement,
  motion: Motion,
  equations: Equations,
  state: readonly PartState[],
  balance: Balance,
  m: number,
): MeshLoad {
  const placed = placement.meshes[m];
  const gears = index.gearsOfMesh[m];
  const joined = index.shaftsOfMesh[m];
  const pair = equations.pairs[m];
  if (!placed || !gears || !joined || !pair) return NO_MESH_LOAD;
  const isPlaced = placement.gears[gears[0]] && placement.gears[gears[1]];
  const contactRatio = isPlaced ? placed.kind.contactRatio(pair) : null;
  if (!equations.has[m]) return { ...NO_MESH_LOAD, contactRatio };

  const radius = equations.radius[m] ?? Number.NaN;
  const isSound = !Number.isNaN(radius);
  const pitchSpeed = held(Math.abs(equations.spin[2 * m] ?? Number.NaN) * radius);
  const known = stateOf(state, motion, joined[0]);
  const isFixed = motion.speeds[joined[0]] && motion.speeds[joined[1]];
  if (known === "unknown" || !isFixed) return { ...NO_MESH_LOAD, contactRatio, pitchSpeed };
  // A part that carries nothing was not solved: its forces and torques stand at 0.
  const force = balance.force[m] ?? Number.NaN;
  const drives = balance.driver[m] ?? -1;
  const torques = pairHeld([balance.torque[2 * m] ?? Number.NaN, balance.torque[2 * m + 1] ?? Number.NaN]);
  const driver = drives === 0 || drives === 1 ? drives : null;
  const tangentialForce = isSound ? held(Math.abs(force)) : null;
  // What presses a friction pair is in the file, whatever it carries.
  const isKnown = tangentialForce !== null || (isSound && placed.kind.isFriction);
  const forces = isKnown ? placed.kind.forces(pair, tangentialForce ?? 0) : null;
  const power =
    driver === null ? 0 : (torques?.[driver] ?? Number.NaN) * (equations.spin[2 * m + driver] ?? Number.NaN);
  return {
    driver,
    torques,
    pitchSpeed,
    tangentialForce,
    radialForces: forces && pairHeld(forces.radial),
    axialForces: forces && pairHeld(forces.axial),
    contactRatio,
    loss: Number.isNaN(force) ? null : held(Math.abs(power) * (1 - (equations.efficiency[m] ?? 1))),
    slipTorque: null,
  };
}
