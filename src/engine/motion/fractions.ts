/**
 * A list of exact fractions in lowest terms, one for each shaft. Those whose two whole numbers stay below 2^53 are held
 * and multiplied as doubles, which hold such numbers exactly; only longer ones are reckoned over BigInt.
 */
import { gcdNumber, multiply, type Rational, sign, toNumber, ZERO } from "./rational";

const isWhole = (x: number): boolean => Math.abs(x) <= Number.MAX_SAFE_INTEGER;

export class Fractions {
  /** Numerators (signed) and denominators (positive); of a long fraction the denominator is 0, which no other has. */
  private readonly over: Float64Array;
  private readonly under: Float64Array;
  /** Long fractions, and short ones that were asked for. */
  private readonly made: (Rational | undefined)[];

  /** `count` zeros. */
  constructor(count: number) {
    this.over = new Float64Array(count);
    this.under = new Float64Array(count).fill(1);
    this.made = new Array(count).fill(undefined);
  }

  at(i: number): Rational {
    const known = this.made[i];
    if (known) return known;
    const made = { n: BigInt(this.over[i] as number), d: BigInt(this.under[i] as number) };
    this.made[i] = made;
    return made;
  }

  isZero(i: number): boolean {
    return this.over[i] === 0;
  }

  /** Exact: -1, 0 or 1. */
  sign(i: number): number {
    return Math.sign(this.over[i] as number);
  }

  /** Whether it takes more than 53 bits a side. */
  isLong(i: number): boolean {
    return this.under[i] === 0;
  }

  /** The nearest double, as `toNumber` gives it. */
  toNumber(i: number): number {
    return this.isLong(i) ? toNumber(this.at(i)) : (this.over[i] as number) / (this.under[i] as number);
  }

  equals(i: number, j: number): boolean {
    if (!this.isLong(i) || !this.isLong(j)) return this.over[i] === this.over[j] && this.under[i] === this.under[j];
    const [a, b] = [this.at(i), this.at(j)];
    return a.n === b.n && a.d === b.d;
  }

  set(i: number, value: Rational): void {
    const [over, under] = [Number(value.n), Number(value.d)];
    if (isWhole(over) && isWhole(under)) {
      this.put(i, over, under);
      return;
    }
    // The sign stands beside the long number, so that signs and zeros are read alike.
    this.put(i, sign(value), 0);
    this.made[i] = value;
  }

  /** Fraction i becomes fraction j of `from` times n/d: whole numbers below 2^53, d not 0, in any terms. */
  setProduct(i: number, from: Fractions, j: number, n: number, d: number): void {
    if (n === 0 || from.isZero(j)) {
      this.put(i, 0, 1);
      return;
    }
    const own = gcdNumber(Math.abs(n), Math.abs(d));
    const top = (d < 0 ? -n : n) / own;
    const bottom = Math.abs(d) / own;
    if (from.isLong(j)) {
      this.set(i, multiply(from.at(j), { n: BigInt(top), d: BigInt(bottom) }));
      return;
    }
    const [over, under] = [from.over[j] as number, from.under[j] as number];
    const g = gcdNumber(Math.abs(over), bottom);
    const h = gcdNumber(Math.abs(top), under);
    const [newOver, newUnder] = [(over / g) * (top / h), (under / h) * (bottom / g)];
    // A product of whole doubles that comes out this small is exact.
    if (isWhole(newOver) && isWhole(newUnder)) this.put(i, newOver, newUnder);
    else this.set(i, multiply(from.at(j), { n: BigInt(top), d: BigInt(bottom) }));
  }

  private put(i: number, over: number, under: number): void {
    // Never -0.
    this.over[i] = over + 0;
    this.under[i] = under;
    this.made[i] = over === 0 ? ZERO : undefined;
  }
}
