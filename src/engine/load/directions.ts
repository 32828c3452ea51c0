/**
 * Which gear of each mesh drives, in a group of meshes that can only be solved together.
 *
 * A gear drives where its tooth torque opposes its spin in the mesh's frame; it gives its power whole and the driven
 * one gets the efficiency's share. So the equations depend on the directions and the directions on the solution: start
 * from the loss-free one, take the directions found, and repeat until they agree.
 */
import { ROUNDING } from "../tolerances";
import type { Equations } from "./equations";
import { type Column, factorise, leastDegreeOrder, leastNorm, openUnknowns } from "./least-norm";

/** Which gear drives: 0, 1, or -1 for neither (at rest, or free of loss). */
export type Driver = 0 | 1 | -1;

/** Meshes joined by equations that have more than one of them, none of which has a port torque of its own to find. */
export interface Group {
  readonly meshes: readonly number[];
  readonly shafts: readonly number[];
}

export interface GroupSolution {
  /** N, signed, for each mesh of the group. */
  readonly forces: Float64Array;
  readonly drivers: readonly Driver[];
  /** For each mesh whether balance leaves it open, so that equal sharing was assumed. */
  readonly open: readonly boolean[];
}

/** Why a group has no solution. `directions`: no set of driving gears agrees with its own torques. */
export type GroupFailure = "contradiction" | "directions" | "too-many";

/** All assignments are tried of up to this many lossy meshes: 4,096 of them. */
const MOST_SEARCHED = 12;
/** Rounds of taking the directions found, before it counts as going round in a circle. */
const MOST_ROUNDS = 60;

/** The share of its loss-free torque that a gear has. */
export const share = (efficiency: number, side: number, driver: Driver): number =>
  driver === -1 || driver === side ? 1 : efficiency;

/** Who drives a mesh that carries `force`. */
export function driverOf(equations: Equations, mesh: number, force: number): Driver {
  const power = force * (equations.lever[2 * mesh] ?? 0) * (equations.spinSign[2 * mesh] ?? 0);
  return power < 0 ? 0 : power > 0 ? 1 : -1;
}

/** The unknown of a mesh in the equations of its group, `place` telling where a shaft's equation stands. */
function columnOf(equations: Equations, mesh: number, driver: Driver, place: ReadonlyMap<number, number>): Column {
  const joined: number[] = [];
  const coefficients: number[] = [];
  for (let slot = 0; slot < 4; slot++) {
    const at = place.get(equations.termShaft[4 * mesh + slot] ?? -1);
    if (at === undefined) continue;
    const side = slot & 1;
    const torque =
      (equations.lever[2 * mesh + side] ?? 0) *
      share(equations.efficiency[mesh] ?? 1, side, driver) *
      (equations.termSign[4 * mesh + slot] ?? 0);
    const known = joined.indexOf(at);
    if (known === -1) {
      joined.push(at);
      coefficients.push(torque);
    } else coefficients[known] = (coefficients[known] ?? 0) + torque;
  }
  return { equations: joined, coefficients };
}

/** Solves one group for the torques that its meshes must give to each of its shafts, N·m. */
export function solveGroup(
  equations: Equations,
  group: Group,
  wanted: ArrayLike<number>,
): GroupSolution | GroupFailure {
  const { meshes, shafts } = group;
  const place = new Map(shafts.map((shaft, i) => [shaft, i]));
  const columns = (drivers: readonly Driver[]) =>
    meshes.map((mesh, k) => columnOf(equations, mesh, drivers[k] ?? -1, place));
  const neither: Driver[] = meshes.map(() => -1);
  const order = leastDegreeOrder(columns(neither), shafts.length);
  const lossy: number[] = [];
  meshes.forEach((mesh, k) => {
    if ((equations.efficiency[mesh] ?? 1) < 1 && equations.spinSign[2 * mesh] !== 0) lossy.push(k);
  });

  const attempt = (drivers: readonly Driver[]) => {
    const factors = factorise(columns(drivers), shafts.length, order);
    const forces = leastNorm(factors, wanted);
    return forces && { factors, forces: withoutRounding(forces) };
  };
  /** Drivers as the forces have them; a mesh without force keeps what it had. */
  const found = (forces: Float64Array, before: readonly Driver[]): Driver[] => {
    const next = [...before];
    for (const k of lossy) {
      const driver = driverOf(equations, meshes[k] ?? 0, forces[k] ?? 0);
      if (driver !== -1) next[k] = driver;
    }
    return next;
  };
  const differ = (a: readonly Driver[], b: readonly Driver[]) => lossy.filter((k) => a[k] !== b[k]);

  const start = attempt(neither);
  if (!start) return "contradiction";
  if (lossy.length === 0) return { forces: start.forces, drivers: neither, open: openUnknowns(start.factors) };
  const unsure = new Set<number>();
  const seen = new Set<string>();
  let drivers = found(start.forces, neither);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const key = lossy.map((k) => drivers[k]).join();
    if (seen.has(key)) break;
    seen.add(key);
    const result = attempt(drivers);
    if (!result) break;
    const next = found(result.forces, drivers);
    const changed = differ(next, drivers);
    if (changed.length === 0) return { forces: result.forces, drivers, open: openUnknowns(result.factors) };
    for (const k of changed) unsure.add(k);
    drivers = next;
  }
  // Round in a circle. Those that changed are tried in all ways; all lossy ones where there are few.
  const tried = lossy.length <= MOST_SEARCHED ? lossy : [...unsure];
  if (tried.length > MOST_SEARCHED) return "too-many";
  for (let pattern = 0; pattern < 1 << tried.length; pattern++) {
    const guess = [...drivers];
    tried.forEach((k, bit) => {
      guess[k] = (pattern >> bit) & 1 ? 1 : 0;
    });
    const result = attempt(guess);
    if (result && differ(found(result.forces, guess), guess).length === 0)
      return { forces: result.forces, drivers: guess, open: openUnknowns(result.factors) };
  }
  return tried.length === lossy.length ? "directions" : "too-many";
}

/** Forces that are rounding beside the largest become 0, so that no direction is read from them. */
function withoutRounding(forces: Float64Array): Float64Array {
  const largest = forces.reduce((most, force) => Math.max(most, Math.abs(force)), 0);
  return forces.map((force) => (Math.abs(force) <= ROUNDING * largest ? 0 : force));
}
