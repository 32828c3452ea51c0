/** Joining placed shafts: all pairs of the standard's modules tried by brute force beside it; both angles of a crossing; moves. */
import { describe, expect, test } from "vitest";
import { SERIES_I } from "../../../src/engine/design/iso-54";
import { isRefused } from "../../../src/engine/drive/commands/edit";
import { rational } from "../../../src/engine/motion/rational";
import { solve } from "../../../src/engine/solve";
import type { Solved } from "../../../src/engine/solved";
import { type JoinAnswer, joinChoices } from "../../../src/engine/wishes/join";
import { countsAcross } from "../../../src/engine/wishes/join-parallel";
import { picker } from "../../support/random-drives";
import { POSE, solveFile } from "../explain/build";
import { applied, degreesBetween } from "./judge";

const two = (second: Readonly<Record<string, unknown>>, parts: Readonly<Record<string, unknown>> = {}): Solved =>
  solveFile({
    shafts: [
      { id: "A", name: "Motor", pose: POSE },
      { id: "B", name: "Drum", pose: { ...POSE, ...second } },
    ],
    ports: [{ shaft: "A", role: "input", speed: 100 }],
    ...parts,
  });

const choicesOf = (answer: JoinAnswer) => ("choices" in answer ? answer.choices : []);

/** No loop misses, in place or in teeth. */
const expectFit = (after: Solved): void => {
  expect(after.findings.filter(({ code }) => ["loop-misfit", "loop-phase", "cone-mismatch"].includes(code))).toEqual(
    [],
  );
  expect(after.findings.filter(({ severity }) => severity === "error")).toEqual([]);
};

describe("parallel", () => {
  test.each([60, 45, 37.5, 71.25, 100])("%f mm apart", (apart) => {
    const solved = two({ origin: [12, 0, apart] });
    const choices = choicesOf(joinChoices(solved, "A", "B"));
    expect(choices.length).toBeGreaterThan(2);
    for (const { change, teeth, module, kind } of choices) {
      const distance = kind === "ring-pair" ? Math.abs(teeth[0] - teeth[1]) : teeth[0] + teeth[1];
      expect((module * distance) / 2).toBeCloseTo(apart, 9);
      const after = applied(solved, change);
      expectFit(after);
      expect(Math.abs(after.motion.speed[1] ?? 0)).toBeCloseTo((100 * teeth[0]) / teeth[1], 9);
      expect(after.drive.gears.every((gear) => gear.shift === 0)).toBe(true);
    }
  });

  test("a wanted ratio: exactly the pairs that a search over all modules and teeth finds", () => {
    for (const [apart, n, d] of [
      [60, 1, 2],
      [60, 1, 3],
      [75, 2, 3],
      [52.5, 3, 4],
    ] as const) {
      const brute: string[] = [];
      for (const module of SERIES_I) {
        for (let z1 = 17; z1 <= 400; z1++) {
          for (let z2 = 17; z1 + z2 <= 400; z2++) {
            if (Math.abs((module * (z1 + z2)) / 2 - apart) < 1e-9 && z1 * d === z2 * n)
              brute.push(`${module} ${z1} ${z2}`);
          }
        }
      }
      const found = countsAcross(apart, n / d, true, null)
        .filter(({ ring, module }) => ring === null && SERIES_I.includes(module))
        .map(({ module, teeth }) => `${module} ${teeth[0]} ${teeth[1]}`);
      expect(found.sort()).toEqual(brute.sort());
    }
  });

  test("rings, too: the difference of the teeth fills the distance", () => {
    const rings = countsAcross(40, 1 / 3, true, null).filter(({ ring }) => ring === 1);
    expect(rings.length).toBeGreaterThan(0);
    for (const { module, teeth } of rings) expect((module * (teeth[1] - teeth[0])) / 2).toBeCloseTo(40, 9);
  });

  test("57.3 mm takes no module of the standard: the nearest distance that does is offered, and fits", () => {
    const solved = two({ origin: [0, 0, 57.3] });
    const answer = joinChoices(solved, "A", "B");
    if (!("cannot" in answer)) throw new Error("offered");
    expect(answer.cannot).toContain("57.3 mm apart");
    const [move] = answer.moves;
    if (!move?.edit) throw new Error("no move");
    const result = move.edit(solved.drive);
    if (isRefused(result)) throw new Error(result.refused);
    expect(move.millimetres).toBeCloseTo(0.075, 9);
    expect(choicesOf(joinChoices(solve(result), "A", "B")).length).toBeGreaterThan(0);
  });

  test("shafts that the drive joins already: only the ratio that keeps the loop turning", () => {
    const gear = (id: string, shaft: string, teeth: number, at: number) => ({
      id,
      shaft,
      kind: "spur",
      teeth,
      module: 2,
      at,
    });
    const solved = two(
      { origin: [0, 0, 60] },
      { gears: [gear("a", "A", 20, 0), gear("b", "B", 40, 0)], meshes: [{ id: "m", gears: ["a", "b"] }] },
    );
    const choices = choicesOf(joinChoices(solved, "A", "B"));
    expect(choices.length).toBeGreaterThan(0);
    for (const { teeth, change } of choices) {
      expect(teeth[0] * 2).toBe(teeth[1]);
      expect(applied(solved, change).motion.status).toBe("determined");
    }
  });
});

