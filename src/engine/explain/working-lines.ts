/** The workings as data: steps of lines, each a sentence, an equation in symbols, the same in numbers, and its result. */
import type { Unit, UnitChoice } from "../units/choice";
import { quantityIn } from "../wording";
import { type Formula, formulaText } from "./formula";

export interface WorkingLine {
  /** What is worked out, or the whole of what is said where there is no formula. Without a full stop. */
  readonly words: string;
  /** "d_a1 = m × z_a1"; empty where the line is words alone. */
  readonly symbols: Formula;
  /** The right-hand side with the numbers put in; empty where the result is given, not worked out. */
  readonly numbers: Formula;
  /** In `unit`, the file's; null where it isn't known, or the line is words alone. */
  readonly result: number | null;
  readonly unit: Unit;
  /** Why there is no result; null where there is one, or none was meant. */
  readonly missing: string | null;
  /** Ids of the shafts, gears and meshes that the line is about. */
  readonly about: readonly string[];
}

export interface WorkingStep {
  /** "Mesh m1: a1 (20 teeth, on Motor) drives b1 (50 teeth, on Cross shaft)" */
  readonly title: string;
  /** Ids, the chief one first. */
  readonly about: readonly string[];
  readonly lines: readonly WorkingLine[];
}

/** A line that is words alone. */
export const said = (words: string, about: readonly string[]): WorkingLine => ({
  words,
  symbols: [],
  numbers: [],
  result: null,
  unit: "",
  missing: null,
  about,
});

/** A line with a formula and its result. */
export const worked = (
  words: string,
  symbols: Formula,
  numbers: Formula,
  result: number,
  unit: Unit,
  about: readonly string[],
): WorkingLine => ({ words, symbols, numbers, result, unit, missing: null, about });

/** A line whose result isn't known, and why. */
export const lacking = (words: string, symbols: Formula, missing: string, about: readonly string[]): WorkingLine => ({
  words,
  symbols,
  numbers: [],
  result: null,
  unit: "",
  missing,
  about,
});

/** A line as plain text: "Pitch diameter of a1: d_a1 = m × z_a1 = 2 mm × 20 = 40 mm". Numbers as on screen. */
export function workingText(line: WorkingLine, units: UnitChoice): string {
  const parts = [line.symbols, line.numbers]
    .filter((formula) => formula.length > 0)
    .map((formula) => formulaText(formula, units));
  if (line.missing !== null) return `${[line.words, ...parts].join(": ")}: ${line.missing}`;
  if (line.result !== null) parts.push(quantityIn(line.result, line.unit, units));
  return parts.length === 0 ? line.words : `${line.words}: ${parts.join(" = ")}`;
}
