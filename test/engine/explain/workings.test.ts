/** The workings recomputed from their own printed text, and against published trains. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Formula, formulaText } from "../../../src/engine/explain/formula";
import { type WorkingLine, workings, workingsOf, workingText } from "../../../src/engine/explain/workings";
import { solve } from "../../../src/engine/solve";
import type { Port, Solved } from "../../../src/engine/solved";
import { FILE_UNITS, type UnitChoice } from "../../../src/engine/units/choice";
import { ALL_PAIRS, differential, planetary, randomTree } from "../../support/random-drives";
import { mixer, numberOf, POSE, pairOf, reference, solveFile, spurs } from "./build";
import { evaluate } from "./evaluate";
import { countReads } from "./timing";

const lines = (solved: Solved, id: string): WorkingLine[] =>
  workings(solved, id, FILE_UNITS).flatMap((step) => step.lines);
const texts = (solved: Solved, id: string): string[] => lines(solved, id).map((line) => workingText(line, FILE_UNITS));
const result = (solved: Solved, id: string, start: string): number | null | undefined =>
  lines(solved, id).find((line) => line.words.startsWith(start))?.result;

/** Numbers in the text have four figures, so that a sum of near-equal ones loses some: against the largest term, not the result. */
const largest = (formula: Formula): number =>
  Math.max(
    0,
    ...formula.map((token) =>
      token.kind === "number"
        ? Math.abs(token.value)
        : token.kind === "group"
          ? largest(token.of)
          : token.kind === "fraction"
            ? largest(token.over)
            : 0,
    ),
  );

/** Every line that has numbers gives its printed result when its printed text is worked out anew. */
function expectRight(solved: Solved, shaft: number, units: UnitChoice = FILE_UNITS): number {
  let count = 0;
  for (const line of workingsOf(solved, shaft, units).flatMap((step) => step.lines)) {
    const text = workingText(line, units);
    expect(text).not.toMatch(/NaN|undefined|null|Infinity| {2}/);
    if (line.numbers.length === 0 || line.result === null) continue;
    const [rounded = "", exact] = text.split(", exactly ");
    if (exact !== undefined) expect(evaluate(exact)).toBeCloseTo(line.result, 9);
    const printed = rounded.split(" = ");
    const shown = (printed.at(-1) ?? "").replace(/ kW$/, units.power === "kW" ? "" : "e3");
    const value = evaluate(printed.at(-2) ?? "");
    const wanted = shown.endsWith("e3") ? 1000 * evaluate(shown.slice(0, -2)) : evaluate(shown);
    // Half a unit in the fourth figure on each of up to three rounded numbers and on the result: angles of up to 180
    // degrees to 0.05 each; sums of unlike size against their largest term.
    const scale = Math.max(Math.abs(wanted), line.words.startsWith("Speed of") ? largest(line.numbers) : 0);
    const allowed = line.unit === "°" ? 0.1 : 2e-3 * scale;
    expect({ text, isRight: Math.abs(value - wanted) <= allowed + 1e-9 }).toEqual({ text, isRight: true });
    count++;
  }
  return count;
}

/** Every pairing of units that the formulas tell apart. */
const PAIRINGS: readonly Partial<UnitChoice>[] = (["mm", "in"] as const).flatMap((length) =>
  (["module", "pitch"] as const).flatMap((tooth) =>
    (["rev/min", "rad/s"] as const).flatMap((speed) =>
      (["N·m", "lbf·ft"] as const).flatMap((torque) =>
        (["W", "kW", "hp"] as const).map((power) => ({ length, tooth, speed, torque, power })),
      ),
    ),
  ),
);

