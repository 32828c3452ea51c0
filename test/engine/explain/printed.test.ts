/** Every line of the workings of 1,000 random drives, read from its printed text and held against the solver. */
import { describe, expect, test } from "vitest";
import { formulaText } from "../../../src/engine/explain/formula";
import { type WorkingLine, workingText } from "../../../src/engine/explain/working-lines";
import { meshWorkings, workingsOf } from "../../../src/engine/explain/workings";
import { divide, fromDecimal, type Rational, rational, toText } from "../../../src/engine/motion/rational";
import { solve } from "../../../src/engine/solve";
import type { Drive, Port, Solved } from "../../../src/engine/solved";
import { FILE_UNITS, type Unit, type UnitChoice } from "../../../src/engine/units/choice";
import { ALL_PAIRS, differential, picker, planetary, randomTree } from "../../support/random-drives";
import { mixer, POSE, pairOf, solveFile, spurs } from "./build";
import { overlap, partsOf, workOut } from "./reader";

const SI: Readonly<Record<Unit, number>> = {
  mm: 1e-3,
  module: 1e-3,
  "rev/min": 1 / 60,
  N·m: 1,
  W: 1,
  N: 1,
  "°": 1,
  "m/s": 1,
  turns: 1,
  "": 1,
};

type Kind = "mesh" | "set" | "shaft";

/** The value of a symbol, read from the solver; null for names that only the lines themselves give (v, P of a mesh). */
function solverValue(solved: Solved, kind: Kind, mesh: number, name: string): number | null {
  const { drive, index, placement, motion, load } = solved;
  const [letter = "", id = ""] = name.split(/_(.*)/);
  const shaft = index.shafts.get(id) ?? -1;
  const gear = index.gears.get(id) ?? -1;
  const data = drive.gears[gear];
  const placed = placement.gears[gear];
  const side = index.gearsOfMesh[mesh]?.indexOf(gear) ?? -1;
  const DEGREE = Math.PI / 180;
  switch (letter) {
    case "n": {
      const speed = (motion.speed[shaft] ?? Number.NaN) / 60;
      return kind === "set" ? speed : Math.abs(speed);
    }
    case "z":
      return data && "teeth" in data ? data.teeth : null;
    case "d":
      return placed ? placed.pitchDiameter / 1000 : null;
    case "δ":
      return placed?.pitchAngle ?? null;
    case "h": {
      if (!placed?.apexPoint) return null;
      const { centre, apexPoint, outward } = placed;
      return centre.reduce((sum, x, i) => sum + (x - (apexPoint[i] ?? 0)) * (outward[i] ?? 0), 0) / 1000;
    }
    case "T":
      if (gear >= 0) return Math.abs(load.meshes[mesh]?.torques?.[side === 0 ? 0 : 1] ?? Number.NaN);
      // In a set it is what the teeth apply, which the balance of the line itself shows.
      return kind === "set" ? null : Math.abs(load.shafts[shaft]?.torque ?? Number.NaN);
    case "P":
      return id === "" ? null : Math.abs(load.shafts[shaft]?.power ?? Number.NaN);
    case "a":
      return (placement.meshes[mesh]?.shape.centreDistance ?? Number.NaN) / 1000;
    case "R":
      return (placement.gears[index.gearsOfMesh[mesh]?.[0] ?? -1]?.coneDistance ?? Number.NaN) / 1000;
    case "Σ":
      return (placement.meshes[mesh]?.shape.shaftAngle ?? Number.NaN) / DEGREE;
    case "η":
      return drive.meshes[mesh]?.efficiency ?? null;
    default:
      return null;
  }
}

interface Count {
  symbols: number;
  numbers: number;
  ratios: number;
  /** Lines whose rounded numbers say nothing, a difference of two equal ones below the line. */
  empty: number;
}

const near = (a: number, b: number, scale = 0): boolean =>
  Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b), scale, 1e-12);

/** The fraction that a line ends in, held against the exact speeds of the two shafts, in the convention that its words name. */
function expectRatio(solved: Solved, line: WorkingLine, shafts: readonly [number, number], fraction: string): void {
  const [input, output] = shafts.map((shaft) => solved.motion.speeds[shaft] ?? null);
  if (!input || !output || input.n === 0n || output.n === 0n) return;
  const isOutputOver = /output (teeth|diameter|circumference|sine) over input|input speed over output speed/.test(
    line.words,
  );
  const wanted = isOutputOver ? divide(input, output) : divide(output, input);
  const size: Rational = { n: wanted.n < 0n ? -wanted.n : wanted.n, d: wanted.d };
  const [over = "", under = "1"] = fraction.replaceAll("\u202f", "").split("/");
  const read = divide(fromDecimal(over), fromDecimal(under));
  if (toText(read) !== toText(size)) expect.fail(`${toText(read)} is not ${toText(size)}: ${line.words}`);
}

