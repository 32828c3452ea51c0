/** The run of the cards, the words of states, and the table of finding codes. */
import { expect, test } from "vitest";
import { CODE_WORDS, findingCodeTable } from "../../../src/engine/explain/finding-codes";
import { type RunNode, runOfDrive } from "../../../src/engine/explain/readouts";
import { ROLE_WORDS, statusWords } from "../../../src/engine/explain/statuses";
import { FINDING_CODES } from "../../../src/engine/findings";
import { solve } from "../../../src/engine/solve";
import { FILE_UNITS } from "../../../src/engine/units/choice";
import { differential, planetary, randomTree } from "../../support/random-drives";
import { mixer, POSE, pairOf, solveFile } from "./build";

const drawn = (nodes: readonly RunNode[], depth = 0): string[] =>
  nodes.flatMap((node) => [
    `${" ".repeat(depth)}${node.via ? `${node.via.words}: ` : ""}${node.shaft}`,
    ...drawn(node.next, depth + 1),
  ]);

test("the mixer runs from the motor to the mixer", () => {
  const solved = mixer();
  expect(drawn(runOfDrive(solved, FILE_UNITS))).toEqual(["A", " 20 drives 50: B", "  16 drives 32: C"]);
  expect(runOfDrive(solved, FILE_UNITS)[0]?.leadsToOutput).toBe(true);
});

test("branches to an output come last, and the run begins at the input wherever it stands", () => {
  const solved = mixer({
    shafts: [
      { id: "X" },
      { id: "Y" },
      { id: "A", pose: POSE },
      { id: "Z", pose: { origin: [900, 0, 0], axis: [1, 0, 0], ref: [0, 0, 1] } },
      { id: "U" },
    ],
    gears: ["X", "Y", "A"].map((id) => ({ id: id.toLowerCase(), shaft: id, kind: "spur", teeth: 20, module: 2 })),
    meshes: [
      { id: "m1", gears: ["x", "a"] },
      { id: "m2", gears: ["a", "y"], azimuth: 90 },
    ],
    ports: [
      { shaft: "X", role: "output" },
      { shaft: "A", role: "input", speed: 5 },
    ],
  });
  expect(drawn(runOfDrive(solved, FILE_UNITS))).toEqual(["A", " 20 drives 20: Y", " 20 drives 20: X", "Z", "U"]);
  expect(runOfDrive(solved, FILE_UNITS).map((node) => node.isDriven)).toEqual([true, false, false]);
});

test("a planetary set: the sun drives planets, which roll on the held ring and turn their carrier", () => {
  const rows = drawn(runOfDrive(solve(planetary(24, 18, 60, 2)), FILE_UNITS));
  expect(rows).toEqual([
    "S",
    " 24 drives 18: P2",
    " 24 drives 18: P1",
    "  18 rolls on 60: R",
    "  turns its carrier: C",
  ]);
});

test("smooth wheels are named by their diameters", () => {
  const solved = solveFile({
    shafts: [{ id: "A", pose: POSE }, { id: "B" }],
    gears: [
      { id: "a", shaft: "A", kind: "wheel", diameter: 60 },
      { id: "b", shaft: "B", kind: "wheel", diameter: 120 },
    ],
    meshes: [{ id: "m", gears: ["a", "b"], normalForce: 200, friction: 0.3 }],
    ports: [{ shaft: "A", role: "input", speed: 5 }],
  });
  expect(drawn(runOfDrive(solved, FILE_UNITS))).toEqual(["A", " 60 mm drives 120 mm: B"]);
});

test("every shaft stands in the run once, in any drive", () => {
  for (const drive of [randomTree(3, 2000, 12), planetary(24, 18, 60, 3), differential(20, 12)]) {
    const solved = solve(drive);
    const run = runOfDrive(solved, FILE_UNITS);
    const ids = drawn(run).map((row) => row.replace(/^.*[ :]/, ""));
    expect([...ids].sort()).toEqual(drive.shafts.map((shaft) => shaft.id).sort());
    expect(drawn(runOfDrive(solve(drive), FILE_UNITS))).toEqual(drawn(run));
  }
});

test("states in plain words", () => {
  expect(statusWords(mixer()).short).toBe("turns");
  expect(statusWords(mixer({ ports: [{ shaft: "A", role: "input", speed: 0 }] })).short).toBe("stands still");
  expect(statusWords(mixer({ ports: [] })).short).toBe("needs one more input");
  const clash = pairOf(["spur", "spur"], { teeth: 20 }, { teeth: 40 }, {}, [
    { shaft: "A", role: "input", speed: 1 },
    { shaft: "B", role: "held" },
  ]);
  expect(statusWords(clash)).toMatchObject({ short: "inputs disagree", term: "conflict" });
  expect(statusWords(clash).sentence).toContain("Motor, Wheel");
});

test("an open differential says what still holds, with the shafts' names", () => {
  const open = solve(differential(20, 12, 2, [{ shaft: "L", role: "input", speed: 100 }]));
  expect(statusWords(open).short).toBe("needs one more input");
  expect(statusWords(open).sentence).toContain("(L + Right)/2 = Carrier");
  const free = solve(differential(20, 12, 2, []));
  expect(statusWords(free).short).toBe("needs two more inputs");
  // A planetary set is no differential.
  expect(statusWords(solve(planetary(24, 18, 60, 2, []))).sentence).not.toContain("/2");
});

test("every port role has words, every code its cause and cure", () => {
  expect(Object.keys(ROLE_WORDS).sort()).toEqual(["held", "input", "output"]);
  expect(Object.keys(CODE_WORDS).sort()).toEqual(Object.keys(FINDING_CODES).sort());
  const rows = findingCodeTable().trim().split("\n");
  expect(rows).toHaveLength(2 + Object.keys(FINDING_CODES).length);
  for (const row of rows.slice(2))
    expect(row).toMatch(/^\| `[a-z-]+` \| (error|warning|note)( or (warning|note))? \| [A-Z].+\. \| [A-Z].+\. \|$/);
});
