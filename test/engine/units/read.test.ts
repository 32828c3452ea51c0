/** What people type into a field of the file's unit, and what it is taken for. Expected values worked out by hand. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { supplyWords } from "../../../src/engine/explain/supply-words";
import { FILE_UNITS, type Unit, type UnitChoice } from "../../../src/engine/units/choice";
import { readEither, readQuantity } from "../../../src/engine/units/read";

const read = (text: string, unit: Unit, units: Partial<UnitChoice> = {}) =>
  readQuantity(text, unit, { ...FILE_UNITS, ...units });
const COMMA: Partial<UnitChoice> = { decimalSign: "," };
const PITCH: Partial<UnitChoice> = { tooth: "pitch" };

type Case<T> = readonly [string, Unit, T, Partial<UnitChoice>?];
/** The file's own units, where a case names none. */
const withUnits = <T>(cases: readonly Case<T>[]) =>
  cases.map(([text, unit, wanted, units = {}]) => [text, unit, wanted, units] as const);

describe("is understood", () => {
  test.each<readonly [string, Unit, number, Partial<UnitChoice>]>(
    withUnits([
      ["1/3", "mm", 1 / 3],
      ["1,5", "mm", 1.5],
      ["1e3", "mm", 1000],
      ["12 mm", "mm", 12],
      ["0.5 in", "mm", 12.7],
      ["1 1/2 in", "mm", 38.1],
      ["-1 1/2 in", "mm", -38.1],
      ['3/4"', "mm", 19.05],
      ["2 ft", "mm", 609.6],
      ["12", "mm", 304.8, { length: "in" }],
      ["12 mm", "mm", 12, { length: "in" }],
      ["2.54 cm", "mm", 25.4],
      ["12 /in", "module", 25.4 / 12],
      ["12 1/in", "module", 25.4 / 12],
      ["12/in", "module", 25.4 / 12],
      ["12 DP", "module", 25.4 / 12],
      ["12", "module", 25.4 / 12, PITCH],
      ["1 1/4", "module", 20.32, PITCH],
      ["2 mm", "module", 2, PITCH],
      ["1450 rpm", "rev/min", 1450],
      ["1450 1/min", "rev/min", 1450],
      ["1450 min⁻¹", "rev/min", 1450],
      ["24 1/s", "rev/min", 1440],
      ["360 °/s", "rev/min", 60],
      ["7.5 Nm", "N·m", 7.5],
      ["750 N cm", "N·m", 7.5],
      ["7500 N·mm", "N·m", 7.5],
      ["1.1 kW", "W", 1100],
      ["1,1 kW", "W", 1100, COMMA],
      ["5 mW", "W", 0.005],
      ["5 MW", "W", 5e6],
      ["0.2 kN", "N", 200],
      ["90 deg", "°", 90],
      ["1.450", "mm", 1.45],
      ["1,450", "mm", 1.45, COMMA],
      ["1 450", "mm", 1450, COMMA],
      ["1.5", "mm", 1.5, COMMA],
      ["0.0000001 mm", "mm", 1e-7],
    ]),
  )("%j in a field of %s: %d", (text, unit, value, units) => {
    expect(read(text, unit, units)).toMatchObject({ value });
  });

  test.each([
    ["12 V 1.5 A", 18],
    ["12V1.5A", 18],
    ["1.5 A x 12 V", 18],
    ["12 V, 1500 mA", 18],
    ["12 V at 1,5 A", 18],
    ["230 V × 2 A", 460],
  ])("%j as a power of %d W", (text, value) => {
    expect(read(text, "W")).toMatchObject({ value });
  });

  test.each([
    ["50 N x 150 mm", 7.5],
    ["50N*0.15m", 7.5],
    ["150 mm x 50 N", 7.5],
    ["50 N at 15 cm", 7.5],
    ["50 N·150 mm", 7.5],
    ["50 N 150 mm", 7.5],
    ["12 lbf x 1 ft", 16.269815379976805],
  ])("%j as a torque of %d N·m", (text, value) => {
    expect(read(text, "N·m")).toMatchObject({ value });
  });

  test("digits that a double doesn't hold are kept where they end", () => {
    expect(read("1450.123456789012345678", "rev/min")).toEqual({
      value: Number("1450.123456789012345678"),
      digits: "1450.123456789012345678",
    });
    expect(read("0.1", "rev/min")).toEqual({ value: 0.1 });
    expect(read("1/3", "rev/min")).toEqual({ value: 1 / 3 });
    // 1.234567890123456789 in, times 25.4 by hand.
    expect(read("1.234567890123456789 in", "mm")).toMatchObject({ digits: "31.3580244091358024406" });
  });

  test("either of two quantities, where its unit is typed", () => {
    expect(readEither("12 V 1.5 A", "N·m", "W", FILE_UNITS)).toMatchObject({ value: 18, unit: "W" });
    expect(readEither("18 W", "N·m", "W", FILE_UNITS)).toMatchObject({ value: 18, unit: "W" });
    expect(readEither("50 N x 150 mm", "W", "N·m", FILE_UNITS)).toMatchObject({ value: 7.5, unit: "N·m" });
    expect(readEither("18", "N·m", "W", FILE_UNITS)).toEqual({ value: 18 });
  });
});

