/** Tooth counts for a wanted ratio against published trains, and the words of typed ratios. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { approximations, mediant } from "../../../src/engine/design/approximations";
import { parseRatio } from "../../../src/engine/design/parse-ratio";
import { teethForRatio, turnsUntilSameTeeth } from "../../../src/engine/design/teeth-for-ratio";
import { rational, toNumber, toText } from "../../../src/engine/motion/rational";
import { numberOf, reference } from "../explain/build";

const trains = (n: number, d: number, options = {}) =>
  teethForRatio(rational(BigInt(n), BigInt(d)), options).map((candidate) =>
    candidate.stages.map((stage) => [stage.output, stage.input]),
  );

describe("typed ratios", () => {
  test.each([
    ["1/2", "1/2", "2 turns of the input give 1 of the output"],
    ["2:1", "1/2", "2 turns of the input give 1 of the output"],
    ["0.5", "1/2", "2 turns of the input give 1 of the output"],
    [" 2 : 1 ", "1/2", "2 turns of the input give 1 of the output"],
    ["1,5", "3/2", "2 turns of the input give 3 of the output"],
    ["3", "3", "1 turn of the input gives 3 of the output"],
    ["1:3", "3", "1 turn of the input gives 3 of the output"],
    [".4", "2/5", "5 turns of the input give 2 of the output"],
    ["2.5:1", "2/5", "5 turns of the input give 2 of the output"],
    ["1/100000", "1/100000", "1 turn of the input gives 0.00001 of the output"],
  ])("%s", (text, ratio, words) => {
    const parsed = parseRatio(text);
    expect(parsed.ok && [toText(parsed.ratio), parsed.words]).toEqual([ratio, words]);
  });

  test.each([
    "",
    " ",
    "0",
    "0/1",
    "1/0",
    "-1/2",
    "−2",
    "1/2/3",
    "abc",
    "1..2",
    "1e400",
    "NaN",
    "Infinity",
    "1/",
    ":2",
    "1.2,3",
    "9".repeat(41),
    "12345678",
  ])("%j gets one sentence", (text) => {
    const parsed = parseRatio(text);
    expect(parsed.ok).toBe(false);
    if (!parsed.ok) expect(parsed.message).toMatch(/^[A-Z“].*\.$/s);
  });

  test("never throws", () => {
    fc.assert(fc.property(fc.string(), (text) => typeof parseRatio(text).ok === "boolean"));
  });
});

describe("simple fractions near a ratio", () => {
  test("mediant (ratio-mediant: Hayes, On the Teeth of Wheels)", () => {
    expect(mediant(rational(2n, 3n), rational(3n, 4n))).toEqual({ n: 5n, d: 7n });
  });

  test("191/23 (ratio-191-23: A. Brocot's clock ratio)", () => {
    const { given, expect: table } = reference("ratio-191-23");
    const most = numberOf(given, "max_den");
    const found = approximations(rational(191n, 23n), 10_000).filter(({ d }) => d <= most);
    expect(found.map(({ n, d }) => [Number(n), Number(d)])).toEqual(table.best_by_denominator);
  });

  test("against a search through all denominators", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 400 }), fc.integer({ min: 1, max: 60 }), (n, d) => {
        const best: string[] = [];
        let least = Number.POSITIVE_INFINITY;
        for (let q = 1; q <= d; q++) {
          // |p/q - n/d| in whole numbers over q d; p from 1, since a ratio of 0 is none.
          const p = [Math.floor((n * q) / d), Math.ceil((n * q) / d)].filter((x) => x > 0);
          const errors = p.map((x) => Math.abs(x * d - n * q) / q);
          const error = Math.min(...errors);
          if (error < least - 1e-12) {
            least = error;
            best.push(`${p[errors.indexOf(error)]}/${q}`);
          }
        }
        const found = approximations(rational(BigInt(n), BigInt(d)), 1000).map((x) => `${x.n}/${x.d}`);
        // Two fractions equally near (halves) are a matter of taste.
        expect(found.length).toBe(best.length);
        found.forEach((text, i) => {
          const [a = 0, b = 1] = text.split("/").map(Number);
          const [p = 0, q = 1] = (best[i] ?? "").split("/").map(Number);
          expect(Math.abs(a / b - n / d)).toBeCloseTo(Math.abs(p / q - n / d), 12);
        });
      }),
    );
  });
});

describe("tooth counts", () => {
  test("lathe trains of Bevan, ch. XI, example 1: 6.5 and 8.75 in two stages", () => {
    for (const [n, d] of [
      [26, 4],
      [35, 4],
    ] as const) {
      const [best] = teethForRatio(rational(BigInt(d), BigInt(n)), { stages: 2 });
      expect(best?.isExact).toBe(true);
    }
    // The book's own wheels, 65/25 · 75/30, are among the exact ones when they are asked for.
    const book = trains(4, 26, { stages: 2, least: 25, most: 75, input: 25, count: 500 });
    expect(book).toContainEqual([
      [65, 25],
      [75, 30],
    ]);
  });

  test("12 in two stages of one sum: 32/96 and 32/128 (ratio-kg-13-3-reverted: Khurmi & Gupta 13.3)", () => {
    const found = trains(1, 12, { stages: 2, least: 32, most: 128, input: 32, count: 100 });
    expect(found).toContainEqual([
      [96, 32],
      [128, 32],
    ]);
  });

  test("a metric thread from an inch screw needs 127 teeth (ratio-metric-127: F. D. Jones)", () => {
    expect(trains(90, 127, { most: 127 })[0]).toEqual([[127, 90]]);
    expect(teethForRatio(rational(90n, 127n), { most: 126 })[0]?.isExact).toBe(false);
  });

  test("hunting teeth (ratio-hunting-tooth)", () => {
    const { expect: table } = reference("ratio-hunting-tooth");
    expect(turnsUntilSameTeeth(24, 36)).toBe(numberOf(table, "turns_pinion_24_36"));
    expect(turnsUntilSameTeeth(23, 36)).toBe(numberOf(table, "turns_pinion_23_36"));
    expect(turnsUntilSameTeeth(20, 50)).toBe(numberOf(table, "turns_pinion_20_50"));
    const [best] = teethForRatio(rational(20n, 61n), { input: 20 });
    expect([best?.stages, best?.isHunting]).toEqual([[{ input: 20, output: 61 }], [true]]);
  });

  test("one stage: nearest of all pairs in the range, by a plain search", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 300 }), fc.integer({ min: 1, max: 300 }), (n, d) => {
        fc.pre(n / d <= 6 && d / n <= 6);
        let least = Number.POSITIVE_INFINITY;
        for (let a = 18; a <= 120; a++) {
          for (let b = 18; b <= 120; b++) {
            if (Math.max(a, b) / Math.min(a, b) <= 6) least = Math.min(least, Math.abs(a / b - n / d));
          }
        }
        const [best] = teethForRatio(rational(BigInt(n), BigInt(d)));
        expect(Math.abs(toNumber(best?.ratio ?? rational(0n)) - n / d)).toBeCloseTo(least, 12);
      }),
      { numRuns: 40 },
    );
  });

  test("two stages keep to range and stage ratio, name their own error, and come sorted", () => {
    const wanted = rational(314159n, 2_000_000n);
    const found = teethForRatio(wanted, { stages: 2 });
    expect(found).toHaveLength(8);
    let last = 0;
    for (const { stages, ratio, error, teeth, isExact } of found) {
      const value = stages.reduce((x, stage) => (x * stage.input) / stage.output, 1);
      expect(toNumber(ratio)).toBeCloseTo(value, 14);
      expect(error).toBeCloseTo(value / 0.1570795 - 1, 9);
      expect(teeth).toBe(stages.reduce((sum, stage) => sum + stage.input + stage.output, 0));
      expect(isExact).toBe(false);
      expect(Math.abs(error)).toBeGreaterThanOrEqual(last);
      last = Math.abs(error);
      for (const stage of stages) {
        expect(Math.min(stage.input, stage.output)).toBeGreaterThanOrEqual(18);
        expect(Math.max(stage.input, stage.output)).toBeLessThanOrEqual(120);
        expect(Math.max(stage.input, stage.output) / Math.min(stage.input, stage.output)).toBeLessThanOrEqual(6);
      }
    }
  });

  test("what can't be has no candidates; what is no range is said", () => {
    expect(teethForRatio(rational(1n, 1000n))).toEqual([]);
    expect(() => teethForRatio(rational(0n))).toThrow(/above 0/);
    expect(() => teethForRatio(rational(1n), { least: 30, most: 20 })).toThrow(/between 30 and 20/);
  });
});
