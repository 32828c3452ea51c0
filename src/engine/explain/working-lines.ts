/** The workings as data: steps of lines, each a sentence, an equation in symbols, the same in numbers, and its result. */
import { type Rational, toText } from "../motion/rational";
import type { Unit, UnitChoice } from "../units/choice";
import { figuresIn, MINUS, quantityIn } from "../wording";
import { type Formula, formulaText } from "./formula";

/** What a ratio is made of. */
export type RatioForm = "teeth" | "diameters" | "circumferences" | "sines";

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
  /** The result as the fraction that it is exactly; only on ratios. */
  readonly exact?: Rational;
  /** Which of several ways to one ratio this line is. */
  readonly form?: RatioForm;
}

/** Numbers that are to be compared, row by row. */
export interface WorkingTable {
  readonly caption: string;
  /** Of the words in front of each row, and of each of its cells. */
  readonly head: readonly string[];
  readonly rows: readonly { readonly words: string; readonly cells: readonly Formula[] }[];
  readonly about: readonly string[];
}

export interface WorkingStep {
  /** "Mesh m1: a1 (20 teeth, on Motor) drives b1 (50 teeth, on Cross shaft)" */
  readonly title: string;
  /** Ids, the chief one first. */
  readonly about: readonly string[];
  /** Id of the mesh whose step it is; left out on the steps of shafts and sets. */
  readonly mesh?: string;
  readonly lines: readonly WorkingLine[];
  /** After the lines. */
  readonly tables?: readonly WorkingTable[];
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

/** From here on the numbers of a fraction fill lines and tell nothing. */
const LONGEST = 10n ** 12n;

/** The exact fraction of a line as text, where its result rounded to the figures chosen doesn't show it; null where it does, or it is very long. */
export function exactText(line: WorkingLine, units: UnitChoice): string | null {
  if (!line.exact || line.result === null || line.exact.n >= LONGEST || line.exact.d >= LONGEST) return null;
  const text = toText(line.exact).replace("-", MINUS);
  return text === figuresIn(line.result, { ...units, decimalSign: "." }).replaceAll("\u202f", "") ? null : text;
}

/** A line as plain text: "Pitch diameter of a1: d_a1 = m × z_a1 = 2 mm × 20 = 40 mm". Numbers as on screen. */
export function workingText(line: WorkingLine, units: UnitChoice): string {
  const parts = [line.symbols, line.numbers]
    .filter((formula) => formula.length > 0)
    .map((formula) => formulaText(formula, units));
  if (line.missing !== null) return `${[line.words, ...parts].join(": ")}: ${line.missing}`;
  if (line.result !== null) {
    const exact = exactText(line, units);
    parts.push(`${quantityIn(line.result, line.unit, units)}${exact === null ? "" : `, exactly ${exact}`}`);
  }
  return parts.length === 0 ? line.words : `${line.words}: ${parts.join(" = ")}`;
}
