/**
 * The steps on which sizes snap while they are pulled: whole millimetres, or sixteenths of an inch where inches are chosen (common
 * practice, no source); the series of modules, or of diametral pitches. Sizes are mm throughout, as in the file.
 */
import { fromDecimal } from "../../engine/motion/rational";
import { toFile } from "../../engine/units/convert";
import { DIAMETRAL_PITCH } from "../../engine/units/factors";
import { DIAMETRAL_PITCHES } from "../../engine/units/module-series";
import { currentUnits } from "../../store/units";
import { toTenth } from "./handle";
import { MODULES } from "./series";

const INCH = 25.4;
const SIXTEENTH = INCH / 16;

const isInch = (): boolean => currentUnits().length === "in";
/** Sixteenths and hundredths of an inch have four decimals of a millimetre at the most: what is beyond is rounding. */
const tidy = (mm: number): number => Math.round(mm * 1e4) / 1e4 + 0;

/** Onto a whole step: 1 mm or 1/16 in. */
export const onStep = (mm: number): number =>
  isInch() ? tidy(Math.round(mm / SIXTEENTH) * SIXTEENTH) : Math.round(mm) + 0;

/** Onto a coarse step: 5 mm or 1/4 in. */
export const onCoarseStep = (mm: number): number =>
  isInch() ? tidy(Math.round((mm / INCH) * 4) * (INCH / 4)) : Math.round(mm / 5) * 5 + 0;

/** What a free hand can tell: a tenth of a millimetre or a hundredth of an inch. */
export const freely = (mm: number): number =>
  isInch() ? tidy(Math.round((mm / INCH) * 100) * (INCH / 100)) : toTenth(mm);

/** So many whole steps further, from wherever it stands. */
export const further = (mm: number, steps: number): number =>
  isInch() ? tidy(mm + steps * SIXTEENTH) : toTenth(mm + steps);

/** The module that a diametral pitch is, as typing the pitch gives it. */
const moduleOf = (pitch: number): number => toFile(fromDecimal(String(pitch)), DIAMETRAL_PITCH).value;
const PITCHES: readonly number[] = DIAMETRAL_PITCHES.flatMap(({ values }) => values.map(moduleOf)).sort(
  (a, b) => a - b,
);

const isPitch = (): boolean => currentUnits().tooth === "pitch";

/** Modules in mm, rising, that cutters are made for. */
export const toothSizes = (): readonly number[] => (isPitch() ? PITCHES : MODULES);

/** A module as a free hand can tell it: to a hundredth of a millimetre, or a tenth of a diametral pitch. */
export function freeModule(module: number): number {
  if (!isPitch()) return Math.max(0.01, Math.round(module * 100) / 100);
  return moduleOf(Math.max(1, Math.round((INCH / module) * 10)) / 10);
}
