/**
 * Random drives against an outside judge: the same balance written out densely and solved by ml-matrix
 * (pseudo-inverse: least norm among the solutions), which knows nothing of queues, groups or rotations.
 */
import fc from "fast-check";
import { Matrix, pseudoInverse } from "ml-matrix";
import { describe, expect, test } from "vitest";
import type { Port } from "../../../src/engine/drive/types";
import { toNumber } from "../../../src/engine/motion/rational";
import { type Loaded, POSE, powerBalance, solveWritten, type Written } from "./loaded";
import { differential, planetary, square, steppedPlanet } from "./trains";

/** Speeds in rad/s and equations c1 w1' + c2 w2' = 0 as the motion has them; one column a mesh of torque for 1 N. */
function denseForces({ drive, index, placement, motion, load }: Loaded): Float64Array | null {
  const loadedShafts = drive.shafts
    .map((_, s) => s)
    .filter((s) => {
      const port = drive.ports[index.portOfShaft[s] ?? -1];
      return port === undefined || port.role === "output";
    });
  const columns: number[][] = [];
  drive.meshes.forEach((mesh, m) => {
    const row = motion.rows[m];
    const placed = placement.meshes[m];
    const gears = index.gearsOfMesh[m]?.map((g) => drive.gears[g]);
    const shafts = index.shaftsOfMesh[m];
    if (!row || !placed || !shafts || !gears?.[0] || !gears[1]) throw new Error("not a whole drive");
    const radius =
      placed.kind.forceRadii({ mesh, gears: [gears[0], gears[1]], shape: placed.shape }, placed.width)[0] / 1000;
    const [c1, c2] = row.coefficients.map(Number) as [number, number];
    const whole = [Math.sign(c1) * radius, (c2 / Math.abs(c1)) * radius];
    // The driver that the answer claims; that it agrees with the torques is tested apart.
    const driver = load.meshes[m]?.driver ?? null;
    const column = new Array<number>(drive.shafts.length).fill(0);
    for (const side of [0, 1] as const) {
      const part = (whole[side] ?? 0) * (driver === null || driver === side ? 1 : mesh.efficiency);
      column[shafts[side]] = (column[shafts[side]] ?? 0) + part;
      const carrier = row.carrier[side];
      if (carrier !== -1) column[carrier] = (column[carrier] ?? 0) - row.carrierSign[side] * part;
    }
    columns.push(column);
  });
  if (columns.length === 0) return null;
  const balance = new Matrix(loadedShafts.map((s) => columns.map((column) => column[s] ?? 0)));
  const wanted = Matrix.columnVector(
    loadedShafts.map((s) => {
      const port = drive.ports[index.portOfShaft[s] ?? -1];
      const speed = motion.speeds[s];
      return port?.torque !== undefined && speed ? Math.sign(toNumber(speed)) * port.torque : 0;
    }),
  );
  return Float64Array.from(pseudoInverse(balance, 1e-12).mmul(wanted).to1DArray());
}

/** The forces agree with the outside solution, the drivers with the torques, and power in is power out and losses. */
function agrees(solved: Loaded): void {
  const dense = denseForces(solved);
  const forces = solved.load.meshes.map((mesh) => mesh.tangentialForce ?? Number.NaN);
  const largest = Math.max(0, ...forces);
  dense?.forEach((force, m) => {
    expect(Math.abs(Math.abs(force) - (forces[m] ?? Number.NaN))).toBeLessThanOrEqual(1e-8 * largest);
  });
  solved.load.meshes.forEach(({ driver, torques }, m) => {
    const row = solved.motion.rows[m];
    const shaft = driver === null ? undefined : solved.index.shaftsOfMesh[m]?.[driver];
    if (driver === null || !row || shaft === undefined) return;
    const carrier = row.carrier[driver];
    const speed = (s: number) => solved.motion.speed[s] ?? Number.NaN;
    const spin = speed(shaft) - (carrier === -1 ? 0 : row.carrierSign[driver] * speed(carrier));
    expect((torques?.[driver] ?? Number.NaN) * spin).toBeLessThan(0);
  });
  const { rest, largest: power } = powerBalance(solved);
  expect(Math.abs(rest)).toBeLessThanOrEqual(1e-9 * power);
}

