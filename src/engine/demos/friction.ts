/** Wheels pressed together: what friction carries, and how the driven one lags once it slips. Pure numbers. */
import type { Edit } from "../drive/commands/edit";
import { setMesh } from "../drive/commands/mesh";
import type { DemoPair } from "./pair";

export interface Material {
  readonly name: string;
  /** Coefficient of static friction, dry: up to it the pair holds. */
  readonly holding: number;
  /** Coefficient of sliding friction, dry: what is left once it slips. Not above `holding`. */
  readonly sliding: number;
}

/** Where the coefficients are from, as it is said on screen. */
export const FRICTION_SOURCE =
  "Marks' Standard Handbook for Mechanical Engineers, table of coefficients of static and sliding friction, dry (from memory: look them up before you build)";

/** Pairings of that table. */
export const MATERIALS: readonly [Material, ...Material[]] = [
  { name: "Oak on oak, along the grain", holding: 0.62, sliding: 0.48 },
  { name: "Leather on oak, along the grain", holding: 0.61, sliding: 0.52 },
  { name: "Mild steel on mild steel", holding: 0.74, sliding: 0.57 },
  { name: "Hard steel on hard steel", holding: 0.78, sliding: 0.42 },
  { name: "Cast iron on cast iron", holding: 1.1, sliding: 0.15 },
  { name: "PTFE on steel", holding: 0.04, sliding: 0.04 },
];

/**
 * N·m at the driven wheel from which the pair slips: μ N r (Coulomb).
 * @param force N, pressing the wheels together, 0 or more
 * @param radius mm, of the driven wheel; on a cone in the middle of the contact line
 */
export const slipTorque = (friction: number, force: number, radius: number): number =>
  (friction * force * radius) / 1000;

export interface Grip {
  /** N·m at the driven wheel: the most that it carries without slip, what it carries now, and whether it slips. */
  readonly most: number;
  readonly carried: number;
  readonly slips: boolean;
}

/** @param asked N·m at the driven wheel, 0 or more */
export function gripOf(material: Material, force: number, radius: number, asked: number): Grip {
  const most = slipTorque(material.holding, force, radius);
  const slips = asked > most;
  return { most, slips, carried: slips ? slipTorque(material.sliding, force, radius) : asked };
}

/**
 * Degrees by which the driven wheel is behind where it would be without slip. A load that only resists holds it still once it asks
 * more than friction carries; up to that it keeps up.
 * @param speed rev/min of the driven wheel without slip
 * @param time s since the load came on
 */
export const lag = (slips: boolean, speed: number, time: number): number => (slips ? Math.abs(speed) * 6 * time : 0);

/** Force and friction for the pair in the drive; null where its gears have teeth, which need neither. */
export const pressInDrive = (pair: DemoPair, material: Material, force: number): Edit | null =>
  pair.hasTeeth ? null : setMesh(pair.mesh.id, { normalForce: force, friction: material.holding });
