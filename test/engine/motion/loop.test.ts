import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { makeShaft } from "../../../src/engine/drive/defaults";
import type { Drive, Port } from "../../../src/engine/drive/types";
import { foldsOf, type Loop, loopOf, ROUND } from "../../../src/engine/motion/loop";
import { newPoses, poseAt, poseModel } from "../../../src/engine/motion/pose-at";
import { toNumber, toText } from "../../../src/engine/motion/rational";
import { solve } from "../../../src/engine/solve";
import { ALL_PAIRS, differential, mesh, planetary, randomTree, root, toothed } from "../../support/random-drives";

const loop = (drive: Drive, hasMarks: boolean): Loop => {
  const solved = solve(drive);
  return loopOf(solved, foldsOf(solved, hasMarks));
};
const period = (drive: Drive, hasMarks: boolean): string => {
  const found = loop(drive, hasMarks);
  return "period" in found ? toText(found.period) : found.none;
};
const input = (shaft: string, speed: number): Port => ({ shaft, role: "input", speed });
const held = (shaft: string): Port => ({ shaft, role: "held" });

const pair = (z1: number, z2: number, ports: Port[]): Drive => ({
  ...planetary(z1, z2, z1 + 2 * z2, 1),
  shafts: [root("A"), makeShaft({ id: "B", name: "B" })],
  gears: [toothed("a", "A", "spur", z1, 2), toothed("b", "B", "spur", z2, 2)],
  meshes: [mesh("m", "a", "b")],
  ports,
});

describe("closed forms", () => {
  it("a pair without marks: one tooth pitch, which is the same time for both", () => {
    expect(period(pair(20, 30, [input("A", 60)]), false)).toBe("1/1200");
  });

  it("a pair with marks: the hunting-tooth count, lcm(z1, z2) / z1 turns of the first (handbooks)", () => {
    expect(period(pair(20, 30, [input("A", 1)]), true)).toBe("3");
    expect(period(pair(17, 31, [input("A", -1)]), true)).toBe("31");
  });

  it("a planetary set, annulus held: whole turns of the carrier, z_s : z_r = 1 : 3, so four of the sun to one of it", () => {
    // Willis: carrier = sun / (1 + z_r / z_s). In the carrier's frame the sun makes 3 turns, a planet of 20 makes 3.
    const drive = planetary(20, 20, 60, 3, [input("S", 4), held("R")]);
    expect(period(drive, true)).toBe("1");
    expect(period(drive, false)).toBe("1");
    const hunting = planetary(21, 18, 57, 3, [input("S", 78), held("R")]);
    // The carrier makes 21; in its frame a planet makes -(57/18)·21, in one turn of the carrier -19/6, which are 57 pitches.
    expect(period(hunting, false)).toBe("1/21");
    // With marks: 6 turns of the carrier for the planet, 7 for the sun at 26/7 a turn, so 42 at 21 a minute.
    expect(period(hunting, true)).toBe("2");
  });
});

/** Whether every shaft looks alike after `minutes`, reckoned from doubles and poses in the world alone. */
function looksAlike(drive: Drive, folds: readonly number[], minutes: number): boolean {
  const solved = solve(drive);
  const model = poseModel(solved);
  const angles = Float64Array.from(solved.motion.speed, (speed) => 2 * Math.PI * (speed ?? 0) * minutes);
  const before = newPoses(model.count);
  poseAt(model, new Float64Array(model.count), null, before);
  const after = newPoses(model.count);
  poseAt(model, angles, null, after);
  for (let i = 0; i < before.still.length; i++) {
    if (Math.abs((before.still[i] ?? 0) - (after.still[i] ?? 0)) > 1e-5) return false;
  }
  return folds.every((fold, shaft) => {
    if (fold === ROUND) return true;
    const steps = ((solved.motion.speed[shaft] ?? 0) * minutes * fold) as number;
    return Math.abs(steps - Math.round(steps)) < 1e-6;
  });
}

describe("random drives", () => {
  const drives = fc.oneof(
    fc.integer({ min: 1, max: 5000 }).map((seed) => randomTree(seed, 4, 4, { pairs: ALL_PAIRS })),
    fc
      .tuple(fc.integer({ min: 12, max: 40 }), fc.integer({ min: 12, max: 30 }), fc.integer({ min: -60, max: 60 }))
      .map(([sun, planet, speed]) => planetary(sun, planet, sun + 2 * planet, 1, [input("S", speed || 7), held("R")])),
  );

  it("all look alike after the period, and after no whole part of it", () => {
    let checked = 0;
    fc.assert(
      fc.property(drives, fc.boolean(), (drive, hasMarks) => {
        const solved = solve(drive);
        const folds = foldsOf(solved, hasMarks);
        const found = loopOf(solved, folds);
        if (!("period" in found)) return;
        const minutes = toNumber(found.period);
        const most = Math.max(...found.steps.map((steps) => Math.abs(Number(steps))));
        // Beyond this doubles don't tell a step from its neighbours.
        if (most > 1e6) return;
        checked++;
        expect(looksAlike(drive, folds, minutes)).toBe(true);
        // Times that do are whole multiples of the shortest: a shorter one would be a whole part of this one.
        const least = Math.min(...found.steps.filter((s) => s !== 0n).map((s) => Math.abs(Number(s))));
        for (let parts = 2; parts <= Math.min(least, 2000); parts++) {
          expect(looksAlike(drive, folds, minutes / parts)).toBe(false);
        }
      }),
      { numRuns: 60, seed: 11 },
    );
    expect(checked).toBeGreaterThan(20);
  });
});

describe("no loop, and why", () => {
  it("says what is missing", () => {
    expect(period({ ...pair(20, 30, []), shafts: [], gears: [], meshes: [] }, false)).toBe("empty");
    expect(period(pair(20, 30, []), false)).toBe("undetermined");
    expect(period(pair(20, 30, [input("A", 0)]), false)).toBe("still");
    expect(period(differential(24, 16, 1, [input("C", 10)]), false)).toBe("undetermined");
  });

  it("a shaft of round things alone is not seen turning", () => {
    const solved = solve(pair(20, 30, [input("A", 10)]));
    expect(loopOf(solved, [ROUND, ROUND])).toEqual({ none: "round" });
  });

  it("what is drawn beside the gears counts: three spokes on 20 teeth, a crank", () => {
    const solved = solve(pair(20, 30, [input("A", 1)]));
    expect(foldsOf(solved, false, (shaft) => (shaft === 0 ? 3 : 0))).toEqual([1, 30]);
    expect(foldsOf(solved, false)).toEqual([20, 30]);
  });

  it("a hidden question gives no period away", () => {
    const solved = solve(pair(20, 30, [input("A", 1)]));
    const veil = { hides: () => true, speedSize: () => null };
    expect(loopOf({ ...solved, veil }, [20, 30])).toEqual({ none: "hidden" });
  });
});
