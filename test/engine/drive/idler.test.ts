/** An idler between two gears that mesh, held against the rule of every textbook: the far shaft turns the other way, just as fast. */
import { describe, expect, it } from "vitest";
import { isRefused } from "../../../src/engine/drive/commands/edit";
import { insertIdler } from "../../../src/engine/drive/commands/idler";
import { makeDrive, makeGear, makeMesh, makePort, makeShaft, newDrive } from "../../../src/engine/drive/defaults";
import { readDrive } from "../../../src/engine/drive/parse";
import type { Drive, GearKind, Vec3 } from "../../../src/engine/drive/types";
import { writeDrive } from "../../../src/engine/drive/write";
import { multiply, rational } from "../../../src/engine/motion/rational";
import { solve } from "../../../src/engine/solve";
import { distance } from "../../../src/engine/vector";

const pair = (kind: GearKind, teeth: number, more: object = {}): Drive => {
  const first = newDrive();
  return makeDrive({
    shafts: [...first.shafts, makeShaft({ id: "B" })],
    gears: [...first.gears, makeGear({ id: "b1", shaft: "B", kind, teeth, module: 2, ...more } as never)],
    meshes: [makeMesh({ id: "m1", gears: ["a1", "b1"], azimuth: 30, efficiency: 0.98 })],
    ports: [makePort({ shaft: "A", role: "input", speed: 60 })],
  });
};
const ORIGIN: Vec3 = [0, 0, 0];
const made = (drive: Drive, teeth?: number): Drive => {
  const result = insertIdler("m1", { teeth })(drive);
  if (isRefused(result)) throw new Error(result.refused);
  return result;
};

describe("an idler", () => {
  for (const [kind, size] of [
    ["spur", 50],
    ["internal", 90],
  ] as const) {
    for (const teeth of [12, 20, 31]) {
      it(`of ${teeth} teeth before a gear of kind ${kind} turns it the other way, as fast`, () => {
        const [before, after] = [solve(pair(kind, size)), solve(made(pair(kind, size), teeth))];
        const was = before.motion.ratios[1];
        expect(after.motion.ratios[1]).toEqual(was && multiply(was, rational(-1n)));
        expect(after.motion.status).toBe("determined");
        // Its own turns: rim speeds are equal, so teeth times turns are.
        expect(after.motion.speed[2]).toBeCloseTo((-60 * 20) / teeth, 9);
      });
    }
  }

  it("moves the far shaft out by its own pitch diameter, in one line", () => {
    const centres = (drive: Drive) => solve(drive).placement.shafts.map((shaft) => shaft?.origin ?? ORIGIN);
    const [, far = ORIGIN] = centres(pair("spur", 50));
    const [first = ORIGIN, moved = ORIGIN] = centres(made(pair("spur", 50), 31));
    expect(distance(first, far)).toBeCloseTo(70, 9);
    expect(distance(first, moved)).toBeCloseTo(70 + 62, 9);
  });

  it.each([
    [20, 30, 0],
    [20, 25, 10],
    [24, 28, 0],
  ])("leads on to a ring of 80 round pinion %i and idler %i: the axes are %i mm apart", (pinion, idler, apart) => {
    // Pitch radii along one line, module 2: z1 + 2 zi - zr, in modules.
    expect(Math.abs(pinion + 2 * idler - 80)).toBe(apart);
    const drive = pair("internal", 80);
    const sized = { ...drive, gears: drive.gears.map((gear, i) => (i === 0 ? { ...gear, teeth: pinion } : gear)) };
    const next = solve(made(sized as Drive, idler));
    const [first = ORIGIN, ring = ORIGIN] = next.placement.shafts.map((shaft) => shaft?.origin ?? ORIGIN);
    expect(distance(first, ring)).toBeCloseTo(apart, 9);
    expect(next.findings.filter(({ severity }) => severity === "error")).toEqual([]);
  });

  it("is as large as the smaller gear unless it is told otherwise, and keeps the mesh's own numbers", () => {
    const drive = made(pair("spur", 50));
    expect(drive.gears.at(-1)).toMatchObject({ teeth: 20, module: 2, face: 10 });
    expect(drive.meshes).toMatchObject([
      // Two like meshes lose twice as much as the one did.
      { gears: ["a1", "c1"], azimuth: 30, efficiency: 0.98 },
      { gears: ["c1", "b1"], azimuth: 30, efficiency: 0.98 },
    ]);
    expect(readDrive(JSON.parse(writeDrive(drive))).drive).toEqual(drive);
  });

  it("is refused with a reason where it can't be", () => {
    const why = (drive: Drive, id = "m1", teeth?: number): string => {
      const result = insertIdler(id, { teeth })(drive);
      return isRefused(result) ? result.refused : "";
    };
    expect(why(pair("spur", 50), "m7")).toContain("m7");
    expect(why(pair("spur", 50, { shift: 0.3 }))).toContain("profile shift");
    expect(why(pair("spur", 50), "m1", 0)).not.toBe("");
    const bevels = pair("spur", 50);
    const crossed = {
      ...bevels,
      gears: bevels.gears.map((gear) => ({ ...gear, kind: "bevel" }) as typeof gear),
      meshes: [makeMesh({ id: "m1", gears: ["a1", "b1"], shaftAngle: 90 })],
    };
    expect(why(crossed)).toContain("parallel shafts");
  });
});