const efficiency = fc.constantFrom(1, 0.99, 0.98, 0.95, 0.9);
const teeth = fc.integer({ min: 12, max: 60 });
const stage = fc.record({
  from: fc.nat(),
  kind: fc.constantFrom("spur", "ring", "bevel"),
  teeth: fc.tuple(teeth, teeth),
  angle: fc.integer({ min: 30, max: 150 }),
  azimuth: fc.integer({ min: 0, max: 359 }),
  efficiency,
  isLoaded: fc.boolean(),
  torque: fc.integer({ min: 1, max: 100 }),
});

const tree = fc
  .record({
    stages: fc.array(stage, { minLength: 1, maxLength: 14 }),
    input: fc.nat(),
    speed: fc.constantFrom(-60, 100, 1450),
  })
  .map(({ stages, input, speed }): Written => {
    const inputShaft = input % (stages.length + 1);
    const gears = stages.flatMap(({ kind, teeth: [first, second], from }, k): Written["gears"][number][] => {
      const [on, of] = [`s${from % (k + 1)}`, `s${k + 1}`];
      const common = { module: 2, face: 8, at: 50 * (k + 1) };
      if (kind === "bevel")
        return [
          { id: `p${k}`, shaft: on, kind, teeth: first, ...common, face: 5 },
          { id: `q${k}`, shaft: of, kind, teeth: second, ...common, face: 5 },
        ];
      return [
        { id: `p${k}`, shaft: on, kind: "spur", teeth: first, ...common },
        {
          id: `q${k}`,
          shaft: of,
          kind: kind === "ring" ? "internal" : "spur",
          teeth: kind === "ring" ? first + second : second,
          ...common,
        },
      ];
    });
    const ports: Port[] = [{ shaft: `s${inputShaft}`, role: "input", speed }];
    stages.forEach(({ isLoaded, torque }, k) => {
      if (isLoaded && k + 1 !== inputShaft) ports.push({ shaft: `s${k + 1}`, role: "output", torque });
    });
    return {
      shafts: [{ id: "s0", pose: POSE }, ...stages.map((_, k) => ({ id: `s${k + 1}` }))],
      gears,
      meshes: stages.map((one, k) => ({
        id: `m${k}`,
        gears: [`p${k}`, `q${k}`] as const,
        azimuth: one.azimuth,
        efficiency: one.efficiency,
        ...(one.kind === "bevel" ? { shaftAngle: one.angle } : {}),
      })),
      ports,
    };
  });

