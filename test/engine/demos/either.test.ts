/** Either gear may drive: the closed form against the solver, which knows nothing of it. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { driveByOther, drivenFrom, traded } from "../../../src/engine/demos/either";
import { demoPair } from "../../../src/engine/demos/pair";
import { isRefused } from "../../../src/engine/drive/commands/edit";
import { readDrive } from "../../../src/engine/drive/parse";
import { solve } from "../../../src/engine/solve";
import MIXER from "../../support/mixer.drive.json";

const solvedOf = (file: unknown) => {
  const { drive, faults } = readDrive(file);
  if (!drive) throw new Error(JSON.stringify(faults));
  return solve(drive);
};
const solved = solvedOf(MIXER);

describe("either may drive", () => {
  it("speed and torque trade places, and power stays but for what the mesh loses", () => {
    const sizes = fc.tuple(fc.integer({ min: 5, max: 200 }), fc.integer({ min: 5, max: 200 }));
    const size = fc.double({ min: 0.1, max: 5000, noNaN: true });
    fc.assert(
      fc.property(
        sizes,
        size,
        size,
        fc.double({ min: 0.5, max: 1, noNaN: true }),
        (pair, speed, torque, efficiency) => {
          const [there, back] = ([0, 1] as const).map((side) => traded(pair, efficiency, side, { speed, torque }));
          if (!there || !back) throw new Error("nothing");
          for (const { speeds, powers } of [there, back]) {
            // Equal rims: z1 n1 = z2 n2.
            expect((pair[0] * speeds[0]) / (pair[1] * speeds[1])).toBeCloseTo(1, 9);
            expect(Math.min(...powers) / Math.max(...powers)).toBeCloseTo(efficiency, 9);
          }
          // What the driven shaft gained one way in torque, the other loses the other way.
          expect((there.torques[1] * back.torques[0]) / (torque * efficiency) ** 2).toBeCloseTo(1, 9);
          expect((there.speeds[1] * back.speeds[0]) / speed ** 2).toBeCloseTo(1, 9);
        },
      ),
    );
  });

  it("agrees with the solver, from either side, and keeps the ways in which both turn", () => {
    for (const id of ["m1", "m2"]) {
      const pair = demoPair(solved, id);
      if (!pair?.speeds) throw new Error("no pair");
      for (const driver of [0, 1] as const) {
        const drive = drivenFrom(pair, driver, 300);
        if (!drive) throw new Error("not built");
        const { speeds, torques } = traded(pair.sizes, pair.mesh.efficiency, driver, { speed: 300, torque: 7 });
        const output = {
          shaft: pair.ids[1 - driver] as string,
          role: "output",
          torque: torques[1 - driver] as number,
        } as const;
        const next = solve({ ...drive, ports: [...drive.ports, output] });
        pair.ids.forEach((shaft, k) => {
          const i = next.index.shafts.get(shaft) ?? -1;
          expect(next.motion.speed[i]).toBeCloseTo(Math.sign(pair.speeds?.[k] ?? 0) * (speeds[k] ?? Number.NaN), 9);
        });
        const motor = next.load.shafts[next.index.shafts.get(pair.ids[driver]) ?? -1];
        expect(Math.abs(motor?.torque ?? 0)).toBeCloseTo(7, 9);
      }
    }
  });

  it("taken over, the input goes to the other shaft at the motor's speed, and what stood there to where it was", () => {
    const pair = demoPair(solved, "m2");
    if (!pair) throw new Error("no pair");
    const drive = driveByOther(pair, solved.drive, 1, 580)?.(solved.drive);
    if (!drive || isRefused(drive)) throw new Error("refused");
    const next = solve(drive);
    expect(next.drive.ports.map(({ shaft, role }) => `${shaft} ${role}`)).toEqual(["C input", "A output"]);
    // 580 at C: 580 · 32/16 at B, and 1160 · 50/20 at A, each the way that it turned before.
    const speeds = solved.motion.speed.map((x) => Math.sign(x ?? 0));
    for (const [i, size] of [2900, 1160, 580].entries()) {
      expect(next.motion.speed[i]).toBeCloseTo((speeds[i] ?? 0) * size, 9);
    }
  });

  it("is not taken over where it isn't clear what would be meant", () => {
    const first = demoPair(solved, "m1");
    if (!first) throw new Error("no pair");
    expect(driveByOther(first, solved.drive, 0, 100)).toBeNull();
    const two = { ...solved.drive, ports: solved.drive.ports.map((port) => ({ ...port, role: "input" as const })) };
    expect(driveByOther(first, two, 1, 100)).toBeNull();
    const still = solvedOf({ ...MIXER, ports: [] });
    const unturned = demoPair(still, "m1");
    expect(unturned && drivenFrom(unturned, 1, 100)).toBeNull();
  });
});
