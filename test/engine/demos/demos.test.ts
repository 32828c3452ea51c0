/** The numbers behind the demonstrations, against closed forms, vectors and similar triangles reckoned apart. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gripOf, lag, MATERIALS, slipTorque } from "../../../src/engine/demos/friction";
import { cupPath } from "../../../src/engine/demos/rolling-cup";
import { specialAngles, sweptPair } from "../../../src/engine/demos/shaft-angle";
import { surfaceSpeeds } from "../../../src/engine/demos/surface-speed";
import { taperSection } from "../../../src/engine/demos/taper";

const DEG = Math.PI / 180;
const teeth = fc.tuple(fc.integer({ min: 5, max: 200 }), fc.integer({ min: 5, max: 200 }));
const between = fc.double({ min: 1, max: 179, noNaN: true });

describe("the sweep of the shaft angle", () => {
  it("the pitch angles add up to the shaft angle, and n1 sin δ2 = n2 sin δ1", () => {
    fc.assert(
      fc.property(teeth, fc.double({ min: 0, max: 180, noNaN: true }), ([z1, z2], angle) => {
        const [d1, d2] = sweptPair([z1, z2], angle, 20).pitchAngles;
        expect(d1 + d2).toBeCloseTo(angle, 9);
        expect(z1 * Math.sin(d2 * DEG)).toBeCloseTo(z2 * Math.sin(d1 * DEG), 8);
      }),
    );
  });

  // tan((δ2 - δ1)/2) = (z2 - z1)/(z2 + z1) tan(Σ/2): the law of tangents, another way to the same angles.
  it("agrees with the law of tangents", () => {
    fc.assert(
      fc.property(teeth, between, ([z1, z2], angle) => {
        const half = Math.atan(((z2 - z1) / (z2 + z1)) * Math.tan((angle * DEG) / 2)) / DEG;
        const [d1, d2] = sweptPair([z1, z2], angle, 20).pitchAngles;
        expect(d1).toBeCloseTo(angle / 2 - half, 9);
        expect(d2).toBeCloseTo(angle / 2 + half, 9);
      }),
    );
  });

  // R sin Σ = |r1 u1 + r2 u2| by the law of cosines.
  it("has the cone distance of the law of cosines, and one apex for both", () => {
    fc.assert(
      fc.property(teeth, between, ([z1, z2], angle) => {
        const [r1, r2] = [20, (20 * z2) / z1];
        const { coneDistance, apex } = sweptPair([z1, z2], angle, r1);
        const expected = Math.sqrt(r1 * r1 + r2 * r2 + 2 * r1 * r2 * Math.cos(angle * DEG)) / Math.sin(angle * DEG);
        expect(coneDistance / expected).toBeCloseTo(1, 8);
        expect(Math.hypot(r1, apex[0]) / coneDistance).toBeCloseTo(1, 8);
        expect(Math.hypot(r2, apex[1]) / coneDistance).toBeCloseTo(1, 8);
      }),
    );
  });

  // The slope of δ is z(...)/(...)², at most larger/(larger - smaller) for the larger at 180.
  it("is continuous up to both ends", () => {
    for (const [z1, z2] of [
      [20, 30],
      [30, 20],
      [20, 20],
      [16, 40],
    ] as const) {
      const steepest = z1 === z2 ? 1 : Math.max(z1, z2) / Math.abs(z1 - z2);
      for (let angle = 0; angle < 180; angle += 0.25) {
        const [a, b] = [sweptPair([z1, z2], angle, 20), sweptPair([z1, z2], angle + 0.25, 20)];
        for (const k of [0, 1] as const) {
          expect(Math.abs(a.pitchAngles[k] - b.pitchAngles[k])).toBeLessThanOrEqual(0.25 * steepest + 1e-9);
        }
      }
    }
  });

  it("is what it should be at the special angles", () => {
    expect(sweptPair([20, 30], 0, 20)).toMatchObject({
      pitchAngles: [0, 0],
      coneDistance: Infinity,
      form: "cylinders",
    });
    const ring = sweptPair([20, 30], 180, 20);
    expect(ring).toMatchObject({ pitchAngles: [0, 180], apex: [Infinity, -Infinity], form: "ring" });
    expect(sweptPair([20, 20], 180, 20)).toMatchObject({ pitchAngles: [90, 90], coneDistance: 20, form: "crowns" });
    expect(sweptPair([20, 40], 120, 20)).toMatchObject({ form: "crown" });
    expect(sweptPair([20, 40], 120, 20).pitchAngles[1]).toBeCloseTo(90, 12);
    expect(sweptPair([20, 40], 130, 20).form).toBe("inside");
    // 16/32 at 90: tan δ1 = 16/32, so δ1 = 26.565°.
    expect(sweptPair([16, 32], 90, 16).pitchAngles[0]).toBeCloseTo(26.565, 3);
    expect(specialAngles([20, 40]).map(({ what }) => what)).toEqual(["parallel", "right angle", "crown", "ring"]);
    expect(specialAngles([40, 20])[2]?.angle).toBeCloseTo(120, 9);
    expect(specialAngles([20, 20]).at(-1)).toEqual({ angle: 180, what: "two crowns" });
  });

  it("refuses what is no angle and no size", () => {
    for (const angle of [-1, 180.1, Number.NaN]) expect(() => sweptPair([20, 30], angle, 20)).toThrow(RangeError);
    expect(() => sweptPair([0, 30], 90, 20)).toThrow(RangeError);
  });
});

describe("surface speed", () => {
  it("is that of w × p in space, alike on both true cones and in step with the distance from the apex", () => {
    fc.assert(
      fc.property(teeth, between, fc.double({ min: 0, max: 0.9, noNaN: true }), ([z1, z2], angle, part) => {
        const { pitchAngles, coneDistance } = sweptPair([z1, z2], angle, 20);
        const { bodies, sliding } = surfaceSpeeds(
          { radii: [20, (20 * z2) / z1], pitchAngles, speed: 60 },
          part * coneDistance,
        );
        // In the plane of the axes, apex at 0, axis 1 along x, contact line at δ1: |w × p| is |w| times p's y.
        const y = coneDistance * (1 - part) * Math.sin(pitchAngles[0] * DEG);
        expect(bodies[0]).toBeCloseTo((2 * Math.PI * y) / 1000, 9);
        expect(sliding).toBeCloseTo(0, 9);
      }),
    );
  });

  it("slides where a pitch angle is spoiled, by nothing at the heel and most at the toe", () => {
    const pair = { radii: [20, 40], pitchAngles: sweptPair([20, 40], 90, 20).pitchAngles, speed: 600 } as const;
    expect(surfaceSpeeds(pair, 0, 10).sliding).toBe(0);
    // A cylinder on a flat disc: rim 20 mm against 40 mm - 15 mm at half the speed. 2π·10/s · (20 - 12.5) mm = 471.2 mm/s.
    const cylinder = surfaceSpeeds(pair, 15, -pair.pitchAngles[0]);
    expect(cylinder.radii).toEqual([20, 25]);
    expect(cylinder.sliding).toBeCloseTo((2 * Math.PI * 10 * 7.5) / 1000, 12);
    expect(Math.abs(surfaceSpeeds(pair, 15, 5).sliding)).toBeGreaterThan(Math.abs(surfaceSpeeds(pair, 5, 5).sliding));
  });
});

describe("taper", () => {
  it("scales all sizes with the distance from the apex; at the heel they are those of the module", () => {
    const tooth = { radius: 16, module: 2, coneDistance: 40, face: 10, addendum: 1, clearance: 0.25 };
    expect(taperSection(tooth, 0)).toEqual({ fromApex: 40, scale: 1, thickness: Math.PI, depth: 4.5, radius: 16 });
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (part) => {
        const here = taperSection(tooth, part);
        expect(here.radius / here.fromApex).toBeCloseTo(16 / 40, 12);
        expect(here.depth / here.fromApex).toBeCloseTo(4.5 / 40, 12);
        expect(here.thickness / here.fromApex).toBeCloseTo(Math.PI / 40, 12);
      }),
    );
    expect(taperSection({ ...tooth, coneDistance: Infinity }, 1)).toMatchObject({ scale: 1, radius: 16 });
  });
});

describe("the rolling cup", () => {
  it("goes round its apex, both ends in one angle", () => {
    // 40 and 30 mm, side 100 mm: apex 400 mm away, 10 turns a lap from the moving axis, 9.9 from the ground.
    expect(cupPath([30, 40], 100)).toEqual({ circles: [400, 300], turnsFromAxis: 10, turnsFromGround: 9.9 });
    fc.assert(
      fc.property(fc.double({ min: 1, max: 50, noNaN: true }), fc.double({ min: 51, max: 90, noNaN: true }), (r, R) => {
        const { circles, turnsFromAxis, turnsFromGround } = cupPath([r, R], 100);
        expect(circles[0] / circles[1]).toBeCloseTo(R / r, 6);
        // The whole turning is cot δ along the contact line; its part along the axis is cot δ cos δ.
        const tilt = Math.asin(1 / turnsFromAxis);
        expect(turnsFromGround).toBeCloseTo(Math.cos(tilt) / Math.tan(tilt), 9);
      }),
    );
  });
  it("runs straight with equal ends, and refuses what is no cup", () => {
    expect(cupPath([30, 30], 100).circles).toEqual([Infinity, Infinity]);
    expect(() => cupPath([10, 200], 100)).toThrow(RangeError);
    expect(() => cupPath([0, 20], 100)).toThrow(RangeError);
  });
});

describe("friction", () => {
  it("slips from μ N r on and lags by the whole turn that it misses", () => {
    expect(slipTorque(0.3, 200, 50)).toBeCloseTo(3, 12);
    expect(lag(false, 60, 2)).toBe(0);
    expect(lag(true, -60, 2)).toBe(720);
    const oak = { name: "oak", holding: 0.5, sliding: 0.3 };
    expect(gripOf(oak, 200, 50, 5)).toEqual({ most: 5, carried: 5, slips: false });
    expect(gripOf(oak, 200, 50, 5.01)).toEqual({ most: 5, carried: 3, slips: true });
    expect(gripOf(oak, 0, 50, 0)).toEqual({ most: 0, carried: 0, slips: false });
    for (const { holding, sliding } of MATERIALS) expect(sliding).toBeLessThanOrEqual(holding);
  });
});
