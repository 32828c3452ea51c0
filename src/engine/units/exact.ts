/** Exact fractions and the doubles and decimals nearest to them. */
import { bitLength, type Rational } from "../motion/rational";

/** Digits of a quotient that are worked out before the machine rounds it to a double, which needs 17. */
const DIGITS = 60;

/** The double nearest to a fraction, correctly rounded; ±Infinity beyond the largest. */
export function nearestDouble({ n, d }: Rational): number {
  if (n === 0n) return 0;
  const size = n < 0n ? -n : n;
  // Shifted by a power of ten so that the quotient has about so many digits; one more stands for the rest.
  const shift = DIGITS - Math.round((bitLength(size) - bitLength(d)) * Math.LOG10E * Math.LN2);
  const [over, under] = shift >= 0 ? [size * 10n ** BigInt(shift), d] : [size, d * 10n ** BigInt(-shift)];
  const rest = over % under === 0n ? "0" : "1";
  return Number(`${n < 0n ? "-" : ""}${over / under}${rest}e${-shift - 1}`);
}

/** Longer than any number that somebody types. */
const MOST_PLACES = 120;

/** A fraction as a decimal without end or rounding, "-0.25"; null where there is none, or it is very long. */
export function decimalText({ n, d }: Rational): string | null {
  let [twos, fives, rest] = [0, 0, d];
  while (rest % 2n === 0n && twos <= MOST_PLACES) [rest, twos] = [rest / 2n, twos + 1];
  while (rest % 5n === 0n && fives <= MOST_PLACES) [rest, fives] = [rest / 5n, fives + 1];
  const places = Math.max(twos, fives);
  if (rest !== 1n || places > MOST_PLACES) return null;
  const size = ((n < 0n ? -n : n) * 10n ** BigInt(places)) / d;
  const digits = size.toString().padStart(places + 1, "0");
  const sign = n < 0n ? "-" : "";
  return places === 0 ? sign + digits : `${sign}${digits.slice(0, -places)}.${digits.slice(-places)}`;
}
