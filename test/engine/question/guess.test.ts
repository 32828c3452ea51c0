/** Guesses as they are typed: read exactly, or answered with one sentence. Arithmetic of the checks: by hand, and BigInt. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rational, toNumber } from "../../../src/engine/motion/rational";
import {
  isComplaint,
  isRough,
  type ReadGuess,
  readRatioGuess,
  readTurnsGuess,
  readValueGuess,
  says,
} from "../../../src/engine/question/guess";
import { FILE_UNITS } from "../../../src/engine/units/choice";

const COMMA = { ...FILE_UNITS, decimalSign: "," } as const;
const number = (read: ReadGuess): number => {
  if (isComplaint(read)) throw new Error(read.complaint);
  return toNumber(read.value);
};
const whole = fc.bigInt({ min: 1n, max: 10n ** 12n });

describe("a ratio", () => {
  test("a fraction is output over input, a colon is turns of the input to turns of the output", () => {
    fc.assert(
      fc.property(whole, whole, (a, b) => {
        expect(readRatioGuess(`${a}/${b}`, FILE_UNITS)).toMatchObject({ value: rational(a, b), figures: null });
        expect(readRatioGuess(`${a} : ${b}`, FILE_UNITS)).toMatchObject({ value: rational(b, a), figures: null });
        expect(readTurnsGuess(`${a}`, `${b}`, FILE_UNITS)).toMatchObject({ value: rational(b, a), figures: null });
      }),
    );
  });

  test("2:5, 5/2, 2.5 and for 2 turns 5 mean the same", () => {
    const all = ["2:5", "5/2", "2.5", "2 1/2"].map((text) => number(readRatioGuess(text, FILE_UNITS)));
    expect([...all, number(readTurnsGuess("2", "5", FILE_UNITS)), number(readRatioGuess("2,5", COMMA))]).toEqual(
      new Array(6).fill(2.5),
    );
  });
});

describe("a value", () => {
  test("is read with its unit", () => {
    expect(number(readValueGuess("290", "rev/min", FILE_UNITS))).toBe(290);
    expect(number(readValueGuess("5 rev/s", "rev/min", FILE_UNITS))).toBe(300);
    expect(number(readValueGuess("2500 N mm", "N·m", FILE_UNITS))).toBe(2.5);
    expect(number(readValueGuess("1450/3 rpm", "rev/min", FILE_UNITS))).toBeCloseTo(483.3333333333333, 9);
  });
});

describe("what can't be read", () => {
  const readers: readonly [string, (text: string) => ReadGuess][] = [
    ["ratio", (text) => readRatioGuess(text, FILE_UNITS)],
    ["turns", (text) => readTurnsGuess("1", text, FILE_UNITS)],
    ["turns of the input", (text) => readTurnsGuess(text, "1", FILE_UNITS)],
    ["speed", (text) => readValueGuess(text, "rev/min", FILE_UNITS)],
    ["torque", (text) => readValueGuess(text, "N·m", FILE_UNITS)],
  ];
  const bad = [
    "abc",
    "1/0",
    "2,5",
    "-",
    "10^400",
    "1e400",
    `1${"0".repeat(400)}`,
    "",
    "-3",
    "1:0:2",
    "NaN",
    "Infinity",
    "<b>",
    "🙂",
  ];

  test.each(readers.flatMap(([name, read]) => bad.map((text) => [name, text, read] as const)))(
    "%s: %s is answered with one sentence",
    (_, text, read) => {
      const answer = read(text);
      expect(isComplaint(answer)).toBe(true);
      if (!isComplaint(answer)) return;
      expect(answer.complaint).toMatch(/^[A-Z“].*\.$/);
      expect(answer.complaint.match(/\.(?= [A-Z])/g)).toBeNull();
    },
  );

  test("2,5 says what it might be", () => {
    expect(readRatioGuess("2,5", FILE_UNITS)).toEqual({
      complaint: "“2,5” can be read two ways: write 2.5 or 2:5.",
    });
  });

  test("0 turns of the input say nothing, 0 of the output do", () => {
    expect(isComplaint(readTurnsGuess("0", "3", FILE_UNITS))).toBe(true);
    expect(number(readTurnsGuess("3", "0", FILE_UNITS))).toBe(0);
  });

  test("any text is read or answered, and nothing is thrown", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 80 }), (text) => {
        for (const [, read] of readers) {
          const answer = read(text);
          if (isComplaint(answer)) expect(answer.complaint.length).toBeGreaterThan(5);
          else expect(answer.value.n >= 0n).toBe(true);
        }
      }),
    );
  });
});

describe("rounding", () => {
  test("three figures and more count where they are rounded right", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e6, noNaN: true }), fc.integer({ min: 3, max: 9 }), (truth, figures) => {
        const typed = truth.toPrecision(figures);
        const read = readValueGuess(typed, "rev/min", FILE_UNITS);
        if (isComplaint(read)) throw new Error(read.complaint);
        expect(says(read, truth)).toBe(true);
        // A step beside it in the last figure is wrong.
        expect(says(read, truth + 10 ** (Math.floor(Math.log10(Number(typed))) - figures + 1) * 1.2)).toBe(false);
      }),
    );
  });

  test("two figures are too few for a third, and enough for what they say exactly", () => {
    const third = readRatioGuess("0.33", FILE_UNITS);
    if (isComplaint(third)) throw new Error(third.complaint);
    expect(says(third, 1 / 3)).toBe(false);
    expect(isRough(third, 1 / 3)).toBe(true);
    const exact = readRatioGuess("0.4", FILE_UNITS);
    if (isComplaint(exact)) throw new Error(exact.complaint);
    expect(says(exact, 0.4)).toBe(true);
  });
});
