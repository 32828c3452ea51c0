import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  LONGEST_LOOP,
  leastFaster,
  pitchesAPicture,
  planLoop,
  shownSeconds,
  timeOfFrame,
} from "../../../src/engine/motion/loop-choices";
import { rational } from "../../../src/engine/motion/rational";

describe("how a loop is played", () => {
  it("a sixtieth of a minute at half the speed lasts two seconds", () => {
    expect(shownSeconds(rational(1n, 60n), 0.5)).toBe(2);
  });

  it("faster by the least whole number that makes it short enough", () => {
    expect([0.3, 10, 10.01, 20, 95].map(leastFaster)).toEqual([1, 1, 2, 2, 10]);
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 1e6, noNaN: true }), (seconds) => {
        const times = leastFaster(seconds);
        expect(seconds / times).toBeLessThanOrEqual(LONGEST_LOOP * (1 + 1e-9));
        if (times > 1) expect(seconds / (times - 1)).toBeGreaterThan(LONGEST_LOOP);
      }),
    );
  });

  it("pictures are equally far apart, and the one after the last is the first", () => {
    const plan = planLoop(2, 1, 4);
    expect(plan).toEqual({ seconds: 2, frames: 50, delay: 4, faster: 1 });
    const period = rational(1n, 3n);
    expect(timeOfFrame(period, 50, 0)).toBe(0);
    expect(timeOfFrame(period, 50, 50)).toBe(1 / 3);
    expect(timeOfFrame(period, 50, 49)).toBeCloseTo((49 / 50) * (1 / 3), 15);
  });

  it("20 teeth at 30 turns a minute pass 10 pitches a second: 25 pictures a second are 0.4 pitches apart", () => {
    expect(pitchesAPicture(600, rational(1n, 30n), planLoop(2, 1, 4).frames)).toBeCloseTo(0.4, 12);
  });

  it("a loop shorter than a picture still has two", () => {
    expect(planLoop(0.001, 1, 4).frames).toBe(2);
  });
});
