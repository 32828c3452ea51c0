/** Numbers in a field: what was typed is read by the field's rules, what stands there is written to fit its room. */

import { fromDecimal, fromNumber } from "../../engine/motion/rational";
import { FILE_UNITS, type ShownUnit, type Unit, type UnitChoice } from "../../engine/units/choice";
import { shortest, shownUnit, toFile, toShown, unitConversion } from "../../engine/units/convert";
import { type Conversion, SAME } from "../../engine/units/factors";
import { QUANTITIES } from "../../engine/units/quantities";
import { type EitherText, readEither, readQuantity } from "../../engine/units/read";
import { figures } from "../../engine/wording";

export interface NumberRules {
  /** The file's unit; what is typed and shown is in the chosen one. Another word than a unit stands there as it is. */
  readonly unit?: string;
  /** A second unit that the field takes where it is typed with the number. */
  readonly also?: "W" | "N·m";
  readonly whole?: boolean;
  /** In the file's unit: smallest allowed; with `above` the value itself is not. */
  readonly least?: number;
  readonly above?: boolean;
  readonly most?: number;
  /** With `below` the most itself is not allowed. */
  readonly below?: boolean;
}

const unitOf = (unit: string | undefined): Unit | null =>
  unit !== undefined && Object.hasOwn(QUANTITIES, unit) ? (unit as Unit) : null;

/** The unit that stands in a field. */
export const fieldUnit = (unit: string | undefined, units: UnitChoice): ShownUnit | null => {
  const own = unitOf(unit);
  return own === null ? null : shownUnit(own, units);
};

const conversionIn = (unit: string | undefined, units: UnitChoice): Conversion => {
  const own = unitOf(unit);
  return own === null ? SAME : unitConversion(own, units);
};

/** The shortest text that reads back as the same number; with `digits`, rounded to that many significant ones. */
export function numberText(value: number, digits?: number): string {
  if (digits === undefined || Number.isInteger(value)) return String(value === 0 ? 0 : value);
  return String(Number(value.toPrecision(digits)));
}

/** All digits, for editing: what is read back is the number of the file itself. `exact`: the file's own digits. */
export function fullText(value: number, unit: string | undefined, units: UnitChoice, exact?: string): string {
  const conversion = conversionIn(unit, units);
  const text = exact !== undefined && conversion === SAME ? exact : shortest(value, conversion).text;
  return text.replace(".", units.decimalSign);
}

/** Digits that a number at rest may have before it is rounded to the chosen figures. */
const SHOWN_DIGITS = 7;

/** Characters that a field grows to for a number at rest. */
const MOST_ROOM = 10;

/** A number at rest: in full where it is short, else rounded behind a sign that says so, "≈1.575"; never longer than its room. */
export function restText(value: number, unit: string | undefined, units: UnitChoice, exact?: string): string {
  const { text, exact: isWhole } = shortest(value, conversionIn(unit, units), SHOWN_DIGITS);
  const isExact = isWhole && (exact === undefined || exact === text);
  const signed = (digits: string): string => digits.replace("e+", "e").replace(".", units.decimalSign);
  if (isExact && text.length <= MOST_ROOM) return signed(text);
  const near = toShown(value, conversionIn(unit, units));
  const rounded = String(Number(near.toPrecision(units.figures)));
  if (rounded.length < MOST_ROOM) return signed(`≈${rounded}`);
  const short = near.toExponential(units.figures - 1).replace(/\.?0*e/, "e");
  return signed(isExact && Number(short) === near ? short : `≈${short}`);
}

/** The number that a text says, by the rules of its field; else one sentence on why it doesn't. Never throws. */
export function readNumber(typed: string, rules: NumberRules = {}, units: UnitChoice = FILE_UNITS): EitherText {
  const unit = rules.unit ?? "";
  const read: EitherText = rules.also ? readEither(typed, unit, rules.also, units) : readQuantity(typed, unit, units);
  if ("complaint" in read) return read;
  // The other unit has rules of its own: whoever takes it says so.
  const within = read.unit === undefined ? withinRules(read.value, rules, units) : null;
  return within ?? read;
}

/** Digits in threes, as everywhere else. */
const grouped = (value: number, units: UnitChoice): string => figures(value, 9, units.decimalSign);

const isOutside = (value: number, { least, most, above }: NumberRules): boolean =>
  (least !== undefined && (above ? value <= least : value < least)) || (most !== undefined && value > most);

