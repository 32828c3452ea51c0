/** The parts of a typed number: its unit's name, its decimal sign, its digits, each read exactly or answered with a sentence. */
import { divide, fromDecimal, isZero, plus, type Rational, ZERO } from "../motion/rational";
import type { DecimalSign } from "./choice";
import type { Conversion } from "./factors";

export interface Complaint {
  /** One sentence. */
  readonly complaint: string;
}

export interface ReadNumber {
  /** In the file's unit. */
  readonly value: number;
  /** The exact digits of the same, where a double doesn't hold them and they come to an end. */
  readonly digits?: string;
  /** How the text was understood, where that isn't plain: "12 V × 1.5 A", "0.5 in". */
  readonly meaning?: string;
}

export type NumberText = ReadNumber | Complaint;

const DECIMAL = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;
const HALF_TYPED = /^[+-]?$|^[+-]?\.$|\d[eE][+-]?$|\/[+-]?$/;
/** "1 1/2", as inches are written. */
const MIXED = /^([+-]?)(\d+) +(\d+\/\d+)$/;

export const quote = (text: string): string => `“${text.length > 20 ? `${text.slice(0, 20)}…` : text}”`;

/** Signs of other keyboards as plain ones, and no blanks between groups of three digits. */
export const plainSigns = (typed: string): string =>
  typed
    .trim()
    .replace(/[\u2212\u2013]/g, "-")
    .replace(/⁻/g, "-")
    .replace(/¹/g, "1")
    // Groups of three set apart by a space, as in 1 450; not the thousandths of a mixed number.
    .replace(/(?<=\d)[ \u00a0\u2009\u202f](?=\d{3}(?![\d/]))/g, "")
    .replace(/[\u00a0\u2009\u202f]/g, " ");

/** A unit's name without what people write differently. */
const bareName = (text: string): string => text.replace(/[\s·⋅*×.^-]/g, "");

const lowerNames = new WeakMap<object, ReadonlyMap<string, Conversion | null>>();

/** The unit of that name: as it is written right, else in any case where that leaves no doubt (mW and MW do). */
function unitNamed(names: Readonly<Record<string, Conversion>>, text: string): Conversion | null {
  const bare = bareName(text);
  if (Object.hasOwn(names, bare)) return names[bare] ?? null;
  let lower = lowerNames.get(names);
  if (!lower) {
    const map = new Map<string, Conversion | null>();
    for (const [name, conversion] of Object.entries(names)) {
      const key = name.toLowerCase();
      map.set(key, map.has(key) && map.get(key) !== conversion ? null : conversion);
    }
    lower = map;
    lowerNames.set(names, map);
  }
  return lower.get(bare.toLowerCase()) ?? null;
}

interface Split {
  readonly digits: string;
  /** null where no unit was typed. */
  readonly conversion: Conversion | null;
}

/** Number and unit apart: the longest end that is a unit's name, right after a digit. */
export function splitUnit(text: string, names: Readonly<Record<string, Conversion>>): Split {
  for (let i = 1; i < text.length; i++) {
    if (!/[\d.,]/.test(text.charAt(i - 1)) || !/\d/.test(text.slice(0, i))) continue;
    const tail = text.slice(i);
    // "12 1/in" has a unit, "121/in" has not: it is 121 /in.
    if (/^[.·-]*\d/.test(tail) || (/^\s*\d/.test(tail) && !/^\s+1\//.test(tail))) continue;
    const conversion = unitNamed(names, tail);
    if (conversion) return { digits: text.slice(0, i).trim(), conversion };
  }
  return { digits: text, conversion: null };
}

/** The text with a point for the decimal sign; a complaint where it can be read two ways. */
function withPoint(text: string, sign: DecimalSign): string | Complaint {
  const other = sign === "," ? "." : ",";
  const groups = (mark: string): boolean => new RegExp(`^[+-]?[1-9]\\d{0,2}\\${mark}\\d{3}$`).test(text);
  if (text.includes(",") && (text.includes(".") || text.indexOf(",") !== text.lastIndexOf(","))) {
    return {
      complaint: `${quote(text)} has more than one decimal sign: write it without separators, as in 1450${sign}5.`,
    };
  }
  if (groups(other)) {
    const [whole = "", part = ""] = text.split(other);
    const plain = String(Number(`${whole}.${part}`)).replace(".", sign);
    return { complaint: `${quote(text)} can be read two ways: write ${whole}${part} or ${plain}.` };
  }
  return text.replace(",", ".");
}

function decimal(text: string): Rational | Complaint {
  if (!DECIMAL.test(text)) return { complaint: `${quote(text)} is not a number: write digits, as in 12 or 1.5.` };
  if (!Number.isFinite(Number(text))) return { complaint: `${quote(text)} is too large a number to reckon with.` };
  // Beyond what a double tells from 0 digits are not kept.
  return Number(text) === 0 ? ZERO : fromDecimal(text);
}

function fraction(text: string): Rational | Complaint {
  const mixed = MIXED.exec(text);
  if (mixed) {
    const [, sign = "", whole = "", part = ""] = mixed;
    const rest = fraction(part);
    if ("complaint" in rest) return rest;
    const size = plus(fromDecimal(whole), rest);
    return sign === "-" ? { n: -size.n, d: size.d } : size;
  }
  const slash = text.indexOf("/");
  if (slash < 0) return decimal(text);
  const above = decimal(text.slice(0, slash).trim());
  const below = decimal(text.slice(slash + 1).trim());
  if ("complaint" in above || "complaint" in below) {
    return { complaint: `${quote(text)} is not a fraction: write one number over another, as in 1/3.` };
  }
  if (isZero(below)) return { complaint: "Nothing can be divided by 0: write another number below the line." };
  return divide(above, below);
}

/** A number without a unit, exactly: "12", "1,5", "1e3", "1/3", "1 1/2". */
export function readExact(text: string, sign: DecimalSign): Rational | Complaint {
  if (/^[\d.,]+\s*:\s*[\d.,]*$/.test(text)) {
    return { complaint: `${quote(text)} is a ratio: type it where a stage is added; here goes one number.` };
  }
  const point = withPoint(text, sign);
  if (typeof point !== "string") return point;
  if (HALF_TYPED.test(point)) return { complaint: `${quote(text)} is not finished: go on typing the number.` };
  return fraction(point);
}
