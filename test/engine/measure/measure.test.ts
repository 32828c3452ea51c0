/** Measures against closed forms, against a search for the least distance, and against the format's own example. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Line, linePair } from "../../../src/engine/measure/lines";
import { isMeasured, type Measure, type Measured, measure } from "../../../src/engine/measure/measure";
import { measureLines, measureText } from "../../../src/engine/measure/words";
import type { Solved, Vec3 } from "../../../src/engine/solved";
import { along, cross, distance, dot, length, sub, turn, unit } from "../../../src/engine/vector";
import { bevels, mixer, pairOf, solveFile } from "../explain/build";

const gear = (id: string): Measured => ({ kind: "gear", id });
const shaft = (id: string): Measured => ({ kind: "shaft", id });

function found(solved: Solved, a: Measured, b: Measured): Measure {
  const result = measure(solved, a, b);
  if (!isMeasured(result)) throw new Error(result.reason);
  return result;
}

describe("two lines", () => {
  const coordinate = fc.double({ min: -500, max: 500, noNaN: true });
  const point = fc.tuple(coordinate, coordinate, coordinate);
  const direction = point.filter((v) => length(v) > 1).map(unit);
  const line = fc.record({ origin: point, axis: direction });

  it("come nearest at the feet: square to both, and no nearer anywhere about (300 pairs from seed 1)", () => {
    fc.assert(
      fc.property(line, line, (first: Line, second: Line) => {
        fc.pre(length(cross(first.axis, second.axis)) > 1e-2);
        const { feet, distance: apart } = linePair(first, second);
        const across = sub(feet[1], feet[0]);
        expect(Math.abs(dot(across, first.axis))).toBeLessThan(1e-6);
        expect(Math.abs(dot(across, second.axis))).toBeLessThan(1e-6);
        expect(length(across)).toBeCloseTo(apart, 6);
        for (const s of [-1, -0.1, 0.1, 1]) {
          for (const t of [-1, -0.1, 0, 0.1, 1]) {
            const other = distance(along(feet[0], first.axis, s), along(feet[1], second.axis, t));
            expect(other).toBeGreaterThanOrEqual(apart - 1e-9);
          }
        }
      }),
      { numRuns: 300, seed: 1 },
    );
  });

  it("keep their measure however the two are turned and moved together, and whichever is named first", () => {
    fc.assert(
      fc.property(line, line, direction, fc.double({ min: -3, max: 3, noNaN: true }), point, (a, b, u, angle, by) => {
        fc.pre(length(cross(a.axis, b.axis)) > 1e-2);
        const move = ({ origin, axis }: Line): Line => ({
          origin: along(turn(origin, u, angle), by, 1),
          axis: unit(turn(axis, u, angle)),
        });
        const [before, after, swapped] = [linePair(a, b), linePair(move(a), move(b)), linePair(b, a)];
        expect(after.distance).toBeCloseTo(before.distance, 6);
        expect(after.turn).toBeCloseTo(before.turn, 6);
        expect(swapped.distance).toBeCloseTo(before.distance, 6);
        expect(swapped.turn).toBeCloseTo(before.turn, 6);
      }),
      { numRuns: 200, seed: 2 },
    );
  });

  it.each<[string, Vec3, Vec3, string, number, number, number]>([
    // Read off a drawing: x along the first line.
    ["one line", [9, 0, 0], [-1, 0, 0], "one line", 0, 0, 180],
    ["parallel at 3, 4", [7, 3, 4], [1, 0, 0], "parallel", 5, 0, 0],
    ["meeting at right angles", [7, 0, 5], [0, 0, 1], "meeting", 0, 90, 90],
    ["crossing 12 above", [7, 0, 12], [0, 1, 0], "crossing", 12, 90, 90],
    [
      "crossing at 120°, which is 60° between the lines",
      [0, 0, 2],
      [-0.5, Math.sqrt(3) / 2, 0],
      "crossing",
      2,
      60,
      120,
    ],
  ])("%s", (_, origin, axis, relation, apart, angle, turned) => {
    const pair = linePair({ origin: [0, 0, 0], axis: [1, 0, 0] }, { origin, axis });
    expect(pair.relation).toBe(relation);
    expect(pair.distance).toBeCloseTo(apart, 9);
    expect(pair.angle).toBeCloseTo(angle, 9);
    expect(pair.turn).toBeCloseTo(turned, 9);
  });
});

describe("in the mixer of the format", () => {
  const solved = mixer();

  it("the spur pair's axes are half the sum of the pitch diameters apart: (40 + 100) / 2 = 70 mm", () => {
    const result = found(solved, shaft("A"), shaft("B"));
    expect(result.relation).toBe("parallel");
    expect(result.axes.distance).toBeCloseTo(70, 9);
    expect(result.centres).toBeNull();
  });

  it("the bevel pair's axes meet in the apex at 90°, 53.67 mm (cone distance) from both rims", () => {
    const result = found(solved, shaft("B"), shaft("C"));
    expect(result).toMatchObject({ relation: "meeting", axes: { distance: 0 } });
    expect(result.angle).toBeCloseTo(90, 9);
    // 48 mm over the mate's radius of 24 mm: the apex is 48 mm from the pinion's heel plane, 24 from the wheel's.
    const apex = result.axes.feet[0];
    const centres = found(solved, gear("b2"), gear("c1"));
    expect(distance(apex, centres.centres?.feet[0] ?? apex)).toBeCloseTo(48, 9);
    expect(distance(apex, centres.centres?.feet[1] ?? apex)).toBeCloseTo(24, 9);
    expect(centres.centres?.distance).toBeCloseTo(Math.hypot(48, 24), 9);
    expect(centres.along).toBeNull();
  });

  it("two gears of one shaft are 60 mm apart along it; gears of two shafts by Pythagoras", () => {
    const own = found(solved, gear("b1"), gear("b2"));
    expect(own).toMatchObject({ relation: "one line", along: 60, centres: { distance: 60 } });
    const across = found(solved, gear("b2"), gear("a1"));
    expect(across.centres?.distance).toBeCloseTo(Math.hypot(60, 70), 9);
    expect(across.along).toBeCloseTo(-60, 9);
  });

  it("A and C are as near as a search along C finds, to the step of the search", () => {
    const { axes, relation } = found(solved, shaft("A"), shaft("C"));
    const [a, c] = [solved.placement.shafts[0], solved.placement.shafts[2]];
    if (!a || !c) throw new Error("not placed");
    // Searched, not solved: the least of distances from points of C to the line A.
    let least = Number.POSITIVE_INFINITY;
    for (let t = -300; t <= 300; t += 0.25) {
      const p = sub(along(c.origin, c.axis, t), a.origin);
      least = Math.min(least, length(cross(p, a.axis)));
    }
    expect(axes.distance).toBeLessThanOrEqual(least + 1e-9);
    expect(axes.distance).toBeGreaterThan(least - 0.13);
    expect(relation).toBe(axes.distance < 1e-6 ? "meeting" : "crossing");
  });

  it("over the tips and between the faces of cylinders, not of cones", () => {
    // Faces of 20 mm amid places 0 and 45 of one shaft leave 25; tips of 44 and 104 mm about it.
    const stack = solveFile({
      shafts: [{ id: "A", name: "Crank", pose: { origin: [0, 0, 0], axis: [1, 0, 0], ref: [0, 0, 1] } }],
      gears: [
        { id: "p", shaft: "A", at: 0, kind: "spur", teeth: 20, module: 2, face: 20 },
        { id: "q", shaft: "A", at: 45, kind: "spur", teeth: 50, module: 2, face: 20 },
        { id: "w", shaft: "A", at: 50, kind: "wheel", diameter: 30, face: 20 },
        { id: "n", shaft: "A", at: 90, kind: "internal", teeth: 80, module: 2, face: 20 },
      ],
    });
    expect(found(stack, gear("p"), gear("q"))).toMatchObject({ betweenFaces: 25, overTips: 104 });
    expect(found(stack, gear("q"), gear("w"))).toMatchObject({ betweenFaces: null, overTips: 104 });
    expect(found(stack, gear("q"), gear("n"))).toMatchObject({ betweenFaces: null, overTips: null });
    expect(found(solved, gear("a1"), gear("b1"))).toMatchObject({ betweenFaces: null, overTips: 70 + 22 + 52 });
    expect(found(solved, gear("b1"), gear("b2"))).toMatchObject({ betweenFaces: null, overTips: null });
    expect(found(solved, gear("b1"), shaft("A"))).toMatchObject({ betweenFaces: null, overTips: null });
  });

  it("a gear and a shaft: from its centre square to the axis", () => {
    const result = found(solved, shaft("A"), gear("b2"));
    expect(result.centres?.distance).toBeCloseTo(70, 9);
    expect(measureLines(result).map(({ label }) => label)).toContain("From the centre to the axis");
  });
});

describe("elsewhere", () => {
  it.each([30, 60, 90, 110, 150])(
    "a bevel pair's own shaft angle of %d° is told, and that between the lines",
    (angle) => {
      const solved = bevels(20, 30, angle);
      const { turn: turned, angle: between } = found(solved, gear("a"), gear("b"));
      // Gear a's outward axis is the reverse of its shaft's axis, gear b's the axis itself.
      expect(turned).toBeCloseTo(180 - angle, 9);
      expect(between).toBeCloseTo(Math.min(angle, 180 - angle), 9);
    },
  );

  it("a planet measures from its sun at rest, and says that a carrier changes it", () => {
    const solved = solveFile({
      shafts: [
        { id: "S", name: "Sun", pose: { origin: [0, 0, 0], axis: [0, 0, 1], ref: [1, 0, 0] } },
        { id: "C", name: "Arm", coaxial: "S" },
        { id: "P", name: "Planet", frame: "C" },
      ],
      gears: [
        { id: "s", shaft: "S", kind: "spur", teeth: 24, module: 2 },
        { id: "p", shaft: "P", kind: "spur", teeth: 18, module: 2 },
      ],
      meshes: [{ id: "m", gears: ["s", "p"] }],
    });
    const result = found(solved, gear("s"), gear("p"));
    expect(result.axes.distance).toBeCloseTo(42, 9);
    expect(result.isCarried).toBe(true);
    expect(measureText(result)).toContain("at rest");
    expect(found(solved, shaft("S"), shaft("C"))).toMatchObject({ relation: "one line", isCarried: false });
  });

  it("what isn't there, or has no place, gets a sentence", () => {
    const lost = solveFile({
      shafts: [
        { id: "A", name: "Crank", pose: { origin: [0, 0, 0], axis: [1, 0, 0], ref: [0, 0, 1] } },
        { id: "B", name: "Stone" },
      ],
    });
    expect(measure(lost, shaft("A"), shaft("B"))).toEqual({
      reason: "Nothing says yet where Stone stands; mesh one of its gears or give it a place, then measure.",
    });
    expect(measure(lost, gear("x"), shaft("A"))).toEqual({
      reason: "There is no gear x in this drive; choose another.",
    });
  });

  it("as text: both names, each figure with its unit", () => {
    const result = found(pairOf(["spur", "spur"], { teeth: 20 }, { teeth: 51 }), gear("a"), gear("b"));
    expect(measureText(result)).toBe(
      [
        "a (20 teeth, on Motor) to b (51 teeth, on Wheel)",
        "Axes: parallel",
        "Between the axes: 71 mm",
        "Angle: 0°",
        "Between the centres: 71 mm",
        "Along the axis: 0 mm",
        // 71 + (2 · 20 + 4) / 2 + (2 · 51 + 4) / 2
        "Over the tips of both: 146 mm",
      ].join("\n"),
    );
  });
});
