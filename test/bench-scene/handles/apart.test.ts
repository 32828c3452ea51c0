import fc from "fast-check";
import { expect, it } from "vitest";
import { APART, spread } from "../../../src/bench/handles/apart";

const frame = { left: 24, top: 80, right: 366, bottom: 340 };

it("leaves knobs that don't meet where they are", () => {
  const spots = [
    { x: 100, y: 100 },
    { x: 200, y: 100 },
  ];
  expect(spread(spots, frame)).toEqual(spots);
});

it("puts up to four knobs within the picture and a finger apart, wherever they would be", () => {
  const spot = fc.record({
    x: fc.double({ min: -500, max: 900, noNaN: true }),
    y: fc.double({ min: -500, max: 900, noNaN: true }),
  });
  fc.assert(
    fc.property(fc.array(spot, { maxLength: 4 }), (spots) => {
      const set = spread(spots, frame);
      set.forEach((one, i) => {
        expect(one.x).toBeGreaterThanOrEqual(frame.left);
        expect(one.x).toBeLessThanOrEqual(frame.right);
        expect(one.y).toBeGreaterThanOrEqual(frame.top);
        expect(one.y).toBeLessThanOrEqual(frame.bottom);
        for (const other of set.slice(0, i))
          expect(Math.hypot(one.x - other.x, one.y - other.y)).toBeGreaterThan(APART - 1e-3);
      });
    }),
    { numRuns: 500 },
  );
});