describe("crossing", () => {
  test.each([90, 70, 35, 117])("axes at %i degrees: both angles, each at its places", (degrees) => {
    const angle = (degrees * Math.PI) / 180;
    const solved = two({ origin: [30, 0, 0], axis: [Math.cos(angle), Math.sin(angle), 0] });
    const choices = choicesOf(joinChoices(solved, "A", "B"));
    const angles = new Set(choices.map(({ shaftAngle }) => Math.round(shaftAngle ?? 0)));
    expect([...angles].sort((a, b) => a - b)).toEqual(
      degrees === 90 ? [90] : [degrees, 180 - degrees].sort((a, b) => a - b),
    );
    for (const { change } of choices) {
      const after = applied(solved, change);
      expectFit(after);
      // Both apexes are the crossing of the axes.
      for (const gear of after.placement.gears) {
        [30, 0, 0].forEach((x, k) => {
          expect(gear?.apexPoint?.[k]).toBeCloseTo(x, 6);
        });
      }
    }
  });

  test("a wanted ratio at 90 degrees", () => {
    const solved = two({ axis: [0, 1, 0] });
    for (const { teeth } of choicesOf(joinChoices(solved, "A", "B", { ratio: rational(2n, 5n) }))) {
      expect(teeth[0] * 5).toBe(teeth[1] * 2);
    }
  });
});

describe("neither", () => {
  test("skew axes: a move of the distance between them, or a turn to parallel", () => {
    const solved = two({ origin: [5, 3, 7], axis: [0, 1, 0], ref: [0, 0, 1] });
    const answer = joinChoices(solved, "A", "B");
    if (!("cannot" in answer)) throw new Error("offered");
    expect(answer.cannot).toContain("pass each other by 7 mm at 90°");
    const [shift, turn] = answer.moves.map(({ edit }) => {
      const result = edit?.(solved.drive);
      if (!result || isRefused(result)) throw new Error("refused");
      return solve(result);
    });
    expect(shift && choicesOf(joinChoices(shift, "A", "B")).length).toBeGreaterThan(0);
    expect(turn && degreesBetween(turn.placement.shafts[1]?.axis ?? [0, 1, 0], [1, 0, 0])).toBeCloseTo(0, 6);
  });

  test("one line; one shaft twice", () => {
    const answer = joinChoices(two({ origin: [90, 0, 0] }), "A", "B");
    expect("cannot" in answer && answer.cannot).toContain("share one line");
    expect("cannot" in joinChoices(two({}), "A", "A")).toBe(true);
  });
});

test.each(Array.from({ length: process.env.SOAK ? 200 : 20 }, (_, i) => i + 1))(
  "two shafts anywhere, seed %i",
  (seed) => {
    const pick = picker(seed);
    const angle = (pick.whole(10, 170) * Math.PI) / 180;
    const isParallel = pick.random() < 0.5;
    const solved = two(
      isParallel
        ? { origin: [pick.whole(-20, 20), pick.whole(-60, 60), pick.whole(30, 90)], axis: [pick.of([1, -1]), 0, 0] }
        : { origin: [pick.whole(-40, 40), 0, 0], axis: [Math.cos(angle), 0, Math.sin(angle)], ref: [0, 1, 0] },
    );
    for (const { change } of choicesOf(joinChoices(solved, "A", "B"))) expectFit(applied(solved, change));
  },
);