describe("printed text", () => {
  test("is right by itself in every pairing of units: each constant below a line follows from the units beside it", () => {
    const one = solve(randomTree(11, 6, 4, { pairs: ALL_PAIRS, losses: true, ports: loadOn("s0", "s4") }));
    const set = solve(planetary(24, 18, 60, 2));
    let count = 0;
    for (const pairing of PAIRINGS) {
      for (const solved of [mixer(), one, set]) {
        for (const shaft of solved.drive.shafts.keys())
          count += expectRight(solved, shaft, { ...FILE_UNITS, ...pairing });
      }
    }
    expect(PAIRINGS).toHaveLength(48);
    expect(count).toBeGreaterThan(48 * 60);
  });

  test("the mixer in inches, diametral pitch, lbf·ft and hp, with the constants of an American handbook", () => {
    const units: UnitChoice = {
      ...FILE_UNITS,
      length: "in",
      tooth: "pitch",
      torque: "lbf·ft",
      power: "hp",
      force: "lbf",
    };
    const all = workings(mixer(), "C", units).flatMap((step) => step.lines.map((line) => workingText(line, units)));
    expect(all).toContain("Pitch diameter of a1: d_a1 = z_a1 / P = 20 / 12.7 /in = 1.575 in");
    expect(all).toContain(
      "Surface speed of a1: v = π × d_a1 × n_A = (π × 1.575 in × 1450 rev/min) / 12 = 597.8 ft/min",
    );
    expect(all.find((text) => text.startsWith("Power at Mixer"))).toMatch(
      /P_C = 2 × π × n_C × T_C = \(2 × π × 290 rev\/min × 29\.5 lbf·ft\) \/ 33\u202f000 = 1\.629 hp$/,
    );
  });

  test("a comma for the decimal sign, and figures as chosen", () => {
    const units: UnitChoice = { ...FILE_UNITS, decimalSign: ",", figures: 6 };
    const all = workings(mixer(), "C", units).flatMap((step) => step.lines.map((line) => workingText(line, units)));
    expect(all).toContain(
      "Pitch angle of b2: δ_b2 = arctan(sin(Σ) / ((z_c1 / z_b2) + cos(Σ))) = arctan(sin(90°) / ((32 / 16) + cos(90°))) = 26,5651°",
    );
  });

  test("random trees of every kind of pair", () => {
    let count = 0;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), (seed) => {
        const solved = solve(randomTree(seed, 6, 4, { pairs: ALL_PAIRS, losses: true, ports: loadOn("s0", "s4") }));
        for (const shaft of solved.drive.shafts.keys()) count += expectRight(solved, shaft);
      }),
      { numRuns: 40 },
    );
    expect(count).toBeGreaterThan(1000);
  });

  test("planetary sets and differentials, entered and left everywhere", () => {
    for (const ports of portSets) {
      for (const drive of [
        planetary(24, 18, 60, 3, ports("S", "R", "C")),
        differential(20, 12, 2, ports("L", "R", "C")),
      ]) {
        const solved = solve(drive);
        for (const shaft of solved.drive.shafts.keys()) expectRight(solved, shaft);
      }
    }
  });
});

const loadOn = (input: string, output: string): Port[] => [
  { shaft: input, role: "input", speed: 730 },
  { shaft: output, role: "output", torque: 12 },
];
const portSets = [
  (a: string, b: string, c: string): Port[] => [...loadOn(a, c), { shaft: b, role: "held" }],
  (a: string, b: string, c: string): Port[] => [...loadOn(c, a), { shaft: b, role: "held" }],
  (a: string, b: string, c: string): Port[] => [...loadOn(a, b), { shaft: c, role: "held" }],
  (a: string, b: string, c: string): Port[] => [
    { shaft: a, role: "input", speed: 120 },
    { shaft: b, role: "input", speed: 80 },
    { shaft: c, role: "output" },
  ],
];

