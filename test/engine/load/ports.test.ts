/** What ports make known: loads given and left out, inputs too weak, rest, nothing to carry. */
import { describe, expect, test } from "vitest";
import { computeLoad } from "../../../src/engine/load/load";
import { loaded, POSE, powerBalance, relative, solveWritten } from "./loaded";
import { chain, planetary } from "./trains";

const TRAIN = [
  [18, 54, 0.98],
  [18, 72, 0.97],
] as const;

describe("loads", () => {
  // format.md's example drive: 40 N·m at the mixer, 0.97 in the bevel pair.
  test("the example of the format", () => {
    const solved = loaded({
      format: "turnwise.drive",
      version: 1,
      shafts: [{ id: "A", pose: POSE }, { id: "B" }, { id: "C" }],
      gears: [
        { id: "a1", shaft: "A", at: 0, kind: "spur", teeth: 20, module: 2, face: 20 },
        { id: "b1", shaft: "B", at: 0, kind: "spur", teeth: 50, module: 2, face: 20 },
        { id: "b2", shaft: "B", at: 60, kind: "bevel", teeth: 16, module: 3, face: 14, apex: "+" },
        { id: "c1", shaft: "C", at: 0, kind: "bevel", teeth: 32, module: 3, face: 14, apex: "-" },
      ],
      meshes: [
        { id: "m1", gears: ["a1", "b1"] },
        { id: "m2", gears: ["b2", "c1"], shaftAngle: 90, efficiency: 0.97 },
      ],
      ports: [
        { shaft: "A", role: "input", speed: 1450 },
        { shaft: "C", role: "output", torque: 40 },
      ],
    });
    relative(solved.shaft("B").torque, -20.618, 1e-4);
    relative(solved.shaft("B").power, 1252.3, 1e-4);
    relative(solved.shaft("C").torque, 40, 1e-12);
    relative(solved.shaft("C").power, -1214.7, 1e-4);
    const m2 = solved.mesh("m2");
    relative(m2.pitchSpeed, 1.2676, 1e-4);
    relative(m2.tangentialForce, 988.0, 1e-4);
    relative(m2.radialForces?.[0], 321.6, 1e-3);
    relative(m2.radialForces?.[1], 160.8, 1e-3);
    relative(m2.axialForces?.[0], 160.8, 1e-3);
    relative(m2.axialForces?.[1], 321.6, 1e-3);
    relative(m2.contactRatio, 1.67, 5e-3);
    expect(m2.driver).toBe(0);
    relative(m2.loss, 1252.3 * 0.03, 1e-3);
  });

  test("as power: torque is power over speed, and so against the motion", () => {
    const solved = solveWritten(
      chain(
        [[20, 40]],
        [
          { shaft: "A", role: "input", speed: -600 },
          { shaft: "B", role: "output", power: 100 },
        ],
      ),
    );
    relative(solved.shaft("B").power, -100, 1e-12);
    relative(solved.shaft("B").torque, -100 / ((300 * 2 * Math.PI) / 60), 1e-12);
    relative(solved.shaft("A").power, 100, 1e-12);
    relative(solved.shaft("A").torque, -100 / ((600 * 2 * Math.PI) / 60), 1e-12);
  });

  test("left out and no input sized: what depends on it is null, the rest is not, and the gain tells", () => {
    const solved = solveWritten(
      chain(TRAIN, [
        { shaft: "A", role: "input", speed: 360 },
        { shaft: "C", role: "output" },
      ]),
    );
    for (const id of ["A", "B", "C"]) expect(solved.shaft(id)).toEqual({ torque: null, power: null });
    expect(solved.mesh("m1").tangentialForce).toBeNull();
    expect(solved.mesh("m1").loss).toBeNull();
    expect(solved.mesh("m1").pitchSpeed).toBeGreaterThan(0);
    const [a, b, c] = solved.load.gain;
    expect(a).toBe(1);
    relative(b, -3 * 0.98, 1e-12);
    relative(c, 12 * 0.98 * 0.97, 1e-12);
  });

  test("one of two left out: the branch with a load has figures", () => {
    const written = chain(
      [
        [20, 40, 0.98],
        [20, 40, 0.98],
      ],
      [],
    );
    const solved = solveWritten({
      ...written,
      shafts: [...written.shafts, { id: "D" }],
      gears: [
        ...written.gears,
        { id: "p3", shaft: "A", kind: "spur", teeth: 20, module: 2, at: 200 },
        { id: "q3", shaft: "D", kind: "spur", teeth: 60, module: 2 },
      ],
      meshes: [...written.meshes, { id: "m3", gears: ["p3", "q3"], azimuth: 180 }],
      ports: [
        { shaft: "A", role: "input", speed: 100 },
        { shaft: "C", role: "output" },
        { shaft: "D", role: "output", torque: 6 },
      ],
    });
    relative(solved.mesh("m3").tangentialForce, 6 / 0.06, 1e-12);
    expect(solved.mesh("m1").tangentialForce).toBeNull();
    expect(solved.shaft("A").torque).toBeNull();
    relative(solved.shaft("D").torque, 6, 1e-12);
    expect(solved.load.gain).toEqual([null, null, null, null]);
  });

  test("left out with a sized input: they follow from what it gives", () => {
    const solved = solveWritten(
      chain(TRAIN, [
        { shaft: "A", role: "input", speed: 360, torque: 2 },
        { shaft: "C", role: "output" },
      ]),
    );
    relative(solved.shaft("A").torque, 2, 1e-12);
    relative(solved.shaft("C").torque, -2 * 12 * 0.98 * 0.97, 1e-12);
    expect(Math.abs(powerBalance(solved).rest)).toBeLessThan(1e-12 * powerBalance(solved).largest);
    expect(solved.codes()).toEqual([]);
  });

  test("input-short gives both figures, by torque or by power", () => {
    const byTorque = solveWritten(
      chain(
        [[20, 40]],
        [
          { shaft: "A", role: "input", speed: 100, torque: 4 },
          { shaft: "B", role: "output", torque: 10 },
        ],
      ),
    );
    expect(byTorque.codes()).toEqual(["input-short"]);
    expect(byTorque.message("input-short")).toContain("can give 4 N·m but the load needs 5 N·m");
    relative(byTorque.shaft("A").torque, 5, 1e-12);
    const byPower = solveWritten(
      chain(
        [[20, 40]],
        [
          { shaft: "A", role: "input", speed: 100, power: 50 },
          { shaft: "B", role: "output", power: 60 },
        ],
      ),
    );
    expect(byPower.message("input-short")).toContain("can give 50 W but the load needs 60 W");
    const enough = [
      { shaft: "A", role: "input", speed: 100, torque: 5 },
      { shaft: "B", role: "output", torque: 10 },
    ] as const;
    expect(solveWritten(chain([[20, 40]], enough)).codes()).toEqual([]);
  });

  test("an output at rest with a size: null; with size 0: solved", () => {
    const ports = (torque: number) =>
      planetary(24, 18, 1, [
        { shaft: "S", role: "input", speed: 60 },
        { shaft: "R", role: "input", speed: -24 },
        { shaft: "C", role: "output", torque },
      ]);
    const held = solveWritten(ports(5));
    expect(held.motion.speed[2]).toBe(0);
    for (const id of ["S", "R", "C", "P1"]) expect(held.shaft(id)).toEqual({ torque: null, power: null });
    const idle = solveWritten(ports(0));
    for (const id of ["S", "R", "C", "P1"]) expect(idle.shaft(id)).toEqual({ torque: 0, power: 0 });
  });

  test("no output: nothing is carried, and the pitch speeds are there", () => {
    const solved = solveWritten(chain(TRAIN, [{ shaft: "A", role: "input", speed: 360, torque: 3 }]));
    for (const id of ["A", "B", "C"]) expect(solved.shaft(id)).toEqual({ torque: 0, power: 0 });
    expect(solved.mesh("m1")).toMatchObject({
      driver: null,
      torques: [0, 0],
      tangentialForce: 0,
      radialForces: [0, 0],
      axialForces: [0, 0],
      loss: 0,
    });
    relative(solved.mesh("m1").pitchSpeed, (0.018 * 360 * 2 * Math.PI) / 60, 1e-12);
    relative(solved.load.gain[2], 12 * 0.98 * 0.97, 1e-12);
  });

  test("free and locked drives have no loads", () => {
    const free = solveWritten(chain([[20, 40]], [{ shaft: "B", role: "output", torque: 1 }]));
    expect(free.motion.status).toBe("free");
    expect(free.shaft("B")).toEqual({ torque: null, power: null });
    const gears = ["A", "B", "C"].map(
      (id) => ({ id: id.toLowerCase(), shaft: id, kind: "spur", teeth: 20, module: 2 }) as const,
    );
    const locked = solveWritten({
      shafts: [{ id: "A", pose: POSE }, { id: "B" }, { id: "C" }],
      gears,
      meshes: [
        { id: "ab", gears: ["a", "b"], azimuth: 0 },
        { id: "ac", gears: ["a", "c"], azimuth: 60 },
        { id: "bc", gears: ["b", "c"] },
      ],
      ports: [
        { shaft: "A", role: "input", speed: 0 },
        { shaft: "C", role: "output", torque: 0 },
      ],
    });
    expect(locked.motion.status).toBe("locked");
    for (const id of ["A", "B", "C"]) expect(locked.shaft(id)).toEqual({ torque: null, power: null });
  });

  test("conflicting inputs: all null", () => {
    const solved = solveWritten(
      chain(
        [[20, 40]],
        [
          { shaft: "A", role: "input", speed: 100 },
          { shaft: "B", role: "input", speed: 100 },
        ],
      ),
    );
    expect(solved.motion.status).toBe("conflict");
    expect(solved.shaft("A").torque).toBeNull();
    expect(solved.mesh("m1").pitchSpeed).toBeNull();
  });

  test("two separate trains are judged apart", () => {
    const solved = solveWritten({
      shafts: [{ id: "A", pose: POSE }, { id: "B" }, { id: "X", pose: { ...POSE, origin: [0, 900, 0] } }, { id: "Y" }],
      gears: ["A", "B", "X", "Y"].map(
        (id) => ({ id: id.toLowerCase(), shaft: id, kind: "spur", teeth: 20, module: 2 }) as const,
      ),
      meshes: [
        { id: "m1", gears: ["a", "b"] },
        { id: "m2", gears: ["x", "y"] },
      ],
      ports: [
        { shaft: "A", role: "input", speed: 100 },
        { shaft: "B", role: "output", torque: 2 },
      ],
    });
    relative(solved.shaft("A").torque, 2, 1e-12);
    expect(solved.shaft("X").torque).toBeNull();
  });
});

