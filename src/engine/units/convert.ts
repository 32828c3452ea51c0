/** From the file's unit to the chosen one and back. */
import { divide, fromDecimal, isZero, multiply, type Rational } from "../motion/rational";
import type { ShownUnit, Unit, UnitChoice } from "./choice";
import { nearestDouble } from "./exact";
import { type Conversion, SAME } from "./factors";
import { QUANTITIES } from "./quantities";

/** W from which a power is told in kW by itself. */
const KILOWATTS_FROM = 10_000;

/** The unit that stands beside a number of the file's `unit`. */
export const shownUnit = (unit: Unit, units: UnitChoice): ShownUnit =>
  QUANTITIES[unit]?.shown(units) ?? (unit as ShownUnit);

export const conversionOf = (unit: Unit, shown: ShownUnit): Conversion => QUANTITIES[unit]?.conversions[shown] ?? SAME;

const factors = new WeakMap<Conversion, number>();
function factorOf(conversion: Conversion): number {
  let factor = factors.get(conversion);
  if (factor === undefined) {
    factor = nearestDouble(conversion.factor);
    factors.set(conversion, factor);
  }
  return factor;
}

/** A number of the file as one of the shown unit; a double, for numbers that are rounded anyway. */
export function toShown(value: number, conversion: Conversion): number {
  if (conversion === SAME) return value;
  const factor = factorOf(conversion);
  return conversion.kind === "over" ? factor / value : value / factor;
}

/** Between the file's `unit` and the chosen one. */
export const unitConversion = (unit: Unit, units: UnitChoice): Conversion => conversionOf(unit, shownUnit(unit, units));

/** A number to be told, in the chosen unit: of the file's `unit`, whichever of W and kW suits its size. */
export function inUnits(value: number, unit: Unit, units: UnitChoice): { value: number; unit: ShownUnit } {
  const chosen = shownUnit(unit, units);
  // By what is shown: a power that is rounded up to it is told as one that is it.
  const isLarge = chosen === "W" && Number(Math.abs(value).toPrecision(units.figures)) >= KILOWATTS_FROM;
  const shown = isLarge ? "kW" : chosen;
  return { value: toShown(value, conversionOf(unit, shown)), unit: shown };
}

/** A number of the shown unit as one of the file: the nearest double, and the fraction itself where it is one. */
export function toFile(shown: Rational, conversion: Conversion): { value: number; exact: Rational | null } {
  if (conversion.kind === "over" && isZero(shown)) return { value: Number.POSITIVE_INFINITY, exact: null };
  const exact = conversion.kind === "over" ? divide(conversion.factor, shown) : multiply(shown, conversion.factor);
  return { value: nearestDouble(exact), exact: conversion.kind === "angle" ? null : exact };
}

/** Digits that always tell one double from the next. */
const MOST_DIGITS = 17;

/**
 * The shortest decimal of the shown unit that is the file's number exactly, so that what was typed comes back as it
 * was: 25.4/12 mm is 12 /in. Where no decimal of up to `digits` digits is (40 mm in inches), the nearest, and `exact` false.
 */
export function shortest(
  value: number,
  conversion: Conversion,
  digits = MOST_DIGITS,
): { readonly text: string; readonly exact: boolean } {
  if (conversion === SAME) {
    const text = String(value === 0 ? 0 : value);
    const rounded = digits < MOST_DIGITS ? Number(value.toPrecision(digits)) : value;
    return rounded === value ? { text, exact: true } : { text: String(rounded), exact: false };
  }
  const near = toShown(value, conversion);
  if (!Number.isFinite(near)) return { text: String(near), exact: false };
  const tried = (count: number): string => String(Number(near.toPrecision(count)));
  const hits = (text: string): boolean => toFile(fromDecimal(text), conversion).value === value;
  // A short decimal reads the same rounded to more digits, so most numbers need one look.
  const last = tried(digits);
  if (digits < 15) return { text: last, exact: hits(last) };
  for (const count of [12, 15, 16, 17]) if (hits(tried(count))) return { text: tried(count), exact: true };
  return { text: last, exact: false };
}
