/** Power from speed and torque: P = 2 π n T with n in turns a second, P = ω T with ω in radians a second. */
import type { UnitChoice } from "../units/choice";
import { toShown, unitConversion } from "../units/convert";
import { EQUALS, type Formula, number, scaled, symbol, TIMES, type Token } from "./formula";
import { type WorkingLine, worked } from "./working-lines";

/** The line for `power` = 2 π `speed` · `torque`: their symbols, and rev/min and N·m, both sizes. */
export function powerLine(
  words: string,
  [power, speed, torque]: readonly [Token, Token, Token],
  [revolutions, newtonMetres]: readonly [number, number],
  units: UnitChoice,
  about: readonly string[],
): WorkingLine {
  const turns: Formula = units.speed === "rad/s" ? [] : [number(2), TIMES, symbol("π"), TIMES];
  // What the product of the shown numbers is to be divided by: 60 for W from N·m, 33 000 for hp from lbf·ft.
  const toTorque = toShown(1, unitConversion("N·m", units));
  const toPower = toShown(1, unitConversion("W", units));
  const divisor = ((units.speed === "rad/s" ? 1 : 60) * toTorque) / toPower;
  return worked(
    words,
    [power, EQUALS, ...turns, speed, TIMES, torque],
    scaled([...turns, number(revolutions, "rev/min"), TIMES, number(newtonMetres, "N·m")], divisor),
    (newtonMetres * 2 * Math.PI * revolutions) / 60,
    "W",
    about,
  );
}
