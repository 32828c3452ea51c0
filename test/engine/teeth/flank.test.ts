/** Flanks against closed forms, tables and the law of gearing. Sources beside each check. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { makeGear } from "../../../src/engine/drive/defaults";
import { endPoint } from "../../../src/engine/teeth/blank";
import { involute, sphericalFlank } from "../../../src/engine/teeth/flank";
import { buildSolid } from "../../../src/engine/teeth/gear-mesh";
import { outlineOf } from "../../../src/engine/teeth/outline";
import { askedEnds, flankOf, toothProfile } from "../../../src/engine/teeth/profile";
import { rackRoot } from "../../../src/engine/teeth/rack-root";
import { loneSpec, QUALITIES, type ToothSpec } from "../../../src/engine/teeth/spec";
import references from "../references.json";

const DEGREE = Math.PI / 180;
const FINE = QUALITIES.fine;
const reference = (id: string) => {
  const found = references.find((entry) => entry.id === id);
  if (!found) throw new Error(`No reference ${id}`);
  return found as unknown as { given: Record<string, number & number[] & number[][]>; expect: Record<string, number> };
};

type Fields = { teeth: number; module?: number; kind?: "spur" | "internal" | "bevel" } & Record<string, unknown>;
const spec = (fields: Fields, degrees: number | null = null): ToothSpec =>
  loneSpec(
    makeGear({ id: "g", shaft: "S", kind: "spur", module: 2, face: 10, apex: "-", ...fields } as never),
    degrees === null ? null : degrees * DEGREE,
    FINE,
  );

describe("closed forms of the spur gear", () => {
  test("involute function (table of any gear handbook)", () => {
    const { given, expect: wanted } = reference("geom-involute-function");
    for (const angle of given.angles_deg as number[]) {
      const name = `inv_${String(angle).replace(".", "_")}`;
      expect(Math.abs(involute(Math.tan(angle * DEGREE)) - (wanted[name] as number))).toBeLessThan(1e-7);
    }
  });
  test("the series at small angles joins the closed form", () => {
    expect(involute(0.00099999) / (0.00099999 - Math.atan(0.00099999))).toBeCloseTo(1, 8);
  });
  test("base, tip and root diameter, tip thickness of 20 teeth of module 2.5 (definitions)", () => {
    const { expect: wanted } = reference("geom-base-circle");
    const gear = spec({ teeth: 20, module: 2.5 });
    const flank = flankOf(gear);
    const ends = askedEnds(gear);
    expect(2 * flank.base).toBeCloseTo(wanted.db_mm as number, 4);
    expect(2 * ends.tip).toBeCloseTo(wanted.da_mm as number, 9);
    expect(2 * ends.root).toBeCloseTo(wanted.df_mm as number, 9);
    expect(2 * ends.tip * flank.half(ends.tip)).toBeCloseTo(wanted.tip_thickness_mm as number, 3);
  });
  test("tooth and gap are equal at the pitch circle, π m / 2 (ISO 53), less the backlash", () => {
    for (const [kind, sign] of [
      ["spur", 1],
      ["internal", -1],
    ] as const) {
      expect(2 * 20 * flankOf(spec({ teeth: 20, kind })).half(20)).toBeCloseTo(Math.PI, 12);
      expect(2 * 20 * flankOf(spec({ teeth: 20, kind, backlash: 0.07 })).half(20)).toBeCloseTo(Math.PI - 0.07, 12);
      // s = m (π/2 + 2 x tan α) outside; on a ring the gap is that wide.
      const shifted = 2 * 20 * flankOf(spec({ teeth: 20, kind, shift: 0.3 })).half(20);
      expect(shifted).toBeCloseTo(Math.PI + sign * 2 * 2 * 0.3 * Math.tan(20 * DEGREE), 12);
    }
  });
  test("span over teeth (DIN 3960, tables for module 1)", () => {
    const { given, expect: wanted } = reference("geom-span");
    for (const [z = 0, k = 0] of given.z_k as unknown as number[][]) {
      const gear = spec({ teeth: z, module: 1 });
      const flank = flankOf(gear);
      // Two flanks k - 1 pitches apart, met by one common tangent of the base circle: W = rb (angle between their feet).
      const feet = 2 * flank.half(flank.base) + ((k - 1) * 2 * Math.PI) / z;
      expect(Math.abs(flank.base * feet - (wanted[`W_${z}_${k}`] as number))).toBeLessThan(1e-4);
    }
  });
  test("rack tip rounding 0.38 modules and proportions 1 and 1.25 (ISO 53, profile A)", () => {
    const gear = spec({ teeth: 40, module: 4 });
    const root = rackRoot(gear);
    expect(root.root).toBeCloseTo(80 - 5, 12);
    // The rounding's radius is that of the trochoid's first curve against a rack: here from its own depth.
    expect(0.25 / (1 - Math.sin(20 * DEGREE))).toBeCloseTo(
      (reference("geom-iso53").expect.rho_max_mm as number) / 4,
      3,
    );
  });
  test("the trochoid joins the involute with a common tangent where there is no undercut, from 17.1 teeth on", () => {
    for (const z of [18, 20, 25, 40, 100, 1000]) {
      const gear = spec({ teeth: z });
      const rack = rackRoot(gear);
      expect(rack.isUndercut).toBe(false);
      const flank = flankOf(gear);
      const end = rack.at(rack.end);
      expect(Math.abs(end.half - flank.half(end.q)) * end.q).toBeLessThan(1e-11 * end.q);
      const h = 1e-6;
      const slope =
        (rack.at(rack.end).half - rack.at(rack.end - h).half) / (rack.at(rack.end).q - rack.at(rack.end - h).q);
      const involuteSlope = (flank.half(end.q + h) - flank.half(end.q)) / h;
      expect(Math.abs(slope - involuteSlope) * end.q).toBeLessThan(5e-3);
    }
    // z = 2 / sin² 20 = 17.097 (AGMA and textbooks)
    for (const z of [8, 12, 17]) expect(rackRoot(spec({ teeth: z })).isUndercut).toBe(true);
  });
  test("a shift of (17.097 - z) / 17.097 just avoids undercut (textbooks)", () => {
    for (const z of [8, 10, 12, 14]) {
      const x = 1 - (z * Math.sin(20 * DEGREE) ** 2) / 2;
      expect(rackRoot(spec({ teeth: z, shift: x + 1e-6 })).isUndercut).toBe(false);
      expect(rackRoot(spec({ teeth: z, shift: x - 1e-6 })).isUndercut).toBe(true);
    }
  });
});

/** The contact of two spherical involutes at a turn of gear 1, each in its own way, as unit vectors of the world. */
function contactMiss(z1: number, z2: number, sigma: number, alpha: number, along: number, side: 1 | -1): number {
  const d1 = Math.atan2(Math.sin(sigma), z2 / z1 + Math.cos(sigma));
  const d2 = sigma - d1;
  const flanks = [
    sphericalFlank(d1, alpha, Math.PI / (2 * z1)),
    sphericalFlank(d2, alpha, Math.PI / (2 * z2)),
  ] as const;
  const [p1, p2] = [flanks[0].parameterAt(d1), flanks[1].parameterAt(d2)];
  const length = p1 + p2;
  const psi1 = along * Math.min(length, Math.PI);
  const psi2 = length - psi1;
  if (psi2 < 0 || psi2 > Math.PI) return 0;
  // Axes: u1 along z, u2 in the x-z plane; the pitch line lies between them at polar angle d1.
  const point = (flank: (typeof flanks)[number], psi: number, pitch: number, sideHere: 1 | -1) => {
    const d = flank.placeAt(psi);
    // Azimuth from the pitch line of the contact point when the flank there is where it must be: run along the circle of action.
    const sine = Math.sin(flank.base);
    const feet = (q: number) => Math.atan2(Math.sin(q), Math.cos(q) * sine);
    const azimuth = feet(psi) - feet(flank.parameterAt(pitch));
    return { d, azimuth: sideHere * azimuth };
  };
  const a = point(flanks[0], psi1, d1, side);
  const b = point(flanks[1], psi2, d2, side);
  const vector = (d: number, azimuth: number) =>
    [Math.sin(d) * Math.cos(azimuth), Math.sin(d) * Math.sin(azimuth), Math.cos(d)] as const;
  const [x1, y1, z1w] = vector(a.d, a.azimuth);
  const [x2, y2, z2w] = vector(b.d, b.azimuth);
  // Gear 2's frame: z along u2, x from u2 towards u1's side; right-handed, so its y is the world's reversed.
  const [c, s] = [Math.cos(sigma), Math.sin(sigma)];
  const world = [-c * x2 + s * z2w, -y2, s * x2 + c * z2w] as const;
  return Math.hypot(x1 - world[0], y1 - world[1], z1w - world[2]);
}

