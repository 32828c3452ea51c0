import { describe, expect, it } from "vitest";
import { leanHandle } from "../../src/bench/handles/lean-handle";
import { arcPoint, LEAST_LEAN, leanArcFor, leaningMesh, leaningPair, MOST_LEAN, snapLean } from "../../src/bench/lean";
import { HOME, type Orbit, project, sightThrough } from "../../src/bench/orbit";
import { solve } from "../../src/engine/solve";
import { length, square, sub } from "../../src/engine/vector";
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
const part = { kind: "mesh", id: "m" } as const;
const handleAt = (angle: number) => {
  const handle = leanHandle(bevels(angle), 0);
  if (!handle) throw new Error("no handle");
  return handle;
};

describe("the lean handle", () => {
  it("is there for the gears, the leaning shaft and the mesh of a bevel pair, and for nothing else", () => {
    const solved = bevels(60);
    for (const part of [
      { kind: "gear", id: "a" },
      { kind: "gear", id: "b" },
      { kind: "shaft", id: "B" },
      { kind: "mesh", id: "m" },
    ] as const) {
      expect(leaningMesh(solved, part)).toBe(0);
    }
    // A root has its place to be moved by; a sun stands where its carrier does.
    expect(leaningMesh(solved, { kind: "shaft", id: "A" })).toBe(-1);
    expect(leanArcFor(solved, null)).toBeNull();
    expect(leaningMesh(solve(planetary(24, 18, 60, 3)), { kind: "shaft", id: "S" })).toBe(-1);
  });

  it.each([15, 60, 90, 116.6, 150])(
    "spans %d degrees between the outward axes, and ends at its knob or on its line",
    (angle) => {
      const arc = leanArcFor(bevels(angle), part);
      if (!arc) throw new Error("no arc");
      const tip = arcPoint(arc, angle);
      const handle = handleAt(angle);
      const knob = handle.point(angle);
      for (const k of [0, 1, 2] as const) {
        expect((tip[k] - arc.apex[k]) / arc.radius).toBeCloseTo(arc.leans[k], 9);
        if (angle < 120) expect(knob[k]).toBeCloseTo(tip[k], 9);
      }
      // On the leaning axis: nothing of its way from the apex is across.
      expect(length(square(sub(knob, arc.apex), arc.leans))).toBeLessThan(1e-9);
    },
  );

  it("reads the angle under the pointer back from the picture", () => {
    const handle = handleAt(60);
    const orbit: Orbit = { target: handle.point(60), ...HOME, distance: 700 };
    for (const angle of [0, 20, 75, 140, 180]) {
      const at = project(orbit, handle.point(angle), 800);
      expect(handle.under(sightThrough(orbit, at.x, at.y, 800))).toBeCloseTo(angle, 6);
    }
  });

  it("gives nothing where the plane of the axes is seen edge on", () => {
    const pair = leaningPair(bevels(60), 0);
    if (!pair) throw new Error("no pair");
    expect(handleAt(60).under({ origin: [500, 0, 0], direction: pair.towards })).toBeNull();
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
    expect(leaningPair(bevels(60), 0)?.crown).toBeCloseTo(120, 9);
  });

  it("stays within its range, on the nearer side", () => {
    expect(snapLean(2, null, false)).toBe(LEAST_LEAN);
    expect(snapLean(179, null, false)).toBe(MOST_LEAN);
    expect(snapLean(-20, null, false)).toBe(LEAST_LEAN);
    expect(snapLean(-170, null, false)).toBe(MOST_LEAN);
    expect([LEAST_LEAN, MOST_LEAN]).toEqual([0, 180]);
  });

  it("draws no arc whose apex is out of sight", () => {
    expect(leanArcFor(bevels(1), part)).toBeNull();
  });
});
