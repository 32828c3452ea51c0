/** What a learner typed as a guess: read with the same rules as every field, or answered with one sentence. Never throws. */
import { divide, fromDecimal, fromNumber, isZero, type Rational, sign, toNumber } from "../motion/rational";
import type { UnitChoice } from "../units/choice";
import { LONGEST, readQuantity } from "../units/read";
import { type Complaint, plainSigns, quote, readExact } from "../units/text-parts";

/** A number that was guessed: a size, in the file's unit. */
export interface Guessed {
  readonly value: Rational;
  /** Significant figures that were typed, for a decimal; null for a fraction or whole turns, which are meant exactly. */
  readonly figures: number | null;
}

export type ReadGuess = Guessed | Complaint;

export const isComplaint = (read: object): read is Complaint => "complaint" in read;

const TOO_LONG: Complaint = { complaint: "That is far too long for one number: type just the number." };
const NO_SIGN: Complaint = { complaint: "Leave the sign out: which way it turns is picked with the two buttons." };

/** A comma where the reader has chosen the point: "2,5" could be 2.5, and in a ratio 2 to 5. */
function strayComma(text: string, units: UnitChoice, isRatio: boolean): Complaint | null {
  if (units.decimalSign !== "." || !/^[+-]?\d+,\d+$/.test(text)) return null;
  const [whole, part] = text.split(",");
  const other = isRatio ? ` or ${whole}:${part}` : "";
  return { complaint: `${quote(text)} can be read two ways: write ${whole}.${part}${other}.` };
}

/** A ratio where one number is asked. */
const strayRatio = (text: string): Complaint | null =>
  /[:\u2236]/.test(text) ? { complaint: `${quote(text)} is a ratio: here goes one number.` } : null;

/** Digits from the first that is not 0 on. */
const figuresOf = (digits: string): number =>
  digits
    .replace(/[eE].*$/, "")
    .replace(/\D/g, "")
    .replace(/^0+/, "").length;

const read = (text: string, units: UnitChoice): Rational | Complaint => {
  const value = readExact(text, units.decimalSign);
  return isComplaint(value) ? value : sign(value) < 0 ? NO_SIGN : value;
};

/**
 * Output speed over input speed, from "2/5", "0.4" or "2:5". A fraction or decimal is output over input; "5:2" is turns of the input to
 * turns of the output, as everywhere where a ratio is typed.
 */
export function readRatioGuess(typed: string, units: UnitChoice): ReadGuess {
  if (typed.length > LONGEST) return TOO_LONG;
  const text = plainSigns(typed);
  if (text === "") return { complaint: "Type a ratio, as in 2/5, 5:2 or 0.4." };
  const comma = strayComma(text, units, true);
  if (comma) return comma;
  const parts = text.split(/\s*[:\u2236]\s*/);
  if (parts.length === 1) {
    const value = read(text, units);
    return isComplaint(value) ? value : { value, figures: text.includes("/") ? null : figuresOf(text) };
  }
  const [input, output] = [read(parts[0] ?? "", units), read(parts[1] ?? "", units)];
  if (parts.length > 2) return { complaint: `${quote(text)} is not a ratio: write two numbers, as in 5:2.` };
  if (isComplaint(input)) return input;
  if (isComplaint(output)) return output;
  if (isZero(input))
    return { complaint: "For 0 turns of the input nothing can be said: write another number before the colon." };
  return { value: divide(output, input), figures: null };
}

/** "for 5 turns of A, C makes 2": output speed over input speed. */
export function readTurnsGuess(ofInput: string, ofOutput: string, units: UnitChoice): ReadGuess {
  const side = (typed: string): Rational | Complaint => {
    if (typed.length > LONGEST) return TOO_LONG;
    const text = plainSigns(typed);
    if (text === "") return { complaint: "Fill in both numbers of turns." };
    return strayRatio(text) ?? strayComma(text, units, false) ?? read(text, units);
  };
  const [input, output] = [side(ofInput), side(ofOutput)];
  if (isComplaint(input)) return input;
  if (isComplaint(output)) return output;
  if (isZero(input))
    return { complaint: "For 0 turns of the input nothing can be said: write another number of turns." };
  const isWhole = input.d === 1n && output.d === 1n;
  return { value: divide(output, input), figures: isWhole || !/[.,]/.test(ofOutput) ? null : figuresOf(ofOutput) };
}

/** A speed or a torque with its unit, or in the unit that the reader has chosen. */
export function readValueGuess(typed: string, unit: "rev/min" | "N·m", units: UnitChoice): ReadGuess {
  if (typed.length > LONGEST) return TOO_LONG;
  const text = plainSigns(typed);
  const stray = strayRatio(text) ?? strayComma(text, units, false);
  if (stray) return stray;
  const found = readQuantity(text, unit, units);
  if (isComplaint(found)) return found;
  if (!Number.isFinite(found.value)) return { complaint: `${quote(text)} is too large a number to reckon with.` };
  const value = found.digits === undefined ? fromNumber(found.value) : fromDecimal(found.digits);
  if (sign(value) < 0)
    return unit === "N·m" ? { complaint: "Leave the sign out: a torque is asked as a size." } : NO_SIGN;
  return { value, figures: figuresOf(/^[\d.,\s]*/.exec(text)?.[0] ?? "") };
}

/** A rounded answer counts from so many figures on: common practice, no source. */
export const LEAST_FIGURES = 3;
const SAME = 1e-12;

/** Whether a guess says this size: exactly, or rounded to the figures that were typed, if they are three or more. */
export function says({ value, figures }: Guessed, truth: number): boolean {
  const guessed = toNumber(value);
  const apart = Math.abs(guessed - truth);
  if (apart <= SAME * truth) return true;
  return figures !== null && figures >= LEAST_FIGURES && apart <= rounding(guessed, figures);
}

/** Whether it would, had it been given with more figures. */
export const isRough = ({ value, figures }: Guessed, truth: number): boolean =>
  figures !== null &&
  figures < LEAST_FIGURES &&
  Math.abs(toNumber(value) - truth) <= rounding(toNumber(value), figures);

/** Half a step in the last figure, and a hair for the machine's own rounding. */
const rounding = (x: number, figures: number): number =>
  x === 0 ? 0 : 0.5 * (1 + 1e-9) * 10 ** (Math.floor(Math.log10(x)) - figures + 1);
