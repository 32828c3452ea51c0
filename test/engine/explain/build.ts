/** Small drives for tests of checks and words, read and solved as a file would be; and the published values. */

import { readDrive } from "../../../src/engine/drive/parse";
import { solve } from "../../../src/engine/solve";
import type { Drive, Solved } from "../../../src/engine/solved";
import MIXER from "../../support/mixer.drive.json";
import references from "../references.json";

export interface Reference {
  readonly id: string;
  readonly source: string;
  readonly given: Readonly<Record<string, unknown>>;
  readonly expect: Readonly<Record<string, unknown>>;
}

/** One entry of references.json; its source stands in it. */
export function reference(id: string): Reference {
  const found = (references as readonly Reference[]).find((entry) => entry.id === id);
  if (!found) throw new Error(`references.json has no ${id}.`);
  return found;
}
export const numberOf = (record: Readonly<Record<string, unknown>>, key: string): number => {
  const value = record[key];
  if (typeof value !== "number") throw new Error(`${key} is no number.`);
  return value;
};

/** Solves what a file holds. */
export function solveFile(parts: Readonly<Record<string, unknown>>): Solved {
  const parsed = readDrive({ format: "turnwise.drive", version: 1, title: "", notes: "", gears: [], ...parts });
  if ("faults" in parsed && parsed.faults) throw new Error(JSON.stringify(parsed.faults));
  if (!("drive" in parsed) || !parsed.drive) throw new Error("no drive");
  return solve(parsed.drive as Drive);
}

export const POSE = { origin: [0, 0, 0], axis: [1, 0, 0], ref: [0, 0, 1] };

/** One pair on shafts A (named Motor) and B (named Wheel); `rest` of gears and mesh as in a file. */
export const pairOf = (
  kinds: readonly [string, string],
  first: Readonly<Record<string, unknown>>,
  second: Readonly<Record<string, unknown>>,
  mesh: Readonly<Record<string, unknown>> = {},
  ports: readonly unknown[] = [{ shaft: "A", role: "input", speed: 100 }],
): Solved =>
  solveFile({
    shafts: [
      { id: "A", name: "Motor", pose: POSE },
      { id: "B", name: "Wheel" },
    ],
    gears: [
      { id: "a", shaft: "A", kind: kinds[0], module: 2, ...first },
      { id: "b", shaft: "B", kind: kinds[1], module: 2, ...second },
    ],
    meshes: [{ id: "m", gears: ["a", "b"], ...mesh }],
    ports,
  });

export const spurs = (z1: number, z2: number, both: Readonly<Record<string, unknown>> = {}): Solved =>
  pairOf(["spur", "spur"], { teeth: z1, ...both }, { teeth: z2, ...both });
export const bevels = (
  z1: number,
  z2: number,
  shaftAngle: number,
  both: Readonly<Record<string, unknown>> = {},
): Solved =>
  pairOf(
    ["bevel", "bevel"],
    { teeth: z1, face: 3, ...both },
    { teeth: z2, face: 3, apex: "-", ...both },
    { shaftAngle },
  );

/** The mixer of format.md's own example: spur 20/50, bevel 16/32 at 90 degrees. */
export const mixer = (changes: Readonly<Record<string, unknown>> = {}): Solved => solveFile({ ...MIXER, ...changes });

export const codes = (solved: Solved): string[] => solved.findings.map((finding) => finding.code);
export const only = (solved: Solved, code: string) => solved.findings.filter((finding) => finding.code === code);
