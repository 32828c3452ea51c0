/**
 * Names and numbers as they stand in a sentence: the one place that rounds, writes a minus sign and names a part. Used
 * by findings of every layer and by the explanations.
 */
import type { Drive, Gear, Shaft } from "./drive/types";
import { hasTeeth } from "./drive/types";
import { absolute, isZero, type Rational, toNumber } from "./motion/rational";
import { type DecimalSign, FILE_UNITS, type ShownUnit, type Unit, type UnitChoice } from "./units/choice";
import { inUnits } from "./units/convert";

/** A true minus sign, as wide as a plus: U+2212. */
export const MINUS = "\u2212";
/** Groups digits in threes, ISO 80000-1: a narrow space that no line breaks at, U+202F. */
const THIN_SPACE = "\u202f";

const SUPERSCRIPTS = "⁰¹²³⁴⁵⁶⁷⁸⁹";
const superscript = (n: number): string =>
  (n < 0 ? "⁻" : "") + [...String(Math.abs(n))].map((digit) => SUPERSCRIPTS.charAt(Number(digit))).join("");

/** The power of ten of a number that `figures` wrote with one, as plain digits: "⁻⁶" is "-6". */
export const plainPower = (superscripts: string): string =>
  [...superscripts].map((sign) => (sign === "⁻" ? "-" : String(SUPERSCRIPTS.indexOf(sign)))).join("");

/** Digits in threes from five of them on: 1450, 14 500. */
const grouped = (digits: string): string =>
  digits.length < 5 ? digits : digits.replace(/\B(?=(\d{3})+$)/g, THIN_SPACE);

/**
 * A number for a reader: rounded to `significant` figures, those of the units that are spoken where none are asked for (whole numbers below a million in full), without trailing
 * zeros, with a true minus sign, never "−0"; powers of ten from 10⁹ up and below 10⁻⁶. "out of range" where `x` is no
 * finite number.
 */
export function figures(
  x: number,
  significant: number = spoken.figures,
  decimalSign: DecimalSign = spoken.decimalSign,
): string {
  if (!Number.isFinite(x)) return "out of range";
  if (x === 0) return "0";
  const sign = x < 0 ? MINUS : "";
  const size = Math.abs(x);
  const rounded = Number.isInteger(size) && size < 1e6 ? size : Number(size.toPrecision(significant));
  if (rounded >= 1e9 || rounded < 1e-6) {
    const [mantissa = "", exponent = "0"] = rounded.toExponential(significant - 1).split("e");
    return `${sign}${String(Number(mantissa)).replace(".", decimalSign)} × 10${superscript(Number(exponent))}`;
  }
  const [whole = "", part] = String(rounded).split(".");
  return `${sign}${grouped(whole)}${part === undefined ? "" : `${decimalSign}${part}`}`;
}

const withUnit = (digits: string, unit: ShownUnit): string =>
  `${digits}${unit === "" || unit === "°" ? "" : " "}${unit}`;

/**
 * The units in which sentences are said: the file's, until a page that lets its reader choose says otherwise. Like a language, it touches
 * words alone: no number that is reckoned with, and nothing that is written to a file.
 */
let spoken: UnitChoice = FILE_UNITS;
export const speakIn = (units: UnitChoice): void => {
  spoken = units;
};

/** The file's own units stay as they stand there: 12,000 W is no 12 kW. */
const asSpoken = (x: number, unit: Unit | ShownUnit): { readonly value: number; readonly unit: ShownUnit } =>
  spoken === FILE_UNITS ? { value: x, unit: unit === "module" ? "mm" : unit } : inUnits(x, unit as Unit, spoken);

/**
 * The figures of a number that a sentence gives with `own`: above 4 that many are needed to tell it by, so fewer are never said; below 4
 * it is good for no more. The reader's own for all else.
 */
const figuresFor = (own: number | undefined): number =>
  own === undefined
    ? spoken.figures
    : own > FILE_UNITS.figures
      ? Math.max(own, spoken.figures)
      : Math.min(own, spoken.figures);