function expectLine(
  solved: Solved,
  line: WorkingLine,
  units: UnitChoice,
  symbols: (name: string) => number | null,
  count: Count,
): string | null {
  const text = workingText(line, units);
  if (line.symbols.length === 0 || line.missing !== null) return null;
  const formula = text.slice(line.words.length + 2);
  const { sides, fraction } = partsOf(formula);
  // The first sides are symbols: as many as the equation in symbols alone has.
  const symbolic = formulaText(line.symbols, units).split(" = ").length;
  const values = sides.slice(0, symbolic).map((side) => workOut(side, symbols));
  const si = line.result === null ? null : line.result * SI[line.unit];
  // A sum that comes to 0 is held against the speed that it is a sum of.
  const speeds = solved.motion.speed.map((speed) => Math.abs(speed ?? 0) / 60);
  const scale = line.unit === "rev/min" ? Math.max(...speeds) : 0;
  for (const value of values) {
    if (!value) continue;
    const wanted = si ?? values.find((one) => one !== null)?.low ?? Number.NaN;
    if (!near(value.low, wanted, scale)) expect.fail(`Symbols give ${value.low}, the solver ${wanted}: ${text}`);
    count.symbols++;
  }
  if (line.result === null) return null;
  const printed = workOut((sides.at(-1) ?? "").replace(/ kW$/, " W"), () => null);
  const factor = / kW$/.test(sides.at(-1) ?? "") ? 1000 : 1;
  for (const side of sides.slice(symbolic, -1)) {
    const value = workOut(side, () => null);
    if (!value || !printed) throw new Error(`"${text}" has a symbol among its numbers.`);
    const shown = { low: printed.low * factor, high: printed.high * factor };
    if (!overlap(value, shown)) expect.fail(`Numbers give ${value.low} to ${value.high}: ${text}`);
    if (value.low === -Infinity) count.empty++;
    count.numbers++;
  }
  return line.form || line.words.startsWith("Ratio of the whole way") ? fraction : null;
}

function expectSteps(
  solved: Solved,
  steps: ReturnType<typeof workingsOf>,
  ends: readonly [number, number],
  units: UnitChoice,
  count: Count,
): void {
  for (const step of steps) {
    const kind: Kind = /^(Planetary set|Differential)/.test(step.title)
      ? "set"
      : /(drives|with) .* on |^Why/.test(step.title)
        ? "mesh"
        : "shaft";
    const mesh = solved.index.meshes.get(step.about[0] ?? "") ?? -1;
    const [first, second] = [step.about[1], step.about[2]].map(
      (id) => solved.index.shaftOfGear[solved.index.gears.get(id ?? "") ?? -1] ?? -1,
    );
    // Names that the lines of a step give to one another: e, x and y of a planetary set.
    const own = new Map<string, number>();
    const fractions = new Set<string>();
    for (const line of step.lines) {
      const symbols = (name: string): number | null => own.get(name) ?? solverValue(solved, kind, mesh, name);
      const fraction = expectLine(solved, line, units, symbols, count);
      const named = line.symbols[0];
      if (kind === "set" && named?.kind === "symbol" && named.sub === undefined && line.result !== null)
        own.set(named.name, line.result * SI[line.unit]);
      if (fraction === null || line.result === null) continue;
      count.ratios++;
      const isCarried = step.title.includes("carried by");
      if (line.form && !isCarried) expectRatio(solved, line, [first ?? -1, second ?? -1], fraction);
      else if (!line.form) expectRatio(solved, line, ends, fraction);
      if (line.form) fractions.add(fraction);
    }
    expect(fractions.size).toBeLessThanOrEqual(1);
  }
}

function expectDrive(drive: Drive, units: UnitChoice, count: Count): void {
  const solved = solve(drive);
  const input = solved.index.shafts.get(drive.ports[0]?.shaft ?? "") ?? -1;
  for (const shaft of drive.shafts.keys()) {
    expectSteps(solved, workingsOf(solved, shaft, units), [input, shaft], units, count);
  }
  for (const { id } of drive.meshes) expectSteps(solved, meshWorkings(solved, id, units), [-1, -1], units, count);
}

const loaded = (input: string, output: string, held?: string): Port[] => [
  { shaft: input, role: "input", speed: 730 },
  { shaft: output, role: "output", torque: 12 },
  ...(held === undefined ? [] : [{ shaft: held, role: "held" } as const]),
];

