/** Either gear of a pair may drive: what one motor gives from the one side and from the other. */

import { type Edit, isRefused, portOf } from "../drive/commands/edit";
import { driveFrom, setPort } from "../drive/commands/port";
import { makePort } from "../drive/defaults";
import type { Drive } from "../drive/types";
import type { DemoPair, Side } from "./pair";

export interface Motor {
  /** rev/min, a size. */
  readonly speed: number;
  /** N·m, a size. */
  readonly torque: number;
}

/** Sizes, of the first and the second shaft. */
export interface Traded {
  /** rev/min */
  readonly speeds: readonly [number, number];
  /** N·m */
  readonly torques: readonly [number, number];
  /** W */
  readonly powers: readonly [number, number];
}

/** N·m times rev/min to W. */
const POWER = Math.PI / 30;

/**
 * The driven shaft turns z/z' as fast and carries z'/z times the torque, less what the mesh loses: P = T ω on both sides but for the
 * efficiency. Source: the definitions of gear ratio and power (any handbook of machine elements; from memory).
 * @param sizes teeth or diameters, each > 0
 * @param efficiency 0 < e <= 1, of the mesh
 */
export function traded(sizes: readonly [number, number], efficiency: number, driver: Side, motor: Motor): Traded {
  const [own, other] = [sizes[driver], sizes[1 - driver] as number];
  const driven = { speed: (motor.speed * own) / other, torque: ((motor.torque * other) / own) * efficiency };
  const [first, second] = driver === 0 ? [motor, driven] : [driven, motor];
  return {
    speeds: [first.speed, second.speed],
    torques: [first.torque, second.torque],
    powers: [first.torque * first.speed * POWER, second.torque * second.speed * POWER],
  };
}

/** rev/min of the motor on that side, signed so that both shafts turn the way that they turn in the drive; null where they don't. */
const signedSpeed = ({ speeds }: DemoPair, driver: Side, speed: number): number | null =>
  speeds && speeds[driver] !== 0 ? Math.sign(speeds[driver]) * speed : null;

/** The pair by itself with the motor on that side; null where the drive doesn't turn it. */
export function drivenFrom(pair: DemoPair, driver: Side, speed: number): Drive | null {
  const signed = signedSpeed(pair, driver, speed);
  if (signed === null) return null;
  return { ...pair.drive, ports: [makePort({ shaft: pair.ids[driver], role: "input", speed: signed })] };
}

/**
 * The same in the drive: its one input goes to that shaft and turns it as the motor did. Null where there is no such input, or more than
 * one, so that it isn't clear which is meant, or a carrier takes the pair round.
 */
export function driveByOther(pair: DemoPair, drive: Drive, driver: Side, speed: number): Edit | null {
  const id = pair.ids[driver];
  const signed = signedSpeed(pair, driver, speed);
  const inputs = drive.ports.filter(({ role }) => role === "input");
  if (signed === null || pair.isCarried || inputs.length !== 1 || inputs[0]?.shaft === id) return null;
  return (before) => {
    const moved = driveFrom(id)(before);
    const port = isRefused(moved) ? undefined : portOf(moved, id);
    if (isRefused(moved) || !port) return moved;
    const { shaft: _, speedDigits: __, ...rest } = port;
    return setPort(id, { ...rest, speed: signed })(moved);
  };
}