describe("the mixer of the format", () => {
  test("its lines, as a student reads them", () => {
    const all = texts(mixer(), "C");
    for (const line of [
      "Speed of Motor, given: n_A = 1450 rev/min",
      "Pitch diameter of a1: d_a1 = m × z_a1 = 2 mm × 20 = 40 mm",
      "Distance between the axes, side by side: a = (d_b1 + d_a1) / 2 = (100 mm + 40 mm) / 2 = 70 mm",
      "Ratio of the mesh, output teeth over input teeth, that is input speed over output speed: i = z_b1 / z_a1 = 50 / 20 = 2.5, exactly 5/2",
      "The same ratio by the pitch diameters, output diameter over input diameter: i = d_b1 / d_a1 = 100 mm / 40 mm = 2.5, exactly 5/2",
      "The same ratio by the pitch angles, output sine over input sine: both cones have one slant, so the radius of a base goes as the sine: i = sin(δ_c1) / sin(δ_b2) = sin(63.43°) / sin(26.57°) = 2",
      "5 turns of Motor give 2 of Cross shaft",
      "Speed of Cross shaft: n_B = n_A × (z_a1 / z_b1) = 1450 rev/min × (20 / 50) = 580 rev/min",
      "Pitch angle of b2: δ_b2 = arctan(sin(Σ) / ((z_c1 / z_b2) + cos(Σ))) = arctan(sin(90°) / ((32 / 16) + cos(90°))) = 26.57°",
      "Torque that b2 hands on to c1: T_c1 = T_b2 × (z_c1 / z_b2) × η = 20.62 N·m × (32 / 16) × 0.97 = 40 N·m",
      "Ratio of the whole way, the ratios of its meshes multiplied, input speed over output speed: i = (z_b1 / z_a1) × (z_c1 / z_b2) = (50 / 20) × (32 / 16) = 5",
      "5 turns of Motor give 1 of Mixer",
      "Torque at Mixer: T_C = 40 N·m",
    ]) {
      expect(all).toContain(line);
    }
  });

  test("without a load there is torque × 5, not a blank and not a figure", () => {
    const solved = mixer({
      meshes: [
        { id: "m1", gears: ["a1", "b1"] },
        { id: "m2", gears: ["b2", "c1"], shaftAngle: 90 },
      ],
      ports: [
        { shaft: "A", role: "input", speed: 1450 },
        { shaft: "C", role: "output" },
      ],
    });
    expect(texts(solved, "C")).toContain("Whatever the load: torque × 5, no losses");
    expect(texts(solved, "C")).toContain(
      "Torque at Mixer: T_C: no load is given: give an output, or the input, a torque or a power",
    );
    expect(lines(solved, "C").filter((line) => line.unit === "N·m")).toEqual([]);
  });

  test("without an input the sizes and ratios stand, and each speed says what is missing", () => {
    const all = texts(mixer({ ports: [] }), "C");
    expect(all).toContain("Speed of Mixer: n_C = n_B × (z_b2 / z_c1): the drive needs one more input");
    expect(all).toContain("2 turns of Cross shaft give 1 of Mixer");
  });

  test("each line is about things that are there", () => {
    const solved = mixer();
    const ids = new Set([...solved.index.shafts.keys(), ...solved.index.gears.keys(), ...solved.index.meshes.keys()]);
    for (const step of workings(solved, "C", FILE_UNITS)) {
      for (const id of [...step.about, ...step.lines.flatMap((line) => line.about)]) expect(ids).toContain(id);
    }
    expect(() => workings(solved, "nowhere", FILE_UNITS)).toThrow("There is no shaft nowhere.");
  });
});

