/** Figures within a text: each as the solver has it, checked by closed forms of the mixer; hidden and unknown ones said to be so. */
import { describe, expect, it } from "vitest";
import { readDrive } from "../../../src/engine/drive/parse";
import { HIDDEN, NOT_FIXED } from "../../../src/engine/explain/directions";
import { textWithFigures } from "../../../src/engine/explain/figures-in-text";
import { veiled } from "../../../src/engine/question/veil";
import { solve } from "../../../src/engine/solve";
import { FILE_UNITS } from "../../../src/engine/units/choice";

const wheel = (id: string, shaft: string, diameter: number) => ({ id, shaft, kind: "wheel", diameter, face: 20 });
const bevel = (id: string, shaft: string, teeth: number) => ({
  ...{ id, shaft, kind: "bevel", teeth, module: 3, face: 15 },
  ...(shaft === "A" ? {} : { apex: "-" }),
});
const POSE = { origin: [0, 0, 0], axis: [1, 0, 0], ref: [0, 0, 1] };
const drive = (gears: object[], mesh: object, torque?: number) => {
  const read = readDrive({
    format: "turnwise.drive",
    version: 1,
    shafts: [{ id: "A", name: "Crank", pose: POSE }, { id: "B" }],
    gears,
    meshes: [{ id: "m1", gears: ["a1", "b1"], ...mesh }],
    ports: [
      { shaft: "A", role: "input", speed: 30 },
      { shaft: "B", role: "output", ...(torque === undefined ? {} : { torque }) },
    ],
  });
  if (!read.drive) throw new Error(read.faults[0]?.message);
  return read.drive;
};
const bevels = solve(drive([bevel("a1", "A", 20), bevel("b1", "B", 30)], { shaftAngle: 60 }, 3));
const wheels = solve(drive([wheel("a1", "A", 60), wheel("b1", "B", 120)], { normalForce: 200, friction: 0.3 }, 3));
const said = (text: string, solved = bevels): string => textWithFigures(text, solved, FILE_UNITS).text;

describe("figures of a text", () => {
  it.each([
    // 30 rev/min × 20/30; 3 N·m × 20/30; power 3 N·m × 2π·20/60 1/s.
    ["{speed of A} and {speed of B}", "30 rev/min and 20 rev/min"],
    ["{torque of A}, {torque of B}", "2 N·m, 3 N·m"],
    ["{power of B}", "6.283 W"],
    ["{turns of A and B}", "3 turns of Crank give 2 of B"],
    ["{turns of B and A}", "2 turns of B give 3 of Crank"],
    ["{size of a1}", "20 teeth"],
    ["{radius of b1}", "45 mm"],
    // tan δ1 = sin Σ / (z2/z1 + cos Σ) = (√3/2) / 2, R = r1 / sin δ1; heights R cos δ.
    ["{pitch angle of a1}", "23.41°"],
    ["{pitch angle of b1}", "36.59°"],
    ["{cone distance of b1}", "75.5 mm"],
    ["{cone height of a1}", "69.28 mm"],
    ["{shaft angle of m1}", "60°"],
  ])("%s", (text, words) => {
    expect(said(text)).toBe(words);
  });

  it("tells the way as everything else does", () => {
    expect(said("{way of A}")).toMatch(/^(counter)?clockwise seen from the /);
  });

  it("has the torque from which a friction pair slips: μ N r = 0.3 · 200 N · 60 mm", () => {
    expect(said("{slip torque of m1}", wheels)).toBe("3.6 N·m");
    expect(said("{cone height of a1}", wheels)).toBe("no cone");
  });

  it("leaves braces that name nothing as they were typed, and says which", () => {
    const text = "{speed of Z} {colour of A} {} {speed} {turns of A} {pitch angle of m1}";
    const { unknown } = textWithFigures(text, bevels, FILE_UNITS);
    expect(said(text)).toBe(text);
    expect(unknown).toEqual(["{speed of Z}", "{colour of A}", "{}", "{speed}", "{turns of A}", "{pitch angle of m1}"]);
  });

  it("tells nothing that a question hides", () => {
    // What the drive itself gives, the load at B, is no secret.
    const all = new Set(["direction", "speed", "ratio", "torque"] as const);
    const hidden = veiled(
      bevels,
      new Map([
        ["B", all],
        ["A", new Set(["torque"] as const)],
      ]),
    );
    for (const text of [
      "{speed of B}",
      "{way of B}",
      "{power of B}",
      "{torque of A}",
      "{power of A}",
      "{turns of A and B}",
    ]) {
      expect(said(text, hidden)).toBe(HIDDEN);
    }
    expect(said("{torque of B}", hidden)).toBe("3 N·m");
  });

  it("says what isn't fixed", () => {
    const still = solve({ ...bevels.drive, ports: [] });
    expect(said("{speed of A}, {turns of A and B}", still)).toBe(`${NOT_FIXED}, ${NOT_FIXED}`);
  });
});
