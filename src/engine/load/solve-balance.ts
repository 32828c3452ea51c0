/**
 * Solves the torque balance: first every equation with one unknown, from a queue, in linear time (all of an open
 * train); then what is left, in groups (loops, planetary cores); then the ports.
 *
 * A known torque on one gear tells at once which gear drives, so the queue needs no search. A left-out load enters as
 * NaN and spreads to exactly what depends on it.
 */
import { ROUNDING } from "../tolerances";
import { type Driver, driverOf, type Group, type GroupFailure, share, solveGroup } from "./directions";
import type { Equations } from "./equations";

/** What is known at the shafts before solving. */
export interface BalanceTask {
  /** 1 for shafts whose equation counts. */
  readonly active: Uint8Array;
  /** 1 for shafts whose port gives what torque the balance asks for. */
  readonly free: Uint8Array;
  /** N·m about the positive axis that the outside world applies; NaN for a load that was left out. Not read where `free`. */
  readonly applied: Float64Array;
}

export interface Balance {
  /** N, signed; NaN unknown. Its size is the tangential force. */
  readonly force: Float64Array;
  /** Two a mesh: tooth torque on the gear's shaft about its positive axis, N·m. */
  readonly torque: Float64Array;
  readonly driver: Int8Array;
  /** What the outside world applies at each shaft, N·m. */
  readonly port: Float64Array;
  /** Meshes whose forces balance leaves open, a list for each group. */
  readonly shared: readonly (readonly number[])[];
  readonly failures: readonly { readonly group: Group; readonly reason: GroupFailure }[];
  /** 1 for meshes with a torque that no double holds. */
  readonly outOfRange: Uint8Array;
}

const LEAST = 2 ** -1022;
const fits = (x: number): boolean => Math.abs(x) < Infinity && (x === 0 || Math.abs(x) >= LEAST);

export function solveBalance(equations: Equations, task: BalanceTask): Balance {
  const { shaftCount, meshCount, lever, efficiency, spinSign, termShaft, termSign, start, termsOf } = equations;
  const { active, free } = task;
  const force = new Float64Array(meshCount);
  const torque = new Float64Array(2 * meshCount);
  const driver = new Int8Array(meshCount).fill(-1);
  const outOfRange = new Uint8Array(meshCount);
  const solved = new Uint8Array(meshCount);
  // Sum of the known torques on a shaft, the size of its terms, and how many terms are still unknown.
  const sum = new Float64Array(shaftCount);
  const size = new Float64Array(shaftCount);
  const open = new Int32Array(shaftCount);
  const queue: number[] = [];

  const isSolvable = (mesh: number): boolean => {
    const shaft = termShaft[4 * mesh] ?? -1;
    const other = termShaft[4 * mesh + 1] ?? -1;
    return equations.has[mesh] === 1 && active[shaft >= 0 ? shaft : other] === 1;
  };
  for (let s = 0; s < shaftCount; s++) {
    if (!active[s]) continue;
    if (!free[s]) sum[s] = task.applied[s] ?? 0;
    size[s] = Math.abs(sum[s] ?? 0);
    open[s] = (start[s + 1] ?? 0) - (start[s] ?? 0);
    if (open[s] === 1 && !free[s]) queue.push(s);
  }
  /** What the meshes still unknown must give to a shaft. */
  const wanted = (s: number): number => {
    const value = sum[s] ?? 0;
    return Math.abs(value) <= ROUNDING * (size[s] ?? 0) ? 0 : -value;
  };
  const put = (mesh: number, value: number, drives: Driver): void => {
    solved[mesh] = 1;
    force[mesh] = value;
    driver[mesh] = drives;
    for (let side = 0; side < 2; side++) {
      const part = (lever[2 * mesh + side] ?? 0) * share(efficiency[mesh] ?? 1, side, drives);
      const given = part * value;
      const held = Number.isNaN(value) || (fits(given) && (given !== 0 || value === 0));
      if (!held) outOfRange[mesh] = 1;
      torque[2 * mesh + side] = held ? given : Number.NaN;
    }
    for (let slot = 0; slot < 4; slot++) {
      const s = termShaft[4 * mesh + slot] ?? -1;
      if (s < 0 || !active[s]) continue;
      const given = (termSign[4 * mesh + slot] ?? 0) * (torque[2 * mesh + (slot & 1)] ?? 0);
      sum[s] = (sum[s] ?? 0) + given;
      size[s] = (size[s] ?? 0) + Math.abs(given);
      open[s] = (open[s] ?? 0) - 1;
      if (open[s] === 1 && !free[s]) queue.push(s);
    }
  };

  for (let head = 0; head < queue.length; head++) {
    const s = queue[head] ?? 0;
    if (open[s] !== 1) continue;
    for (let k = start[s] ?? 0; k < (start[s + 1] ?? 0); k++) {
      const term = termsOf[k] ?? 0;
      const mesh = term >> 2;
      if (solved[mesh]) continue;
      const side = term & 1;
      const given = wanted(s) * (termSign[term] ?? 1);
      const power = given * (spinSign[2 * mesh + side] ?? 0);
      const drives: Driver = power < 0 ? (side as Driver) : power > 0 ? ((1 - side) as Driver) : -1;
      const value = given / ((lever[2 * mesh + side] ?? 0) * share(efficiency[mesh] ?? 1, side, drives));
      const held = Number.isNaN(given) || (fits(value) && (value !== 0 || given === 0));
      if (!held) outOfRange[mesh] = 1;
      put(mesh, held ? value : Number.NaN, drives);
      break;
    }
  }

  const shared: number[][] = [];
  const failures: { group: Group; reason: GroupFailure }[] = [];
  for (const group of groupsOf(equations, active, free, solved, isSolvable)) {
    const targets = group.shafts.map(wanted);
    if (targets.some((target) => Number.isNaN(target))) {
      for (const [mesh, value, drives] of withUnknown(equations, group, targets)) put(mesh, value, drives);
      continue;
    }
    const solution = solveGroup(equations, group, targets);
    if (typeof solution === "string") failures.push({ group, reason: solution });
    group.meshes.forEach((mesh, k) => {
      if (typeof solution === "string") put(mesh, Number.NaN, -1);
      else put(mesh, solution.forces[k] ?? 0, driverOf(equations, mesh, solution.forces[k] ?? 0));
    });
    if (typeof solution === "string") continue;
    const assumed = group.meshes.filter((_, k) => solution.open[k]);
    if (assumed.length > 0) shared.push(assumed);
  }

  const port = new Float64Array(shaftCount).fill(Number.NaN);
  for (let s = 0; s < shaftCount; s++) if (active[s]) port[s] = free[s] ? wanted(s) : (task.applied[s] ?? 0);
  return { force, torque, driver, port, shared, failures, outOfRange };
}

