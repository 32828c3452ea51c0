import { describe, expect, it } from "vitest";
import { parseDrive } from "../../src/engine/drive/parse";
import { report } from "../../src/engine/report";
import { solve } from "../../src/engine/solve";
import { mixer, press } from "./drive/files";

const reported = (value: unknown, change: (text: string) => string = (text) => text) => {
  const { drive, faults } = parseDrive(change(JSON.stringify(value)));
  if (!drive) throw new Error(JSON.stringify(faults));
  const output = report(solve(drive));
  // What JSON can't hold would come out as null or 0 unseen.
  expect(JSON.parse(JSON.stringify(output))).toStrictEqual(output);
  return output;
};
const part = <T extends { readonly id: string }>(list: readonly T[], id: string): T => {
  const found = list.find((one) => one.id === id);
  if (!found) throw new Error(`no ${id}`);
  return found;
};

/** A ring of 60 teeth about a pinion of 20, module 2. */
const ringed = () => {
  const file = mixer();
  file.gears = [
    { id: "a1", shaft: "A", kind: "spur", teeth: 20, module: 2, shift: 0.2 },
    { id: "b1", shaft: "B", kind: "internal", teeth: 60, module: 2, shift: 0.2 },
  ];
  file.meshes = [{ id: "m1", gears: ["a1", "b1"] }];
  file.shafts.pop();
  file.ports.pop();
  return file;
};

describe("the solver's output", () => {
  it("has the format's keys in the format's order", () => {
    const { shafts, gears, meshes } = reported(mixer());
    expect(Object.keys(shafts[0] ?? {}).join(" ")).toBe(
      "id frame origin axis placedBy ratio speed angularVelocity torque power",
    );
    expect(Object.keys(gears[0] ?? {}).join(" ")).toBe(
      "id centre pitchDiameter tipDiameter rootDiameter pitchAngle coneDistance apexPoint virtualTeeth",
    );
    expect(Object.keys(meshes[0] ?? {}).join(" ")).toBe(
      "id ratio shaftAngle contact pitchSpeed tangentialForce radialForces axialForces contactRatio",
    );
    expect(shafts.map(({ placedBy }) => placedBy)).toEqual(["pose", "m1", "m2"]);
  });

  it("gives sizes by the format's formulas: outside, ring, bevel", () => {
    const { gears, meshes } = reported(ringed());
    // Outside: 40 + 4 (1 + 0.2), 40 - 4 (1.25 - 0.2). Ring, shift turned round: 120 - 4 (1 - 0.2), 120 + 4 (1.25 + 0.2).
    expect(part(gears, "a1")).toMatchObject({
      pitchDiameter: 40,
      tipDiameter: 44.8,
      rootDiameter: 35.8,
      pitchAngle: 0,
      virtualTeeth: 20,
    });
    expect(part(gears, "b1")).toMatchObject({
      pitchDiameter: 120,
      tipDiameter: 116.8,
      rootDiameter: 125.8,
      pitchAngle: 180,
      virtualTeeth: -60,
    });
    expect(part(gears, "b1")).toMatchObject({ coneDistance: null, apexPoint: null });
    expect(meshes[0]).toMatchObject({ ratio: "3", shaftAngle: 180 });
    const bevel = reported(mixer());
    expect(part(bevel.meshes, "m1")).toMatchObject({
      shaftAngle: 0,
      contact: [
        [-10, 0, 20],
        [10, 0, 20],
      ],
    });
    // tan δ = z1/z2 at 90 degrees.
    expect(part(bevel.gears, "b2").pitchAngle).toBeCloseTo((Math.atan(16 / 32) * 180) / Math.PI, 12);
  });

  it("has no virtual teeth on a crown gear", () => {
    const file = mixer();
    // cos Σ = -z1/z2 = -1/2 puts the larger pitch angle at 90 degrees.
    file.meshes[1].shaftAngle = 120;
    const crown = part(reported(file).gears, "c1");
    expect(crown.pitchAngle).toBeCloseTo(90, 10);
    expect(crown.virtualTeeth).toBeNull();
    file.meshes[1].shaftAngle = 130;
    expect(part(reported(file).gears, "c1").virtualTeeth).toBeLessThan(0);
  });

  it("gives a wheel without teeth its diameter and the exact ratio of decimals", () => {
    const { gears, meshes, shafts } = reported(press(), (text) =>
      text.replace('"diameter":60', '"diameter":60.00000000000000000006'),
    );
    expect(part(gears, "b1")).toMatchObject({
      pitchDiameter: 120,
      tipDiameter: 120,
      rootDiameter: 120,
      virtualTeeth: null,
    });
    expect(part(meshes, "m1").ratio).toBe("2000000000000000000000/1000000000000000000001");
    expect(part(meshes, "m1").contactRatio).toBeNull();
    expect(shafts.map(({ frame }) => frame)).toEqual(["ground", "ground", "ground", "C"]);
    expect(part(shafts, "C").placedBy).toBe("coaxial");
  });

  it("says null of a shaft that nothing reaches, and of a bevel gear that meshes with nothing", () => {
    const file = mixer();
    file.meshes.pop();
    const { shafts, gears, findings } = reported(file);
    expect(part(shafts, "C")).toEqual({
      id: "C",
      frame: "ground",
      origin: null,
      axis: null,
      placedBy: null,
      ratio: null,
      speed: null,
      angularVelocity: null,
      torque: null,
      power: null,
    });
    expect(part(gears, "c1")).toEqual({
      id: "c1",
      centre: null,
      pitchDiameter: 96,
      tipDiameter: null,
      rootDiameter: null,
      pitchAngle: null,
      coneDistance: null,
      apexPoint: null,
      virtualTeeth: null,
    });
    expect(part(gears, "b2").tipDiameter).toBeNull();
    expect(findings[0]).toMatchObject({ severity: "error", code: "unreached", at: ["C"] });
  });

  it("says null with one note where no double holds a number", () => {
    const file = mixer();
    file.gears[0].module = 1e307;
    file.gears[1].module = 1e307;
    const { gears, findings } = reported(file);
    expect(part(gears, "b1").pitchDiameter).toBeNull();
    const told = findings.filter(({ code }) => code === "out-of-range").flatMap(({ at }) => at);
    expect(told).toContain("b1");
    expect(new Set(told).size).toBe(told.length);
  });

  it("leaves out a fraction of more than 1,000 digits a side, with a note", () => {
    const digits = `${"1".repeat(990)}`;
    const { meshes, findings } = reported(press(), (text) =>
      text.replace('"diameter":60', `"diameter":0.${digits}`).replace('"diameter":120', `"diameter":1e300`),
    );
    expect(part(meshes, "m1").ratio).toBeNull();
    expect(findings.some(({ code, at }) => code === "ratio-long" && at.includes("m1"))).toBe(true);
  });
});
