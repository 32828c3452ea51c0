/**
 * The samples solve to what their own texts say. The expected numbers are reckoned by hand from teeth and diameters
 * (ratio of a pair: driver's teeth over driven's; torque = force times pitch radius), not by the engine.
 */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parseDrive } from "../../src/engine/drive/parse";
import { writeDrive } from "../../src/engine/drive/write";
import { solve } from "../../src/engine/solve";
import type { Solved } from "../../src/engine/solved";
import { SAMPLES } from "../../src/exchange/sample-list";

const FOLDER = "public/samples";
const textOf = (file: string): string => readFileSync(`${FOLDER}/${file}.drive.json`, "utf8");

const solved = (file: string): Solved => {
  const { drive, faults } = parseDrive(textOf(file));
  expect(faults).toBeUndefined();
  if (!drive) throw new Error(`${file} is no drive`);
  return solve(drive);
};

const shaft = (drive: Solved, id: string): number => drive.drive.shafts.findIndex((one) => one.id === id);
const speed = (drive: Solved, id: string) => drive.motion.speed[shaft(drive, id)];
const ratio = (drive: Solved, id: string) => {
  const exact = drive.motion.ratios[shaft(drive, id)];
  return exact && `${exact.n}/${exact.d}`;
};
const torque = (drive: Solved, id: string) => drive.load.shafts[shaft(drive, id)]?.torque;
const power = (drive: Solved, id: string) => drive.load.shafts[shaft(drive, id)]?.power;
const axis = (drive: Solved, id: string) => drive.placement.shafts[shaft(drive, id)]?.axis ?? [0, 0, 0];
const codes = (drive: Solved): string[] => drive.findings.map(({ severity, code }) => `${severity} ${code}`);
const gear = (drive: Solved, id: string) => drive.placement.gears[drive.drive.gears.findIndex((one) => one.id === id)];

/** Height of a pitch cone from its apex to the plane of the outer pitch circle, mm. */
const coneHeight = (drive: Solved, id: string): number => {
  const { centre, apexPoint } = gear(drive, id) ?? {};
  if (!centre || !apexPoint) throw new Error(`${id} has no cone`);
  return Math.hypot(centre[0] - apexPoint[0], centre[1] - apexPoint[1], centre[2] - apexPoint[2]);
};

