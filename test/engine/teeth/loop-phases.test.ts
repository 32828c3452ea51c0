/** Loops of teeth: those that close do, those that can't are found, and solids agree. */
import { describe, expect, test } from "vitest";
import { makeMesh, makePort } from "../../../src/engine/drive/defaults";
import type { Drive } from "../../../src/engine/drive/types";
import { isZero } from "../../../src/engine/motion/rational";
import { indexDrive } from "../../../src/engine/placement/index-drive";
import { place } from "../../../src/engine/placement/place";
import { loopPhaseFindings } from "../../../src/engine/teeth/loop-findings";
import { loopPhases } from "../../../src/engine/teeth/loop-phases";
import { restPhases } from "../../../src/engine/teeth/phases";
import { differential, planetary, rhombus } from "./drives";
import { drive, judge } from "./judge";

const look = (data: Drive) => {
  const index = indexDrive(data);
  const placement = place(data, index);
  const loops = loopPhases(data, index, placement, restPhases(data, index, placement)).filter((loop) => !loop.isJoin);
  return { loops, findings: loopPhaseFindings(data, index, placement) };
};
const closes = (data: Drive): boolean => look(data).loops.every((loop) => loop.exact !== null && isZero(loop.exact));

describe("planets between sun and ring", () => {
  // The known rule (any handbook, epicyclic gears, assembly): (sun + ring) / planets whole, for equal spacing.
  const cases: [number, number, number][] = [];
  for (const [sun, planet] of [
    [18, 21],
    [20, 20],
    [24, 18],
    [17, 19],
    [30, 15],
    [16, 25],
    [21, 21],
  ] as const) {
    for (const count of [2, 3, 4, 5, 6]) cases.push([sun, planet, count]);
  }
  test.each(cases)("sun %i, planet %i, %i planets: the rule and the loops agree", (sun, planet, count) => {
    const ring = sun + 2 * planet;
    expect(closes(planetary(sun, planet, count))).toBe((sun + ring) % count === 0);
  });
  test("sevenths of a turn, which no decimal holds, close to within the rounding of the file", () => {
    const sevenths = look(
      planetary(
        21,
        21,
        Array.from({ length: 7 }, (_, i) => Number(((360 * i) / 7).toFixed(6))),
      ),
    );
    expect(sevenths.loops.length).toBe(6);
    expect(sevenths.findings).toEqual([]);
    const coarse = look(
      planetary(
        21,
        21,
        Array.from({ length: 7 }, (_, i) => Number(((360 * i) / 7).toFixed(2))),
      ),
    );
    expect(coarse.findings.map((finding) => finding.severity)).toContain("note");
  });
  test("four on 18/21/60 miss by half a pitch; azimuths and counts that close it are offered", () => {
    const { loops, findings } = look(planetary(18, 21, 4));
    expect(loops.map((loop) => Math.abs(loop.miss))).toEqual([0.5, 0, 0.5]);
    expect(findings.map((finding) => finding.code)).toEqual(["loop-phase", "loop-phase"]);
    expect(findings[0]?.message).toBe(
      "Mesh r2 closes a loop whose teeth don't meet: they miss the gaps by 0.5 of a pitch: put P2 at azimuth 92.307692° or 87.692308° in mesh s2; or choose counts of the two gears on one line that add up to 76 or 80 in place of 78 (the sum times the spacing in turns must be whole).",
    );
  });
  test("the offered azimuth and the offered counts do close it", () => {
    const moved = planetary(18, 21, [0, (360 * 20) / 78]);
    expect(look(moved).findings).toEqual([]);
    expect(closes(planetary(20, 20, 4))).toBe(true);
    expect(closes(planetary(17, 21, 4))).toBe(true);
  });
});

describe("bevel differential: 2 zs / N whole", () => {
  test.each([2, 3, 4, 5, 6, 8])("side gears of 20, %i pinions of 12", (count) => {
    expect(closes(differential(20, 12, count))).toBe(40 % count === 0);
  });
});

