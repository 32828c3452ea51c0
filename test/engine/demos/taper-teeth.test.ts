/** The teeth that are drawn, at any section, against the handbook's sizes in the ratio of the distance from the apex. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { taperOf, taperSection } from "../../../src/engine/demos/taper";
import { makeGear } from "../../../src/engine/drive/defaults";
import type { ToothedGear } from "../../../src/engine/drive/types";
import { loneSpec, QUALITIES } from "../../../src/engine/teeth/spec";
import { unrolledTooth } from "../../../src/engine/teeth/unrolled";

const toothed = (fields: object): ToothedGear =>
  makeGear({
    id: "g",
    shaft: "S",
    kind: "spur",
    teeth: 24,
    module: 3,
    face: 15,
    ...fields,
  } as ToothedGear) as ToothedGear;

describe("one tooth unrolled", () => {
  it("is half a pitch thick and 2.25 modules deep, in the ratio of the distance from the apex", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 18, max: 80 }),
        fc.double({ min: 15, max: 75, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (teeth, angle, part) => {
          const gear = toothed({ kind: "bevel", teeth });
          const distance = (teeth * 3) / 2 / Math.sin((angle * Math.PI) / 180);
          const expected = taperSection(taperOf(gear, distance), part);
          const spec = loneSpec(gear, (angle * Math.PI) / 180, QUALITIES.fine);
          const drawn = unrolledTooth(spec, expected.fromApex);
          // The drawn flank is a spherical involute, cut in rows: within a hundredth of the module of the closed form.
          expect(Math.abs((drawn?.thickness ?? 0) - expected.thickness)).toBeLessThan(0.01 * 3 * expected.scale);
          expect((drawn?.depth ?? 0) / expected.depth).toBeCloseTo(1, 2);
          const heel = unrolledTooth(spec, distance);
          expect((drawn?.thickness ?? 0) / (heel?.thickness ?? 1)).toBeCloseTo(expected.scale, 9);
          expect((drawn?.depth ?? 0) / (heel?.depth ?? 1)).toBeCloseTo(expected.scale, 9);
        },
      ),
    );
  });

  it("is thicker by 2 x m tan α where it is shifted, on a ring thinner, and thinner by its backlash", () => {
    for (const fields of [
      { shift: 0.3 },
      { shift: -0.2, backlash: 0.1 },
      { kind: "internal", teeth: 60, shift: 0.25 },
    ]) {
      const gear = toothed(fields);
      const angle = gear.kind === "internal" ? Math.PI : 0;
      const drawn = unrolledTooth(loneSpec(gear, angle, QUALITIES.fine), 0);
      const sign = gear.kind === "internal" ? -1 : 1;
      const closed = (Math.PI * 3) / 2 + sign * 2 * gear.shift * 3 * Math.tan((20 * Math.PI) / 180) - gear.backlash;
      const { thickness } = taperSection(taperOf(gear, Infinity), 0.7);
      expect(thickness).toBeCloseTo(closed, 12);
      expect(Math.abs((drawn?.thickness ?? 0) - closed)).toBeLessThan(0.01 * 3);
      expect(drawn?.depth).toBeGreaterThan(2 * 3);
    }
  });

  it("goes from root to root over the tip, and a body without teeth has none", () => {
    const gear = toothed({});
    const drawn = unrolledTooth(loneSpec(gear, 0, QUALITIES.bench), 0);
    const points = drawn?.points ?? [];
    expect(points[0]?.[0]).toBeLessThan(0);
    expect(points.at(-1)?.[0]).toBeCloseTo(-(points[0]?.[0] ?? 0), 12);
    expect(Math.max(...points.map(([, y]) => y))).toBeCloseTo(3, 6);
    const wheel = makeGear({ id: "w", shaft: "S", kind: "wheel", diameter: 40 });
    expect(unrolledTooth(loneSpec(wheel, 0, QUALITIES.bench), 0)).toBeNull();
  });
});
