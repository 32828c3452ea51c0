/** What an edit did not move keeps its place without being placed anew; and the solution is the same as one from nothing. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isRefused } from "../../../src/engine/drive/commands/edit";
import { setGear } from "../../../src/engine/drive/commands/gear";
import { setMesh } from "../../../src/engine/drive/commands/mesh";
import { removeGear, removeMesh } from "../../../src/engine/drive/commands/remove";
import type { Drive } from "../../../src/engine/drive/types";
import { report } from "../../../src/engine/report";
import { solve } from "../../../src/engine/solve";
import { chain, differential, planetary, randomTree } from "../../support/random-drives";

const runs = process.env.SOAK ? 3000 : 80;

const edits = fc.array(
  fc.record({
    pick: fc.nat(1000),
    kind: fc.constantFrom("teeth", "module", "at", "azimuth", "angle", "remove gear", "remove mesh", "phase"),
    value: fc.integer({ min: 1, max: 60 }),
  }),
  { minLength: 1, maxLength: 12 },
);

function edited(drive: Drive, { pick, kind, value }: { pick: number; kind: string; value: number }): Drive {
  const gear = drive.gears[pick % Math.max(1, drive.gears.length)]?.id ?? "";
  const mesh = drive.meshes[pick % Math.max(1, drive.meshes.length)]?.id ?? "";
  const edit = {
    teeth: setGear(gear, { teeth: value + 5 }),
    module: setGear(gear, { module: value / 10 }),
    at: setGear(gear, { at: value - 30 }),
    phase: setGear(gear, { phase: value }),
    azimuth: setMesh(mesh, { azimuth: value * 6 }),
    angle: setMesh(mesh, { shaftAngle: value * 2 + 20 }),
    "remove gear": removeGear(gear),
    "remove mesh": removeMesh(mesh),
  }[kind];
  const result = edit?.(drive);
  return !result || isRefused(result) ? drive : result;
}

describe("an edit solved from the solution before it", () => {
  it("gives what solving from nothing gives, edit after edit (seed 11)", { timeout: 120_000 }, () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), edits, (seed, list) => {
        const first =
          seed % 5 === 0
            ? planetary(24, 18, 60, 3)
            : seed % 7 === 0
              ? differential(30, 18, 2)
              : randomTree(seed, 12, 4, { ports: [{ shaft: "s0", role: "input", speed: 100 }] });
        let solved = solve(first);
        for (const one of list) {
          const next = edited(solved.drive, one);
          const before = JSON.stringify(report(solved));
          const after = solve(next, solved);
          expect(report(after)).toEqual(report(solve(next)));
          expect(JSON.stringify(report(solved))).toBe(before);
          solved = after;
        }
      }),
      { numRuns: runs, seed: 11 },
    );
  });

  it("places one shaft where the far end of a chain of 1,000 is swung, and all where the near end is", () => {
    const drive = chain(999, 4, { ports: [{ shaft: "s0", role: "input", speed: 100 }] });
    const solved = solve(drive);
    const anew = (mesh: number): number => {
      const id = drive.meshes[mesh]?.id ?? "";
      const next = setMesh(id, { azimuth: 123.5 })(drive);
      if (isRefused(next)) throw new Error(next.refused);
      const { placement } = solve(next, solved);
      return placement.shafts.filter((shaft, i) => shaft !== solved.placement.shafts[i]).length;
    };
    expect(anew(998)).toBe(1);
    expect(anew(500)).toBe(499);
    expect(anew(0)).toBe(999);
  });
});
