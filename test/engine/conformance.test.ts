import { describe, expect, it } from "vitest";
import { readDrive } from "../../src/engine/drive/parse";
import { toText } from "../../src/engine/motion/rational";
import { solve } from "../../src/engine/solve";
import cases from "./conformance.json";

/**
 * Source: conformance.json, what a solver written apart from this one, from the description of the format alone, says of
 * 28 drives. It prints 10 figures of a pose, 12 of a speed and 8 of a load, so that a load can be half a unit of the eighth off: 5e-8.
 */
interface Expected {
  readonly status: string;
  readonly mobility: number;
  readonly shafts: Readonly<Record<string, ExpectedShaft>>;
  readonly power?: Readonly<Record<string, number>>;
  readonly torque?: Readonly<Record<string, number>>;
  readonly meshes?: Readonly<Record<string, { readonly pitchSpeed: number; readonly tangentialForce: number }>>;
}
interface ExpectedShaft {
  readonly origin: readonly number[];
  readonly axis: readonly number[];
  readonly ref: readonly number[];
  readonly placedBy: string | null;
  readonly ratio: string | null;
  readonly speed: number | null;
  readonly angularVelocity: readonly number[] | null;
}

const close = (
  found: readonly number[] | null | undefined,
  expected: readonly number[] | null,
  within: number,
): void => {
  if (expected === null) {
    expect(found).toBeNull();
    return;
  }
  expected.forEach((value, i) => {
    expect(Math.abs((found?.[i] ?? Number.NaN) - value)).toBeLessThan(within * Math.max(1, Math.abs(value)));
  });
};

describe("drives solved by a solver written apart", () => {
  for (const { drive: file, expect: expected } of cases as unknown as {
    drive: { title: string };
    expect: Expected;
  }[]) {
    it(file.title, () => {
      const { drive, faults } = readDrive(file);
      expect(faults).toBeUndefined();
      if (!drive) return;
      const { placement, motion, load, index } = solve(drive);
      expect(motion.status).toBe(expected.status);
      expect(motion.mobility).toBe(expected.mobility);
      expect(drive.shafts.length).toBe(Object.keys(expected.shafts).length);
      for (const [id, shaft] of Object.entries(expected.shafts)) {
        const i = index.shafts.get(id) as number;
        const placed = placement.shafts[i];
        close(placed?.origin, shaft.origin, 1e-8);
        close(placed?.axis, shaft.axis, 1e-9);
        close(placed?.ref, shaft.ref, 1e-9);
        // The other solver leaves out what stands by pose or coaxial.
        if (shaft.placedBy !== null) expect(placed?.placedBy).toBe(shaft.placedBy);
        const ratio = motion.ratios[i];
        expect(ratio ? toText(ratio) : null).toBe(shaft.ratio);
        close([motion.speed[i] as number], shaft.speed === null ? null : [shaft.speed], 1e-11);
        close(motion.angularVelocity[i], shaft.angularVelocity, 1e-8);
      }
      for (const [id, torque] of Object.entries(expected.torque ?? {})) {
        close([load.shafts[index.shafts.get(id) as number]?.torque as number], [torque], 5e-8);
      }
      for (const [id, power] of Object.entries(expected.power ?? {})) {
        close([load.shafts[index.shafts.get(id) as number]?.power as number], [power], 5e-8);
      }
      for (const [id, mesh] of Object.entries(expected.meshes ?? {})) {
        const found = load.meshes[index.meshes.get(id) as number];
        close(
          [found?.pitchSpeed as number, found?.tangentialForce as number],
          [mesh.pitchSpeed, mesh.tangentialForce],
          5e-8,
        );
      }
    });
  }
});
