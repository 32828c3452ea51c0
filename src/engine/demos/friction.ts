/** Wheels pressed together: what friction carries, and how the driven one lags once it slips. Pure numbers. */

export interface Material {
  readonly name: string;
  /** Least and greatest coefficient of sliding friction, dry. */
  readonly range: readonly [number, number];
}

/** Where the coefficients are from, as it is said on screen. */
export const FRICTION_SOURCE = "Lust, Engineering Guide CDA3000, appendix A, table 7.21 (sliding, dry)";

/** That table's pairings. */
export const MATERIALS: readonly Material[] = [
  { name: "Steel on steel", range: [0.08, 0.5] },
  { name: "Wood on steel", range: [0.3, 0.6] },
  { name: "Wood on wood", range: [0.3, 0.5] },
  { name: "Steel on plastic", range: [0.18, 0.35] },
];

/**
 * N·m at the driven wheel from which the pair slips: μ N r (Coulomb).
 * @param force N, pressing the wheels together, 0 or more
 * @param radius mm, of the driven wheel
 */
export const slipTorque = (friction: number, force: number, radius: number): number =>
  (friction * force * radius) / 1000;

/**
 * Degrees by which the driven wheel is behind where it would be without slip. A load that only resists holds it still once it asks
 * more than friction carries; up to that it keeps up.
 * @param torque N·m asked at the driven wheel
 * @param speed rev/min of the driven wheel without slip
 * @param time s since the load came on
 */
export const lag = (torque: number, slip: number, speed: number, time: number): number =>
  torque > slip ? Math.abs(speed) * 6 * time : 0;
