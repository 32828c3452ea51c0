/**
 * Exact fractions over BigInt, always in lowest terms with a positive denominator. Our own rather than a library's
 * because a train multiplies long fractions by short ones, which needs no gcd of two long numbers.
 */

export interface Rational {
  readonly n: bigint;
  readonly d: bigint;
}

export const ZERO: Rational = { n: 0n, d: 1n };
export const ONE: Rational = { n: 1n, d: 1n };

const SMALL = BigInt(Number.MAX_SAFE_INTEGER);
const isSmall = (a: bigint): boolean => a <= SMALL && a >= -SMALL;

/** Greatest common divisor, not negative. Euclid; on doubles as soon as both fit. */
export function gcd(a: bigint, b: bigint): bigint {
  let x = a < 0n ? -a : a;
  let y = b < 0n ? -b : b;
  while (y !== 0n) {
    if (x <= SMALL && y <= SMALL) return BigInt(gcdNumber(Number(x), Number(y)));
    const r = x % y;
    x = y;
    y = r;
  }
  return x;
}

/** The same for whole numbers below 2^53, not negative. */
export function gcdNumber(a: number, b: number): number {
  let x = a;
  let y = b;
  // The processor divides 32-bit numbers many times as fast as it takes the rest of doubles.
  while (y !== 0) {
    if (x <= LARGEST_INT && y <= LARGEST_INT) return gcdInt(x, y);
    const r = x % y;
    x = y;
    y = r;
  }
  return x;
}

const LARGEST_INT = 2 ** 31 - 1;

function gcdInt(a: number, b: number): number {
  let x = a | 0;
  let y = b | 0;
  while (y !== 0) {
    const r = (x % y) | 0;
    x = y;
    y = r;
  }
  return x;
}

/** n/d in lowest terms. Throws a RangeError where d is 0. */
export function rational(n: bigint, d: bigint = 1n): Rational {
  if (d === 0n) throw new RangeError("A fraction needs a denominator other than 0.");
  const g = gcd(n, d);
  const s = d < 0n ? -g : g;
  return s === 1n ? { n, d } : { n: n / s, d: d / s };
}

export const negate = (a: Rational): Rational => ({ n: -a.n, d: a.d });
export const invert = (a: Rational): Rational => {
  if (a.n === 0n) throw new RangeError("0 has no inverse.");
  return a.n < 0n ? { n: -a.d, d: -a.n } : { n: a.d, d: a.n };
};

export function multiply(a: Rational, b: Rational): Rational {
  if (a.n === 0n || b.n === 0n) return ZERO;
  // Crosswise gcds keep the operands short: gcd(long, short) costs one division of the long one.
  const g = gcd(a.n, b.d);
  const h = gcd(b.n, a.d);
  const an = g === 1n ? a.n : a.n / g;
  const bd = g === 1n ? b.d : b.d / g;
  const bn = h === 1n ? b.n : b.n / h;
  const ad = h === 1n ? a.d : a.d / h;
  return { n: an * bn, d: ad * bd };
}

export const divide = (a: Rational, b: Rational): Rational => multiply(a, invert(b));

export function plus(a: Rational, b: Rational): Rational {
  if (a.n === 0n) return b;
  if (b.n === 0n) return a;
  if (a.d === b.d) return a.d === 1n ? { n: a.n + b.n, d: 1n } : rational(a.n + b.n, a.d);
  return rational(a.n * b.d + b.n * a.d, a.d * b.d);
}

export const minus = (a: Rational, b: Rational): Rational => plus(a, negate(b));
export const isZero = (a: Rational): boolean => a.n === 0n;
export const equals = (a: Rational, b: Rational): boolean => a.n === b.n && a.d === b.d;
export const sign = (a: Rational): -1 | 0 | 1 => (a.n > 0n ? 1 : a.n < 0n ? -1 : 0);
export const absolute = (a: Rational): Rational => (a.n < 0n ? negate(a) : a);

/** Whole numbers below this have a finite double. */
const BOUND = 2 ** 1000;

/** Number of bits of |a|. Linear in its length. */
export function bitLength(a: bigint): number {
  if (a === 0n) return 0;
  const double = Math.abs(Number(a));
  if (double < BOUND) {
    const floor = Math.floor(Math.log2(double));
    // The logarithm is rounded too, so the powers of two themselves decide.
    const bits = double < 2 ** floor ? floor : double < 2 ** (floor + 1) ? floor + 1 : floor + 2;
    // Rounding to a double may have carried onto a power of two, never beyond it.
    if (double !== 2 ** (bits - 1)) return bits;
  }
  const hex = (a < 0n ? -a : a).toString(16);
  return 4 * (hex.length - 1) + (32 - Math.clz32(Number.parseInt(hex.charAt(0), 16)));
}

/** The nearest double (within a few units in the last place); ±Infinity beyond the largest, 0 below the smallest. */
export function toNumber(a: Rational): number {
  if (isSmall(a.n) && isSmall(a.d)) return Number(a.n) / Number(a.d);
  // Shift both so that 64 significant bits stay, divide those, and put the power of two back.
  const dropN = Math.max(0, bitLength(a.n) - 64);
  const dropD = Math.max(0, bitLength(a.d) - 64);
  const quotient = Number(a.n >> BigInt(dropN)) / Number(a.d >> BigInt(dropD));
  const power = dropN - dropD;
  // In two steps, so that neither factor over- or underflows before the product does.
  const half = Math.trunc(power / 2);
  return quotient * 2 ** half * 2 ** (power - half);
}

const DECIMAL = /^([+-]?)(\d*)\.?(\d*)(?:[eE]([+-]?\d+))?$/;

/** A decimal text ("1450", "-0.25", "1e-3") as an exact fraction. Throws a RangeError where it isn't one, or its exponent is beyond ±400. */
export function fromDecimal(text: string): Rational {
  const match = DECIMAL.exec(text);
  const digits = `${match?.[2] ?? ""}${match?.[3] ?? ""}`;
  const exponent = Number(match?.[4] ?? 0) - (match?.[3] ?? "").length;
  if (!match || digits === "" || Math.abs(Number(match[4] ?? 0)) > 400)
    throw new RangeError(`${text} is not a decimal.`);
  const n = BigInt(digits) * (match[1] === "-" ? -1n : 1n);
  return exponent >= 0 ? rational(n * 10n ** BigInt(exponent)) : rational(n, 10n ** BigInt(-exponent));
}

/** A double as the shortest decimal that reads back as it, exactly. */
export const fromNumber = (x: number): Rational =>
  Number.isSafeInteger(x) ? { n: BigInt(x), d: 1n } : fromDecimal(String(x));

/** "-2/5", "2", "0". */
export const toText = (a: Rational): string => (a.d === 1n ? a.n.toString() : `${a.n}/${a.d}`);