describe("published examples", () => {
  test("compound train 20/50, 25/75, 26/65 (Khurmi & Gupta, Theory of Machines, 13.1): 52 rev/min", () => {
    const { given, expect: wanted } = reference("compound-kg-13-1");
    const z = ["zA", "zB", "zC", "zD", "zE", "zF"].map((key) => numberOf(given, key));
    const solved = solveFile({
      shafts: [{ id: "s0", pose: POSE }, { id: "s1" }, { id: "s2" }, { id: "s3" }],
      gears: z
        .map((teeth, i) => ({
          id: `g${i}`,
          shaft: `s${Math.ceil(i / 2)}`,
          kind: "spur",
          teeth,
          module: 2,
          at: i % 2 ? 0 : 40,
        }))
        .map((gear, i) => ({ ...gear, at: i === 0 ? 0 : gear.at })),
      meshes: [0, 1, 2].map((i) => ({ id: `m${i}`, gears: [`g${2 * i}`, `g${2 * i + 1}`] })),
      ports: [{ shaft: "s0", role: "input", speed: numberOf(given, "nA_rpm") }],
    });
    expect(result(solved, "s3", "Speed of s3")).toBeCloseTo(numberOf(wanted, "nF_rpm_magnitude"), 9);
    expect(result(solved, "s3", "Ratio of the whole way")).toBeCloseTo(numberOf(given, "nA_rpm") / 52, 9);
  });

  test.each([
    "bevel-60-20-40",
    "bevel-75-20-40",
    "bevel-100-20-30",
    "bevel-120-crown",
    "bevel-135-internal",
    "bevel-90-mitre",
  ])("cone sizes of %s, either gear driving", (id) => {
    const { given, expect: wanted } = reference(id);
    const [z1, z2] = [numberOf(given, "z1"), numberOf(given, "z2")];
    const module = numberOf(given, "module_mm");
    const pair = pairOf(
      ["bevel", "bevel"],
      { teeth: z1, module, face: 3 },
      { teeth: z2, module, face: 3 },
      { shaftAngle: numberOf(given, "shaft_angle_deg") },
    );
    expect(result(pair, "B", "Pitch angle of a")).toBeCloseTo(numberOf(wanted, "delta1_deg"), 4);
    expect(result(pair, "B", "Pitch angle of b")).toBeCloseTo(numberOf(wanted, "delta2_deg"), 4);
    expect(result(pair, "B", "Cone distance")).toBeCloseTo(numberOf(wanted, "Re_mm"), 3);
    expectRight(pair, 1);
  });

  test("annulus held, arm 18 rev/min: sun 58.5, planet −46.8 in the room (Khurmi & Gupta 13.6)", () => {
    const { given, expect: wanted } = reference("epi-kg-13-6-annulus-fixed");
    const arm = numberOf(given, "n_arm_rpm");
    const solved = solve(
      planetary(numberOf(given, "zC_sun"), numberOf(wanted, "z_planet"), numberOf(given, "zA_annulus_fixed"), 3, [
        { shaft: "C", role: "input", speed: arm },
        { shaft: "R", role: "held" },
      ]),
    );
    expect(result(solved, "S", "Speed of S")).toBeCloseTo(numberOf(wanted, "nC_rpm"), 9);
    // The planet's own speed is the one that an eye on the arm sees.
    expect(result(solved, "P1", "Speed of Planet 1")).toBeCloseTo(numberOf(wanted, "n_planet_rpm") - arm, 9);
    expect(texts(solved, "S").some((text) => text.includes("(n_S − n_C) / (n_R − n_C) = e"))).toBe(true);
  });

  test("sun, carrier and annulus by the tabular method (Khurmi & Gupta ch. 13), any counts and speeds", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 12, max: 60 }),
        fc.integer({ min: 12, max: 40 }),
        fc.integer({ min: -500, max: 500 }),
        fc.integer({ min: -500, max: 500 }),
        (zs, zp, ns, nr) => {
          const solved = solve(
            planetary(zs, zp, zs + 2 * zp, 1, [
              { shaft: "S", role: "input", speed: ns },
              { shaft: "R", role: "input", speed: nr },
              { shaft: "C", role: "output" },
            ]),
          );
          // Table: arm +y everywhere; sun +x, annulus −x zs/zr. So x + y = ns, y − x zs/zr = nr.
          const zr = zs + 2 * zp;
          const x = (ns - nr) / (1 + zs / zr);
          expect(result(solved, "C", "Speed of Carrier")).toBeCloseTo(ns - x, 6);
        },
      ),
      { numRuns: 40 },
    );
  });

  test("held annulus takes four times the sun's torque, the carrier gives five (Khurmi & Gupta 13.20)", () => {
    const { given, expect: wanted } = reference("epi-kg-13-20-reaction");
    const solved = solve(
      planetary(numberOf(given, "z_sun"), numberOf(wanted, "z_planet"), numberOf(wanted, "z_ring"), 1, [
        { shaft: "S", role: "input", speed: 100 },
        { shaft: "R", role: "held" },
        { shaft: "C", role: "output", torque: numberOf(wanted, "T_carrier_Nm") },
      ]),
    );
    const line = lines(solved, "C").find((one) => one.words.startsWith("Torques on the set balance"));
    expect(Math.abs(line?.result ?? 0)).toBeCloseTo(numberOf(wanted, "T_carrier_Nm"), 9);
    expect(line && formulaText(line.numbers, FILE_UNITS)).toBe("− (100 N·m + 400 N·m)");
  });

  test("open differential as an adder (diff-adder): carrier (L + R)/2", () => {
    const { given, expect: wanted } = reference("diff-adder");
    const inputs = given.inputs as readonly (readonly [number, number])[];
    const carriers = wanted.carrier_rpm as readonly number[];
    inputs.forEach(([left, right], i) => {
      const solved = solve(
        differential(20, 12, 2, [
          { shaft: "L", role: "input", speed: left },
          { shaft: "R", role: "input", speed: right },
          { shaft: "C", role: "output" },
        ]),
      );
      expect(result(solved, "C", "Speed of Carrier")).toBeCloseTo(carriers[i] ?? Number.NaN, 9);
      expect(texts(solved, "C").some((text) => text.includes("(L + Right)/2 = Carrier"))).toBe(true);
    });
  });

  test("friction wheels have diameters in place of teeth (friction-wheels-force: v = 3.1416 m/s)", () => {
    const { given, expect: wanted } = reference("friction-wheels-force");
    const solved = solveFile({
      shafts: [{ id: "A", pose: POSE }, { id: "B" }],
      gears: [
        { id: "a", shaft: "A", kind: "wheel", diameter: numberOf(given, "d1_mm") },
        { id: "b", shaft: "B", kind: "wheel", diameter: numberOf(given, "d2_mm") },
      ],
      meshes: [{ id: "m", gears: ["a", "b"], normalForce: 1000, friction: 0.25 }],
      ports: [{ shaft: "A", role: "input", speed: numberOf(given, "n1_rpm") }],
    });
    expect(result(solved, "B", "Surface speed of a")).toBeCloseTo(numberOf(wanted, "v_m_s"), 6);
    expect(texts(solved, "B")).toContain(
      "Ratio of the mesh, output diameter over input diameter, that is input speed over output speed: i = d_b / d_a = 600 mm / 200 mm = 3",
    );
    expect(texts(solved, "B")).toContain("3 turns of A give 1 of B");
  });

  test("P = 2 π n T / 60 (speed-power-torque): 1 kW at 1000 rev/min is 9.549 N·m", () => {
    const { expect: wanted } = reference("speed-power-torque");
    const solved = pairOf(["spur", "spur"], { teeth: 20 }, { teeth: 20 }, {}, [
      { shaft: "A", role: "input", speed: 1000 },
      { shaft: "B", role: "output", torque: numberOf(wanted, "T_Nm") },
    ]);
    expect(result(solved, "B", "Power at Wheel")).toBeCloseTo(1000, 4);
  });
});

