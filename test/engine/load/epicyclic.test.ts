/** Carriers: torque splits by closed forms, losses by the equation of Willis, self-locking. */
import { describe, expect, test } from "vitest";
import references from "../references.json";
import { powerBalance, relative, solveWritten } from "./loaded";
import { differential, planetary, steppedPlanet } from "./trains";

describe("planetary set without losses", () => {
  // Closed form, any textbook on gear trains: T_sun : T_ring : T_carrier = zs : zr : -(zs + zr).
  test.each([
    [24, 18],
    [16, 24],
    [20, 20],
    [33, 12],
  ])("sun %i, planet %i: torques as zs : zr : -(zs + zr)", (sun, planet) => {
    const solved = solveWritten(
      planetary(sun, planet, 1, [
        { shaft: "S", role: "input", speed: 100 },
        { shaft: "R", role: "held" },
        { shaft: "C", role: "output", torque: 10 },
      ]),
    );
    const ring = sun + 2 * planet;
    relative(solved.shaft("C").torque, -10, 1e-12);
    relative(solved.shaft("S").torque, (10 * sun) / (sun + ring), 1e-12);
    relative(solved.shaft("R").torque, (10 * ring) / (sun + ring), 1e-12);
    expect(solved.shaft("R").power).toBe(0);
    expect(solved.codes()).toEqual([]);
  });

  // Khurmi & Gupta, Theory of Machines, Example 13.20 (references.json, epi-kg-13-20-reaction).
  test("the torque that holds the ring", () => {
    const { given, expect: wanted } = references.find(({ id }) => id === "epi-kg-13-20-reaction") as unknown as {
      given: { z_sun: number; T_sun_Nm: number };
      expect: { z_planet: number; T_carrier_Nm: number; T_ring_hold_Nm: number };
    };
    const solved = solveWritten(
      planetary(given.z_sun, wanted.z_planet, 3, [
        { shaft: "S", role: "input", speed: 500, torque: given.T_sun_Nm },
        { shaft: "R", role: "held" },
        { shaft: "C", role: "output" },
      ]),
    );
    relative(solved.shaft("C").torque, -wanted.T_carrier_Nm, 1e-12);
    relative(solved.shaft("R").torque, wanted.T_ring_hold_Nm, 1e-12);
  });

  test("three planets share alike, and the note names their meshes", () => {
    const solved = solveWritten(
      planetary(24, 18, 3, [
        { shaft: "S", role: "input", speed: 70 },
        { shaft: "R", role: "held" },
        { shaft: "C", role: "output", torque: 21 },
      ]),
    );
    // Sun torque 21 · 24/84 = 6 N·m at 12 mm, on three planets.
    for (const id of ["sp1", "sp2", "sp3", "pr1", "pr2", "pr3"])
      relative(solved.mesh(id).tangentialForce, 6 / 0.012 / 3, 1e-12);
    expect(solved.codes()).toEqual(["equal-sharing"]);
    expect(solved.load.findings[0]?.at).toEqual(["sp1", "pr1", "sp2", "pr2", "sp3", "pr3"]);
  });
});

describe("planetary set with losses", () => {
  // Willis with the loss charged on rolling power; sun drives in the carrier's frame: T_ring = (zr/zs) e1 e2 T_sun.
  test.each([1, 3])("ring held, sun drives the carrier, %i planets", (planets) => {
    const solved = solveWritten(
      planetary(
        24,
        18,
        planets,
        [
          { shaft: "S", role: "input", speed: 70 },
          { shaft: "R", role: "held" },
          { shaft: "C", role: "output", torque: 21 },
        ],
        [0.98, 0.99],
      ),
    );
    relative(solved.shaft("S").torque, 21 / (1 + (60 / 24) * 0.98 * 0.99), 1e-12);
    const { rest, largest } = powerBalance(solved);
    expect(Math.abs(rest)).toBeLessThan(1e-12 * largest);
  });

  test("carrier held: an ordinary train of two meshes", () => {
    const solved = solveWritten(
      planetary(
        20,
        20,
        1,
        [
          { shaft: "S", role: "input", speed: 300 },
          { shaft: "C", role: "held" },
          { shaft: "R", role: "output", torque: 30 },
        ],
        [0.98, 0.99],
      ),
    );
    relative(solved.shaft("S").torque, 30 / 3 / (0.98 * 0.99), 1e-12);
  });
});

