/** Factors against NIST SP 811, and against a library of units. */
import fc from "fast-check";
import { unit as mathUnit } from "mathjs";
import { describe, expect, test } from "vitest";
import { ISO_54_MODULES } from "../../../src/engine/design/iso-54";
import { fromDecimal, toNumber } from "../../../src/engine/motion/rational";
import { FILE_UNITS, type ShownUnit, type Unit, type UnitChoice } from "../../../src/engine/units/choice";
import { conversionOf, inUnits, shortest, toFile, toShown } from "../../../src/engine/units/convert";
import { decimalText, nearestDouble } from "../../../src/engine/units/exact";
import { DIAMETRAL_PITCHES } from "../../../src/engine/units/module-series";
import { QUANTITIES } from "../../../src/engine/units/quantities";
import { readQuantity } from "../../../src/engine/units/read";
import references from "../references.json";

const read = (text: string, unit: Unit, units: UnitChoice = FILE_UNITS): number => {
  const found = readQuantity(text, unit, units);
  if ("complaint" in found) throw new Error(found.complaint);
  return found.value;
};

/** NIST SP 811 (2008), appendix B.8, to the seven figures that it prints; from memory. Lengths there in m, here in mm. */
const SP_811: readonly (readonly [string, Unit, string])[] = [
  ["1 in", "mm", "25.4"],
  ["1 ft", "mm", "304.8"],
  ["1 mil", "mm", "0.0254"],
  ["1 lbf", "N", "4.448222"],
  ["1 ozf", "N", "0.2780139"],
  ["1 kgf", "N", "9.80665"],
  ["1 lbf·ft", "N·m", "1.355818"],
  ["1 lbf·in", "N·m", "0.1129848"],
  ["1 ozf·in", "N·m", "0.007061552"],
  ["1 kgf·m", "N·m", "9.80665"],
  ["1 hp", "W", "745.6999"],
  ["1 PS", "W", "735.4988"],
];

describe("one of each unit", () => {
  test.each(SP_811)("%s in %s is %s (NIST SP 811)", (text, unit, printed) => {
    // Half a unit of the last figure printed.
    const half = 0.5 * 10 ** -(printed.split(".")[1] ?? "").length;
    expect(Math.abs(read(text, unit) - Number(printed))).toBeLessThanOrEqual(half * 1.000001);
  });

  test("the mechanical horsepower is 745.699 87 W, 550 ft·lbf/s to the last digit", () => {
    expect(read("1 hp", "W")).toBeCloseTo(745.69987, 5);
    // 0.45359237 × 9.80665 × 0.3048 × 550, worked out by hand from the definitions.
    expect(readQuantity("1 hp", "W", FILE_UNITS)).toMatchObject({ digits: "745.69987158227022" });
    // 30/π to 20 places, from a table of π's reciprocal: 0.31830988618379067154.
    expect(read("1 rad/s", "rev/min")).toBe(Number("9.5492965855137201462"));
  });

  /** The same unit in mathjs and here; its pound-force is rounded to ten figures. */
  const JUDGED: readonly (readonly [ShownUnit, Unit, string, string])[] = [
    ["in", "mm", "inch", "mm"],
    ["lbf·ft", "N·m", "lbf ft", "N m"],
    ["lbf", "N", "lbf", "N"],
    ["hp", "W", "hp", "W"],
    ["kW", "W", "kW", "W"],
    ["rad/s", "rev/min", "rad/s", "cycle/minute"],
    ["ft/min", "m/s", "ft/minute", "m/s"],
  ];

  test.each(JUDGED)("%s as mathjs has it", (shown, unit, name, own) => {
    const conversion = conversionOf(unit, shown);
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e6, noNaN: true }), (x) => {
        const wanted = mathUnit(x, name).toNumber(own);
        expect(toFile(fromDecimal(String(x)), conversion).value / wanted).toBeCloseTo(1, 9);
        expect(toShown(wanted, conversion) / x).toBeCloseTo(1, 9);
      }),
      { numRuns: 50 },
    );
  });

  test("every unit that can be chosen is converted, and its own name is read", () => {
    const inch: UnitChoice = {
      ...FILE_UNITS,
      length: "in",
      tooth: "pitch",
      speed: "rad/s",
      torque: "lbf·ft",
      power: "hp",
      force: "lbf",
    };
    for (const [unit, quantity] of Object.entries(QUANTITIES) as [Unit, (typeof QUANTITIES)[Unit] & object][]) {
      for (const units of [FILE_UNITS, inch]) {
        const shown = quantity.shown(units);
        if (unit === "m/s") continue;
        expect(read(`3 ${shown}`, unit)).toBe(toFile(fromDecimal("3"), conversionOf(unit, shown)).value);
        // A number alone is one of the chosen unit.
        expect(read("3", unit, units)).toBe(read(`3 ${shown}`, unit));
      }
    }
  });
});

