/** The line of action against what defines it: the pressure angle, the base circles, and the flanks that it is square to. */
import { describe, expect, test } from "vitest";
import type { Solved, Vec3 } from "../../../src/engine/solved";
import { contactPath } from "../../../src/engine/teeth/contact-path";
import { lineOfAction } from "../../../src/engine/teeth/line-of-action";
import { cross, DEGREE, dot, length, sub, unit } from "../../../src/engine/vector";
import { bevels, pairOf, spurs } from "../explain/build";

const actionOf = (solved: Solved, flank: 1 | -1, part = 0.5) => {
  const path = contactPath(solved, 0);
  if (!path) throw new Error("no contact");
  return { path, ...lineOfAction(solved, path, flank, part) };
};
/** mm between a line and an axis that is square to it. */
const apart = (point: Vec3, direction: Vec3, origin: Vec3, axis: Vec3): number =>
  Math.abs(dot(sub(point, origin), unit(cross(direction, axis))));

describe.each([14.5, 20, 25])("at a pressure angle of %d degrees", (pressureAngle) => {
  test.each([1, -1] as const)("flank %d: spur gears, tangent to both base circles, r cos α (ISO 21771)", (flank) => {
    const solved = spurs(24, 40, { pressureAngle });
    const { point, direction, angle } = actionOf(solved, flank);
    expect(angle / DEGREE).toBeCloseTo(pressureAngle, 6);
    for (const [gear, teeth] of [24, 40].entries()) {
      const shaft = solved.placement.shafts[gear];
      if (!shaft) throw new Error("no shaft");
      expect(dot(direction, shaft.axis)).toBeCloseTo(0, 9);
      expect(apart(point, direction, shaft.origin, shaft.axis)).toBeCloseTo(
        teeth * Math.cos(pressureAngle * DEGREE),
        6,
      );
    }
  });

  test("in a ring", () => {
    const solved = pairOf(["spur", "internal"], { teeth: 24, pressureAngle }, { teeth: 70, pressureAngle });
    expect(actionOf(solved, 1).angle / DEGREE).toBeCloseTo(pressureAngle, 6);
  });

  test.each([60, 90, 120])(
    "bevel gears at %d degrees: across the contact line, at heel, middle and toe alike",
    (sigma) => {
      const solved = bevels(20, 30, sigma, { pressureAngle });
      const [heel, toe] = solved.placement.meshes[0]?.contact ?? [[0, 0, 0] as Vec3, [0, 0, 1] as Vec3];
      for (const part of [0, 0.5, 1]) {
        const { point, direction, angle } = actionOf(solved, 1, part);
        expect(angle / DEGREE).toBeCloseTo(pressureAngle, 4);
        expect(dot(direction, unit(sub(heel, toe)))).toBeCloseTo(0, 6);
        // Through the contact line.
        expect(length(cross(sub(point, toe), unit(sub(heel, toe))))).toBeCloseTo(0, 6);
      }
    },
  );
});

test("the two flanks lie either side of the common tangent", () => {
  const solved = spurs(24, 40);
  const [left, right] = [actionOf(solved, 1).direction, actionOf(solved, -1).direction];
  expect(Math.acos(Math.min(1, Math.abs(dot(left, right)))) / DEGREE).toBeCloseTo(40, 6);
});
