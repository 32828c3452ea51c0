/** Sizes of teeth that cutters are made for, in the order in which one should choose; others are accepted everywhere. */

export interface Series {
  readonly name: string;
  /** mm, or 1/in. */
  readonly values: readonly number[];
}

/** Modules of ISO 54:1996 (cylindrical gears, modules from 1 mm on); the standard asks to avoid 6.5. */
export const ISO_54_MODULES: readonly Series[] = [
  {
    name: "ISO 54, series I (first choice)",
    values: [1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50],
  },
  {
    name: "ISO 54, series II",
    values: [1.125, 1.375, 1.75, 2.25, 2.75, 3.5, 4.5, 5.5, 6.5, 7, 9, 11, 14, 18, 22, 28, 36, 45],
  },
];

/** Diametral pitches in general use: Shigley, Mechanical Engineering Design, table 13-2, from memory. */
export const DIAMETRAL_PITCHES: readonly Series[] = [
  { name: "coarse", values: [2, 2.25, 2.5, 3, 4, 6, 8, 10, 12, 16] },
  { name: "fine", values: [20, 24, 32, 40, 48, 64, 80, 96, 120, 150, 200] },
];
