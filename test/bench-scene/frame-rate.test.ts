import { describe, expect, it } from "vitest";
import { FrameWatch, pinnedDrawing, simpler } from "../../src/bench/frame-rate";

/** How many frames of this length pass until the watch calls them too slow; null for not within ten seconds. */
function framesUntilSlow(seconds: number, watch = new FrameWatch()): number | null {
  for (let k = 1; k * seconds < 10; k++) if (watch.isTooSlow(seconds)) return k;
  return null;
}

describe("the watch on frames", () => {
  it("calls 10 a second too slow after it settled and two seconds more", () => {
    const frames = framesUntilSlow(0.1);
    expect(frames).not.toBeNull();
    expect((frames ?? 0) * 0.1).toBeGreaterThan(2.9);
    expect((frames ?? 0) * 0.1).toBeLessThan(3.5);
  });

  it("is content with 21 a second, and with 60", () => {
    expect(framesUntilSlow(1 / 21)).toBeNull();
    expect(framesUntilSlow(1 / 60)).toBeNull();
  });

  it("forgives one long stop: a hidden page is not a slow one", () => {
    const watch = new FrameWatch();
    for (let k = 0; k < 200; k++) {
      expect(watch.isTooSlow(1 / 60)).toBe(false);
      if (k % 40 === 0) expect(watch.isTooSlow(5)).toBe(false);
    }
  });

  it("gives the simpler drawing its own time to settle", () => {
    const watch = new FrameWatch();
    framesUntilSlow(0.1, watch);
    expect((framesUntilSlow(0.1, watch) ?? 0) * 0.1).toBeGreaterThan(2.9);
  });

  it("goes from full to simple to flat", () => {
    expect(simpler("full")).toBe("simple");
    expect(simpler("simple")).toBe("flat");
  });

  it("reads a pinned drawing from the address, and ignores any other word", () => {
    expect(pinnedDrawing("?drawing=full")).toBe("full");
    expect(pinnedDrawing("?drawing=flat&x=1")).toBe("flat");
    expect(pinnedDrawing("?drawing=pretty")).toBeNull();
    expect(pinnedDrawing("")).toBeNull();
  });
});