describe("stepped planet 75/18/17/71", () => {
  const ratio = (75 * 17) / (18 * 71);

  // Willis with mesh losses: T_carrier/T_output = 1 - (75·17)/(18·71) · e², 0.0419 at 0.98 a mesh.
  test("needs 0.0419 of the load at its carrier", () => {
    const solved = solveWritten(
      steppedPlanet([
        { shaft: "F", role: "held" },
        { shaft: "C", role: "input", speed: 100 },
        { shaft: "L", role: "output", torque: 100 },
      ]),
    );
    relative(solved.shaft("C").torque, 100 * (1 - ratio * 0.98 ** 2), 1e-10);
    expect((solved.shaft("C").torque ?? 0) / 100).toBeCloseTo(0.0419, 4);
    expect(solved.codes()).toEqual([]);
    const { rest, largest } = powerBalance(solved);
    expect(Math.abs(rest)).toBeLessThan(1e-10 * largest);
  });

  test("cannot be driven backwards", () => {
    const solved = solveWritten(
      steppedPlanet([
        { shaft: "F", role: "held" },
        { shaft: "L", role: "input", speed: 1 },
        { shaft: "C", role: "output", torque: 1 },
      ]),
    );
    expect(solved.codes()).toEqual(["self-locking"]);
    expect(solved.shaft("C")).toEqual({ torque: null, power: null });
    expect(solved.mesh("m1").tangentialForce).toBeNull();
    expect(solved.mesh("m1").pitchSpeed).toBeGreaterThan(0);
    expect(solved.message("self-locking")).toContain("locks itself");
  });

  test("nor by a motor whose torque is given, where the load is left out", () => {
    const solved = solveWritten(
      steppedPlanet([
        { shaft: "F", role: "held" },
        { shaft: "L", role: "input", speed: 1, torque: 5 },
        { shaft: "C", role: "output" },
      ]),
    );
    expect(solved.codes()).toEqual(["self-locking"]);
  });

  test("can be driven backwards without losses", () => {
    const solved = solveWritten(
      steppedPlanet(
        [
          { shaft: "F", role: "held" },
          { shaft: "L", role: "input", speed: 1 },
          { shaft: "C", role: "output", torque: 1 },
        ],
        1,
      ),
    );
    relative(solved.shaft("L").torque, 1 / (1 - ratio), 1e-10);
  });
});

describe("bevel differential", () => {
  test("splits the torque of its carrier in halves", () => {
    const solved = solveWritten(
      differential(24, 16, [
        { shaft: "C", role: "input", speed: 200 },
        { shaft: "L", role: "input", speed: 210 },
        { shaft: "R", role: "output", torque: 50 },
      ]),
    );
    relative(solved.shaft("R").torque, -50, 1e-12);
    relative(solved.shaft("L").torque, -50, 1e-12);
    relative(solved.shaft("C").torque, 100, 1e-12);
  });

  test("the planet's spin is the only rolling: none at equal speeds", () => {
    const solved = solveWritten(
      differential(24, 16, [
        { shaft: "C", role: "input", speed: 200 },
        { shaft: "L", role: "input", speed: 200 },
        { shaft: "R", role: "output", torque: 50 },
      ]),
    );
    expect(solved.mesh("lp").pitchSpeed).toBe(0);
    expect(solved.mesh("lp").driver).toBeNull();
    // Mean pitch radius of the side gear: 24 - 2.5 sin δ, tan δ = 24/16.
    relative(solved.mesh("lp").tangentialForce, 50 / (0.024 - 0.0025 * Math.sin(Math.atan(24 / 16))), 1e-12);
  });
});