describe("spherical involutes", () => {
  const draw = fc.record({
    z1: fc.integer({ min: 6, max: 125 }),
    z2: fc.integer({ min: 6, max: 125 }),
    sigma: fc.double({ min: 1, max: 179, noNaN: true }),
    alpha: fc.double({ min: 14.5, max: 25, noNaN: true }),
    along: fc.double({ min: 0.02, max: 0.98, noNaN: true }),
    isCrown: fc.integer({ min: 0, max: 4 }),
    side: fc.constantFrom(1 as const, -1 as const),
  });
  test("contact points of both flanks coincide within 1e-12 on 1,000 random pairs, each fifth a crown (law of gearing)", () => {
    fc.assert(
      fc.property(draw, ({ z1, z2, sigma, alpha, along, isCrown, side }) => {
        const [small, large] = z1 <= z2 ? [z1, z2] : [z2, z1];
        const angle = isCrown === 0 && small < large ? Math.acos(-small / large) : sigma * DEGREE;
        expect(contactMiss(small, large, angle, alpha * DEGREE, along, side)).toBeLessThan(1e-12);
      }),
      { numRuns: 1000, seed: 4 },
    );
  });
  test("and the tooth turned by the ratio carries the flank through the same point", () => {
    // θ(ψ) + azimuth of the contact changes by ψ / sin δb: both gears turn by arcs of equal length on the circle of action.
    fc.assert(
      fc.property(draw, ({ z1, z2, sigma, alpha, along }) => {
        const s = sigma * DEGREE;
        const d1 = Math.atan2(Math.sin(s), z2 / z1 + Math.cos(s));
        const d2 = s - d1;
        const a = sphericalFlank(d1, alpha * DEGREE, Math.PI / (2 * z1));
        const b = sphericalFlank(d2, alpha * DEGREE, Math.PI / (2 * z2));
        const turnOf = (flank: typeof a, psi: number) => {
          // Rotation of the gear that brings the flank's point at ψ to the contact azimuth, from the pitch point on.
          const sine = Math.sin(flank.base);
          const feet = Math.atan2(Math.sin(psi), Math.cos(psi) * sine);
          return feet + flank.half(flank.base) - flank.half(flank.placeAt(psi));
        };
        const [p1, p2] = [a.parameterAt(d1), b.parameterAt(d2)];
        const step = along * Math.min(p2, Math.PI - p1, p1, 0.4);
        const w1 = turnOf(a, p1 + step) - turnOf(a, p1);
        const w2 = turnOf(b, p2) - turnOf(b, p2 - step);
        expect(Math.abs(z1 * w1 - z2 * w2)).toBeLessThan(1e-9 * z1);
      }),
      { numRuns: 500, seed: 5 },
    );
  });
  test("geodesic curvature is cot ψ: convex, straight at the crown's pitch line, concave (by finite differences)", () => {
    for (const degrees of [20, 63, 90, 111.7, 150]) {
      const flank = sphericalFlank(degrees * DEGREE, 20 * DEGREE, 0.05);
      const p = flank.parameterAt(degrees * DEGREE);
      const h = 1e-4;
      const at = (q: number) => {
        const d = flank.placeAt(q);
        const a = flank.half(d);
        return [Math.sin(d) * Math.cos(a), Math.sin(d) * Math.sin(a), Math.cos(d)] as const;
      };
      const [a, b, c] = [at(p - h), at(p), at(p + h)];
      const v1 = a.map((_, i) => ((c[i] ?? 0) - (a[i] ?? 0)) / (2 * h));
      const v2 = a.map((_, i) => ((c[i] ?? 0) - 2 * (b[i] ?? 0) + (a[i] ?? 0)) / (h * h));
      const speed = Math.hypot(...v1);
      const [x, y, z] = b;
      const normal = [
        y * (v1[2] ?? 0) - z * (v1[1] ?? 0),
        z * (v1[0] ?? 0) - x * (v1[2] ?? 0),
        x * (v1[1] ?? 0) - y * (v1[0] ?? 0),
      ];
      const curvature = v2.reduce((sum, value, i) => sum + value * (normal[i] ?? 0), 0) / speed ** 3;
      expect(Math.abs(Math.abs(curvature) - Math.abs(1 / Math.tan(p)))).toBeLessThan(1e-4);
    }
  });
  test("analytic normals stand on the surface (finite differences)", () => {
    for (const degrees of [5, 30, 63, 90, 120, 170]) {
      const flank = sphericalFlank(degrees * DEGREE, 20 * DEGREE, 0.05);
      const p = flank.parameterAt(degrees * DEGREE) * 0.99;
      const h = 1e-6;
      const d = flank.placeAt(p);
      const slope =
        (flank.half(flank.placeAt(p + h)) - flank.half(flank.placeAt(p - h))) /
        (flank.placeAt(p + h) - flank.placeAt(p - h));
      const [nq, na] = flank.normalAt(p);
      expect(Math.hypot(nq, na)).toBeCloseTo(1, 12);
      expect(nq + na * slope * Math.sin(d)).toBeCloseTo(0, 6);
      expect(na).toBeGreaterThan(0);
    }
  });
  test("a pitch angle of 1 degree agrees with the spur gear, one of 179.9 with the ring (plane limit)", () => {
    for (const [kind, degrees, direction] of [
      ["spur", 0.1, 1],
      ["internal", 179.9, -1],
    ] as const) {
      const cone = spec({ teeth: 24, kind: "bevel" }, degrees);
      const plane = flankOf(spec({ teeth: 24, kind }));
      const flank = flankOf(cone);
      for (const height of [-1.5, -0.5, 0, 0.7, 1.9]) {
        const q = cone.pitchAngle + height / cone.coneDistance;
        const onPlane = plane.half(24 + direction * height);
        expect(Math.abs(flank.half(q) - onPlane) * 24).toBeLessThan(2e-5);
      }
    }
    const one = spec({ teeth: 24, kind: "bevel" }, 1);
    expect(
      Math.abs(flankOf(one).half(one.pitchAngle + 1.5 / one.coneDistance) - flankOf(spec({ teeth: 24 })).half(25.5)) *
        24,
    ).toBeLessThan(1e-3);
  });
  test("tip and root diameters are d ± 2 h cos δ (ISO 23509), on the back cone", () => {
    for (const degrees of [15, 45, 63.4, 90, 120]) {
      const gear = spec({ teeth: 24, kind: "bevel", face: 5 }, degrees);
      const ends = askedEnds(gear);
      expect(2 * endPoint(gear, ends.tip, 0)[0]).toBeCloseTo(48 + 4 * Math.cos(degrees * DEGREE), 9);
      expect(2 * endPoint(gear, ends.root, 0)[0]).toBeCloseTo(48 - 5 * Math.cos(degrees * DEGREE), 9);
    }
  });
  test("face and root angles of Jindal's example 27-3", () => {
    const { expect: wanted } = reference("bevel-jindal-27-3");
    const delta = Math.atan2(30, 45) / DEGREE;
    const ends = askedEnds(spec({ teeth: 30, kind: "bevel", module: 6 }, delta));
    expect(Math.abs(ends.tip / DEGREE / (wanted.face_angle1_deg as number) - 1)).toBeLessThan(5e-4);
    expect(Math.abs(ends.root / DEGREE / (wanted.root_angle1_deg as number) - 1)).toBeLessThan(5e-4);
  });
});

