import { describe, expect, it } from "vitest";
import { gapBetween, quickGap } from "../../../src/engine/collisions/gap";
import {
  type Profile,
  profileOf,
  type RadiusPlace,
  rodProfile,
  signedDistance,
} from "../../../src/engine/collisions/profile";
import type { Turned } from "../../../src/engine/collisions/turned";
import { judge, partOutside, SIDES } from "./judge";

const SOAK = process.env.SOAK === "1";
const TOLERANCE = 1e-4;
type Point = readonly [number, number, number];

const must = (profile: Profile | null): Profile => {
  if (!profile) throw new Error("No body.");
  return profile;
};
const rod = (half: number, radius: number): Profile => must(rodProfile(-half, half, radius));
const tube = (half: number, inner: number, outer: number): Profile =>
  must(
    profileOf(
      [
        [inner, -half],
        [outer, -half],
        [outer, half],
        [inner, half],
      ],
      false,
    ),
  );
const body = (profile: Profile, origin: Point, axis: Point = [0, 0, 1]): Turned => {
  const size = Math.hypot(...axis);
  return { profile, origin, axis: axis.map((x) => x / size) as unknown as Point };
};
const gap = (a: Turned, b: Turned): number => gapBetween(a, b, { tolerance: TOLERANCE }).high;

/** Closed forms: plane geometry of circles, lines and boxes, reckoned here by hand. */
describe("the gap, where it can be written down", () => {
  const O: Point = [0, 0, 0];
  it.each([
    ["parallel rods: distance less both radii", body(rod(50, 5), O), body(rod(50, 4), [12, 0, 0]), 3],
    ["skew rods", body(rod(50, 5), O, [1, 0, 0]), body(rod(50, 4), [3, -2, 12], [1, 1, 0]), 3],
    ["skew rods that overlap", body(rod(50, 5), O, [1, 0, 0]), body(rod(50, 4), [3, -2, 7], [1, 2, 0]), -2],
    ["discs beside one another", body(rod(5, 30), O), body(rod(5, 20), [53, 0, 2]), 3],
    ["discs that overlap at their rims", body(rod(5, 30), O), body(rod(5, 20), [47, 0, 2]), -3],
    ["discs above one another", body(rod(5, 30), O), body(rod(5, 20), [17, 4, 12]), 2],
    ["discs that overlap by a slice", body(rod(5, 30), O), body(rod(5, 20), [17, 4, 9]), -1],
    ["rims apart both ways: Pythagoras", body(rod(5, 30), O), body(rod(5, 20), [53, 0, 14]), 5],
    ["a rod through a ring with room", body(tube(5, 20, 30), O), body(rod(50, 5), [10, 0, 0]), 5],
    ["a rod that cuts the ring's inside", body(tube(5, 20, 30), O), body(rod(50, 5), [16, 0, 0]), -1],
    ["a rod outside of the ring", body(tube(5, 20, 30), O), body(rod(50, 5), [38, 0, 0]), 3],
    ["a pinion within a ring", body(tube(5, 40, 50), O), body(rod(5, 12), [0, 25, 1]), 3],
    ["coaxial sleeves", body(tube(5, 20, 30), O), body(rod(50, 15), O), 5],
    [
      "a ball's room between a rod across and the rim of a ring",
      body(tube(5, 20, 30), O),
      body(rod(50, 3), [0, 0, 10], [1, 0, 0]),
      2,
    ],
    [
      "two rings whose rims cross, one above the other",
      body(tube(5, 20, 30), O),
      body(tube(5, 20, 30), [25, 0, 12]),
      2,
    ],
    ["two rings that share a slice", body(tube(5, 20, 30), O), body(tube(5, 20, 30), [25, 0, 8]), -2],
  ] as const)("%s", (_, a, b, expected) => {
    expect(gap(a, b)).toBeCloseTo(expected, 3);
    expect(Math.abs(gap(a, b) - gap(b, a))).toBeLessThan(2e-4);
  });

  it("a rod that runs into the slope of a cone", () => {
    // A cone of 45 degrees from radius 20 at z = 0 to its tip at z = 20; a rod of radius 2 beside it along y.
    const cone = must(
      profileOf(
        [
          [0, 0],
          [20, 0],
          [0, 20],
        ],
        true,
      ),
    );
    const beside = body(rod(60, 2), [15, 0, 15], [0, 1, 0]);
    expect(gap(body(cone, O), beside)).toBeCloseTo((15 + 15 - 20) / Math.SQRT2 - 2, 3);
  });

  it("is 0 for bodies that touch", () => {
    expect(Math.abs(gap(body(rod(5, 30), O), body(rod(5, 20), [50, 0, 0])))).toBeLessThan(2e-4);
    expect(Math.abs(gap(body(tube(5, 20, 30), O), body(rod(50, 5), [15, 0, 0])))).toBeLessThan(2e-4);
  });
});