/** A number of the file's `unit` as a sentence says it, with its unit: "−580 rev/min", "63.43°", "2.5". */
export function quantity(x: number, unit: Unit | ShownUnit, significant?: number): string {
  const said = asSpoken(x, unit);
  return withUnit(figures(said.value, figuresFor(significant)), said.unit);
}

/** The digits of a limit of the file's `unit`, rounded in the unit that is said: whoever keeps to them keeps the limit. */
export function limitFigures(x: number, unit: Unit, towards: "up" | "down", significant = 3): string {
  const count = figuresFor(significant);
  return figures(roundOutward(asSpoken(x, unit).value, towards, count), count);
}

/** The same with its unit: "12.4 mm". */
export const limit = (x: number, unit: Unit, towards: "up" | "down", significant = 3): string =>
  withUnit(limitFigures(x, unit, towards, significant), asSpoken(x, unit).unit);

/** Several numbers of one unit: "12 to 15 mm", "0, −20, 100 mm". A word may stand for a number. */
export function quantities(
  list: readonly (number | string)[],
  between: string,
  unit: Unit,
  significant?: number,
): string {
  const told = list.map((x) => (typeof x === "string" ? x : figures(asSpoken(x, unit).value, figuresFor(significant))));
  return withUnit(told.join(between), asSpoken(0, unit).unit);
}

/** What the size of teeth is called: "module", or "diametral pitch" where that is spoken. */
export const toothSizeName = (): string => (spoken.tooth === "pitch" ? "diametral pitch" : "module");

/** "module 2 mm", or "diametral pitch 12.7 /in" where that is spoken. */
export const toothSizeWords = (module: number, significant?: number): string =>
  `${toothSizeName()} ${quantity(module, "module", significant)}`;

/** A number without a unit as the reader has chosen it. */
export const figuresIn = (x: number, units: UnitChoice): string => figures(x, units.figures, units.decimalSign);

/** A number of the file's `unit` in the unit that the reader has chosen: "1.575 in", "12.5 kW", "63,43°". */
export function quantityIn(x: number, unit: Unit, units: UnitChoice): string {
  const shown = inUnits(x, unit, units);
  return withUnit(figuresIn(shown.value, units), shown.unit);
}

/** Rounds up or down to a whole number of steps, so that a limit that is printed still keeps the limit. */
export function roundToStep(x: number, towards: "up" | "down", step: number): number {
  // A double a hair beside a whole number of steps is that number: no step further.
  const steps = towards === "up" ? Math.ceil(x / step - 1e-9) : Math.floor(x / step + 1e-9);
  return Number((steps * step).toPrecision(12));
}

/** The same at the last of `significant` figures. */
export const roundOutward = (x: number, towards: "up" | "down", significant = 3): number =>
  x === 0 || !Number.isFinite(x)
    ? x
    : roundToStep(x, towards, 10 ** (Math.floor(Math.log10(Math.abs(x))) - significant + 1));

const LONGEST_NAME = 60;
/** Marks that turn the direction of text round: they would scramble the sentence about them. */
const DIRECTION_MARKS = /[\u200e\u200f\u061c\u202a-\u202e\u2066-\u2069]/g;
/** Printable ASCII, single spaces within. */
const PLAIN = /^[!-~]+(?: [!-~]+)*$/;
const RIGHT_TO_LEFT = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc]|[\ud802\ud803\ud83a\ud83b]/;

/**
 * A name or an id as it may stand in a sentence: on one line, at most 60 characters, and set apart (U+2068, U+2069) where
 * it is written from right to left.
 */
