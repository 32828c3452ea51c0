/** How finely teeth are drawn at which size on the screen. */
import { describe, expect, it } from "vitest";
import { type Level, levelFor } from "../../src/bench/levels";

const ORDER: readonly Level[] = ["smooth", "far", "bench", "fine"];

describe("the level of detail", () => {
  it("grows with the size on the screen", () => {
    const levels = [0.2, 2, 12, 90].map((pixels) => levelFor(pixels, null));
    expect(levels).toEqual(ORDER);
  });

  it("never becomes coarser as one comes nearer, whatever it was", () => {
    for (const now of [null, ...ORDER]) {
      let before = 0;
      for (let pixels = 0.1; pixels < 200; pixels *= 1.03) {
        const rank = ORDER.indexOf(levelFor(pixels, now));
        expect(rank).toBeGreaterThanOrEqual(before);
        before = rank;
      }
    }
  });

  it("doesn't flicker when a size trembles about a limit", () => {
    for (const limit of [1, 6, 40]) {
      let level = levelFor(limit * 1.01, null);
      const first = level;
      for (const factor of [0.97, 1.03, 0.9, 1.1, 0.99]) {
        level = levelFor(limit * factor, level);
        expect(level).toBe(first);
      }
      expect(levelFor(limit / 2, first)).not.toBe(first);
    }
  });
});
