/**
 * The modules of ISO 54 (cylindrical gears for general and heavy engineering), mm: series I is preferred, series II second, and
 * 6.5 of it to be avoided. From memory of the 1996 edition.
 */

export const SERIES_I: readonly number[] = [1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50];
export const SERIES_II: readonly number[] = [
  1.125, 1.375, 1.75, 2.25, 2.75, 3.5, 4.5, 5.5, 6.5, 7, 9, 11, 14, 18, 22, 28, 36, 45,
];
/** As they are offered, by name. */
export const ISO_54_MODULES = [
  { name: "ISO 54, series I (first choice)", values: SERIES_I },
  { name: "ISO 54, series II", values: SERIES_II },
] as const;
/** Both, preferred first. */
export const MODULES: readonly number[] = [...SERIES_I, ...SERIES_II];
