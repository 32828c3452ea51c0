/** Sections between heel and toe: alike as seen from the apex, and at one place on mates of unequal faces. */
import { describe, expect, it } from "vitest";
import { solve } from "../../../src/engine/solve";
import { grownSpec } from "../../../src/engine/teeth/grown";
import { partOfFace, toothSection } from "../../../src/engine/teeth/section";
import { QUALITIES, toothSpec } from "../../../src/engine/teeth/spec";
import { add, distance, dot, length, scale, sub } from "../../../src/engine/vector";
import { pair } from "./judge";

const specsOf = (drive: ReturnType<typeof pair>) => {
  const solved = solve(drive);
  const specs = drive.gears.map((_, i) => toothSpec(solved.drive, solved.index, solved.placement, i, QUALITIES.bench));
  return { solved, specs };
};

describe("sections", () => {
  // Straight bevel teeth taper to the apex: every length of a section is in the ratio of its distance from there (Mott, Machine Elements
  // in Mechanical Design, section 8-8: dimensions are given at the heel and shrink towards the apex).
  it.each([15, 60, 90, 120])("of a bevel gear at a shaft angle of %d degrees shrink towards the apex", (angle) => {
    const { specs } = specsOf(pair({ teeth: [20, 30], angle, face: 12 }));
    for (const spec of specs) {
      const apex = [0, 0, (spec.isFlipped ? 1 : -1) * spec.coneDistance * Math.cos(spec.pitchAngle)];
      const heel = toothSection(spec, 0).lines;
      for (const part of [0.25, 0.5, 1]) {
        const factor = (spec.coneDistance - part * spec.face) / spec.coneDistance;
        const lines = toothSection(spec, part).lines;
        expect(lines.length).toBe(heel.length);
        let miss = 0;
        lines.forEach((x, i) => {
          const a = apex[i % 3] ?? 0;
          miss = Math.max(miss, Math.abs(x - a - factor * ((heel[i] ?? 0) - a)));
        });
        // Single precision of the points.
        expect(miss).toBeLessThan(1e-5 * spec.coneDistance);
      }
    }
  });

  it("cuts mates of unequal faces at one place", () => {
    for (const drive of [
      pair({ teeth: [20, 30], face: 20 }),
      pair({ isRing: true, teeth: [18, 60], face: 20 }),
      pair({ teeth: [20, 30], angle: 70, face: 8 }),
    ]) {
      const [first, second] = drive.gears;
      const wide = {
        ...drive,
        gears: [
          { ...first, at: 3 },
          { ...second, face: 1.5 * (second?.face ?? 0) },
        ],
      } as typeof drive;
      const { solved, specs } = specsOf(wide);
      const contact = solved.placement.meshes[0]?.contact;
      if (!contact) throw new Error("The pair isn't placed.");
      for (const part of [0, 0.3, 1]) {
        const point = add(contact[0], scale(sub(contact[1], contact[0]), part));
        [0, 1].forEach((gear) => {
          const own = partOfFace(solved, 0, gear, part);
          const placed = solved.placement.gears[gear];
          const spec = specs[gear];
          const axis = solved.placement.shafts[gear]?.axis ?? [0, 0, 1];
          if (!placed || !spec) throw new Error("A gear isn't placed.");
          if (placed.apexPoint)
            expect(distance(placed.apexPoint, point)).toBeCloseTo(spec.coneDistance - own * spec.face, 9);
          else expect(dot(sub(point, placed.centre), axis)).toBeCloseTo((0.5 - own) * spec.face, 9);
        });
      }
      expect(length(sub(contact[1], contact[0]))).toBeGreaterThan(1);
    }
  });

  it("grow with the teeth, from the pitch circle outward and inward alike", () => {
    const { specs } = specsOf(pair({ teeth: [20, 30], face: 20 }));
    for (const spec of specs) {
      for (const part of [0.25, 0.75, 1]) {
        const { lines } = toothSection(grownSpec(spec, part), 0);
        let [most, least] = [0, Infinity];
        for (let i = 0; i < lines.length; i += 3) {
          const r = Math.hypot(lines[i] ?? 0, lines[i + 1] ?? 0);
          [most, least] = [Math.max(most, r), Math.min(least, r)];
        }
        expect(most).toBeCloseTo(spec.pitchRadius + part * spec.addendum, 4);
        // Chords along the root circle lie a little inside it.
        expect(least).toBeLessThan(spec.pitchRadius - part * spec.dedendum + 1e-4);
        expect(least).toBeGreaterThan(spec.pitchRadius - part * spec.dedendum - 0.02 * spec.module);
      }
    }
  });
});
