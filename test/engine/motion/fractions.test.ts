/** Lists of fractions: whatever is held as doubles is the same as over BigInt throughout. */
import { describe, expect, test } from "vitest";
import { Fractions } from "../../../src/engine/motion/fractions";
import { bitLength, gcdNumber, multiply, rational, toNumber } from "../../../src/engine/motion/rational";
import { picker } from "../../support/random-drives";

describe("products along a chain", () => {
  test.each([1, 2, 3, 4, 5, 6, 7, 8])("agree with BigInt on both sides of 2^53, seed %i", (seed) => {
    const pick = picker(seed);
    const list = new Fractions(41);
    let exact = rational(1n);
    list.set(0, exact);
    for (let i = 1; i <= 40; i += 1) {
      // Some steps take the one before back, so that long fractions grow short again.
      const isBack = pick.random() < 0.4;
      const last = list.at(i - 1);
      const fits = last.n < 2n ** 40n && last.n > -(2n ** 40n) && last.d < 2n ** 40n;
      const [n, d] =
        isBack && fits
          ? [Number(last.d), Number(last.n)]
          : [pick.of([-1, 1]) * pick.whole(1, 100_000), pick.of([-1, 1]) * pick.whole(1, 100_000)];
      exact = multiply(exact, rational(BigInt(n), BigInt(d)));
      list.setProduct(i, list, i - 1, n, d);
      expect(list.at(i)).toEqual(exact);
      expect(list.toNumber(i)).toBe(toNumber(exact));
      expect(list.sign(i)).toBe(exact.n > 0n ? 1 : -1);
    }
  });

  test("shrink back to doubles once they fit", () => {
    const list = new Fractions(3);
    list.set(0, rational(2n ** 60n, 3n));
    expect(list.isLong(0)).toBe(true);
    list.setProduct(1, list, 0, 3, 2 ** 50);
    expect(list.isLong(1)).toBe(false);
    expect(list.at(1)).toEqual(rational(1024n));
    list.setProduct(2, list, 0, 0, 5);
    expect(list.isZero(2)).toBe(true);
    expect(list.at(2)).toEqual(rational(0n));
  });

  test("a shorter fraction is never equal to a longer one", () => {
    const list = new Fractions(3);
    list.set(0, rational(2n ** 60n + 1n, 3n));
    list.set(1, rational(2n ** 60n + 1n, 3n));
    list.set(2, rational(1n));
    expect(list.equals(0, 1)).toBe(true);
    expect(list.equals(0, 2)).toBe(false);
  });
});

test("the length in bits is exact beside every power of two", () => {
  for (let power = 1; power <= 1200; power += 1) {
    const whole = 2n ** BigInt(power);
    expect([bitLength(whole - 1n), bitLength(whole), bitLength(whole + 1n), bitLength(-whole)]).toEqual([
      power,
      power + 1,
      power + 1,
      power + 1,
    ]);
  }
  expect(bitLength(0n)).toBe(0);
});

test("greatest common divisors of doubles, on both sides of 2^31", () => {
  expect(gcdNumber(2 ** 52, 2 ** 31)).toBe(2 ** 31);
  expect(gcdNumber(3 * 2 ** 45, 9 * 2 ** 20)).toBe(3 * 2 ** 20);
  expect(gcdNumber(0, 2 ** 40)).toBe(2 ** 40);
  expect(gcdNumber(17, 0)).toBe(17);
});