describe("against a dense least-norm solution", () => {
  test("random trees", () => {
    fc.assert(
      fc.property(tree, (written) => agrees(solveWritten(written))),
      { numRuns: 150, seed: 11 },
    );
  });

  test("random planetary sets, any two of sun, ring and carrier driven or held", () => {
    const sets = fc.record({
      sun: fc.integer({ min: 12, max: 48 }),
      planet: fc.integer({ min: 12, max: 40 }),
      planets: fc.constantFrom(1, 2, 3),
      order: fc.constantFrom("SRC", "SCR", "RSC", "RCS", "CSR", "CRS"),
      second: fc.constantFrom(0, 40, -75),
      losses: fc.tuple(efficiency, efficiency),
    });
    let counted = 0;
    fc.assert(
      fc.property(sets, ({ sun, planet, planets, order, second, losses }) => {
        // Equally spaced planets enter sun and ring only where the sum of their teeth divides; the load needs no phases.
        const [first, other, last] = [...order] as [string, string, string];
        const ports: Port[] = [
          { shaft: first, role: "input", speed: 100 },
          second === 0 ? { shaft: other, role: "held" } : { shaft: other, role: "input", speed: second },
          { shaft: last, role: "output", torque: 30 },
        ];
        const solved = solveWritten(planetary(sun, planet, planets, ports, losses));
        if (solved.shaft(last).torque === null) {
          expect(
            solved.codes().includes("self-locking") || solved.motion.speed[solved.index.shafts.get(last) ?? -1] === 0,
          ).toBe(true);
          return;
        }
        counted++;
        agrees(solved);
      }),
      { numRuns: 200, seed: 12 },
    );
    expect(counted).toBeGreaterThan(150);
  });

  test.each([1, 0.95])("four gears in a square, efficiency %d", (e) => {
    const solved = solveWritten(
      square(
        [
          { shaft: "A", role: "input", speed: 100 },
          { shaft: "C", role: "output", torque: 8 },
        ],
        e,
      ),
    );
    agrees(solved);
    // By symmetry each way round carries half.
    for (const id of ["bc", "dc"]) expect(solved.mesh(id).tangentialForce).toBeCloseTo(200 / e, 9);
    for (const id of ["ab", "ad"]) expect(solved.mesh(id).tangentialForce).toBeCloseTo(200 / e / e, 9);
    expect(solved.codes()).toEqual(["equal-sharing"]);
  });

  test("a square loaded at a neighbour: the long way round carries less", () => {
    const solved = solveWritten(
      square([
        { shaft: "A", role: "input", speed: 100 },
        { shaft: "B", role: "output", torque: 8 },
      ]),
    );
    agrees(solved);
    // Least squares of x and of three times (400 - x): x = 300 N.
    expect(solved.mesh("ab").tangentialForce).toBeCloseTo(300, 9);
    expect(solved.mesh("dc").tangentialForce).toBeCloseTo(100, 9);
  });

  test("stepped planets and differentials", () => {
    agrees(
      solveWritten(
        steppedPlanet([
          { shaft: "F", role: "held" },
          { shaft: "C", role: "input", speed: 100 },
          { shaft: "L", role: "output", torque: 100 },
        ]),
      ),
    );
    agrees(
      solveWritten(
        differential(30, 17, [
          { shaft: "C", role: "input", speed: 200 },
          { shaft: "R", role: "input", speed: 150 },
          { shaft: "L", role: "output", torque: 20 },
        ]),
      ),
    );
  });

  test("a grid of gears with many loops", () => {
    const side = 6;
    const id = (i: number, j: number) => `s${i}-${j}`;
    const cells = Array.from({ length: side * side }, (_, k) => [Math.floor(k / side), k % side] as const);
    const solved = solveWritten({
      shafts: cells.map(([i, j]) => (i + j === 0 ? { id: id(i, j), pose: POSE } : { id: id(i, j) })),
      gears: cells.map(([i, j]) => ({ id: `g${i}-${j}`, shaft: id(i, j), kind: "spur", teeth: 20, module: 2 })),
      meshes: cells.flatMap(([i, j]) => [
        ...(j + 1 < side
          ? [{ id: `h${i}-${j}`, gears: [`g${i}-${j}`, `g${i}-${j + 1}`] as const, azimuth: 0, efficiency: 0.99 }]
          : []),
        ...(i + 1 < side
          ? [{ id: `v${i}-${j}`, gears: [`g${i}-${j}`, `g${i + 1}-${j}`] as const, azimuth: 90, efficiency: 0.99 }]
          : []),
      ]),
      ports: [
        { shaft: id(0, 0), role: "input", speed: 100 },
        { shaft: id(side - 1, side - 1), role: "output", torque: 10 },
        { shaft: id(side - 1, 0), role: "output", torque: 3 },
      ],
    });
    expect(solved.shaft(id(0, 0)).torque).not.toBeNull();
    agrees(solved);
  });
});
