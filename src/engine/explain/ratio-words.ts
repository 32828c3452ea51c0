/**
 * A ratio in words. Turns come first ("5 turns of A give 2 of C"), because three conventions for one fraction teach its
 * inverse; the fraction comes after, in the convention that the reader has chosen, named. No signs: between shafts at an angle they mean nothing.
 */
import { absolute, invert, isZero, type Rational, toText } from "../motion/rational";
import { FILE_UNITS, type UnitChoice } from "../units/choice";
import { turnsWords } from "../wording";
import { decimal, spokenFraction } from "./numbers";

/** Beyond this many digits a fraction is harder to grasp than a decimal. */
const MOST_DIGITS = 4;

/** What the fraction of a drive is a fraction of, as the reader has chosen it. */
export const ratioConvention = (units: UnitChoice): string =>
  units.ratio === "output" ? "input speed over output speed" : "output speed over input speed";

/** What the fraction of a mesh is a fraction of: `size` is what it is made of, "teeth". */
export const sizeConvention = (size: string, units: UnitChoice): string =>
  units.ratio === "output" ? `output ${size} over input ${size}` : `input ${size} over output ${size}`;

export interface RatioWords {
  /** "5 turns of A give 2 of C." without the full stop. */
  readonly turns: string;
  /** "5/2" or "2/5", as the convention has it; null where a side has more than four digits, or the output stands still. */
  readonly fraction: string | null;
  /** What the fraction is a fraction of. */
  readonly convention: string;
  /** "2.5" or "0.4" */
  readonly decimal: string;
  /** "five halves" or "two fifths", or the decimal where there is no fraction to say. */
  readonly spoken: string;
}

const isShort = (x: bigint): boolean => x < 10n ** BigInt(MOST_DIGITS);

/** All that is said of a ratio (`ratio`: speed of `output` over that of `input`, its sign left aside). */
export function ratioWords(input: string, output: string, ratio: Rational, units: UnitChoice): RatioWords {
  const speeds = absolute(ratio);
  // An output that stands still has no input speed over it: the other way round it is 0, and says the same.
  const isStill = isZero(speeds);
  const size = units.ratio === "output" && !isStill ? invert(speeds) : speeds;
  const fraction = !isStill && isShort(size.n) && isShort(size.d) ? toText(size) : null;
  return {
    turns: turnsWords(input, output, ratio, units),
    fraction,
    convention: ratioConvention(isStill ? { ...units, ratio: "input" } : units),
    decimal: decimal(size, units),
    spoken: fraction === null ? decimal(size, { ...units, decimalSign: FILE_UNITS.decimalSign }) : spokenFraction(size),
  };
}
