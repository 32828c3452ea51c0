/** The edges that are drawn, against those found on the finished surface: wherever two triangles meet at an angle. */
import { describe, expect, it } from "vitest";
import { makeGear } from "../../../src/engine/drive/defaults";
import { gearEdges } from "../../../src/engine/teeth/edges";
import { buildGear } from "../../../src/engine/teeth/gear-mesh";
import { loneSpec, QUALITIES, type ToothSpec } from "../../../src/engine/teeth/spec";

const spec = (kind: "spur" | "internal" | "bevel", teeth: number, angle = 0, more = {}): ToothSpec =>
  loneSpec(
    makeGear({ id: "g", shaft: "S", kind, teeth, module: 2, face: 9, ...more }),
    (angle * Math.PI) / 180,
    QUALITIES.bench,
  );

const named = (points: Float32Array | Float64Array, i: number): string =>
  [0, 1, 2].map((k) => Math.round((points[3 * i + k] ?? 0) * 256) / 256 + 0).join(" ");

/** Edges whose two triangles have corner normals more than 18 degrees apart, by the places of their ends. */
function creasesOf(made: ToothSpec): Map<string, number> {
  const { positions, normals, indices } = buildGear(made);
  const before = new Map<string, readonly number[]>();
  const found = new Map<string, number>();
  for (let t = 0; t < indices.length; t++) {
    const [a, b] = [indices[t] ?? 0, indices[t % 3 === 2 ? t - 2 : t + 1] ?? 0];
    const [p, q] = [named(positions, a), named(positions, b)];
    if (p === q) continue;
    const [low, high, name] = p < q ? [a, b, `${p} | ${q}`] : [b, a, `${q} | ${p}`];
    const mate = before.get(name);
    if (!mate) {
      before.set(name, [low, high]);
      continue;
    }
    const cosine = (v: number, w: number): number =>
      [0, 1, 2].reduce((sum, k) => sum + (normals[3 * v + k] ?? 0) * (normals[3 * w + k] ?? 0), 0);
    const least = Math.min(cosine(low, mate[0] ?? 0), cosine(high, mate[1] ?? 0));
    if (least < Math.cos(Math.PI / 10)) found.set(name, least);
  }
  return found;
}

function drawn(made: ToothSpec): Set<string> {
  const points = gearEdges(made);
  const found = new Set<string>();
  for (let i = 0; i < points.length / 3; i += 2) {
    const [p, q] = [named(points, i), named(points, i + 1)];
    if (p !== q) found.add(p < q ? `${p} | ${q}` : `${q} | ${p}`);
  }
  return found;
}

describe("edges", () => {
  it.each([
    ["a spur gear with a web", spec("spur", 40, 0, { bore: 10 })],
    ["a small pinion", spec("spur", 12, 0, { bore: 6 })],
    ["a pinion of 7 teeth", spec("spur", 7)],
    ["a ring", spec("internal", 60)],
    ["a bevel gear", spec("bevel", 30, 40, { apex: "-", bore: 8 })],
    ["a bevel gear the other way about", spec("bevel", 30, 40, { apex: "+", bore: 8 })],
    ["a crown gear", spec("bevel", 36, 90)],
    ["an internal bevel gear", spec("bevel", 48, 120)],
    ["a smooth wheel", { ...spec("spur", 20), teeth: 0, addendum: 0, dedendum: 0 }],
  ])("of %s are all drawn, and nothing else", (_, made) => {
    const expected = creasesOf(made);
    const got = drawn(made);
    expect(expected.size).toBeGreaterThan(100);
    expect([...got].filter((name) => !expected.has(name))).toEqual([]);
    expect([...expected.keys()].filter((name) => !got.has(name))).toEqual([]);
  });
});
