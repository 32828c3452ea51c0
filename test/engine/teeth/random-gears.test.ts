/** Every gear that the format allows gives a finite, closed, outward-facing mesh inside its blank: 2,000 random ones. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { makeGear } from "../../../src/engine/drive/defaults";
import { buildGear, buildSolid, type GearMesh } from "../../../src/engine/teeth/gear-mesh";
import { outlineOf } from "../../../src/engine/teeth/outline";
import { askedEnds } from "../../../src/engine/teeth/profile";
import { loneSpec, QUALITIES, type ToothSpec, toothKey } from "../../../src/engine/teeth/spec";
import { isWatertight, volumeOf } from "../../../src/engine/teeth/stl";

const DEGREE = Math.PI / 180;

const teeth = fc.oneof(
  { weight: 8, arbitrary: fc.integer({ min: 1, max: 8 }) },
  { weight: 10, arbitrary: fc.integer({ min: 9, max: 60 }) },
  { weight: 1, arbitrary: fc.integer({ min: 61, max: 400 }) },
);
const angle = fc.oneof(
  fc.double({ min: 0.001, max: 179.999, noNaN: true }),
  fc.constantFrom(90, 90 - 1e-6, 90 + 1e-6, 0.001, 179.999),
);
const some = (usual: number, min: number, max: number) =>
  fc.oneof(fc.constant(usual), fc.double({ min, max, noNaN: true }));
const gears = fc.record({
  kind: fc.constantFrom("spur" as const, "internal" as const, "bevel" as const),
  teeth,
  module: fc.constantFrom<number>(0.1, 1, 2, 40),
  faceFactor: fc.constantFrom<number>(0.01, 1, 10, 300),
  pressureAngle: fc.oneof(fc.constant<number>(20), fc.constantFrom<number>(5, 14.5, 25, 44)),
  addendum: some(1, 0, 3),
  clearance: some(0.25, 0, 1),
  shift: some(0, -3, 3),
  boreFactor: fc.constantFrom<number>(0, 0.3, 0.9, 3),
  backlashFactor: fc.constantFrom<number>(0, 0.02, 0.5, 4),
  apex: fc.constantFrom("+" as const, "-" as const),
  angle,
});
type Drawn = typeof gears extends fc.Arbitrary<infer T> ? T : never;

const specOf = (d: Drawn): ToothSpec =>
  loneSpec(
    makeGear({
      id: "g",
      shaft: "S",
      kind: d.kind,
      teeth: d.teeth,
      module: d.module,
      face: d.faceFactor * d.module,
      pressureAngle: d.pressureAngle,
      addendum: d.addendum,
      clearance: d.clearance,
      shift: d.shift,
      bore: d.boreFactor * d.module * d.teeth,
      backlash: d.backlashFactor * d.module,
      apex: d.apex,
    }),
    d.angle * DEGREE,
    // Few segments: what may go wrong is the same, and quicker to look through.
    { flank: 3, fillet: 2, body: 16, trim: true },
  );

/** A sentence about the first thing that is wrong with a gear's mesh; null for a sound one. */
function flaw(spec: ToothSpec): string | null {
  const solid = buildSolid(spec);
  const mesh = buildGear(spec);
  const isAllFinite = (values: Float32Array | Float64Array) => {
    let sum = 0;
    for (let i = 0; i < values.length; i++) sum += values[i] ?? Number.NaN;
    return Number.isFinite(sum);
  };
  if (!isAllFinite(solid.points)) return "a point is not finite";
  if (!isAllFinite(mesh.positions) || !isAllFinite(mesh.normals)) return "a vertex is not finite";
  let largest = 0;
  for (let i = 0; i < mesh.indices.length; i++) largest = Math.max(largest, mesh.indices[i] ?? Infinity);
  if (largest >= mesh.positions.length / 3) return "an index is out of range";
  const inward = facesInward(mesh, 0.02 * spec.module * Math.max(spec.module, spec.face));
  if (inward > 0) return `${inward} triangles face against their normals`;
  if (!isWatertight(solid)) return "it is not closed";
  if (!(volumeOf(solid) > 0)) return `its volume is ${volumeOf(solid)}`;
  for (let i = 0; i < mesh.normals.length; i += 3) {
    const size = Math.hypot(mesh.normals[i] ?? 0, mesh.normals[i + 1] ?? 0, mesh.normals[i + 2] ?? 0);
    if (Math.abs(size - 1) > 1e-4) return `a normal is ${size} long`;
  }
  const outline = outlineOf(spec);
  const ends = askedEnds(spec);
  const isStub = outline.profile?.faults.isStub === true;
  if (!isStub && outline.outward * (outline.tip - ends.tip) > 1e-9 * ends.tip) {
    // On a ring nothing of the flank is left within the base circle.
    if (spec.form !== "ring") return `its tip ${outline.tip} lies past the blank's ${ends.tip}`;
  }
  return null;
}

