/** The end that a new shaft leans to, as it is told, against where it then stands: u2 = cos Σ u1 + sin Σ r (format of a drive). */
import { describe, expect, it } from "vitest";
import { makeDrive, makeGear, makeMesh, makePort, makeShaft } from "../../src/engine/drive/defaults";
import { endNames } from "../../src/engine/explain/ends";
import { solve } from "../../src/engine/solve";
import { dot } from "../../src/engine/vector";
import type { GrowSpot } from "../../src/store/growing";
import { leanEnds } from "../../src/store/stage/candidate";
import { growthOf } from "../../src/store/stage/growth";

const drive = makeDrive({
  shafts: [
    makeShaft({ id: "A", pose: { origin: [0, 0, 0], axis: [1, 0, 0], ref: [0, 0, 1] } }),
    makeShaft({ id: "B" }),
  ],
  gears: [
    makeGear({ id: "a", shaft: "A", kind: "spur", teeth: 20, module: 2 }),
    makeGear({ id: "b", shaft: "B", kind: "spur", teeth: 40, module: 2 }),
  ],
  meshes: [makeMesh({ id: "m", gears: ["a", "b"], azimuth: 90 })],
  ports: [makePort({ shaft: "A", role: "input", speed: 100 }), makePort({ shaft: "B", role: "output", torque: 3 })],
});
const solved = solve(drive);

const SPOTS: readonly GrowSpot[] = [
  { shaft: "A", gear: "a" },
  { shaft: "B", gear: "b" },
  { shaft: "A", side: 1 },
  { shaft: "A", side: -1 },
  { shaft: "B", side: 1 },
  { shaft: "B", side: -1 },
];

describe("a shaft that grows at an angle", () => {
  it("is tried on either side of its shaft", () => {
    expect(SPOTS.slice(0, 2).map((spot) => growthOf(solved, spot, "bevel-pair", {})?.side)).toEqual([1, -1]);
  });

  for (const spot of SPOTS) {
    for (const shaftAngle of [70, 110]) {
      it(`leans to the end that is told: ${JSON.stringify(spot)}, ${shaftAngle} degrees`, () => {
        const growth = growthOf(solved, spot, "bevel-pair", { shaftAngle });
        if (!growth?.next || !growth.candidate) throw new Error(growth?.blocked ?? "Nothing grows there.");
        const { back, on } = leanEnds(solved, growth.candidate, growth.side);
        const [own, next] = [growth.shaft, growth.next.drive.shafts.length - 1].map(
          (shaft) => growth.next?.placement.shafts[shaft]?.axis,
        );
        if (!own || !next) throw new Error("A shaft stands nowhere.");
        const along = dot(own, next);
        expect(Math.abs(along)).toBeCloseTo(Math.cos((70 * Math.PI) / 180), 9);
        const names = endNames(solved, growth.shaft);
        expect(shaftAngle < 90 ? back : on).toBe(along > 0 ? names.plus : names.minus);
      });
    }
  }
});
