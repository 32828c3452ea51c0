import { describe, expect, it } from "vitest";
import { countMarks } from "../../src/bench/mark-counts";
import { markShape } from "../../src/bench/rim-marks";
import { bandsShape, dashDot, roundArrow, ShapeBuilder, turnedShape } from "../../src/bench/shapes";
import { type GearOutline, gearOutline } from "../../src/engine/collisions/gear-outline";
import { makeShaft, newDrive } from "../../src/engine/drive/defaults";
import { pitchDiameter } from "../../src/engine/drive/types";
import { solve } from "../../src/engine/solve";
import type { PlacedGear } from "../../src/engine/solved";
import { mesh, root, type ToothedKind, toothed, toothless } from "../support/random-drives";

describe("rim marks", () => {
  it("lie equally far apart on mates, so that equal rim speed can be seen", () => {
    const gears = [toothed("a", "A", "spur", 20, 2), toothed("b", "B", "spur", 50, 2)];
    const spacing = countMarks(gears).map(
      (count, i) => (Math.PI * pitchDiameter(gears[i] as (typeof gears)[number])) / count,
    );
    expect(spacing[0]).toBeCloseTo(spacing[1] ?? 0, 12);
    expect(spacing[0]).toBeCloseTo(2 * Math.PI, 12);
  });

  it.each([
    [60, 120],
    [45.5, 31.2],
    [100, 100],
  ])("lie equally far apart on smooth wheels of %d and %d mm", (first, second) => {
    const gears = [toothless("a", "A", "wheel", first), toothless("b", "B", "wheel", second)];
    const [m = 0, n = 0] = countMarks(gears);
    expect(first / m).toBeCloseTo(second / n, 9);
    expect(Math.min(m, n)).toBeGreaterThanOrEqual(12);
  });
});

describe("marks on a body that ends at its pitch surface, as wheels have before their teeth grow", () => {
  const outlines = (...kinds: readonly (readonly [ToothedKind, number])[]): GearOutline[] => {
    const gears = kinds.map(([kind, teeth], i) => toothed(`g${i}`, `s${i}`, kind, teeth, 2));
    const angle = gears[0]?.kind === "bevel" ? { shaftAngle: 90 } : {};
    const shafts = [root("s0"), makeShaft({ id: "s1", name: "s1" })];
    const drive = { ...newDrive(), shafts, gears, meshes: [mesh("m", "g0", "g1", angle)], ports: [] };
    const { placement } = solve(drive);
    return drive.gears.map((gear, i) => {
      const outline = gearOutline(gear, placement.gears[i] as PlacedGear, i, i);
      if (!outline) throw new Error(`${gear.id} has no outline.`);
      return outline;
    });
  };

  it.each([
    ["spurs", outlines(["spur", 20], ["spur", 40])],
    ["a ring and its pinion", outlines(["spur", 20], ["internal", 60])],
    ["bevels", outlines(["bevel", 20], ["bevel", 40])],
  ])("are seen on both faces, and none stands in the air: %s", (_, pair) => {
    for (const outline of pair) {
      const { positions } = markShape(outline, 20, "end");
      const [[r0, z0], [r1, z1]] = outline.pitch;
      const length = Math.hypot(r1 - r0, z1 - z0);
      const isRing = outline.coneDistance === null && outline.pitchAngle > 1;
      const lift = 0.012 * ((2 * Math.PI * outline.pitchRadius) / 20);
      // How far a corner lies beyond the pitch surface, mm, where the teeth would be; and within the body.
      const beyond: number[] = [];
      for (let k = 0; k < positions.length; k += 3) {
        const [r, z] = [Math.hypot(positions[k] ?? 0, positions[k + 1] ?? 0), positions[k + 2] ?? 0];
        const side = ((r - r0) * (z1 - z0) - (z - z0) * (r1 - r0)) / length;
        beyond.push(side * (z1 > z0 ? 1 : -1) * (isRing ? -1 : 1));
      }
      expect(Math.max(...beyond)).toBeLessThan(1.5 * lift);
      // Eight corners a mark lie on the faces, half of them inside.
      expect(beyond.filter((mm) => mm < -2 * lift)).toHaveLength(80);
    }
  });
});

/** Volume of a closed body by the divergence theorem. */
function volume({ positions, indices }: { positions: Float32Array; indices: Uint32Array }): number {
  let sum = 0;
  const at = (corner: number): [number, number, number] => [
    positions[3 * corner] ?? 0,
    positions[3 * corner + 1] ?? 0,
    positions[3 * corner + 2] ?? 0,
  ];
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = [at(indices[t] ?? 0), at(indices[t + 1] ?? 0), at(indices[t + 2] ?? 0)];
    sum += a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
  }
  return sum / 6;
}

describe("plain bodies", () => {
  it.each([
    [
      "counterclockwise",
      [
        [0, 0],
        [10, 0],
        [10, 5],
        [0, 5],
      ],
    ],
    [
      "clockwise",
      [
        [0, 5],
        [10, 5],
        [10, 0],
        [0, 0],
      ],
    ],
  ] as const)("face outward whichever way their half section goes round: %s", (_, profile) => {
    // A cylinder of radius 10 and height 5; a polygon of 256 sides is 1e-4 smaller.
    expect(volume(turnedShape(profile, 256))).toBeCloseTo(Math.PI * 100 * 5, -1);
  });

  it("has bands that go all the way round as one that is built corner by corner", () => {
    const [p, q] = [
      [3, -1],
      [7, 4],
    ] as const;
    const [all, one] = [bandsShape([[p, q]], 24), new ShapeBuilder().band(p, q, 24).shape()];
    expect([...all.indices]).toEqual([...one.indices]);
    for (const key of ["positions", "normals"] as const) {
      expect(all[key]).toHaveLength(one[key].length);
      all[key].forEach((x, i) => {
        expect(x).toBeCloseTo(one[key][i] ?? Number.NaN, 6);
      });
    }
  });

  it("have axes that begin and end with a dash, in the proportions of ISO 128-2", () => {
    const points = dashDot(-100, 60, 1);
    expect(points[2]).toBe(-100);
    expect(points.at(-1)).toBeCloseTo(60, 3);
    const [dash, gap] = [(points[5] ?? 0) - (points[2] ?? 0), (points[8] ?? 0) - (points[5] ?? 0)];
    expect(dash / gap).toBeCloseTo(8, 3);
  });

  it("have arrows whose head goes on counterclockwise", () => {
    const { positions } = roundArrow(10, 0.5);
    // The head's tip lies furthest round, past the end of the arc at 1.12 π.
    let furthest = -Infinity;
    for (let k = 0; k < positions.length; k += 3) {
      const a = Math.atan2(positions[k + 1] ?? 0, positions[k] ?? 0);
      furthest = Math.max(furthest, a < -0.3 * Math.PI ? a + 2 * Math.PI : a);
    }
    expect(furthest).toBeGreaterThan(1.15 * Math.PI);
    expect(furthest).toBeLessThan(1.5 * Math.PI);
  });
});