export function nameText(name: string): string {
  // Most names are short and plain, and sentences about large drives name many.
  if (name.length <= LONGEST_NAME && PLAIN.test(name)) return name;
  // Cut first: a name may be a hundred thousand characters long.
  const head = [...name.slice(0, 4 * LONGEST_NAME)];
  const short = head.length > LONGEST_NAME ? `${head.slice(0, LONGEST_NAME - 1).join("")}…` : head.join("");
  const plain = short.replace(DIRECTION_MARKS, "").replace(/\s+/g, " ").trim();
  return RIGHT_TO_LEFT.test(plain) ? `\u2068${plain}\u2069` : plain;
}

const ownName = (shaft: Shaft): string => nameText(shaft.name) || nameText(shaft.id);

/** By the list of shafts: an edit that leaves it alone leaves the names alone. */
const countedNames = new WeakMap<Drive["shafts"], ReadonlyMap<string, number>>();
function nameCounts({ shafts }: Pick<Drive, "shafts">): ReadonlyMap<string, number> {
  const known = countedNames.get(shafts);
  if (known) return known;
  const counts = new Map<string, number>();
  for (const shaft of shafts) counts.set(ownName(shaft), (counts.get(ownName(shaft)) ?? 0) + 1);
  countedNames.set(shafts, counts);
  return counts;
}

/** What a sentence calls a shaft: its name, else its id; both where two shafts have one name. Throws a RangeError beyond the list. */
export function shaftName(drive: Pick<Drive, "shafts">, index: number): string {
  const shaft = drive.shafts[index];
  if (!shaft) throw new RangeError(`There is no shaft ${index}.`);
  const name = ownName(shaft);
  return (nameCounts(drive).get(name) ?? 0) > 1 && name !== nameText(shaft.id)
    ? `${name} (${nameText(shaft.id)})`
    : name;
}

/** How many names a sentence lists before it counts the rest. */
const MOST_NAMED = 6;

/** "A, B and C", "A, B, C, D, E, F and 12 more"; empty for none. One name more than the most is named rather than counted. */
export function listNames(names: readonly string[]): string {
  const more = names.length - MOST_NAMED;
  const shown = more > 1 ? [...names.slice(0, MOST_NAMED), `${more} more`] : names;
  return shown.length < 2 ? (shown[0] ?? "") : `${shown.slice(0, -1).join(", ")} and ${shown[shown.length - 1]}`;
}

/** "20 teeth", "1 tooth", "60 mm". */
export const gearSize = (gear: Gear, units: UnitChoice = spoken): string =>
  hasTeeth(gear) ? `${gear.teeth} ${gear.teeth === 1 ? "tooth" : "teeth"}` : quantityIn(gear.diameter, "mm", units);

/** What a sentence calls a gear: "a1 (20 teeth, on Motor)". */
export const gearName = (drive: Drive, gear: Gear, shaft: number, units: UnitChoice = spoken): string =>
  `${nameText(gear.id)} (${gearSize(gear, units)}, on ${shaftName(drive, shaft)})`;

/** Beyond this many digits whole numbers of turns are harder to grasp than a decimal. */
const MOST_DIGITS = 10_000n;
const turnsOf = (count: bigint, name: string): string =>
  count === 1n ? `1 turn of ${name} gives` : `${count} turns of ${name} give`;

/**
 * "5 turns of A give 2 of C": `ratio` is the speed of `output` over that of `input`, its sign left aside. The smallest
 * whole numbers, or "1 turn of A gives 0.0235 of C" where one of them has more than four digits.
 */
export function turnsWords(input: string, output: string, ratio: Rational, units: UnitChoice = spoken): string {
  const size = absolute(ratio);
  if (isZero(size)) return `${output} stands still while ${input} turns`;
  if (size.n < MOST_DIGITS && size.d < MOST_DIGITS) return `${turnsOf(size.d, input)} ${size.n} of ${output}`;
  const value = toNumber(size);
  if (Number.isFinite(value) && value > 0) return `1 turn of ${input} gives ${figuresIn(value, units)} of ${output}`;
  return `1 turn of ${input} gives ${value === 0 ? "almost none" : "more turns than can be written"} of ${output}`;
}
