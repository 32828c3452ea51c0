/**
 * Torque, power, losses and mesh forces of a drive. Torques balance by the transpose of the speed equations
 * (equations.ts); the losses are charged on the power that a mesh rolls in its own frame (directions.ts).
 */
import type { Finding } from "../findings";
import { RADIANS_PER_SECOND } from "../motion/move";
import type { Drive, DriveIndex, Load, MeshLoad, Motion, PlacedMesh, Placement, ShaftLoad } from "../solved";
import { buildEquations, type Equations } from "./equations";
import { equalSharing, inputShort, outOfRange, overloaded, selfLocking } from "./findings";
import { torqueGains } from "./gain";
import { type PartLoads, type PartState, readPorts } from "./ports";
import { innerTorques } from "./shaft-torque";
import { frictionLimit, nearerGear, slipFinding, slipTorque, stepsFromInputs } from "./slip";
import { type Balance, solveBalance } from "./solve-balance";

const NO_LOAD: ShaftLoad = { torque: null, power: null };
const NO_TORQUE: ShaftLoad = { torque: 0, power: 0 };

/** Null for what is no finite number, and never -0. */
const held = (x: number): number | null => (Number.isFinite(x) ? x + 0 : null);
const pairHeld = (pair: readonly [number, number]): readonly [number, number] | null => {
  const [first, second] = pair;
  if (!Number.isFinite(first) || !Number.isFinite(second)) return null;
  return first !== 0 && second !== 0 ? pair : [first + 0, second + 0];
};

/** What a mesh carries, filled in by what is known of it; all null where nothing is. */
class CarriedLoad implements MeshLoad {
  driver: 0 | 1 | null = null;
  torques: readonly [number, number] | null = null;
  pitchSpeed: number | null = null;
  tangentialForce: number | null = null;
  radialForces: readonly [number, number] | null = null;
  axialForces: readonly [number, number] | null = null;
  loss: number | null = null;
  slipTorque: number | null = null;

  /** Truly private: a load is read and written out as data. */
  readonly #placed: PlacedMesh | null;

  constructor(placed: PlacedMesh | null) {
    this.#placed = placed;
  }

  /** Follows from the pair alone, so it is worked out when asked for. */
  get contactRatio(): number | null {
    const placed = this.#placed;
    return placed === null ? null : placed.kind.contactRatio(placed.pair);
  }
}

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
  const shafts: ShaftLoad[] = new Array(drive.shafts.length).fill(NO_LOAD);
  for (let s = 0; s < shafts.length; s++) {
    const known = stateOf(state, motion, s);
    if (known === "unknown" || !placement.shafts[s] || !motion.isFixed[s]) continue;
    if (known === "nothing") {
      shafts[s] = NO_TORQUE;
      continue;
    }
    const isPort = (index.portOfShaft[s] ?? -1) >= 0;
    const torque = (isPort ? balance.port[s] : inner[s]) ?? Number.NaN;
    // The speed first: in rad/s it is smaller, and the product may then fit where it else would not.
    const power = torque === 0 ? 0 : torque * ((motion.speed[s] ?? Number.NaN) * RADIANS_PER_SECOND);
    shafts[s] = { torque: held(torque), power: held(isPort ? power : Math.abs(power)) };
  }
  const meshes: CarriedLoad[] = new Array(drive.meshes.length);
  for (let m = 0; m < meshes.length; m++) meshes[m] = meshLoad(index, placement, motion, equations, state, balance, m);
  addSlipTorques(drive, index, placement, equations, state, motion, meshes);
  const gain = torqueGains(drive, index, motion, equations, { ...ports, state });
  for (let m = 0; m < meshes.length; m++) {
    const part = motion.part[index.shaftAt[2 * m] ?? -1] ?? -1;
    const limit = frictionLimit(drive, m, placement.meshes[m]?.kind.isFriction ?? false);
    if (limit === null || !equations.has[m] || state[part] !== "carries") continue;
    const finding = slipFinding(drive, index, equations, ports, balance, m, limit, part);
    if (finding) findings.push(finding);
  }
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
  const partOfMesh = (mesh: number) => motion.part[index.shaftAt[2 * mesh] ?? -1] ?? -1;
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
    const pushing = (ports.outputs[part] ?? []).filter((s) => ports.free[s] && powerAt(s) > 0);
    if (pushing.length > 0) {
      // What is left for an output whose load was left out is less than nothing: the loads given take more than the inputs can give.
      state[part] = "unknown";
      const asked = (ports.outputs[part] ?? []).filter((s) => !ports.free[s]);
      findings.push(overloaded(drive, pushing, given * RADIANS_PER_SECOND, -total(asked) * RADIANS_PER_SECOND));
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
  meshes: readonly CarriedLoad[],
): void {
  let steps: Int32Array | null = null;
  for (let m = 0; m < meshes.length; m++) {
    const mesh = meshes[m] as CarriedLoad;
    const limit = frictionLimit(drive, m, placement.meshes[m]?.kind.isFriction ?? false);
    const [first, second] = [index.shaftAt[2 * m] ?? -1, index.shaftAt[2 * m + 1] ?? -1];
    if (limit === null || !equations.has[m] || stateOf(state, motion, first) === "unknown") continue;
    steps ??= stepsFromInputs(drive, index);
    const driver = mesh.driver ?? nearerGear(steps, first, second);
    if (driver !== null && mesh.pitchSpeed !== null)
      mesh.slipTorque = held(slipTorque(equations, m, driver === 0 ? 1 : 0, limit));
  }
}

function meshLoad(
  index: DriveIndex,
  placement: Placement,
  motion: Motion,
  equations: Equations,
  state: readonly PartState[],
  balance: Balance,
  m: number,
): CarriedLoad {
  const placed = placement.meshes[m] ?? null;
  const load = new CarriedLoad(placed);
  if (!placed || !equations.has[m]) return load;

  const radius = equations.radius[m] ?? Number.NaN;
  const isSound = !Number.isNaN(radius);
  load.pitchSpeed = held(Math.abs(equations.spin[2 * m] ?? Number.NaN) * radius);
  const [first, second] = [index.shaftAt[2 * m] ?? -1, index.shaftAt[2 * m + 1] ?? -1];
  const known = stateOf(state, motion, first);
  if (known === "unknown" || !motion.isFixed[first] || !motion.isFixed[second]) return load;
  // A part that carries nothing was not solved: its forces and torques stand at 0.
  const force = balance.force[m] ?? Number.NaN;
  const drives = balance.driver[m] ?? -1;
  const driver = drives === 0 || drives === 1 ? drives : null;
  load.driver = driver;
  load.torques = pairHeld([balance.torque[2 * m] ?? Number.NaN, balance.torque[2 * m + 1] ?? Number.NaN]);
  load.tangentialForce = isSound ? held(Math.abs(force)) : null;
  // What presses a friction pair is in the file, whatever it carries.
  const isKnown = load.tangentialForce !== null || (isSound && placed.kind.isFriction);
  const forces = isKnown ? placed.kind.forces(placed.pair, load.tangentialForce ?? 0) : null;
  load.radialForces = forces && pairHeld(forces.radial);
  load.axialForces = forces && pairHeld(forces.axial);
  const power =
    driver === null ? 0 : (load.torques?.[driver] ?? Number.NaN) * (equations.spin[2 * m + driver] ?? Number.NaN);
  load.loss = Number.isNaN(force) ? null : held(Math.abs(power) * (1 - (equations.efficiency[m] ?? 1)));
  return load;
}