describe("gain of a planetary set", () => {
  test("with its only output, along the way", () => {
    const solved = solveWritten(
      planetary(24, 18, 3, [
        { shaft: "S", role: "input", speed: 70 },
        { shaft: "R", role: "held" },
        { shaft: "C", role: "output" },
      ]),
    );
    relative(solved.load.gain[0], 1, 1e-12);
    relative(solved.load.gain[2], 3.5, 1e-12);
    expect(solved.load.gain[1]).toBeNull();
  });
});

describe("numbers that no double holds", () => {
  test("become null with a note, never Infinity or NaN", () => {
    const shafts = 900;
    const id = (k: number) => `s${k}`;
    const solved = solveWritten({
      shafts: Array.from({ length: shafts + 1 }, (_, k) => (k === 0 ? { id: id(k), pose: POSE } : { id: id(k) })),
      gears: Array.from({ length: shafts }, (_, k) => [
        { id: `p${k}`, shaft: id(k), kind: "spur", teeth: 20, module: 1, at: 0 } as const,
        { id: `q${k}`, shaft: id(k + 1), kind: "spur", teeth: 60, module: 1, at: 20 } as const,
      ]).flat(),
      meshes: Array.from({ length: shafts }, (_, k) => ({ id: `m${k}`, gears: [`p${k}`, `q${k}`] as const })),
      ports: [
        { shaft: id(0), role: "input", speed: 100, torque: 5 },
        { shaft: id(shafts), role: "output" },
      ],
    });
    expect(solved.shaft(id(0)).torque).toBe(5);
    expect(solved.shaft(id(shafts)).torque).toBeNull();
    expect(solved.codes()).toContain("out-of-range");
    const numbers = JSON.stringify(
      computeLoad(solved.drive, solved.index, solved.placement, solved.motion),
      (_, value) => (typeof value === "number" && !Number.isFinite(value) ? "bad" : value),
    );
    expect(numbers).not.toContain("bad");
  });
});

