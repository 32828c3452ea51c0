/** Numbers as the screen shows them and as a screen reader says them. Rounding itself: `../wording`. */
import { type Rational, toNumber } from "../motion/rational";
import { figures, MINUS, quantity, type Unit } from "../wording";

/** W from which power is shown in kW. */
const KILOWATTS_FROM = 10_000;

/** A value in the unit in which it is shown: power in kW from 10,000 W on, all else as it is. */
export const shownUnit = (value: number, unit: Unit): { readonly value: number; readonly unit: Unit } =>
  unit === "W" && Math.abs(value) >= KILOWATTS_FROM ? { value: value / 1000, unit: "kW" } : { value, unit };

/** "−580 rev/min", "12.5 kW"; `missing` where the number isn't known. */
export function shown(value: number | null, unit: Unit, missing = "not known"): string {
  if (value === null) return missing;
  const shownAs = shownUnit(value, unit);
  return quantity(shownAs.value, shownAs.unit);
}

const UNIT_WORDS: Readonly<Record<Unit, readonly [string, string]>> = {
  "rev/min": ["revolution per minute", "revolutions per minute"],
  N·m: ["newton metre", "newton metres"],
  W: ["watt", "watts"],
  kW: ["kilowatt", "kilowatts"],
  mm: ["millimetre", "millimetres"],
  "°": ["degree", "degrees"],
  N: ["newton", "newtons"],
  "m/s": ["metre per second", "metres per second"],
  turns: ["turn", "turns"],
  "": ["", ""],
};

const digitsOf = (superscripts: string): string =>
  [...superscripts].map((sign) => (sign === "⁻" ? "minus " : String("⁰¹²³⁴⁵⁶⁷⁸⁹".indexOf(sign)))).join("");

/** "minus 580 revolutions per minute": digits stay digits, which every reader says well; sign and unit become words. */
export function spoken(value: number | null, unit: Unit, missing = "not known"): string {
  if (value === null) return missing;
  const shownAs = shownUnit(value, unit);
  const text = figures(shownAs.value)
    .replace(MINUS, "minus ")
    .replaceAll("\u202f", "")
    .replace(/ × 10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)/, (_, power: string) => ` times 10 to the power ${digitsOf(power)}`);
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
export const decimal = (fraction: Rational): string => figures(toNumber(fraction));
