/** Sizes of teeth that cutters are made for, in the order in which one should choose; others are accepted everywhere. */

export interface Series {
  readonly name: string;
  /** mm, or 1/in. */
  readonly values: readonly number[];
}

/** Diametral pitches in general use: Shigley, Mechanical Engineering Design, table 13-2, from memory. */
export const DIAMETRAL_PITCHES: readonly Series[] = [
  { name: "coarse", values: [2, 2.25, 2.5, 3, 4, 6, 8, 10, 12, 16] },
  { name: "fine", values: [20, 24, 32, 40, 48, 64, 80, 96, 120, 150, 200] },
];
