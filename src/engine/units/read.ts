/** What somebody typed, as a number of the file: many ways to write one are read, and the rest is answered with a sentence. */
import { fromDecimal, isZero } from "../motion/rational";
import type { Unit, UnitChoice } from "./choice";
import { conversionOf, shownUnit, toFile } from "./convert";
import { decimalText } from "./exact";
import { type Conversion, SAME, times } from "./factors";
import { QUANTITIES } from "./quantities";
import { readSupply } from "./supply";
import {
  type Complaint,
  type NumberText,
  plainSigns,
  quote,
  type ReadNumber,
  readExact,
  splitUnit,
} from "./text-parts";

/** Longer than any sensible number; a page of text pasted by mistake is refused by its length. */
export const LONGEST = 64;

/** Units of numbers that have none on screen, or one that is no unit of measure. */
const OTHERS: Readonly<Record<string, Readonly<Record<string, Conversion>>>> = {
  "": { "%": times("0.01") },
  teeth: { teeth: SAME, tooth: SAME },
};

const isUnit = (unit: string): unit is Unit => Object.hasOwn(QUANTITIES, unit);

/**
 * The number of the file that a text says in a field of `unit` (the file's; anything else stands beside the number and is not
 * converted); a number alone is one of the chosen unit. Never throws.
 */
export function readQuantity(typed: string, unit: string, units: UnitChoice): NumberText {
  if (typed.length > LONGEST) return { complaint: "That is far too long for one number: type just the number." };
  const text = plainSigns(typed);
  if (text === "") return { complaint: "Type a number." };
  const quantity = isUnit(unit) ? QUANTITIES[unit] : undefined;
  const supply = unit === "W" || unit === "N·m" ? readSupply(text, unit, units.decimalSign) : null;
  if (supply) return supply;
  const { digits, conversion } = splitUnit(text, quantity?.names ?? OTHERS[unit] ?? {});
  const read = readExact(digits, units.decimalSign);
  if ("complaint" in read) return (conversion ? null : unknownUnit(text, unit)) ?? read;
  const own = isUnit(unit) ? conversionOf(unit, shownUnit(unit, units)) : SAME;
  const { value, exact } = toFile(read, conversion ?? own);
  if (value === Number.POSITIVE_INFINITY && isZero(read)) return { complaint: "It must be more than 0." };
  const isForeign = conversion !== null && conversion !== own && quantity !== undefined;
  const exactDigits = exact && decimalText(exact);
  return {
    value,
    ...(exactDigits && !isShort(exactDigits, value) ? { digits: exactDigits } : {}),
    ...(isForeign ? { meaning: text } : {}),
  };
}

/** Whether the double itself says all digits. */
const isShort = (digits: string, value: number): boolean => {
  const own = decimalText(fromDecimal(String(value)));
  return own === digits || Number(digits) !== value;
};

/** A number with a name behind it that is no unit of the field. */
function unknownUnit(text: string, unit: string): Complaint | null {
  const quantity = isUnit(unit) ? QUANTITIES[unit] : undefined;
  const [, name] = /^[+-]?[\d.,/ ]*\d[.,]?\s*(\p{L}[^\d]*)$/u.exec(text) ?? [];
  if (!quantity || !name || /^e$/i.test(name)) return null;
  const [first, second] = quantity.examples;
  return {
    complaint: `${quote(name.trim())} is no unit of ${quantity.name}: write ${first}, ${second} or just the number.`,
  };
}

/** `unit`: which unit the number is of, where it is the second of two that a field takes. */
export type EitherText = (ReadNumber & { readonly unit?: "W" | "N·m" }) | Complaint;

/** The same in a field that takes either of two units, one of which is typed with the number: `unit` tells which it was. */
export function readEither(typed: string, unit: string, also: "W" | "N·m", units: UnitChoice): EitherText {
  const first = readQuantity(typed, unit, units);
  if ("value" in first || typed.length > LONGEST) return first;
  const half = readSupply(plainSigns(typed), also, units.decimalSign);
  if (half && "complaint" in half) return half;
  const second = readQuantity(typed, also, units);
  return "value" in second ? { ...second, unit: also } : first;
}