describe("the samples", () => {
  it("are the files of the folder, one for one, with their titles and notes", () => {
    const files = readdirSync(FOLDER).map((name) => name.replace(".drive.json", ""));
    expect(SAMPLES.map(({ file }) => file).sort()).toEqual(files.sort());
    for (const { file, title, notice } of SAMPLES) {
      expect(solved(file).drive).toMatchObject({ title, notes: notice });
    }
  });

  it.each(SAMPLES.map(({ file }) => file))("%s is written as the writer writes it", (file) => {
    const { drive } = parseDrive(textOf(file));
    expect(drive && writeDrive(drive)).toBe(textOf(file));
  });

  it("juice press: both pairs give 1/2, and the smooth one slips at 3.6 N·m", () => {
    const drive = solved("juice-press");
    expect([ratio(drive, "B"), ratio(drive, "C")]).toEqual(["-1/2", "-1/2"]);
    expect(codes(drive)).toEqual(["warning slips"]);
    // 200 N · 0.3 · 60 mm
    expect(drive.findings[0]?.message).toContain("3.6 N·m");
  });

  it("puppet stage: same speed, other way, whatever the idler's teeth", () => {
    const drive = solved("puppet-stage");
    expect([ratio(drive, "B"), ratio(drive, "C")]).toEqual(["-1/2", "1/2"]);
    for (const teeth of [12, 18, 35]) {
      const gears = drive.drive.gears.map((one) => (one.id === "d1" ? { ...one, teeth } : one));
      const other = solve({ ...drive.drive, gears });
      expect([ratio(other, "B"), ratio(other, "C")]).toEqual(["-1/2", "1/2"]);
    }
    expect(codes(drive)).toEqual([]);
  });

  it("well hoist: 360 to 30 rev/min, torque x12, power the same", () => {
    const drive = solved("well-hoist");
    expect([speed(drive, "A"), speed(drive, "C")]).toEqual([360, 30]);
    expect(Math.abs(torque(drive, "C") ?? 0)).toBeCloseTo(12 * Math.abs(torque(drive, "A") ?? 0), 9);
    expect(power(drive, "A")).toBeCloseTo(-(power(drive, "C") ?? 0), 9);
    expect(codes(drive)).toEqual([]);
  });

  it("twin sluice gates: opposite ways from one end, alike from their own ends", () => {
    const drive = solved("twin-sluice-gates");
    // Each positive axis points out of its own end, and the two point opposite ways.
    const [b, c] = [axis(drive, "B"), axis(drive, "C")];
    expect(b[0] * c[0] + b[1] * c[1] + b[2] * c[2]).toBeCloseTo(-1, 12);
    expect([ratio(drive, "B"), ratio(drive, "C")]).toEqual(["1/2", "1/2"]);
    expect(codes(drive)).toEqual([]);
  });

  it("two leaning lanterns: cone heights 8 to 7 and 4 to 1, ratio the same", () => {
    const drive = solved("two-leaning-lanterns");
    expect(coneHeight(drive, "a1") / coneHeight(drive, "b1")).toBeCloseTo(8 / 7, 12);
    expect(coneHeight(drive, "a2") / coneHeight(drive, "c1")).toBeCloseTo(4, 12);
    expect([ratio(drive, "B"), ratio(drive, "C")]).toEqual(["2/3", "2/3"]);
    expect(codes(drive)).toEqual([]);
  });

  it("big bell, small bell: same speed and torque, half the tooth force", () => {
    const drive = solved("big-bell-small-bell");
    expect(speed(drive, "B")).toBe(speed(drive, "C"));
    expect(torque(drive, "B")).toBe(torque(drive, "C"));
    // 8 N·m at pitch radii of 40 and 80 mm
    expect(drive.load.meshes.map(({ tangentialForce }) => tangentialForce)).toEqual([
      expect.closeTo(200, 9),
      expect.closeTo(100, 9),
    ]);
    expect(codes(drive)).toEqual([]);
  });

  it("awning round a corner: half the speed, at 70 degrees", () => {
    const drive = solved("awning-round-a-corner");
    expect(Math.abs(speed(drive, "C") ?? 0)).toBe(20);
    expect(ratio(drive, "B")).toBe("-1/1");
    const [b, c] = [axis(drive, "B"), axis(drive, "C")];
    const cosine = Math.abs(b[0] * c[0] + b[1] * c[1] + b[2] * c[2]);
    expect(cosine).toBeCloseTo(Math.cos((70 * Math.PI) / 180), 12);
    expect(codes(drive)).toEqual([]);
  });

  it("paper carousel: 7 turns of the sun give 2, and it can be put together", () => {
    const drive = solved("paper-carousel");
    // With the ring held, carrier over sun is zs / (zs + zr) = 24 / 84.
    expect(ratio(drive, "C")).toBe("2/7");
    // Evenly spread planets go in where (sun + ring) / planets is whole.
    expect((24 + 60) % 3).toBe(0);
    expect(codes(drive)).toEqual([]);
  });

  it("hand-cart on a bend: the cage turns at the mean of the wheels", () => {
    const drive = solved("hand-cart-on-a-bend");
    expect([speed(drive, "L"), speed(drive, "R"), speed(drive, "C")]).toEqual([40, 20, 30]);
    expect(codes(drive)).toEqual([]);
  });

  it("three in a ring jam, four turn", () => {
    const drive = solved("three-jam-four-turn");
    expect(["A", "B", "C"].map((id) => speed(drive, id))).toEqual([0, 0, 0]);
    expect(["D", "E", "F", "G"].map((id) => speed(drive, id))).toEqual([20, -20, 20, -20]);
    expect(drive.motion.locked).toEqual([true, true, true, false, false, false, false]);
    // Turning freely, the three would have to turn both ways at once: that is the one error meant.
    expect(codes(drive)).toEqual(["error locked"]);
  });
});
