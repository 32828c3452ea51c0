/** What the tests of wishes measure by themselves: turning from vectors, lines from points, and that a drive is a sound file. */
import { expect } from "vitest";
import { isRefused } from "../../../src/engine/drive/commands/edit";
import { readDrive } from "../../../src/engine/drive/parse";
import { writeDrive } from "../../../src/engine/drive/write";
import { solve } from "../../../src/engine/solve";
import type { Solved, Vec3 } from "../../../src/engine/solved";
import type { Answer, Change } from "../../../src/engine/wishes/change";

export const changesOf = (answer: Answer): readonly Change[] => ("changes" in answer ? answer.changes : []);
export const whyNot = (answer: Answer): string => ("cannot" in answer ? answer.cannot : "");

/** The edit made anew on the first drive, written, read and solved as a file would be. */
export function applied(solved: Solved, change: Change): Solved {
  const result = change.edit(solved.drive);
  if (isRefused(result)) throw new Error(result.refused);
  const { drive, faults } = readDrive(JSON.parse(writeDrive(result)));
  if (!drive) throw new Error(JSON.stringify(faults));
  return solve(drive);
}

export const shaftAt = (solved: Solved, id: string): number => solved.index.shafts.get(id) ?? -1;

/** rad/s in the world, for shafts on ground. */
export const spin = (solved: Solved, id: string): Vec3 =>
  solved.motion.angularVelocity[shaftAt(solved, id)] ?? [0, 0, 0];
export const dotOf = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const sizeOf = (a: Vec3): number => Math.sqrt(dotOf(a, a));
/** rev/min, from the angular velocity. */
export const revs = (solved: Solved, id: string): number => (sizeOf(spin(solved, id)) * 30) / Math.PI;

/** Degrees between two lines, by the dot product. */
export function degreesBetween(a: Vec3, b: Vec3): number {
  return (Math.acos(Math.min(1, Math.abs(dotOf(a, b)) / (sizeOf(a) * sizeOf(b)))) * 180) / Math.PI;
}

/** mm between a point and a shaft's line, by Pythagoras. */
export function missOf(solved: Solved, id: string, point: Vec3): number {
  const placed = solved.placement.shafts[shaftAt(solved, id)];
  if (!placed) return Number.NaN;
  const from: Vec3 = [point[0] - placed.origin[0], point[1] - placed.origin[1], point[2] - placed.origin[2]];
  return Math.sqrt(Math.max(0, dotOf(from, from) - dotOf(from, placed.axis) ** 2));
}

/** What holds for every change that is offered, whatever was wished. */
export function expectSound(solved: Solved, answer: Answer): void {
  if ("cannot" in answer) {
    expect(answer.cannot).toMatch(/^[A-Z].*[.]$/s);
    return;
  }
  const { changes } = answer;
  expect(changes.length).toBeGreaterThan(0);
  expect(changes.length).toBeLessThanOrEqual(3);
  expect(new Set(changes.map(({ title }) => title)).size).toBe(changes.length);
  const errors = (one: Solved): number => one.findings.filter(({ severity }) => severity === "error").length;
  changes.forEach((change, i) => {
    expect(change.cost.weight).toBeGreaterThanOrEqual(changes[i - 1]?.cost.weight ?? 0);
    const after = applied(solved, change);
    expect(errors(after)).toBeLessThanOrEqual(errors(solved));
    expect(after.motion.status).toBe(solved.motion.status);
    // Every other shaft whose speed is another is told of by name.
    const told = change.also.join(" ");
    solved.drive.shafts.forEach(({ id }, was) => {
      const now = shaftAt(after, id);
      if (now < 0 || solved.drive.shafts.length > 6) return;
      const [before, then] = [solved.motion.speed[was] ?? null, after.motion.speed[now] ?? null];
      const axes = [solved.placement.shafts[was]?.axis, after.placement.shafts[now]?.axis];
      const flip = axes[0] && axes[1] && dotOf(axes[0], axes[1]) < 0 ? -1 : 1;
      if (before === null || then === null || Math.abs(before - flip * then) < 1e-9) return;
      expect(`${change.sentence} ${told}`).toContain(solved.drive.shafts[was]?.name || id);
    });
  });
}