describe("exact", () => {
  test("a diametral pitch of 12 is kept as the double nearest to 25.4/12, and is 12 again", () => {
    const module = read("12 /in", "module");
    expect(module).toBe(25.4 / 12);
    expect(shortest(module, conversionOf("module", "/in"))).toEqual({ text: "12", exact: true });
  });

  test("every usual pitch and module comes back as it was typed", () => {
    for (const pitch of DIAMETRAL_PITCHES.flatMap(({ values }) => values)) {
      const module = read(String(pitch), "module", { ...FILE_UNITS, tooth: "pitch" });
      expect(shortest(module, conversionOf("module", "/in"), 7)).toEqual({ text: String(pitch), exact: true });
    }
    for (const module of ISO_54_MODULES.flatMap(({ values }) => values))
      expect(read(String(module), "module")).toBe(module);
  });

  test("whatever short decimal is typed in whatever unit comes back as it was (10,000 cases)", () => {
    const units = [
      ["mm", "in"],
      ["module", "/in"],
      ["rev/min", "rad/s"],
      ["N·m", "lbf·ft"],
      ["W", "kW"],
      ["W", "hp"],
      ["N", "lbf"],
    ] as const;
    fc.assert(
      fc.property(
        fc.constantFrom(...units),
        fc.integer({ min: 1, max: 9_999_999 }),
        fc.integer({ min: 0, max: 6 }),
        ([unit, shown], digits, places) => {
          const typed = decimalText({ n: BigInt(digits), d: 10n ** BigInt(places) }) ?? "";
          const { value } = toFile(fromDecimal(typed), conversionOf(unit, shown));
          const { text, exact } = shortest(value, conversionOf(unit, shown));
          expect({ typed: Number(typed), text: Number(text), exact }).toEqual({
            typed: Number(typed),
            text: Number(typed),
            exact: true,
          });
        },
      ),
      { numRuns: 10_000, seed: 54 },
    );
  });

  test("the nearest double of a fraction is what the machine's own division gives, where both sides fit", () => {
    fc.assert(
      fc.property(fc.maxSafeInteger(), fc.integer({ min: 1, max: Number.MAX_SAFE_INTEGER }), (n, d) => {
        expect(nearestDouble({ n: BigInt(n), d: BigInt(d) })).toBe(n / d + 0);
      }),
      { numRuns: 5000 },
    );
    expect(nearestDouble(fromDecimal("1e-320"))).toBe(1e-320);
    expect(nearestDouble(fromDecimal("1e399"))).toBe(Number.POSITIVE_INFINITY);
  });

  test("decimals without end are none", () => {
    expect(decimalText({ n: 1n, d: 3n })).toBeNull();
    expect(decimalText({ n: -1n, d: 8n })).toBe("-0.125");
    expect(decimalText({ n: 12n, d: 1n })).toBe("12");
    expect(toNumber({ n: 1n, d: 8n })).toBe(0.125);
  });
});

test("powers turn to kW by themselves in watts alone", () => {
  expect(inUnits(12_500, "W", FILE_UNITS)).toEqual({ value: 12.5, unit: "kW" });
  expect(inUnits(500, "W", { ...FILE_UNITS, power: "kW" })).toEqual({ value: 0.5, unit: "kW" });
  expect(inUnits(7457, "W", { ...FILE_UNITS, power: "hp" }).unit).toBe("hp");
});

test("the series offered are those of ISO 54:1996", () => {
  const of = (id: string) =>
    (references as readonly { id: string; expect: { modules_mm?: readonly number[] } }[]).find((one) => one.id === id)
      ?.expect.modules_mm;
  expect(ISO_54_MODULES.map(({ values }) => values)).toEqual([of("geom-iso54-series-1"), of("geom-iso54-series-2")]);
});
