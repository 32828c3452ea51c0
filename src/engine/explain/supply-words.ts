/** What an input can give at its own speed, in words: P = 2 π n T, n in turns a second. */
import type { Port } from "../drive/types";
import type { UnitChoice } from "../units/choice";
import { quantityIn } from "../wording";

/** "At most 18 W, 2.865 N·m at 60 rev/min."; null for a port that is no input, or whose size isn't known. */
export function supplyWords({ role, speed = 0, torque, power }: Port, units: UnitChoice): string | null {
  if (role !== "input") return null;
  const size = Math.abs(speed);
  const perTurn = (2 * Math.PI * size) / 60;
  const at = ` at ${quantityIn(size, "rev/min", units)}`;
  if (power !== undefined) {
    const most = `At most ${quantityIn(power, "W", units)}`;
    return size === 0 ? `${most}.` : `${most}, ${quantityIn(power / perTurn, "N·m", units)}${at}.`;
  }
  if (torque === undefined) return null;
  const most = `At most ${quantityIn(torque, "N·m", units)}`;
  return size === 0 ? `${most}.` : `${most}, ${quantityIn(torque * perTurn, "W", units)}${at}.`;
}
