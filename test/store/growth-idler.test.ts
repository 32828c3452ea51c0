/** What is told of an idler before it is put down, held against the speeds of the drive before and after. */
import { describe, expect, it } from "vitest";
import { makeDrive, makeGear, makeMesh, makePort, makeShaft } from "../../src/engine/drive/defaults";
import type { Drive, Port } from "../../src/engine/drive/types";
import { solve } from "../../src/engine/solve";
import { growthOf } from "../../src/store/stage/growth";

/** Spur gears in a row, the shafts called after their letters. */
const row = (teeth: readonly number[], ports: readonly Port[]): Drive =>
  makeDrive({
    shafts: teeth.map((_, i) =>
      makeShaft({
        id: `S${i}`,
        name: `Shaft ${i}`,
        ...(i === 0 ? { pose: { origin: [0, 0, 0], axis: [1, 0, 0], ref: [0, 0, 1] } } : {}),
      }),
    ),
    gears: teeth.map((z, i) => makeGear({ id: `g${i}`, shaft: `S${i}`, kind: "spur", teeth: z, module: 2 })),
    meshes: teeth.slice(1).map((_, i) => makeMesh({ id: `m${i}`, gears: [`g${i}`, `g${i + 1}`], azimuth: 90 })),
    ports: [...ports],
  });
const driven = [makePort({ shaft: "S0", role: "input", speed: 100 })];

const told = (drive: Drive, gear: number) => {
  const solved = solve(drive);
  const growth = growthOf(solved, { shaft: `S${gear}`, gear: `g${gear}` }, "idler", {});
  if (!growth?.next) throw new Error(growth?.blocked ?? "Nothing grows there.");
  const reversed = drive.shafts.flatMap(({ name }, i) => {
    const [was, now] = [solved.motion.speed[i] ?? 0, growth.next?.motion.speed[i] ?? 0];
    return was !== 0 && Math.abs(was + now) < 1e-9 ? name : [];
  });
  return { words: growth.words.join(" "), reversed };
};

describe("an idler that grows between two gears", () => {
  it.each([
    ["from the driver's gear", [20, 40], 0, "Shaft 1"],
    ["from the driven gear", [20, 40], 1, "Shaft 1"],
    ["at the end of a chain, from its last gear", [20, 40, 60], 2, "Shaft 2"],
  ] as const)("%s: names the shaft that is reversed", (_, teeth, gear, name) => {
    const { words, reversed } = told(row(teeth, driven), gear);
    expect(reversed).toContain(name);
    expect(words).toMatch(new RegExp(`^${name} turns the other way than now`));
    for (let i = 0; i < teeth.length; i++) {
      if (!reversed.includes(`Shaft ${i}`)) expect(words).not.toContain(`Shaft ${i} turns the other way`);
    }
  });

  it.each([
    ["nothing drives", []],
    ["the input stands still", [makePort({ shaft: "S0", role: "input", speed: 0 })]],
  ] as const)("claims no reversal where %s", (_, ports) => {
    const { words, reversed } = told(row([20, 40], ports), 0);
    expect(reversed).toEqual([]);
    expect(words).not.toContain("the other way");
    expect(words).toContain("change no ratio");
  });
});
