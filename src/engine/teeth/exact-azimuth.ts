/**
 * Azimuths as exact fractions of a turn, so that a loop of teeth closes or doesn't, and never "within rounding". The
 * file gives degrees as decimals; directions that follow from positions are compared with what the file's own
 * azimuths can make of them.
 */
import { fromNumber, minus, plus, type Rational, rational, toNumber } from "../motion/rational";

/** Turns: a double this close to a fraction that the drive's numbers make is that fraction. */
const SAME_TURN = 1e-10;
/** Denominator, of a turn: eighths of a degree and all their parts. Beyond it a fraction is a matter of chance. */
const LARGEST_DENOMINATOR = 2880;

const HALF = rational(1n, 2n);
const PLAIN = [rational(0n), HALF, rational(1n, 4n), rational(3n, 4n)];

/** Degrees of the file as a fraction of a turn. */
export const turnsOfDegrees = (degrees: number): Rational => {
  const { n, d } = fromNumber(degrees);
  return rational(n, d * 360n);
};

const isNear = (turns: number, fraction: Rational): boolean => {
  const off = turns - toNumber(fraction);
  return Math.abs(off - Math.round(off)) < SAME_TURN;
};

/** The fraction that a direction is: one of `known`, the opposite of one, a sum or difference of two, or a plain one; null for none. */
export function exactTurns(turns: number, known: readonly Rational[]): Rational | null {
  const single = [...known, ...PLAIN];
  for (const value of single) {
    if (isNear(turns, value)) return value;
    const opposite = plus(value, HALF);
    if (isNear(turns, opposite)) return opposite;
  }
  for (const a of known) {
    for (const b of known) {
      for (const value of [minus(a, b), plus(a, b)]) {
        for (const offset of PLAIN) {
          const sum = plus(value, offset);
          if (isNear(turns, sum)) return sum;
        }
      }
    }
  }
  return nearFraction(turns);
}

/** The fraction of least denominator within the tolerance, by continued fractions; null beyond the largest denominator. */
function nearFraction(turns: number): Rational | null {
  let rest = turns - Math.floor(turns);
  let [n0, n1, d0, d1] = [0, 1, 1, 0];
  for (let i = 0; i < 24; i++) {
    const whole = Math.floor(rest);
    [n0, n1] = [n1, whole * n1 + n0];
    [d0, d1] = [d1, whole * d1 + d0];
    if (d1 > LARGEST_DENOMINATOR) return null;
    const fraction = rational(BigInt(n1), BigInt(d1));
    if (isNear(turns, fraction)) return fraction;
    if (rest === whole) return null;
    rest = 1 / (rest - whole);
  }
  return null;
}
