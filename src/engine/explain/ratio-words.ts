/**
 * A ratio in words. Turns come first ("5 turns of A give 2 of C"), because three conventions for one fraction teach its
 * inverse; the fraction comes after, with its convention named. No signs: between shafts at an angle they mean nothing.
 */
import { absolute, type Rational, toText } from "../motion/rational";
import { FILE_UNITS, type UnitChoice } from "../units/choice";
import { turnsWords } from "../wording";
import { decimal, spokenFraction } from "./numbers";

/** Beyond this many digits a fraction is harder to grasp than a decimal. */
const MOST_DIGITS = 4;

export const RATIO_CONVENTION = "output speed over input speed";

export interface RatioWords {
  /** "5 turns of A give 2 of C." without the full stop. */
  readonly turns: string;
  /** "2/5"; null where a side has more than four digits. */
  readonly fraction: string | null;
  /** What the fraction is a fraction of. */
  readonly convention: string;
  /** "0.4" */
  readonly decimal: string;
  /** "two fifths", or the decimal where there is no fraction to say. */
  readonly spoken: string;
}

const isShort = (x: bigint): boolean => x < 10n ** BigInt(MOST_DIGITS);

/** All that is said of a ratio (`ratio`: speed of `output` over that of `input`, its sign left aside). */
export function ratioWords(input: string, output: string, ratio: Rational, units: UnitChoice): RatioWords {
  const size = absolute(ratio);
  const fraction = isShort(size.n) && isShort(size.d) ? toText(size) : null;
  return {
    turns: turnsWords(input, output, ratio, units),
    fraction,
    convention: RATIO_CONVENTION,
    decimal: decimal(size, units),
    spoken: fraction === null ? decimal(size, { ...units, decimalSign: FILE_UNITS.decimalSign }) : spokenFraction(size),
  };
}
