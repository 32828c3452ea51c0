/**
 * Points of contact held against the mate: the point that one gear's flank gives has to lie on a flank of the other, as that one
 * stands by its own pose. The mate's flank, its azimuth and its turning are reckoned here anew; nothing is shared but the curve.
 */
import { describe, expect, it } from "vitest";
import { newPoses, poseAt, poseModel } from "../../../src/engine/motion/pose-at";
import { solve } from "../../../src/engine/solve";
import type { Solved, Vec3 } from "../../../src/engine/solved";
import { contactPath, touching, touchingSides } from "../../../src/engine/teeth/contact-path";
import { restPhases } from "../../../src/engine/teeth/phases";
import { flankOf } from "../../../src/engine/teeth/profile";
import { QUALITIES, toothSpec } from "../../../src/engine/teeth/spec";
import { cross, dot, length, sub, unit } from "../../../src/engine/vector";
import { type PairOptions, pair } from "./judge";

const DEGREE = Math.PI / 180;

/** World direction of the middle of a gear's tooth 0 when the first input has turned by `turns`. */
function toothDirections(solved: Solved, turns: number): Vec3[] {
  const model = poseModel(solved);
  const input = solved.motion.speed[0] ?? 1;
  const angles = Float64Array.from(solved.motion.speed, (speed) => (2 * Math.PI * turns * (speed ?? 0)) / input);
  const rest = restPhases(solved.drive, solved.index, solved.placement);
  const { turned } = poseAt(model, angles, rest, newPoses(model.count));
  return solved.drive.gears.map((gear, i) => {
    const o = 16 * (solved.index.shaftOfGear[i] ?? 0);
    const [c, s] = [Math.cos(gear.phase * DEGREE), Math.sin(gear.phase * DEGREE)];
    return [0, 1, 2].map((k) => (turned[o + k] ?? 0) * c + (turned[o + 4 + k] ?? 0) * s) as unknown as Vec3;
  });
}

/** By how much (mm) a point misses the nearest flank of a gear whose tooth 0 points in `tooth`. */
function missOf(solved: Solved, gear: number, tooth: Vec3, point: Vec3): number {
  const spec = { ...toothSpec(solved.drive, solved.index, solved.placement, gear, QUALITIES.fine), thinning: 0 };
  const placed = solved.placement.gears[gear];
  if (!placed) return Infinity;
  const across = cross(placed.outward, tooth);
  const from = sub(point, placed.apexPoint ?? placed.centre);
  const round = Math.atan2(dot(from, across), dot(from, tooth));
  const high = dot(from, placed.outward);
  const out = length([
    from[0] - high * placed.outward[0],
    from[1] - high * placed.outward[1],
    from[2] - high * placed.outward[2],
  ]);
  const q = placed.apexPoint ? Math.atan2(out, high) : out;
  const half = flankOf(spec).half(q);
  const step = (2 * Math.PI) / spec.teeth;
  const off = Math.abs(round - step * Math.round(round / step));
  return Math.abs(off - half) * out;
}

const PAIRS: readonly (readonly [string, PairOptions])[] = [
  ["spur 20/50", { teeth: [20, 50] }],
  ["spur 12/60, shifts", { teeth: [12, 60], shifts: [0.3, -0.3] }],
  ["ring 20/80", { teeth: [20, 80], isRing: true }],
  ["ring 18/60", { teeth: [18, 60], isRing: true }],
  ...[15, 60, 90, 120, 150].map((angle) => [`bevel 20/30 at ${angle}`, { teeth: [20, 30], angle }] as const),
  ["bevel 20/60 at 150", { teeth: [20, 60], angle: 150 }],
  ["bevel 20/30 at 90, apex reversed", { teeth: [20, 30], angle: 90, isSecondPlus: true }],
];

