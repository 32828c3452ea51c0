/** Numbers as shown and as said. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { shown, spoken, spokenFraction } from "../../../src/engine/explain/numbers";
import { ratioConvention, ratioWords } from "../../../src/engine/explain/ratio-words";
import { rational } from "../../../src/engine/motion/rational";
import { FILE_UNITS } from "../../../src/engine/units/choice";
import { figures, nameText, quantity, roundOutward, turnsWords } from "../../../src/engine/wording";
import { evaluate } from "./evaluate";

const fraction = (n: number, d = 1) => rational(BigInt(n), BigInt(d));

test.each([
  [0, "0"],
  [-0, "0"],
  [1450, "1450"],
  [-580, "−580"],
  [53.66563, "53.67"],
  [0.4, "0.4"],
  [2.50001, "2.5"],
  [0.000123456, "0.0001235"],
  [12345, "12\u202f345"],
  [1234567.8, "1\u202f235\u202f000"],
  [6.02214e23, "6.022 × 10²³"],
  [-1.2e-9, "−1.2 × 10⁻⁹"],
  [99999.6, "100\u202f000"],
  [Number.NaN, "out of range"],
  [Number.POSITIVE_INFINITY, "out of range"],
])("figures(%d)", (x, text) => {
  expect(figures(x)).toBe(text);
});

test("what is printed is within half a unit of the fourth figure", () => {
  fc.assert(
    fc.property(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e30, max: 1e30 }), (x) => {
      fc.pre(x === 0 || Math.abs(x) > 1e-30);
      const text = figures(x);
      expect(text).not.toMatch(/^−0$|-|\.\d*0( |$)|\.$/);
      expect(Math.abs(evaluate(text) - x)).toBeLessThanOrEqual(Math.abs(x) * 5.0001e-4);
    }),
  );
});

test("units always, power in kW from 10,000 W", () => {
  expect(quantity(63.435, "°")).toBe("63.44°");
  expect(quantity(-580, "rev/min")).toBe("−580 rev/min");
  expect(shown(9999, "W", FILE_UNITS)).toBe("9999 W");
  expect(shown(10_000, "W", FILE_UNITS)).toBe("10 kW");
  expect(shown(-12_345, "W", FILE_UNITS)).toBe("−12.35 kW");
  expect(shown(null, "W", FILE_UNITS)).toBe("not known");
});

test("said aloud: signs, units and fractions as words", () => {
  expect(spoken(-580, "rev/min", FILE_UNITS)).toBe("minus 580 revolutions per minute");
  expect(spoken(1, "N·m", FILE_UNITS)).toBe("1 newton metre");
  expect(spoken(12_500, "W", FILE_UNITS)).toBe("12.5 kilowatts");
  expect(spoken(123456, "mm", FILE_UNITS)).toBe("123456 millimetres");
  expect(spoken(3e-9, "m/s", FILE_UNITS)).toBe("3 times 10 to the power minus 9 metres per second");
  expect(spoken(null, "N", FILE_UNITS, "not fixed yet")).toBe("not fixed yet");
  expect(spokenFraction(fraction(2, 5))).toBe("two fifths");
  expect(spokenFraction(fraction(-1, 2))).toBe("minus one half");
  expect(spokenFraction(fraction(3, 2))).toBe("three halves");
  expect(spokenFraction(fraction(63, 64))).toBe("63 over 64");
  expect(spokenFraction(fraction(-2))).toBe("minus two");
  expect(spokenFraction(fraction(1, 20))).toBe("one twentieth");
});

test("turns first, in smallest whole numbers; never a sign", () => {
  expect(turnsWords("A", "C", fraction(-1, 5))).toBe("5 turns of A give 1 of C");
  expect(turnsWords("A", "C", fraction(3))).toBe("1 turn of A gives 3 of C");
  expect(turnsWords("A", "C", fraction(-2, 5))).toBe("5 turns of A give 2 of C");
  expect(turnsWords("A", "C", fraction(0))).toBe("C stands still while A turns");
  expect(turnsWords("A", "C", fraction(9999, 9998))).toBe("9998 turns of A give 9999 of C");
  expect(turnsWords("A", "C", fraction(2351, 100_003))).toBe("1 turn of A gives 0.02351 of C");
  expect(turnsWords("A", "C", rational(1n, 10n ** 400n))).toBe("1 turn of A gives almost none of C");
});

test("the fraction comes with its convention, and not at all where it is too long", () => {
  expect(ratioWords("A", "C", fraction(-2, 5), FILE_UNITS)).toEqual({
    turns: "5 turns of A give 2 of C",
    fraction: "5/2",
    convention: "input speed over output speed",
    decimal: "2.5",
    spoken: "five halves",
  });
  const inverse = { ...FILE_UNITS, ratio: "input" } as const;
  expect(ratioWords("A", "C", fraction(-2, 5), inverse)).toEqual({
    turns: "5 turns of A give 2 of C",
    fraction: "2/5",
    convention: ratioConvention(inverse),
    decimal: "0.4",
    spoken: "two fifths",
  });
  expect(ratioWords("A", "C", fraction(0), FILE_UNITS)).toMatchObject({
    turns: "C stands still while A turns",
    convention: "output speed over input speed",
    decimal: "0",
  });
  expect(ratioWords("A", "C", fraction(1, 10_000), FILE_UNITS).fraction).toBeNull();
});

test("limits are rounded to the safe side", () => {
  fc.assert(
    fc.property(fc.double({ noNaN: true, min: 1e-3, max: 1e6 }), (x) => {
      expect(roundOutward(x, "up")).toBeGreaterThanOrEqual(x * (1 - 1e-9));
      expect(roundOutward(x, "down")).toBeLessThanOrEqual(x * (1 + 1e-9));
      expect(roundOutward(x, "up") / x).toBeLessThan(1.0101);
    }),
  );
});

test("names stay on one line, short, and can't turn a sentence round", () => {
  expect(nameText("a\u202eb\nc")).toBe("ab c");
  expect([...nameText("x".repeat(100_000))]).toHaveLength(60);
  expect(nameText("שלום")).toBe("\u2068שלום\u2069");
});