describe("an output whose load was left out", () => {
  test("never pushes: where the loads given take more than the inputs give, nothing is left, and a warning says both figures", () => {
    // One input of 1 N·m at 100 rev/min: 10.47 W. B at half the speed asks for 4 N·m: 20.94 W. By hand: P = T ω.
    const solved = solveWritten({
      shafts: [{ id: "A", pose: POSE }, { id: "B" }, { id: "C" }],
      gears: [
        { id: "a", shaft: "A", kind: "spur", teeth: 20, module: 2 },
        { id: "b", shaft: "B", kind: "spur", teeth: 40, module: 2 },
        { id: "c", shaft: "C", kind: "spur", teeth: 60, module: 2 },
      ],
      meshes: [
        { id: "m1", gears: ["a", "b"], efficiency: 0.9 },
        { id: "m2", gears: ["a", "c"], azimuth: 180, efficiency: 0.9 },
      ],
      ports: [
        { shaft: "A", role: "input", speed: 100, torque: 1 },
        { shaft: "B", role: "output", torque: 4 },
        { shaft: "C", role: "output" },
      ],
    });
    expect(solved.shaft("C").torque).toBeNull();
    const short = solved.load.findings.find(({ code }) => code === "input-short");
    expect(solved.codes()).toContain("input-short");
    expect(short?.message).toMatch(/10\.47 W.*20\.94 W/);
  });
});