describe("points of contact", () => {
  it.each(PAIRS)("%s: lie on both flanks at every moment", (_, options) => {
    const solved = solve(pair(options));
    const path = contactPath(solved, 0);
    if (!path) throw new Error("no path");
    const mate = (solved.index.gearsOfMesh[0] ?? [0, 1])[path.side === 0 ? 1 : 0];
    let seen = 0;
    for (let k = 0; k < 40; k++) {
      const directions = toothDirections(solved, k * 0.0137);
      const azimuth = path.azimuthOf(directions[path.gear] as Vec3);
      for (const flank of [1, -1] as const) {
        for (const p of touching(path, azimuth, flank)) {
          seen++;
          for (const point of path.line(p, flank)) {
            expect(missOf(solved, path.gear, directions[path.gear] as Vec3, point)).toBeLessThan(1e-8);
            expect(missOf(solved, mate, directions[mate] as Vec3, point)).toBeLessThan(1e-8);
          }
        }
      }
    }
    // As many on the average as the contact ratio says.
    expect(seen / 80).toBeGreaterThan(path.ratio - 0.15);
    expect(seen / 80).toBeLessThan(path.ratio + 0.15);
    expect(path.ratio).toBeGreaterThan(1.2);
  });

  it("miss the mate when it stands a hundredth of a pitch off", () => {
    const solved = solve(pair({ teeth: [20, 50] }));
    const path = contactPath(solved, 0);
    const [own, mate] = toothDirections(solved, 0.1) as [Vec3, Vec3];
    if (!path) throw new Error("no path");
    const azimuth = path.azimuthOf(own) + 0.01 * ((2 * Math.PI) / 20);
    const p = touching(path, azimuth, 1)[0] ?? Number.NaN;
    expect(missOf(solved, 1, mate, path.line(p, 1)[0])).toBeGreaterThan(0.01);
  });

  it("pass through the pitch point along the placed contact line", () => {
    const solved = solve(pair({ teeth: [16, 32], angle: 90 }));
    const path = contactPath(solved, 0);
    const [heel, toe] = path?.line(path.pitch, 1) ?? [[0, 0, 0] as Vec3, [0, 0, 0] as Vec3];
    const contact = solved.placement.meshes[0]?.contact ?? [heel, toe];
    expect(length(sub(heel, contact[0]))).toBeLessThan(1e-9);
    expect(length(sub(toe, contact[1]))).toBeLessThan(1e-9);
  });

  it("lie on one straight line at the pressure angle on a spur pair, a base pitch apart", () => {
    // Handbook: base pitch = π m cos α; contact ratio of 20/50 at 20 degrees by the usual formula.
    const solved = solve(pair({ teeth: [20, 50] }));
    const path = contactPath(solved, 0);
    if (!path) throw new Error("no path");
    const gear = solved.drive.gears[path.gear] as { module: number };
    const m = gear.module;
    const [a] = path.line(path.pitch, 1);
    const [b] = path.line(path.pitch + path.step, 1);
    expect(length(sub(a, b))).toBeCloseTo(Math.PI * m * Math.cos(20 * DEGREE), 9);
    const towards = solved.placement.meshes[0]?.towards[path.side] as Vec3;
    expect(Math.abs(dot(unit(sub(b, a)), towards))).toBeCloseTo(Math.sin(20 * DEGREE), 9);
    const part = (z: number) => Math.sqrt((z / 2 + 1) ** 2 - ((z / 2) * Math.cos(20 * DEGREE)) ** 2);
    const formula = (part(20) + part(50) - 35 * Math.sin(20 * DEGREE)) / (Math.PI * Math.cos(20 * DEGREE));
    expect(path.ratio).toBeCloseTo(formula, 6);
  });

  it("with play, are on the driving flanks only", () => {
    const solved = solve(pair({ teeth: [20, 50], backlash: 0.05 }));
    const path = contactPath(solved, 0);
    if (!path) throw new Error("no path");
    const driver = solved.load.meshes[0]?.driver ?? null;
    expect(touchingSides(solved, path)).toHaveLength(driver === null ? 2 : 1);
  });
});
