/** Wishes on random drives: every change that is offered does what it says, measured from vectors, on the file written and read. */
import { describe, expect, test } from "vitest";
import { fromNumber } from "../../../src/engine/motion/rational";
import { solve } from "../../../src/engine/solve";
import type { Solved, Vec3 } from "../../../src/engine/solved";
import { wishAnswers } from "../../../src/engine/wishes/wish";
import { picker, planetary, randomTree } from "../../support/random-drives";
import { applied, changesOf, degreesBetween, dotOf, expectSound, missOf, revs, shaftAt, spin } from "./judge";

const SEEDS = process.env.SOAK ? 400 : 10;

/** The world direction in which the shaft's angular velocity points, as its axis goes. */
const axisOf = (solved: Solved, id: string): Vec3 => solved.placement.shafts[shaftAt(solved, id)]?.axis ?? [0, 0, 0];

const trees = (seed: number): Solved => {
  const pick = picker(seed);
  const shafts = pick.whole(2, 6);
  return solve(
    randomTree(seed, shafts, shafts - 1, {
      ports: [
        { shaft: "s0", role: "input", speed: 100, torque: 8 },
        { shaft: `s${shafts - 1}`, role: "output" },
      ],
    }),
  );
};

/** The sum of all answers: a test that were never answered would prove nothing. */
const counted = { "other-way": 0, speed: 0, torque: 0, angle: 0, here: 0 };

describe.each(Array.from({ length: SEEDS }, (_, i) => i + 1))("tree of seed %i", (seed) => {
  const solved = trees(seed);
  const pick = picker(1000 + seed);
  const shaft = `s${solved.drive.shafts.length - 1}`;

  test("the other way", () => {
    const answer = wishAnswers(solved, { kind: "other-way", shaft });
    expectSound(solved, answer);
    for (const change of changesOf(answer)) {
      counted["other-way"]++;
      const after = applied(solved, change);
      // About the shaft's own axis, which an idler leaves parallel and a bevel on the other side leaves as it is.
      const was = dotOf(spin(solved, shaft), axisOf(solved, shaft));
      const now = dotOf(spin(after, shaft), axisOf(after, shaft));
      expect(was * now * (dotOf(axisOf(solved, shaft), axisOf(after, shaft)) > 0 ? 1 : -1)).toBeLessThan(0);
    }
  });

  test("this fast", () => {
    const wanted = Number((revs(solved, shaft) * pick.of([0.5, 0.8, 1.1, 1.37, 2])).toPrecision(4));
    const answer = wishAnswers(solved, { kind: "speed", shaft, speed: fromNumber(wanted) });
    expectSound(solved, answer);
    for (const change of changesOf(answer)) {
      counted.speed++;
      expect(Math.abs(revs(applied(solved, change), shaft) / wanted - 1)).toBeLessThanOrEqual(0.02);
    }
  });

  test("this much torque", () => {
    const now = Math.abs(solved.load.shafts[shaftAt(solved, shaft)]?.torque ?? 0);
    expect(now).toBeGreaterThan(0);
    const wanted = Number((now * pick.of([0.6, 1.25, 2])).toPrecision(4));
    const answer = wishAnswers(solved, { kind: "torque", shaft, torque: wanted });
    expectSound(solved, answer);
    for (const change of changesOf(answer)) {
      counted.torque++;
      const after = applied(solved, change);
      const power = ((after.drive.ports[0]?.torque ?? 0) * revs(after, "s0")) / revs(after, shaft);
      expect(Math.abs(power / wanted - 1)).toBeLessThanOrEqual(0.02 + 1e-9);
    }
  });

  test("at this angle", () => {
    const degrees = pick.whole(5, 90);
    const answer = wishAnswers(solved, { kind: "angle", shaft, to: "s0", degrees });
    expectSound(solved, answer);
    for (const change of changesOf(answer)) {
      counted.angle++;
      const after = applied(solved, change);
      expect(degreesBetween(axisOf(after, shaft), axisOf(after, "s0"))).toBeCloseTo(degrees, 4);
    }
  });

  test("out here", () => {
    const origin = solved.placement.shafts[shaftAt(solved, shaft)]?.origin ?? [0, 0, 0];
    const point: Vec3 = [
      origin[0] + pick.whole(-40, 40),
      origin[1] + pick.whole(-40, 40),
      origin[2] + pick.whole(-40, 40),
    ];
    const answer = wishAnswers(solved, { kind: "here", shaft, point });
    expectSound(solved, answer);
    for (const change of changesOf(answer)) {
      counted.here++;
      expect(missOf(applied(solved, change), shaft, point)).toBeLessThan(1e-4);
    }
  });
});

test("every sort of wish was answered often", () => {
  for (const count of Object.values(counted)) expect(count).toBeGreaterThan(SEEDS);
});

test.each([
  [24, 18, 60, 3],
  [30, 15, 60, 3],
  [20, 20, 60, 4],
])("planetary %i, %i, %i with %i planets", (zs, zp, zr, n) => {
  const solved = solve(planetary(zs, zp, zr, n));
  for (const shaft of ["S", "C", "P1"]) {
    expectSound(solved, wishAnswers(solved, { kind: "other-way", shaft }));
    expectSound(solved, wishAnswers(solved, { kind: "speed", shaft, speed: fromNumber(31) }));
  }
});