/** The meshes still unknown, joined where they share an equation that has no port torque to find. Linear. */
function groupsOf(
  equations: Equations,
  active: Uint8Array,
  free: Uint8Array,
  solved: Uint8Array,
  isSolvable: (mesh: number) => boolean,
): Group[] {
  const { meshCount, shaftCount, termShaft, start, termsOf } = equations;
  const taken = new Uint8Array(meshCount);
  const visited = new Uint8Array(shaftCount);
  const groups: Group[] = [];
  for (let first = 0; first < meshCount; first++) {
    if (solved[first] || taken[first] || !isSolvable(first)) continue;
    const meshes = [first];
    const shafts: number[] = [];
    taken[first] = 1;
    for (let head = 0; head < meshes.length; head++) {
      for (let slot = 0; slot < 4; slot++) {
        const s = termShaft[4 * (meshes[head] ?? 0) + slot] ?? -1;
        if (s < 0 || !active[s] || free[s] || visited[s]) continue;
        visited[s] = 1;
        shafts.push(s);
        for (let k = start[s] ?? 0; k < (start[s + 1] ?? 0); k++) {
          const mesh = (termsOf[k] ?? 0) >> 2;
          if (solved[mesh] || taken[mesh]) continue;
          taken[mesh] = 1;
          meshes.push(mesh);
        }
      }
    }
    groups.push({ meshes: meshes.sort((a, b) => a - b), shafts });
  }
  return groups;
}

/**
 * A group that a left-out load reaches. What moves with that load is unknown; the rest is solved, but where the
 * directions might turn with it (a mesh with loss) all of it is unknown.
 */
function withUnknown(equations: Equations, group: Group, targets: readonly number[]): [number, number, Driver][] {
  const unknown = (mesh: number): [number, number, Driver] => [mesh, Number.NaN, -1];
  const isLossy = group.meshes.some(
    (mesh) => (equations.efficiency[mesh] ?? 1) < 1 && equations.spinSign[2 * mesh] !== 0,
  );
  if (isLossy) return group.meshes.map(unknown);
  const known = solveGroup(
    equations,
    group,
    targets.map((target) => (Number.isNaN(target) ? 0 : target)),
  );
  const depends = group.meshes.map(() => false);
  targets.forEach((target, i) => {
    if (!Number.isNaN(target)) return;
    const probe = solveGroup(
      equations,
      group,
      targets.map((_, j) => (i === j ? 1 : 0)),
    );
    group.meshes.forEach((_, k) => {
      if (typeof probe === "string" || probe.forces[k] !== 0) depends[k] = true;
    });
  });
  return group.meshes.map((mesh, k) => {
    if (typeof known === "string" || depends[k]) return unknown(mesh);
    const force = known.forces[k] ?? 0;
    return [mesh, force, driverOf(equations, mesh, force)];
  });
}
