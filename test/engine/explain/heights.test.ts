/** The heights of pitch cones against closed forms, and the table method against the textbook's sums. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formulaText } from "../../../src/engine/explain/formula";
import { heightsExactly } from "../../../src/engine/explain/heights";
import { copiedSteps } from "../../../src/engine/explain/working-forms";
import type { WorkingTable } from "../../../src/engine/explain/working-lines";
import { meshWorkings, workings } from "../../../src/engine/explain/workings";
import { toNumber, toText } from "../../../src/engine/motion/rational";
import { solve } from "../../../src/engine/solve";
import type { Port, Solved } from "../../../src/engine/solved";
import { FILE_UNITS } from "../../../src/engine/units/choice";
import { differential, planetary, toothed } from "../../support/random-drives";
import { bevels, numberOf, reference, spurs } from "./build";

const tablesOf = (solved: Solved, mesh: string): readonly WorkingTable[] =>
  meshWorkings(solved, mesh, FILE_UNITS).flatMap((step) => step.tables ?? []);
const rowsOf = (table: WorkingTable | undefined): string[][] =>
  (table?.rows ?? []).map(({ words, cells }) => [words, ...cells.map((cell) => formulaText(cell, FILE_UNITS))]);

describe("why height does not matter", () => {
  // By hand, h = R cos δ with tan δ1 = sin Σ / (z2/z1 + cos Σ): at 60 degrees 23.09 : 20.21, at 90 30 : 20, at 120 11.55 : 2.887
  // for radii of 20 and 30 mm; halved and doubled they keep their proportions 8:7, 3:2 and 4:1.
  test("20 and 30 teeth at 60, 90 and 120 degrees: heights 8:7, 3:2 and 4:1, the ratio the same", () => {
    const [shown] = tablesOf(bevels(17, 40, 75), "m");
    expect(shown?.caption).toBe("20 teeth drive 30, module 2 mm");
    expect(rowsOf(shown)).toEqual([
      ["60°", "46.19 mm", "40.41 mm", "8 : 7", "3 : 2"],
      ["90°", "30 mm", "20 mm", "3 : 2", "3 : 2"],
      ["120°", "23.09 mm", "5.774 mm", "4 : 1", "3 : 2"],
    ]);
  });

  test("the same of the pair itself, at its own angle too", () => {
    const [, own] = tablesOf(bevels(16, 32, 75), "m");
    const rows = rowsOf(own);
    expect(rows.map(([angle]) => angle)).toEqual(["60°", "75°", "90°", "120°"]);
    expect(rows.map((row) => row[4])).toEqual(["2 : 1", "2 : 1", "2 : 1", "2 : 1"]);
    // (z2 + z1 cos 75°) : (z1 + z2 cos 75°) = 36.141 : 24.282.
    expect(rows[1]?.[3]).toBe("1.488 : 1");
    // At 120 degrees a wheel of twice the teeth is a flat crown, of no height at all.
    expect(rows[3]).toEqual(["120°", "27.71 mm", "0 mm", "1 : 0", "2 : 1"]);
  });

  test("past a flat crown the height is less than nothing, and which turns the ratio counts is named", () => {
    const [, own] = tablesOf(bevels(17, 41, 120), "m");
    // h = R cos δ: tan δ1 = sin 120°/(41/17 + cos 120°), so 24.37 and 95.63 degrees, R = 17/sin 24.37° = 41.20 mm: 37.53 and -4.041 mm.
    expect(rowsOf(own).at(-1)).toEqual(["120°", "37.53 mm", "− 4.041 mm", "− 65 : 7", "41 : 17"]);
    expect(own?.head.at(-1)).toBe("turns of a to turns of b");
  });

  test("heights of any pair are those of a triangle laid out with both axes", () => {
    const gear = (teeth: number) => toothed("g", "s", "bevel", teeth, 2);
    fc.assert(
      fc.property(
        fc.integer({ min: 12, max: 80 }),
        fc.integer({ min: 12, max: 80 }),
        fc.constantFrom(60, 90, 120),
        (z1, z2, angle) => {
          const exact = heightsExactly(gear(z1), gear(z2), angle);
          // Base centres on two lines through the apex; the common point of both base circles lies h1, r1 and h2, r2 from them:
          // in the plane of the axes it is h1 u1 + r1 v1 = h2 u2 - r2 v2, two equations for h1 and h2.
          const a = (angle * Math.PI) / 180;
          const h2 = (z1 + z2 * Math.cos(a)) / Math.sin(a);
          const h1 = h2 * Math.cos(a) + z2 * Math.sin(a);
          expect(exact === null).toBe(Math.abs(h2) < 1e-9);
          if (exact) expect(toNumber(exact)).toBeCloseTo(h1 / h2, 9);
        },
      ),
    );
    expect(toText(heightsExactly(gear(20), gear(30), 60) ?? { n: 0n, d: 1n })).toBe("8/7");
    expect(heightsExactly(gear(20), gear(30), 75)).toBeNull();
  });

  test.each([
    [20, 30, 1e-6],
    [20, 40, 120],
    [20, 20, 179.999],
    [20, 60, 150],
    [1, 500, 90],
  ])("has no broken number for %d and %d teeth at %d degrees", (z1, z2, angle) => {
    const all = copiedSteps(meshWorkings(bevels(z1, z2, angle), "m", FILE_UNITS), "text", FILE_UNITS);
    expect(all).toContain("Why height does not matter");
    expect(all).not.toMatch(/NaN|undefined|null|Infinity/);
  });

  test("is told of cones alone", () => {
    expect(tablesOf(spurs(20, 40), "m")).toEqual([]);
  });
});

describe("the table method", () => {
  test("annulus held, arm 18 rev/min (Khurmi & Gupta 13.6): sun 58.5, planet -46.8", () => {
    const { given, expect: wanted } = reference("epi-kg-13-6-annulus-fixed");
    const [sun, planet, ring] = [
      numberOf(given, "zC_sun"),
      numberOf(wanted, "z_planet"),
      numberOf(given, "zA_annulus_fixed"),
    ];
    const solved = solve(
      planetary(sun, planet, ring, 3, [
        { shaft: "C", role: "input", speed: numberOf(given, "n_arm_rpm") },
        { shaft: "R", role: "held" },
        { shaft: "S", role: "output" },
      ]),
    );
    const table = workings(solved, "S", FILE_UNITS).flatMap((step) => step.tables ?? [])[0];
    expect(table?.head).toHaveLength(5);
    const [locked, held, , , added] = rowsOf(table);
    expect(locked?.slice(1)).toEqual(["+ 1", "+ 1", "+ 1", "+ 1"]);
    expect(held?.[1]).toBe("0");
    const at = (name: RegExp): number => (table?.head.findIndex((head) => name.test(head)) ?? 0) - 1;
    expect(added?.[at(/^Carrier/) + 1]).toBe("+ 18 rev/min");
    expect(added?.[at(/^Ring/) + 1]).toBe("0 rev/min");
    expect(added?.[at(/^S$/) + 1]).toBe(`+ ${numberOf(wanted, "nC_rpm")} rev/min`);
    expect(added?.[at(/^Planet/) + 1]).toBe(`− ${Math.abs(numberOf(wanted, "n_planet_rpm"))} rev/min`);
  });

  test("which way the far shaft turns is said beside the near one too, where each is told from an end of its own", () => {
    const told = (ports: readonly Port[], from: string, to: string): string | undefined =>
      workings(solve(planetary(24, 18, 60, 1, ports)), to, FILE_UNITS)
        .find(({ title }) => title.startsWith("Planetary set"))
        ?.lines.map(({ words }) => words)
        .find((words) => words.endsWith(from));
    // n_C (1 + z_R/z_S) = n_S with the ring held: one way. n_R = -(z_S/z_R) n_S with the carrier held: opposite ways (Willis).
    const held = (shaft: string, output: string): Port[] => [
      { shaft: "S", role: "input", speed: 70 },
      { shaft, role: "held" },
      { shaft: output, role: "output" },
    ];
    expect(told(held("R", "C"), "S", "C")).toMatch(/counterclockwise seen from the .* end, the same way as S$/);
    expect(told(held("C", "R"), "S", "R")).toMatch(/clockwise seen from the .* end, the opposite way to S$/);
  });

  test("what is added gives the solver's speeds, of any set and any two speeds", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 12, max: 60 }),
        fc.integer({ min: 12, max: 40 }),
        fc.integer({ min: -500, max: 500 }),
        fc.integer({ min: -500, max: 500 }),
        fc.boolean(),
        (z1, z2, first, second, isDifferential) => {
          const [a, b] = isDifferential ? ["L", "R"] : ["S", "R"];
          const ports = [
            { shaft: a ?? "", role: "input", speed: first } as const,
            { shaft: b ?? "", role: "input", speed: second } as const,
            { shaft: "C", role: "output" } as const,
          ];
          const solved = solve(
            isDifferential ? differential(z1, z2, 1, ports) : planetary(z1, z2, z1 + 2 * z2, 1, ports),
          );
          const table = workings(solved, "C", FILE_UNITS).flatMap((step) => step.tables ?? [])[0];
          const added = table?.rows.at(-1)?.cells ?? [];
          const value = (cell: (typeof added)[number]): number => {
            const last = cell.at(-1);
            const sign = cell[0]?.kind === "operator" && cell[0].sign === "−" ? -1 : 1;
            return last?.kind === "number" ? sign * last.value : Number.NaN;
          };
          const carrier = solved.motion.speed[solved.index.shafts.get("C") ?? -1] ?? Number.NaN;
          expect(value(added[0] ?? [])).toBeCloseTo(carrier, 6);
          const at = (name: string): number =>
            (table?.head.findIndex((head) => head === name || head.endsWith(`(${name})`)) ?? 0) - 1;
          expect(value(added[at(isDifferential ? "L" : "S")] ?? [])).toBeCloseTo(first, 6);
          expect(value(added[at(isDifferential ? "Right" : "Ring")] ?? [])).toBeCloseTo(second, 6);
          // A planet of spur gears has an axis along the carrier's: in the room it turns with it and by itself.
          expect(added).toHaveLength(isDifferential ? 3 : 4);
          if (isDifferential) return;
          const own = solved.motion.speed[solved.index.shafts.get("P1") ?? -1] ?? Number.NaN;
          expect(value(added[3] ?? [])).toBeCloseTo(carrier + own, 6);
        },
      ),
      { numRuns: 60 },
    );
  });

  test("without a motion the first two rows stand alone", () => {
    const solved = solve(planetary(24, 18, 60, 2, [{ shaft: "S", role: "input", speed: 10 }]));
    const table = workings(solved, "C", FILE_UNITS).flatMap((step) => step.tables ?? [])[0];
    expect(rowsOf(table).map(([words]) => words)).toEqual([
      "Locked together, all turned once",
      "Carrier held, S turned once",
    ]);
  });
});
