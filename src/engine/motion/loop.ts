/**
 * After how long a turning drive looks as it did: the exact period of a looped animation that closes without a jump.
 *
 * A shaft that looks alike after 1/n turn in its own frame (n its folds) does so every 1/(n·|speed|) minutes. A carrier comes
 * round after whole turns only, and what it carries is then judged in the carrier's frame. The drive looks alike when all do: at
 * the least common multiple of those times, which is exact since speeds are fractions (diameters are decimals too).
 */
import { hasTeeth } from "../drive/types";
import type { Solved } from "../solved";
import { absolute, gcd, invert, isZero, multiply, type Rational, rational } from "./rational";

export type NoLoop = "empty" | "hidden" | "undetermined" | "still" | "round";

export type Loop =
  | {
      /** Minutes of the running drive, exact, above 0; no shorter time does. */
      readonly period: Rational;
      /** For each shaft how many of its steps (1/folds turn) it goes in one period, signed; 0 for one that stands still or is round. */
      readonly steps: readonly bigint[];
    }
  /** Why there is none. `still`: nothing turns. `round`: what turns is round and unmarked, so that no turning is seen. */
  | { readonly none: NoLoop };

/** What looks alike after any turn. */
export const ROUND = 0;

/**
 * After which part of a turn each shaft looks alike: 1/n turn for n folds, `ROUND` (0) for any turn at all.
 * @param hasMarks marks on rims are shown; their first one is larger, so that only whole turns do
 * @param drawn folds of what is drawn on a shaft besides its gears (spokes 3, a crank 1); `ROUND` for none
 */
export function foldsOf(
  { drive, index }: Pick<Solved, "drive" | "index">,
  hasMarks: boolean,
  drawn: (shaft: number) => number = () => ROUND,
): number[] {
  const isCarrier = new Set(index.frameOfShaft);
  return drive.shafts.map((_, shaft) => {
    const gears = index.gearsOfShaft[shaft] ?? [];
    if (isCarrier.has(shaft) || (hasMarks && gears.length > 0)) return 1;
    let folds = BigInt(drawn(shaft));
    for (const gear of gears) {
      const file = drive.gears[gear];
      if (file && hasTeeth(file)) folds = gcd(folds, BigInt(file.teeth));
    }
    return Number(folds);
  });
}

/** Least common multiple of two fractions above 0, in lowest terms: that of the numerators over the gcd of the denominators. */
const leastCommon = (a: Rational, b: Rational): Rational => rational((a.n / gcd(a.n, b.n)) * b.n, gcd(a.d, b.d));

/**
 * The shortest time after which every shaft looks as before, at the drive's own speeds. Pure, never throws.
 * @param folds of each shaft, whole and not negative: `foldsOf`
 */
export function loopOf({ drive, motion, veil }: Solved, folds: readonly number[]): Loop {
  if (drive.shafts.length === 0) return { none: "empty" };
  // A period would tell the speeds that a question asks for.
  if (veil) return { none: "hidden" };
  // A speed that no double holds can't be shown, however exact it is.
  if (motion.status !== "determined" || motion.speed.includes(null)) {
    return { none: motion.status === "locked" ? "still" : "undetermined" };
  }
  const { speeds } = motion;
  let period: Rational | null = null;
  let turns = false;
  const stepRates = speeds.map((speed, shaft) => {
    if (!speed || isZero(speed)) return null;
    turns = true;
    const fold = folds[shaft] ?? 1;
    if (fold === ROUND) return null;
    const rate = multiply(speed, rational(BigInt(fold)));
    const each = invert(absolute(rate));
    period = period ? leastCommon(period, each) : each;
    return rate;
  });
  if (!period) return { none: turns ? "round" : "still" };
  const whole: Rational = period;
  return { period: whole, steps: stepRates.map((rate) => (rate ? multiply(rate, whole).n : 0n)) };
}
