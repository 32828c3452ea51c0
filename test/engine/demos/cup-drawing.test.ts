/** The cup seen from above, against points of a cone in space; its turns against the solver, to which it is a planet on a flat crown. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cupEnd, markAt, prints } from "../../../src/engine/demos/cup-drawing";
import { cupPath } from "../../../src/engine/demos/rolling-cup";
import { readDrive } from "../../../src/engine/drive/parse";
import { solve } from "../../../src/engine/solve";

type V = readonly [number, number, number];
const cone = fc.tuple(fc.double({ min: 10, max: 200, noNaN: true }), fc.double({ min: 0.05, max: 0.95, noNaN: true }));

/** Axis of a cone that lies on the table along x with its apex at the origin, by rotation about y; and the rim from the axis. */
function rim(slant: number, radius: number, t: number): V {
  const delta = Math.asin(radius / slant);
  const [c, s] = [Math.cos(delta), Math.sin(delta)];
  const height = slant * c;
  // Upright cone about x: (height, r cos t, r sin t), turned up by delta about y so that t = -90 degrees lies on the table.
  const [x, y, z] = [height, radius * Math.cos(t), radius * Math.sin(t)];
  return [x * c - z * s, y, x * s + z * c];
}

describe("a rolling cup from above", () => {
  it("has the rims and sides of a cone in space", () => {
    fc.assert(
      fc.property(cone, ([slant, part]) => {
        const radius = slant * part;
        const { centre, along, across, side } = cupEnd(slant, radius);
        expect(rim(slant, radius, -Math.PI / 2)[2]).toBeCloseTo(0, 9);
        let widest = 0;
        for (let k = 0; k < 400; k++) {
          const [x, y] = rim(slant, radius, (k * Math.PI) / 200);
          expect(((x - centre) / along) ** 2 + (y / across) ** 2).toBeCloseTo(1, 6);
          widest = Math.max(widest, Math.atan2(y, x));
        }
        if (side) expect(Math.atan2(side.y, side.x)).toBeCloseTo(widest, 3);
        // From 45 degrees on the end covers the apex.
        expect(side === null).toBe(part >= Math.SQRT1_2);
      }),
    );
  });

  it("the mark is on its rim, and a point on the table stands still", () => {
    fc.assert(
      fc.property(cone, fc.double({ min: 0, max: 20, noNaN: true }), ([slant, part], lap) => {
        const radius = slant * part;
        const { centre, along, across } = cupEnd(slant, radius);
        const { x, y, up } = markAt(slant, radius, lap);
        expect(((x - centre) / along) ** 2 + (y / across) ** 2).toBeCloseTo(1, 6);
        expect(up).toBeGreaterThanOrEqual(0);
        // Rolling: where the mark comes down it has no speed over the ground.
        const down = (2 * Math.PI * radius) / slant;
        const over = (angle: number) => {
          const mark = markAt(slant, radius, angle);
          const [c, s] = [Math.cos(angle), Math.sin(angle)];
          return [mark.x * c - mark.y * s, mark.x * s + mark.y * c] as const;
        };
        const step = 1e-5;
        const [before, after] = [over(down - step), over(down + step)];
        expect(Math.hypot(after[0] - before[0], after[1] - before[1]) / (2 * step * slant)).toBeLessThan(1e-4);
      }),
    );
  });

  it("leaves a print for each turn of its own", () => {
    const path = cupPath([20, 10], 30);
    // The apex is 60 from the wider end: 60/20 = 3 turns in a lap.
    expect(prints(path, 2 * Math.PI)).toHaveLength(4);
    expect(prints(path, 2 * Math.PI - 0.01)).toHaveLength(3);
    expect(prints(path, 0)).toEqual([0]);
  });

  it("turns as the solver turns a cone that a carrier takes round a flat crown that is held", () => {
    for (const [radius, slant] of [
      [20, 60],
      [25, 40],
      [12, 50],
    ] as const) {
      const angle = 90 + (Math.asin(radius / slant) * 180) / Math.PI;
      const { drive, faults } = readDrive({
        format: "turnwise.drive",
        version: 1,
        shafts: [
          { id: "table", pose: { origin: [0, 0, 0], axis: [0, 0, 1], ref: [1, 0, 0] } },
          { id: "round", coaxial: "table" },
          { id: "cup", frame: "round" },
        ],
        gears: [
          { id: "t", shaft: "table", kind: "cone", diameter: 2 * slant, face: 5 },
          { id: "c", shaft: "cup", kind: "cone", diameter: 2 * radius, face: 5 },
        ],
        meshes: [{ id: "m", gears: ["t", "c"], shaftAngle: angle }],
        ports: [
          { shaft: "table", role: "held" },
          { shaft: "round", role: "input", speed: 1 },
        ],
      });
      if (!drive) throw new Error(JSON.stringify(faults));
      const solved = solve(drive);
      expect(solved.placement.gears[0]?.pitchAngle).toBeCloseTo(90, 6);
      const path = cupPath([radius, radius / 2], slant / 2);
      expect(Math.abs(solved.motion.speed[2] ?? 0)).toBeCloseTo(path.turnsFromAxis, 6);
      // Seen from the ground: the part of its angular velocity along its own axis.
      const [velocity, axis] = [solved.motion.angularVelocity[2], solved.placement.shafts[2]?.axis];
      const along = [0, 1, 2].reduce((sum, k) => sum + (velocity?.[k] ?? 0) * (axis?.[k] ?? 0), 0);
      expect(Math.abs(along) / ((2 * Math.PI) / 60)).toBeCloseTo(path.turnsFromGround, 6);
    }
  });
});
