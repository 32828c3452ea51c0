/** Numbers as the screen shows them and as a screen reader says them. Rounding itself: `../wording`. */
import { type Rational, toNumber } from "../motion/rational";
import type { ShownUnit, Unit, UnitChoice } from "../units/choice";
import { inUnits } from "../units/convert";
import { figures, figuresIn, MINUS, plainPower, quantityIn } from "../wording";

/** "−580 rev/min", "12.5 kW": a number of the file's `unit` as the reader has chosen it; `missing` where it isn't known. */
export const shown = (value: number | null, unit: Unit, units: UnitChoice, missing = "not known"): string =>
  value === null ? missing : quantityIn(value, unit, units);

const UNIT_WORDS: Readonly<Record<ShownUnit, readonly [string, string]>> = {
  "rev/min": ["revolution per minute", "revolutions per minute"],
  N·m: ["newton metre", "newton metres"],
  W: ["watt", "watts"],
  kW: ["kilowatt", "kilowatts"],
  mm: ["millimetre", "millimetres"],
  "°": ["degree", "degrees"],
  N: ["newton", "newtons"],
  "m/s": ["metre per second", "metres per second"],
  in: ["inch", "inches"],
  "/in": ["per inch", "per inch"],
  "rad/s": ["radian per second", "radians per second"],
  lbf·ft: ["pound-force foot", "pound-force feet"],
  hp: ["horsepower", "horsepower"],
  lbf: ["pound-force", "pounds-force"],
  "ft/min": ["foot per minute", "feet per minute"],
  turns: ["turn", "turns"],
  "": ["", ""],
};

/** "inches", for what is read out beside a number. */
export const unitSpoken = (unit: ShownUnit): string => UNIT_WORDS[unit][1];

/**
 * "minus 580 revolutions per minute": digits stay digits, which every reader says well; sign and unit become words. The decimal
 * sign stays a point, for an English voice reads a comma as a pause.
 */
export function spoken(value: number | null, unit: Unit, units: UnitChoice, missing = "not known"): string {
  if (value === null) return missing;
  const shownAs = inUnits(value, unit, units);
  const text = figures(shownAs.value, units.figures, ".")
    .replace(MINUS, "minus ")
    .replaceAll("\u202f", "")
    .replace(
      / × 10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)/,
      (_, power: string) => ` times 10 to the power ${plainPower(power).replace("-", "minus ")}`,
    );
  const word = UNIT_WORDS[shownAs.unit][text === "1" || text === "minus 1" ? 0 : 1];
  return word === "" ? text : `${text} ${word}`;
}

const WHOLE_WORDS = [
  ..."zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen".split(" "),
  ..."sixteen seventeen eighteen nineteen twenty".split(" "),
];
const PART_WORDS = [
  ..."half third quarter fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth".split(" "),
  ..."fourteenth fifteenth sixteenth seventeenth eighteenth nineteenth twentieth".split(" "),
];

/** "two fifths", "minus three halves", "63 over 64": words up to twenty, figures beyond. */
export function spokenFraction(fraction: Rational): string {
  const sign = fraction.n < 0n ? "minus " : "";
  const above = fraction.n < 0n ? -fraction.n : fraction.n;
  const small = (x: bigint, words: readonly string[], from: number): string | undefined =>
    x <= 20n ? words[Number(x) - from] : undefined;
  const count = small(above, WHOLE_WORDS, 0);
  if (fraction.d === 1n) return `${sign}${count ?? above}`;
  const part = small(fraction.d, PART_WORDS, 2);
  if (count === undefined || part === undefined) return `${sign}${above} over ${fraction.d}`;
  const parts = above === 1n ? part : part === "half" ? "halves" : `${part}s`;
  return `${sign}${count} ${parts}`;
}

/** A fraction as a decimal for a reader: "0.4", "−0.9844". */
export const decimal = (fraction: Rational, units: UnitChoice): string => figuresIn(toNumber(fraction), units);
