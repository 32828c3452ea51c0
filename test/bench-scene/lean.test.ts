import { describe, expect, it } from "vitest";
import { angleUnder, arcPoint, LEAST_LEAN, leanFor, MOST_LEAN, snapLean } from "../../src/bench/lean";
import { HOME, type Orbit, project, sightThrough } from "../../src/bench/orbit";
import { solve } from "../../src/engine/solve";
import { mesh, planetary, root, toothed } from "../support/random-drives";

const bevels = (angle: number) =>
  solve({
    title: "",
    notes: "",
    shafts: [root("A"), { id: "B", name: "B" }],
    gears: [toothed("a", "A", "bevel", 20, 3), toothed("b", "B", "bevel", 40, 3, { apex: "-" })],
    meshes: [mesh("m", "a", "b", { shaftAngle: angle, azimuth: 30 })],
    ports: [],
  });

describe("the lean handle", () => {
  it("is there for the gear, the shaft and the mesh of a bevel pair, and for nothing else", () => {
    const solved = bevels(60);
    for (const part of [
      { kind: "gear", id: "a" },
      { kind: "shaft", id: "B" },
      { kind: "mesh", id: "m" },
    ] as const) {
      expect(leanFor(solved, part)?.id).toBe("m");
    }
    expect(leanFor(solved, null)).toBeNull();
    expect(leanFor(solve(planetary(24, 18, 60, 3)), { kind: "shaft", id: "S" })).toBeNull();
  });

  it.each([15, 60, 90, 116.6, 150])("spans %d degrees between the outward axes", (angle) => {
    const lean = leanFor(bevels(angle), { kind: "mesh", id: "m" });
    if (!lean) throw new Error("no handle");
    const tip = arcPoint(lean, angle);
    for (const k of [0, 1, 2] as const) expect((tip[k] - lean.apex[k]) / lean.radius).toBeCloseTo(lean.leans[k], 9);
  });

  it("reads the angle under the pointer back from the picture", () => {
    const lean = leanFor(bevels(60), { kind: "mesh", id: "m" });
    if (!lean) throw new Error("no handle");
    const orbit: Orbit = { target: lean.apex, ...HOME, distance: 700 };
    for (const angle of [20, 75, 140]) {
      const at = project(orbit, arcPoint(lean, angle), 800);
      expect(angleUnder(lean, sightThrough(orbit, at.x, at.y, 800))).toBeCloseTo(angle, 6);
    }
  });

  it("gives nothing where the plane of the axes is seen edge on", () => {
    const lean = leanFor(bevels(60), { kind: "mesh", id: "m" });
    if (!lean) throw new Error("no handle");
    const direction = lean.across;
    expect(angleUnder(lean, { origin: [500, 0, 0], direction })).toBeNull();
  });

  it("snaps to steps of 15 and to the flat crown, and to nothing with Alt", () => {
    const crown = (Math.acos(-0.5) * 180) / Math.PI;
    expect(crown).toBeCloseTo(120, 9);
    expect(snapLean(61.7, null, false)).toBe(60);
    expect(snapLean(88.2, null, false)).toBe(90);
    expect(snapLean(68.4, null, false)).toBe(68);
    expect(snapLean(61.74, null, true)).toBe(61.7);
    const uneven = (Math.acos(-20 / 30) * 180) / Math.PI;
    expect(snapLean(131, uneven, false)).toBe(uneven);
    expect(bevels(60) && leanFor(bevels(60), { kind: "mesh", id: "m" })?.crown).toBeCloseTo(120, 9);
  });

  it("stays within its range, on the nearer side", () => {
    expect(snapLean(3, null, false)).toBe(LEAST_LEAN);
    expect(snapLean(179, null, false)).toBe(MOST_LEAN);
    expect(snapLean(-20, null, false)).toBe(LEAST_LEAN);
    expect(snapLean(-170, null, false)).toBe(MOST_LEAN);
  });
});