describe("four spurs round a parallelogram: 2 (a + b) times the angle whole", () => {
  test.each([
    [20, 20, 90, true],
    [21, 21, 90, true],
    [20, 21, 90, false],
    [20, 20, 63, true],
    [20, 20, 60, false],
    [20, 30, 72, true],
    [20, 30, 75, false],
  ])("%i and %i at %f degrees", (a, b, angle, expected) => {
    expect(closes(rhombus(a, b, angle))).toBe(expected);
  });
  test("the finding offers the nearest angles, and they close", () => {
    const { findings } = look(rhombus(20, 20, 60));
    expect(findings[0]?.message).toContain("from 60° to 58.5° or 63°");
    expect(closes(rhombus(20, 20, 58.5))).toBe(true);
  });
});

describe("through compound shafts", () => {
  /** A square whose second shaft carries two gears: input and output differ, so a whole pitch at one is none at the other. */
  const compound = (phase: number, keyed = 0, pitchesB = 0, pitchesC = 0): Drive =>
    drive({
      shafts: ["A", "B", "C", "D"],
      gears: [
        { id: "a", shaft: "A", kind: "spur", teeth: 24, module: 2, face: 10 },
        { id: "b", shaft: "B", kind: "spur", teeth: 24, module: 2, face: 10, phase: 15 * pitchesB },
        { id: "b2", shaft: "B", kind: "spur", teeth: 16, module: 3, face: 10, at: 20, phase: phase + 15 * pitchesB },
        { id: "c2", shaft: "C", kind: "spur", teeth: 16, module: 3, face: 10, at: 20, phase: 22.5 * pitchesC },
        { id: "c", shaft: "C", kind: "spur", teeth: 24, module: 2, face: 10, phase: keyed + 22.5 * pitchesC },
        { id: "d", shaft: "D", kind: "spur", teeth: 24, module: 2, face: 10 },
      ],
      meshes: [
        makeMesh({ id: "ab", gears: ["a", "b"], azimuth: 0 }),
        makeMesh({ id: "bc", gears: ["b2", "c2"], azimuth: 90 }),
        makeMesh({ id: "cd", gears: ["c", "d"], azimuth: 180 }),
        makeMesh({ id: "da", gears: ["d", "a"] }),
      ],
      ports: [makePort({ shaft: "A", role: "input", speed: 60 })],
    });
  test("what whole pitches at the other meshes can bring: the lattice and trying them all agree", () => {
    const seen = new Set<boolean>();
    for (const phase of [0, 1, 2.5, 3.75, 4, 7.5, 11.25, 15]) {
      const said = look(compound(phase)).loops[0]?.fitsElsewhere;
      let found = false;
      // A shaft that stands k pitches of its input gear further on: both of its gears keyed on by as much.
      for (let b = 0; b < 6 && !found; b++) {
        for (let c = 0; c < 4 && !found; c++) found = closes(compound(phase, 0, b, c));
      }
      expect(said).toBe(found);
      seen.add(found);
    }
    expect(seen.size).toBe(2);
  });
  test("the key phase that the finding offers closes it", () => {
    const { loops, findings } = look(compound(4));
    expect(loops.length).toBe(1);
    expect(loops[0]?.exact && isZero(loops[0].exact)).toBe(false);
    const offered = /key gear c at a phase of (−?[\d.]+)°/.exec(findings[0]?.message ?? "")?.[1];
    expect(offered).toBeDefined();
    const closed = look(compound(4, Number((offered ?? "").replace("−", "-"))));
    expect(Math.abs(closed.loops[0]?.miss ?? 1)).toBeLessThan(1e-6);
  });
});

describe("solids agree", () => {
  test("planets 3 on 18/21/60 run free, 4 do not", () => {
    expect(Math.max(...judge(planetary(18, 21, 3, true), 2).overlaps)).toBeLessThan(2e-5);
    expect(Math.max(...judge(planetary(18, 21, 4, true), 2).overlaps)).toBeGreaterThan(1);
  });
  test("four spurs of 20 at 63 degrees run free, at 60 they do not", () => {
    expect(Math.max(...judge(rhombus(20, 20, 63), 2).overlaps)).toBeLessThan(1e-8);
    expect(Math.max(...judge(rhombus(20, 20, 60), 2).overlaps)).toBeGreaterThan(0.5);
  });
  test("a differential of 4 pinions runs free, one of 3 does not", () => {
    expect(Math.max(...judge(differential(20, 12, 4), 2).overlaps)).toBeLessThan(1e-8);
    expect(Math.max(...judge(differential(20, 12, 3), 2).overlaps)).toBeGreaterThan(0.5);
  });
});
