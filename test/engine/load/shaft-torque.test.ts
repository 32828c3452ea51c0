/** The torque inside a shaft that has no port. */
import { describe, expect, test } from "vitest";
import { POSE, relative, solveWritten } from "./loaded";
import { planetary } from "./trains";

describe("torque inside a shaft", () => {
  const layshaft = (places: readonly [number, number, number]) =>
    solveWritten({
      shafts: [{ id: "A", pose: POSE }, { id: "B" }, { id: "C" }, { id: "D" }],
      gears: [
        { id: "a", shaft: "A", kind: "spur", teeth: 20, module: 2 },
        { id: "b1", shaft: "B", kind: "spur", teeth: 40, module: 2, at: places[0] },
        { id: "b2", shaft: "B", kind: "spur", teeth: 20, module: 2, at: places[1] },
        { id: "b3", shaft: "B", kind: "spur", teeth: 20, module: 2, at: places[2] },
        { id: "c", shaft: "C", kind: "spur", teeth: 20, module: 2 },
        { id: "d", shaft: "D", kind: "spur", teeth: 40, module: 2 },
      ],
      meshes: [
        { id: "ab", gears: ["a", "b1"] },
        { id: "bc", gears: ["b2", "c"], azimuth: 90 },
        { id: "bd", gears: ["b3", "d"], azimuth: 180 },
      ],
      ports: [
        { shaft: "A", role: "input", speed: 100 },
        { shaft: "C", role: "output", torque: 3 },
        { shaft: "D", role: "output", torque: 4 },
      ],
    });

  // By hand: gear b1 takes -5 N·m (the shaft turns at -50), b2 gives 3, b3 gives 2.
  test.each([
    [[0, 30, 60], -5],
    [[30, 0, 60], 3],
    [[60, 30, 0], 5],
    [[0, 0, 0], -5],
  ] as const)("gears at %j: %d N·m", (places, torque) => {
    const solved = layshaft(places);
    relative(solved.shaft("B").torque, torque, 1e-12);
    relative(solved.shaft("B").power, (Math.abs(torque) * 50 * 2 * Math.PI) / 60, 1e-12);
  });

  test("a carrier takes its planets' pushes first", () => {
    const written = planetary(24, 18, 3, []);
    const solved = solveWritten({
      ...written,
      shafts: [...written.shafts, { id: "Z" }],
      gears: [
        ...written.gears,
        { id: "c", shaft: "C", kind: "spur", teeth: 20, module: 2, at: -50 },
        { id: "z", shaft: "Z", kind: "spur", teeth: 40, module: 2 },
      ],
      meshes: [...written.meshes, { id: "cz", gears: ["c", "z"] }],
      ports: [
        { shaft: "S", role: "input", speed: 70 },
        { shaft: "R", role: "held" },
        { shaft: "Z", role: "output", torque: 42 },
      ],
    });
    relative(solved.shaft("C").torque, 21, 1e-12);
    expect(solved.shaft("P1")).toEqual({ torque: 0, power: 0 });
  });
});