/** Triangles larger than `least` mm² (slivers at the root have no side to speak of) that face away from the normal of their first vertex. */
function facesInward({ positions, normals, indices }: GearMesh, least: number): number {
  let count = 0;
  const at = (vertex: number, k: number) => positions[3 * vertex + k] ?? 0;
  for (let i = 0; i < indices.length; i += 3) {
    const [a, b, c] = [indices[i] ?? 0, indices[i + 1] ?? 0, indices[i + 2] ?? 0];
    const [ux, uy, uz] = [at(b, 0) - at(a, 0), at(b, 1) - at(a, 1), at(b, 2) - at(a, 2)];
    const [vx, vy, vz] = [at(c, 0) - at(a, 0), at(c, 1) - at(a, 1), at(c, 2) - at(a, 2)];
    const [x, y, z] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const along = x * (normals[3 * a] ?? 0) + y * (normals[3 * a + 1] ?? 0) + z * (normals[3 * a + 2] ?? 0);
    if (along < -least) count++;
  }
  return count;
}

describe.each(Array.from({ length: 8 }, (_, i) => i))("group %i", (seed) => {
  test("250 gears over the whole range", () => {
    fc.assert(
      fc.property(gears, (drawn) => {
        expect(flaw(specOf(drawn))).toBeNull();
      }),
      { numRuns: 250, seed },
    );
  });
});

test("named hard cases", () => {
  const base: Drawn = {
    kind: "spur",
    teeth: 20,
    module: 2,
    faceFactor: 5,
    pressureAngle: 20,
    addendum: 1,
    clearance: 0.25,
    shift: 0,
    boreFactor: 0,
    backlashFactor: 0,
    apex: "-",
    angle: 45,
  };
  const cases: Partial<Drawn>[] = [
    { teeth: 1 },
    { teeth: 2 },
    { teeth: 3 },
    { teeth: 5 },
    { teeth: 400 },
    { kind: "internal", teeth: 1 },
    { kind: "internal", teeth: 3 },
    { kind: "bevel", teeth: 1 },
    { pressureAngle: 5 },
    { pressureAngle: 44 },
    { addendum: 0 },
    { addendum: 3 },
    { shift: 3 },
    { shift: -3 },
    { backlashFactor: 3 },
    { boreFactor: 2 },
    { kind: "bevel", faceFactor: 100 },
    { kind: "bevel", angle: 90 },
    { kind: "bevel", angle: 1e-3 },
    { kind: "bevel", angle: 180 - 1e-3 },
    { kind: "bevel", teeth: 2, angle: 170 },
  ];
  for (const change of cases)
    expect(`${JSON.stringify(change)} ${flaw(specOf({ ...base, ...change }))}`).toMatch(/null$/);
});

test("100,000 teeth stay below two million triangles", () => {
  const spec = loneSpec(
    makeGear({ id: "g", shaft: "S", kind: "spur", teeth: 100_000, module: 1, face: 10 }),
    null,
    QUALITIES.fine,
  );
  const { indices } = buildGear(spec);
  expect(indices.length / 3).toBeLessThan(2_000_000);
  expect(indices.length / 3).toBeGreaterThan(1_000_000);
});

test("equal gears have equal keys, and only they", () => {
  const spec = (fields: object) =>
    toothKey(
      loneSpec(
        makeGear({ id: "g", shaft: "S", kind: "spur", teeth: 20, module: 2, ...fields } as never),
        null,
        QUALITIES.bench,
      ),
    );
  expect(spec({ id: "h", shaft: "T", at: 50, phase: 7 })).toBe(spec({}));
  expect(spec({ teeth: 21 })).not.toBe(spec({}));
  expect(spec({ backlash: 0.1 })).not.toBe(spec({}));
});