/** One of 1,000: mostly trees of every kind of pair, every fifth a planetary set or a differential, entered from any side. */
function drive(seed: number): Drive {
  const pick = picker(seed);
  if (seed % 5 !== 0) {
    const shafts = pick.whole(2, 5);
    return randomTree(seed, shafts, pick.whole(1, shafts - 1), {
      pairs: ALL_PAIRS,
      losses: true,
      ports: loaded("s0", `s${shafts - 1}`),
    });
  }
  const isSet = seed % 2 === 0;
  const names = isSet ? ["S", "R", "C"] : ["L", "R", "C"];
  const at = pick.whole(0, 2);
  const [a, b, c] = [0, 1, 2].map((i) => names[(i + at) % 3] ?? "");
  const ports = loaded(a ?? "", b ?? "", c);
  const [sun, planet] = [pick.whole(17, 60), pick.whole(17, 40)];
  return isSet
    ? planetary(sun, planet, sun + 2 * planet, pick.whole(1, 3), ports)
    : differential(sun, planet, pick.whole(1, 2), ports);
}

describe("printed lines", () => {
  test("of 1,000 random drives (seeds 1 to 1,000) agree with the solver, symbols and numbers", {
    timeout: 120_000,
  }, () => {
    const count: Count = { symbols: 0, numbers: 0, ratios: 0, empty: 0 };
    for (let seed = 1; seed <= 1000; seed++) {
      expectDrive(drive(seed), { ...FILE_UNITS, ratio: seed % 3 === 0 ? "input" : "output" }, count);
    }
    expect(count.symbols).toBeGreaterThan(100_000);
    expect(count.numbers).toBeGreaterThan(50_000);
    expect(count.ratios).toBeGreaterThan(15_000);
    expect(count.empty / count.numbers).toBeLessThan(0.01);
  });

  test("the reader itself finds what is wrong", () => {
    const none = (): null => null;
    expect(workOut("(2 × (3 + 4)) / 7", none)).toEqual({ low: 2, high: 2 });
    const sum = workOut("40 mm + 100 mm", none);
    expect(sum && overlap(sum, { low: 140, high: 140 })).toBe(true);
    expect(sum && overlap(sum, { low: 141, high: 141 })).toBe(false);
    expect(workOut("sin(90°)", none)?.high).toBe(1);
    expect(workOut("z_a × 2", (name) => (name === "z_a" ? 21 : null))?.low).toBe(42);
    expect(workOut("q × 2", none)).toBeNull();
    expect(() => workOut("2 2", none)).toThrow();
  });
});

describe("the convention of the fraction", () => {
  const inverse: UnitChoice = { ...FILE_UNITS, ratio: "input" };
  test("is named wherever it stands, and the turns lead either way", () => {
    for (const units of [FILE_UNITS, inverse]) {
      const lines = workingsOf(mixer(), 2, units).flatMap((step) => step.lines);
      const ratios = lines.filter((line) => line.exact);
      expect(ratios.length).toBeGreaterThan(6);
      for (const { words } of ratios) expect(words).toMatch(/(output|input) \w+ over (output|input) \w+/);
      const turns = lines.findIndex(({ words }) => words === "5 turns of Motor give 1 of Mixer");
      expect(turns).toBeGreaterThan(-1);
      expect(turns).toBeLessThan(lines.findIndex(({ words }) => words.startsWith("Ratio of the whole way")));
    }
    const ratio = workingsOf(mixer(), 1, inverse)
      .flatMap((step) => step.lines)
      .find((line) => line.form === "teeth");
    expect(ratio && workingText(ratio, inverse)).toBe(
      "Ratio of the mesh, input teeth over output teeth, that is output speed over input speed: i = z_a1 / z_b1 = 20 / 50 = 0.4, exactly 2/5",
    );
  });

  test("gears whose modules differ have no ratio by diameters", () => {
    const pair = pairOf(["spur", "spur"], { teeth: 20, module: 2 }, { teeth: 40, module: 2.5 });
    const lines = meshWorkings(pair, "m", FILE_UNITS)
      .flatMap((step) => step.lines)
      .filter((line) => line.form);
    expect(lines.map((line) => line.form)).toEqual(["teeth", "diameters"]);
    expect(lines[1]?.words).toBe("The modules differ, so the diameters don't tell the ratio: the teeth do");
    expect(rational(40n, 20n)).toEqual(lines[0]?.exact);
  });

  test("a mesh that stands nowhere says so", () => {
    const lost = solveFile({
      shafts: [{ id: "A", pose: POSE }, { id: "B" }, { id: "C" }],
      gears: ["A", "B", "C"].map((id) => ({ id: id.toLowerCase(), shaft: id, kind: "spur", teeth: 20, module: 2 })),
      meshes: [{ id: "m", gears: ["b", "c"] }],
    });
    const lines = meshWorkings(lost, "m", FILE_UNITS).flatMap((step) => step.lines.map(({ words }) => words));
    expect(lines).toEqual(["Nothing says where this mesh stands"]);
  });

  test("a mesh that isn't there is an error, not an empty working", () => {
    expect(() => meshWorkings(spurs(20, 40), "nowhere", FILE_UNITS)).toThrow("There is no mesh nowhere.");
  });
});
