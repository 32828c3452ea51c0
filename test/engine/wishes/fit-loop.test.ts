/** Fitting a loop that misses by a little, against the law of cosines and against every other single move that was offered. */
import { describe, expect, test } from "vitest";
import type { Solved } from "../../../src/engine/solved";
import { fitLoop } from "../../../src/engine/wishes/fit-loop";
import { picker } from "../../support/random-drives";
import { POSE, solveFile, spurs } from "../explain/build";
import { applied, changesOf, whyNot } from "./judge";

const gear = (id: string, shaft: string, teeth: number, at = 0, kind = "spur") => ({
  id,
  shaft,
  kind,
  teeth,
  module: 2,
  at,
});

/** A drives B and C beside it; B and C mesh as well, on other gears, so that the loop turns: two planes. */
const loop = (azimuth: number): Solved =>
  solveFile({
    shafts: [{ id: "A", pose: POSE }, { id: "B" }, { id: "C" }],
    gears: [
      gear("a", "A", 40),
      gear("b", "B", 20),
      gear("c", "C", 20),
      gear("b2", "B", 30, 20),
      gear("c2", "C", 30, 20),
    ],
    meshes: [
      { id: "ab", gears: ["a", "b"], azimuth: 0 },
      { id: "ac", gears: ["a", "c"], azimuth },
      { id: "bc", gears: ["b2", "c2"] },
    ],
    ports: [{ shaft: "A", role: "input", speed: 10 }],
  });

/** B and C stand 60 mm from A and have to stand 60 mm from one another: 60 degrees. */
describe("a triangle of shafts", () => {
  test.each([60.02, 59.97, 60.005])("at %f degrees", (azimuth) => {
    const solved = loop(azimuth);
    expect(solved.findings.map(({ code }) => code)).toContain("loop-misfit");
    const changes = changesOf(fitLoop(solved, "bc"));
    expect(changes.length).toBeGreaterThan(1);
    for (const change of changes) {
      expect(applied(solved, change).findings.map(({ code }) => code)).not.toContain("loop-misfit");
    }
    const swings = changes.filter(({ title }) => title.startsWith("Swing"));
    for (const { solved: after } of swings) {
      const [ab, ac] = after.drive.meshes.map((mesh) => mesh.azimuth);
      expect(Math.abs((((ac ?? 0) - (ab ?? 0) + 540) % 360) - 180)).toBeCloseTo(60, 5);
    }
    expect(swings.length).toBeGreaterThan(0);
  });
});

describe("a train between two shafts that stand by themselves", () => {
  test("claims no reversal of shafts that did not turn in a known way before", () => {
    // 15 + 30 + 15 teeth of module 2 from axis to axis: 120 mm, of which 1.84 mm are missing.
    const solved = solveFile({
      shafts: [{ id: "A", pose: POSE }, { id: "B" }, { id: "C", pose: { ...POSE, origin: [0, 0, 118.16] } }],
      gears: [gear("a", "A", 30), gear("b", "B", 30), gear("c", "C", 30)],
      meshes: [
        { id: "m1", gears: ["a", "b"] },
        { id: "m2", gears: ["b", "c"] },
      ],
      ports: [{ shaft: "A", role: "input", speed: 100 }],
    });
    expect(solved.motion.speed).toContain(null);
    const changes = changesOf(fitLoop(solved, "m2"));
    expect(changes.length).toBeGreaterThan(0);
    for (const { also } of changes) {
      expect(also.join(" ")).toContain("not fixed yet → 100 rev/min");
      expect(also.join(" ")).not.toContain("the other way");
    }
  });
});

describe("two shafts that stand by themselves", () => {
  test("the distance is taken up by either", () => {
    const solved = solveFile({
      shafts: [
        { id: "A", pose: POSE },
        { id: "B", pose: { ...POSE, origin: [0, 0, 60.01] } },
      ],
      gears: [gear("a", "A", 20), { ...gear("b", "B", 40), phase: 4.5 }],
      meshes: [{ id: "m", gears: ["a", "b"] }],
      ports: [{ shaft: "A", role: "input", speed: 10 }],
    });
    const changes = changesOf(fitLoop(solved, "m"));
    expect(
      changes
        .map(({ title }) => title)
        .slice(0, 2)
        .sort(),
    ).toEqual(["Move A by 0.01 mm nearer", "Move B by 0.01 mm nearer"]);
    expect(applied(solved, changes[0] as never).findings).toEqual(applied(solved, changes[1] as never).findings);
  });

  test("a bevel pair slides to the crossing", () => {
    // Mitre gears of 20 teeth, module 2: both heels 20 mm from the crossing.
    const bevel = (id: string, shaft: string, at: number) => ({
      ...gear(id, shaft, 20, at, "bevel"),
      face: 5,
      apex: "-",
    });
    const solved = solveFile({
      shafts: [
        { id: "A", pose: POSE },
        { id: "B", pose: { origin: [0, 0, 0], axis: [0, 1, 0], ref: [0, 0, 1] } },
      ],
      gears: [bevel("a", "A", 20), bevel("b", "B", 20.03)],
      meshes: [{ id: "m", gears: ["a", "b"], shaftAngle: 90 }],
      ports: [{ shaft: "A", role: "input", speed: 10 }],
    });
    const [change] = changesOf(fitLoop(solved, "m"));
    const after = change && applied(solved, change);
    expect(after?.drive.gears.map(({ at }) => Math.round(at * 1e6) / 1e6)).toEqual([20, 20]);
    expect(after?.findings.map(({ code }) => code)).not.toContain("loop-misfit");
  });
});

test("nothing to fit", () => {
  expect(whyNot(fitLoop(spurs(20, 40), "m"))).toContain("closes no loop");
  expect(whyNot(fitLoop(loop(60), "bc"))).toContain("fits already");
});

test.each(Array.from({ length: process.env.SOAK ? 100 : 10 }, (_, i) => i + 1))(
  "a loop a little off, seed %i",
  (seed) => {
    const pick = picker(seed);
    const solved = loop(60 + (pick.whole(1, 30) / 1000) * pick.of([1, -1]));
    const changes = changesOf(fitLoop(solved, "bc"));
    expect(changes.length).toBeGreaterThan(0);
    for (const change of changes) {
      const after = applied(solved, change);
      expect(after.placement.meshes[2]?.misfit.modules).toBeLessThanOrEqual(1e-6);
      expect(after.findings.filter(({ code }) => code === "loop-misfit")).toEqual([]);
    }
  },
);
