/** Drives for the tests of loads, written as in a file and run through the layers below. */
import { expect } from "vitest";
import { readDrive } from "../../../src/engine/drive/parse";
import type { Drive, Gear, Mesh, Port, Shaft } from "../../../src/engine/drive/types";
import { computeLoad } from "../../../src/engine/load/load";
import { move } from "../../../src/engine/motion/move";
import { indexDrive } from "../../../src/engine/placement/index-drive";
import { place } from "../../../src/engine/placement/place";
import type { DriveIndex, Load, MeshLoad, Motion, Placement, ShaftLoad } from "../../../src/engine/solved";

export interface Written {
  readonly shafts: readonly (Partial<Shaft> & Pick<Shaft, "id">)[];
  readonly gears: readonly (Partial<Gear> & Pick<Gear, "id" | "shaft" | "kind">)[];
  readonly meshes: readonly (Partial<Mesh> & Pick<Mesh, "id" | "gears">)[];
  readonly ports?: readonly Port[];
}

export interface Loaded {
  readonly drive: Drive;
  readonly index: DriveIndex;
  readonly placement: Placement;
  readonly motion: Motion;
  readonly load: Load;
  shaft(id: string): ShaftLoad;
  mesh(id: string): MeshLoad;
  codes(): string[];
  message(code: string): string;
}

export const POSE = { origin: [0, 0, 0], axis: [1, 0, 0], ref: [0, 0, 1] } as const;

/** Solves a drive as a file would have it. */
export function loaded(written: unknown): Loaded {
  const parsed = readDrive(written);
  if (!("drive" in parsed) || !parsed.drive) throw new Error(JSON.stringify(parsed));
  return loadedDrive(parsed.drive);
}

export function loadedDrive(drive: Drive): Loaded {
  const index = indexDrive(drive);
  const placement = place(drive, index);
  const motion = move(drive, index, placement);
  const load = computeLoad(drive, index, placement, motion);
  const pick = <T>(list: readonly T[], at: number | undefined): T => {
    const item = at === undefined ? undefined : list[at];
    if (item === undefined) throw new Error("no such part");
    return item;
  };
  return {
    drive,
    index,
    placement,
    motion,
    load,
    shaft: (id) => pick(load.shafts, index.shafts.get(id)),
    mesh: (id) => pick(load.meshes, index.meshes.get(id)),
    codes: () => load.findings.map(({ code }) => code),
    message: (code) => load.findings.find((finding) => finding.code === code)?.message ?? "",
  };
}

export const solveWritten = (written: Written): Loaded => loaded({ format: "turnwise.drive", version: 1, ...written });

export const relative = (actual: number | null | undefined, expected: number, tolerance: number): void => {
  expect(actual).toBeTypeOf("number");
  expect(Math.abs((actual ?? Number.NaN) - expected)).toBeLessThanOrEqual(
    Math.max(Math.abs(expected), 1e-300) * tolerance,
  );
};

/** Power into the drive at its ports less the losses in its meshes, and the largest power there, W. */
export function powerBalance({ drive, index, load }: Loaded): { rest: number; largest: number } {
  let rest = 0;
  let largest = 0;
  for (const port of drive.ports) {
    const power = load.shafts[index.shafts.get(port.shaft) ?? -1]?.power ?? Number.NaN;
    rest += power;
    largest = Math.max(largest, Math.abs(power));
  }
  for (const mesh of load.meshes) rest -= mesh.loss ?? Number.NaN;
  return { rest, largest };
}