describe("vertices of the solid lie on the curve", () => {
  test.each([
    ["spur", 20, null],
    ["spur", 12, null],
    ["internal", 60, null],
    ["bevel", 20, 45],
    ["bevel", 30, 18.1],
    ["bevel", 45, 90],
    ["bevel", 60, 136.8],
  ] as const)("%s of %i teeth, pitch angle %s", (kind, teeth, degrees) => {
    const gear = spec({ teeth, kind, face: 5 }, degrees);
    const flank = flankOf(gear);
    const { points } = buildSolid(gear);
    const profile = toothProfile(gear);
    const outline = outlineOf(gear);
    const size = degrees === null ? gear.pitchRadius : gear.coneDistance;
    const start = profile.stretches.at(-1)?.q[0] ?? 0;
    const height = gear.coneDistance * Math.cos(gear.pitchAngle);
    let seen = 0;
    for (let i = 0; i < points.length; i += 3) {
      const [x, y, z] = [points[i] ?? 0, points[i + 1] ?? 0, points[i + 2] ?? 0];
      const azimuth = Math.atan2(y, x);
      const r = Math.hypot(x, y);
      const q = degrees === null ? r : Math.atan2(r, z + height);
      const pitch = (2 * Math.PI) / teeth;
      const half = Math.abs(azimuth - Math.round(azimuth / pitch) * pitch);
      const isOnFlank = outline.outward * (q - start) > 1e-9 && outline.outward * (outline.tip - q) > 1e-9;
      if (!isOnFlank || half > 0.9 * (pitch / 2)) continue;
      // Points of the body aside: teeth end on the back cones at heel and toe.
      const reach = Math.hypot(r, z + height) * Math.cos(q - gear.pitchAngle);
      if (degrees !== null && Math.min(Math.abs(reach - size), Math.abs(reach - size + gear.face)) > 1e-9 * size)
        continue;
      // Points of the end faces stand well inside the tooth.
      if (half < 0.7 * flank.half(q)) continue;
      seen++;
      expect(Math.abs(half - flank.half(q)) * r).toBeLessThan(1e-9 * size);
    }
    expect(seen).toBe(2 * 2 * 15 * teeth);
  });
});