describe("is answered with a sentence", () => {
  test.each<readonly [string, Unit, string, Partial<UnitChoice>]>(
    withUnits([
      ["2:5", "mm", "“2:5” is a ratio: type it where a stage is added; here goes one number."],
      ["12 kg", "mm", "“kg” is no unit of a length: write 12 mm, 0.5 in or just the number."],
      ["3 bananas", "N·m", "“bananas” is no unit of a torque: write 7.5 N·m, 50 N x 150 mm or just the number."],
      ["12 V", "W", "“12 V” is a voltage: write the current too, as in 12 V 1.5 A."],
      ["1.5 A", "W", "“1.5 A” is a current: write the voltage too, as in 12 V 1.5 A."],
      ["50 N x", "N·m", "“50 N” is a force: write the crank's length too, as in 50 N x 150 mm."],
      ["150 mm", "N·m", "“150 mm” is a length: write the force too, as in 50 N x 150 mm."],
      ["0", "module", "It must be more than 0.", PITCH],
      ["1.450", "mm", "“1.450” can be read two ways: write 1450 or 1,45.", COMMA],
      ["1.450,5", "mm", "“1.450,5” has more than one decimal sign: write it without separators, as in 1450,5.", COMMA],
      ["1/0 in", "mm", "Nothing can be divided by 0: write another number below the line."],
      ["5 Mw", "W", "“Mw” is no unit of a power: write 18 W, 12 V 1.5 A or just the number."],
      ["12 V 1e400 A", "W", "“12 V 1e400 A” is not a number: write digits, as in 12 or 1.5."],
      ["x".repeat(65), "mm", "That is far too long for one number: type just the number."],
    ]),
  )("%j in a field of %s", (text, unit, complaint, units) => {
    expect(read(text, unit, units)).toEqual({ complaint });
  });

  test("anything at all gives a finite number or a sentence, quickly", () => {
    const units: Unit[] = ["mm", "module", "rev/min", "N·m", "W", "N", "°", ""];
    const bits = fc.constantFrom(
      ..."0159.,/:eE+-− xVANmWinkhp·*\"'°%\n\u202f".split(""),
      "in",
      "12 V ",
      "50 N x ",
      "1e9",
    );
    const text = fc.oneof(
      fc.string({ maxLength: 64 }),
      fc.array(bits, { maxLength: 20 }).map((all) => all.join("")),
    );
    const before = performance.now();
    fc.assert(
      fc.property(text, fc.constantFrom(...units), fc.constantFrom(".", ","), (typed, unit, decimalSign) => {
        for (const found of [read(typed, unit, { decimalSign } as Partial<UnitChoice>)]) {
          if ("complaint" in found) expect(found.complaint).toMatch(/^.+[.]$/su);
          else expect(Number.isNaN(found.value)).toBe(false);
        }
      }),
      { numRuns: 3000 },
    );
    // 3,000 texts; a hang would take seconds for one.
    expect(performance.now() - before).toBeLessThan(20_000);
  });
});

test("what an input can give, told beside its fields", () => {
  const input = { shaft: "A", role: "input", speed: 60 } as const;
  expect(supplyWords({ ...input, power: 18 }, { ...FILE_UNITS, figures: 3 })).toBe(
    "At most 18 W, 2.86 N·m at 60 rev/min.",
  );
  expect(supplyWords({ ...input, torque: 7.5 }, FILE_UNITS)).toBe("At most 7.5 N·m, 47.12 W at 60 rev/min.");
  expect(supplyWords({ ...input, speed: -60, torque: 7.5 }, { ...FILE_UNITS, speed: "rad/s", decimalSign: "," })).toBe(
    "At most 7,5 N·m, 47,12 W at 6,283 rad/s.",
  );
  expect(supplyWords({ ...input, speed: 0, power: 18 }, FILE_UNITS)).toBe("At most 18 W.");
  expect(supplyWords(input, FILE_UNITS)).toBeNull();
  expect(supplyWords({ shaft: "A", role: "output", torque: 3 }, FILE_UNITS)).toBeNull();
});
