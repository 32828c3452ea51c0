/**
 * Simple fractions near a ratio, by the tree of Stern and Brocot: the clockmaker's way to wheels that can be cut. From two
 * neighbours a/b and c/d the mediant (a + c)/(b + d) is tried, and the side that holds the ratio kept.
 * B. Hayes, On the Teeth of Wheels, American Scientist 88(4), 2000, DOI 10.1511/2000.29.296.
 */
import { absolute, equals, minus, type Rational, rational, sign } from "../motion/rational";

/** The mediant of two fractions, as they are written. */
export const mediant = (left: Rational, right: Rational): { readonly n: bigint; readonly d: bigint } => ({
  n: left.n + right.n,
  d: left.d + right.d,
});

/**
 * Every fraction that comes nearer to `ratio` (above 0) than all with a smaller denominator, up to the ratio itself or to
 * the last whose two sides stay within `most`. Sorted by denominator.
 */
export function approximations(ratio: Rational, most: number): Rational[] {
  const limit = BigInt(Math.floor(most));
  const found: Rational[] = [];
  const errorOf = (value: Rational): Rational => absolute(minus(value, ratio));
  const take = (value: Rational): void => {
    const last = found[found.length - 1];
    if (last && sign(minus(errorOf(last), errorOf(value))) <= 0) return;
    if (last && last.d === value.d) found.pop();
    found.push(value);
  };
  // 0/1 and 1/0, the ends of the tree; the second is no number, only a pair to add.
  let [left, right] = [
    { n: 0n, d: 1n },
    { n: 1n, d: 0n },
  ];
  for (;;) {
    const middle = mediant(left, right);
    if (middle.n > limit || middle.d > limit) return found;
    const value = rational(middle.n, middle.d);
    take(value);
    if (equals(value, ratio)) return found;
    if (sign(minus(value, ratio)) < 0) left = middle;
    else right = middle;
  }
}