/** Numbers by seed: a linear congruential generator (Numerical Recipes' constants). */
const numbers = (seed: number) => {
  let state = seed >>> 0;
  return (low: number, high: number): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return low + ((high - low) * state) / 2 ** 32;
  };
};

const randomProfile = (random: ReturnType<typeof numbers>): Profile => {
  const form = Math.floor(random(0, 4));
  if (form === 0) return rod(random(10, 60), random(1, 6));
  if (form === 1) return rod(random(3, 10), random(12, 40));
  if (form === 2) {
    const inner = random(8, 30);
    return tube(random(3, 12), inner, inner + random(3, 10));
  }
  const [base, top, long] = [random(12, 35), random(2, 10), random(5, 20)];
  const points: RadiusPlace[] = [
    [0, 0],
    [base, 0],
    [top, long],
    [0, long],
  ];
  return must(profileOf(points, true));
};
const randomBody = (random: ReturnType<typeof numbers>, reach: number): Turned =>
  body(
    randomProfile(random),
    [random(-reach, reach), random(-reach, reach), random(-reach, reach)],
    [random(-1, 1), random(-1, 1), random(-1, 1) + 1e-3],
  );

/** Source: manifold-3d 3.5.4, least gap and common volume of the two as solids of many sides. */
describe("the gap of random pairs, against a general library for solids", () => {
  it(`says the same of ${SOAK ? 1500 : 24} pairs (seed 11)`, { timeout: SOAK ? 600_000 : 60_000 }, () => {
    const random = numbers(11);
    const count = { apart: 0, within: 0 };
    for (let i = 0; i < (SOAK ? 1500 : 24); i++) {
      const a = randomBody(random, 0);
      const b = randomBody(random, random(10, 45));
      const found = gapBetween(a, b, { tolerance: TOLERANCE });
      const seen = judge(a, b, Math.max(1, 1.2 * found.high + 1));
      // Half a side's sagitta of the judge's many-sided bodies, on both.
      const off = (a.profile.reach + b.profile.reach) * (1 - Math.cos(Math.PI / SIDES)) + 2e-3;
      if (found.high > off) {
        expect.soft(seen.volume, `pair ${i}`).toBe(0);
        expect.soft(Math.abs(seen.gap - found.high), `pair ${i}`).toBeLessThan(off);
        count.apart++;
      } else if (found.high < -off) {
        expect.soft(seen.volume, `pair ${i}`).toBeGreaterThan(0);
        // The ball that is said to fit in both does.
        const radius = -found.high / 2 - off;
        if (radius > 0.05) {
          expect.soft(partOutside(a, found.at, radius), `pair ${i}`).toBeLessThan(1e-4);
          expect.soft(partOutside(b, found.at, radius), `pair ${i}`).toBeLessThan(1e-4);
        }
        count.within++;
      }
      expect.soft(quickGap(a, b), `pair ${i}`).toBeLessThan(found.high + 1e-6 + (found.high < 0 ? Infinity : 0));
    }
    expect(count.apart).toBeGreaterThan(5);
    expect(count.within).toBeGreaterThan(5);
  });

  it(`knows of no larger ball in both than the one it tells (${SOAK ? 300 : 80} pairs, seed 12)`, () => {
    // Brute force: points strewn through the place of the smaller body, then ever closer round the best of them.
    const random = numbers(12);
    const depth = ({ profile, origin, axis }: Turned, x: Point): number => {
      const d = x.map((part, k) => part - (origin[k] ?? 0));
      const z = d.reduce((sum, part, k) => sum + part * (axis[k] ?? 0), 0);
      return -signedDistance(profile, Math.sqrt(Math.max(0, d.reduce((sum, part) => sum + part * part, 0) - z * z)), z);
    };
    let compared = 0;
    for (let i = 0; i < (SOAK ? 300 : 80); i++) {
      const a = randomBody(random, 0);
      const b = randomBody(random, 25);
      const found = gapBetween(a, b, { tolerance: TOLERANCE }).high;
      const both = (x: Point): number => Math.min(depth(a, x), depth(b, x));
      let [best, at] = [-Infinity, [0, 0, 0] as Point];
      let reach = 70;
      for (let round = 0; round < 26; round++, reach *= 0.62) {
        const middle = at;
        for (let k = 0; k < 1500; k++) {
          const x: Point = [
            middle[0] + random(-reach, reach),
            middle[1] + random(-reach, reach),
            middle[2] + random(-reach, reach),
          ];
          const value = both(x);
          if (value > best) [best, at] = [value, x];
        }
      }
      expect.soft(2 * best, `pair ${i}`).toBeLessThan(-found + 1e-3);
      if (2 * best > -found - 0.05) compared++;
    }
    expect(compared).toBeGreaterThan(SOAK ? 200 : 50);
  });
});