describe("drives that don't turn", () => {
  test("jammed, contradicted and unreached ones have workings without a made-up number", () => {
    const three = {
      shafts: [
        { id: "A", pose: POSE },
        { id: "B" },
        { id: "C", pose: { origin: [0, 0, 40], axis: [1, 0, 0], ref: [0, 0, 1] } },
      ],
      gears: ["a", "b", "c"].map((id) => ({ id, shaft: id.toUpperCase(), kind: "spur", teeth: 20, module: 2 })),
      meshes: [
        { id: "m1", gears: ["a", "b"], azimuth: 60 },
        { id: "m2", gears: ["b", "c"] },
        { id: "m3", gears: ["a", "c"] },
      ],
    };
    const jammed = solveFile({ ...three, ports: [{ shaft: "A", role: "input", speed: 100 }] });
    expect(jammed.motion.status).toBe("locked");
    const clash = pairOf(["spur", "spur"], { teeth: 20 }, { teeth: 40 }, {}, [
      { shaft: "A", role: "input", speed: 100 },
      { shaft: "B", role: "input", speed: 100 },
    ]);
    const lonely = solveFile({ shafts: [{ id: "A", pose: POSE }, { id: "B" }] });
    for (const solved of [jammed, clash, lonely]) {
      for (const id of solved.index.shafts.keys()) {
        for (const line of lines(solved, id))
          expect(workingText(line, FILE_UNITS)).not.toMatch(/NaN|null|undefined|: $/);
      }
    }
    expect(texts(clash, "B").some((text) => text.endsWith("the inputs disagree"))).toBe(true);
    expect(texts(lonely, "B")).toContain("Speed of B: n_B: nothing says where B stands");
    expect(texts(jammed, "B").some((text) => text.includes("jammed"))).toBe(true);
  });

  test("the cost of a long chain grows with its length, not with its square", () => {
    const chain = (stages: number) => solve(randomTree(5, stages + 1, stages, { pairs: ["spur"] }));
    const reads = (stages: number) =>
      countReads(chain(stages), (counted) => expect(workingsOf(counted, stages, FILE_UNITS)).toHaveLength(stages + 2));
    // Ten times the length: 10 where linear, 100 where each step looks through a whole list.
    expect(reads(400) / reads(40)).toBeLessThan(11);
  });

  test("spurs of one size say so", () => {
    expect(texts(spurs(20, 20), "B")).toContain(
      "Where the pitch circles touch, both surfaces move at one speed, so gears of one size turn equally fast",
    );
  });
});
