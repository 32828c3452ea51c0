/** Planets repeated round the carrier, against the assembly conditions of the textbooks and the phases of every loop. */
import { describe, expect, test } from "vitest";
import { solve } from "../../../src/engine/solve";
import { type RepeatAnswer, repeatChoices } from "../../../src/engine/wishes/repeat";
import { differential, planetary } from "../../support/random-drives";
import { numberOf, reference, spurs } from "../explain/build";
import { applied } from "./judge";

const choicesOf = (answer: RepeatAnswer) => ("choices" in answer ? answer.choices : []);

/** The two conditions for equal spacing, worked here by themselves: whole (sun + ring)/N, and tips that clear their neighbours. */
const assembles = (zs: number, zr: number, n: number): boolean => (zs + zr) % n === 0;
const hasRoom = (zs: number, zp: number, n: number): boolean => (zs + zp) * Math.sin(Math.PI / n) > zp + 2;

test("the published set of 24, 24 and 72", () => {
  const { given, expect: expected } = reference("epi-assembly");
  const [zs, zp, zr] = ["z_sun", "z_planet", "z_ring"].map((key) => numberOf(given, key)) as [number, number, number];
  const choices = choicesOf(repeatChoices(solve(planetary(zs, zp, zr, 1)), "P1"));
  const can = (n: number) => choices.find(({ count }) => count === n);
  expect([3, 4].map((n) => can(n)?.change !== null)).toEqual([expected.ok_3, expected.ok_4]);
  expect(can(5)?.change).toBeNull();
  expect(can(5)?.why).toBe("5 planets can't be assembled: (24 + 72)/5 is not a whole number.");
  // Six meet the tooth condition and lack the room.
  expect(can(6)?.change).toBeNull();
  expect(can(6)?.why).toContain("would touch one another");
  expect(can(numberOf(expected, "max_planets_by_room"))?.gap).toBeGreaterThan(0);
});

describe.each([
  [24, 18, 60],
  [20, 20, 60],
  [30, 18, 66],
  [40, 15, 70],
  [18, 27, 72],
  [50, 17, 84],
])("sun %i, planets %i, ring %i", (zs, zp, zr) => {
  const solved = solve(planetary(zs, zp, zr, 1));
  const answer = repeatChoices(solved, "P1");

  test("just those numbers that the two conditions allow", () => {
    const choices = choicesOf(answer);
    expect(choices.length).toBeGreaterThan(1);
    for (const { count, change, gap } of choices) {
      expect(change !== null, `${count} planets`).toBe(assembles(zs, zr, count) && hasRoom(zs, zp, count));
      expect((gap ?? 0) > 0).toBe(hasRoom(zs, zp, count));
      // Module 2: 2 a sin(π/N) less two tip radii.
      expect(gap).toBeCloseTo(2 * ((zs + zp) * Math.sin(Math.PI / count) - (zp + 2)), 6);
    }
  });

  test("each that is offered goes together, equally spaced, and changes no speed", () => {
    for (const { count, change } of choicesOf(answer)) {
      if (!change) continue;
      const after = applied(solved, change);
      const planets = after.drive.shafts.filter(({ frame }) => frame === "C");
      expect(planets.length).toBe(count);
      const bad = (one: typeof after) =>
        one.findings.filter(({ code }) => ["loop-phase", "loop-misfit", "locked"].includes(code)).length;
      // The ring alone may have to be turned on its shaft, as before.
      expect(bad(after)).toBe(bad(solved));
      const rounds = planets.map(({ id }) => {
        const [, y, z] = after.placement.shafts[after.index.shafts.get(id) ?? -1]?.origin ?? [0, 0, 0];
        return ((Math.atan2(-y, z) * 180) / Math.PI + 360) % 360;
      });
      const sorted = rounds.sort((a, b) => a - b);
      sorted.forEach((x, i) => {
        const next = sorted[(i + 1) % count] ?? 0;
        expect((next - x + 360) % 360 || 360).toBeCloseTo(360 / count, 6);
      });
      expect(after.motion.speed[1]).toBeCloseTo(solved.motion.speed[1] ?? 0, 9);
    }
  });
});

test("three planets become two or four; three stand there already", () => {
  const solved = solve(planetary(24, 18, 60, 3));
  const choices = choicesOf(repeatChoices(solved, "P2"));
  expect(choices.find(({ count }) => count === 3)?.isThere).toBe(true);
  for (const count of [2, 4]) {
    const change = choices.find((choice) => choice.count === count)?.change;
    const after = change && applied(solved, change);
    expect(after?.drive.shafts.filter(({ frame }) => frame === "C").length).toBe(count);
  }
});

test("pinions of a differential until they would touch", () => {
  const answer = repeatChoices(solve(differential(30, 18, 1)), "P1");
  expect("summary" in answer && answer.summary).toBe("2, 3, 4 and 5 planets can be. From 6 on neighbours would touch.");
});

/** Least distance between the tip circles of two pinions at the heel, by points round both: pinions at right angles to the carrier. */
function sampledGap(zSide: number, zPinion: number, count: number): number {
  const [module, turn] = [3, (2 * Math.PI) / count];
  const angle = Math.atan2(zPinion, zSide);
  const cone = (module * zPinion) / 2 / Math.sin(angle);
  // The tip stands a module square to the pitch cone: outwards, and nearer to the apex along the axis.
  const radius = cone * Math.sin(angle) + module * Math.cos(angle);
  const height = cone * Math.cos(angle) - module * Math.sin(angle);
  const at = (axis: number, a: number): readonly [number, number, number] => {
    const [u, w] = [radius * Math.cos(a), radius * Math.sin(a)];
    return [height * Math.cos(axis) - u * Math.sin(axis), height * Math.sin(axis) + u * Math.cos(axis), w];
  };
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 720; i++) {
    const [x, y, z] = at(0, (i * Math.PI) / 360);
    for (let k = 0; k < 720; k++) {
      const [u, v, w] = at(turn, (k * Math.PI) / 360);
      least = Math.min(least, Math.hypot(x - u, y - v, z - w));
    }
  }
  return least;
}

test("room between the pinions of a differential", () => {
  const choices = choicesOf(repeatChoices(solve(differential(30, 18, 1)), "P1"));
  for (const count of [2, 3, 4, 5])
    expect(choices.find((choice) => choice.count === count)?.gap).toBeCloseTo(sampledGap(30, 18, count), 6);
  // 18/18, module 3: 2 (45° + arctan(2/25.456)) = 98.98°, 8.98° more than a quarter turn, on a slant of 38.30 mm.
  const [, , four] = choicesOf(repeatChoices(solve(differential(18, 18, 1)), "P1"));
  expect(four?.why).toBe("4 planets would touch one another: their tips overlap by 6 mm.");
});

test("what is no planet", () => {
  const answer = repeatChoices(spurs(20, 40), "B");
  expect("cannot" in answer && answer.cannot).toContain("is no planet");
});