/** A complaint where a number of the file is not within the rules, told in the chosen unit. */
function withinRules(value: number, rules: NumberRules, units: UnitChoice): { readonly complaint: string } | null {
  const shown = fieldUnit(rules.unit, units) ?? rules.unit;
  const unit = shown ? ` ${shown}` : "";
  const told = (limit: number): string => grouped(limitIn(limit, rules, units) ?? limit, units);
  const { least, most } = rules;
  if (!Number.isFinite(value)) return { complaint: "That is too large a number to reckon with." };
  if (rules.whole && !Number.isInteger(value)) {
    const sixth = numberText(value, 6).replace(".", units.decimalSign);
    const near = [Math.floor(value), Math.ceil(value)].filter((one) => !isOutside(one, rules));
    const offered = near.length > 0 ? near.map((one) => grouped(one, units)).join(" or ") : told(least ?? most ?? 0);
    return { complaint: `Only whole numbers go here: ${offered}, not ${sixth}.` };
  }
  if (least !== undefined && (rules.above ? value <= least : value < least)) {
    return { complaint: `It must be ${rules.above ? "more than" : "at least"} ${told(least)}${unit}.` };
  }
  if (most !== undefined && (rules.below ? value >= most : value > most)) {
    return { complaint: `It must be ${rules.below ? "less than" : "at most"} ${told(most)}${unit}.` };
  }
  return null;
}

/** A step of the file's unit as a round one of the chosen unit: 1, 2 or 5 of some power of ten; a whole pitch. */
export function shownStep(step: number, unit: string | undefined, units: UnitChoice): number {
  const conversion = conversionIn(unit, units);
  if (conversion === SAME) return step;
  if (conversion.kind === "over") return 1;
  const near = toShown(step, conversion);
  const power = 10 ** Math.floor(Math.log10(near));
  const nearest = [1, 2, 5, 10].reduce((best, round) =>
    Math.abs(Math.log(near / power / round)) < Math.abs(Math.log(near / power / best)) ? round : best,
  );
  return Number((nearest * power).toPrecision(3));
}

/** The next value up or down that a step leads to, in the chosen unit and back, kept within the rules, on the grid of the step. */
export function steppedIn(value: number, step: number, times: number, rules: NumberRules, units: UnitChoice): number {
  const conversion = conversionIn(rules.unit, units);
  if (conversion === SAME) return stepped(value, step, times, rules);
  const shownRules = { ...rules, least: limitIn(rules.least, rules, units), most: limitIn(rules.most, rules, units) };
  const from = Number(shortest(value, conversion).text);
  const to = stepped(from, shownStep(step, rules.unit, units), times, shownRules);
  return to === from ? value : toFile(fromDecimal(String(to)), conversion).value;
}

/** A limit of the file's unit in the chosen one. No field has a largest module, so a pitch too has to be more than 0. */
export function limitIn(limit: number | undefined, { unit }: NumberRules, units: UnitChoice): number | undefined {
  return limit === undefined || limit === 0 ? limit : toShown(limit, conversionIn(unit, units));
}

/** A number of the file as the nearest one of the chosen unit. */
export const valueIn = (value: number, unit: string | undefined, units: UnitChoice): number =>
  Number(shortest(value, conversionIn(unit, units)).text);

/** The same within one unit. */
export function stepped(value: number, step: number, times: number, rules: NumberRules): number {
  const grid = Math.round((value / step) * 1e6) / 1e6;
  const from = times > 0 ? Math.floor(grid) : Math.ceil(grid);
  // Rounded to the step's own decimals, so that 0.1 steps don't gather dust.
  const decimals = Math.max(0, Math.ceil(-Math.log10(step)) + 1);
  const next = Number(((from + times) * step).toFixed(decimals));
  return withinRules(next, { ...rules, unit: undefined }, FILE_UNITS) === null ? next : limit(value, next, step, rules);
}

function limit(value: number, next: number, step: number, rules: NumberRules): number {
  if (rules.least !== undefined && next <= rules.least) {
    const floor = rules.above ? Math.min(value, rules.least + step) : rules.least;
    return Math.min(value, floor);
  }
  if (rules.most !== undefined && next >= rules.most) {
    const ceiling = rules.below ? Math.max(value, rules.most - step) : rules.most;
    return Math.max(value, ceiling);
  }
  return value;
}

/** A number of the chosen unit as one of the file: what typing it gives. */
export const fileValue = (shown: number, unit: string | undefined, units: UnitChoice): number =>
  toFile(fromNumber(shown), conversionIn(unit, units)).value;
