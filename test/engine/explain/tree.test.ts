/** The structure in words: the format's example told by hand, and properties against vectors computed apart. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { shaftPlace, sideWords, standsBeside } from "../../../src/engine/explain/place-words";
import { itemWords, type TreeItem, treeOf } from "../../../src/engine/explain/tree";
import { solve } from "../../../src/engine/solve";
import type { Solved, Vec3 } from "../../../src/engine/solved";
import { dot, sub, unit } from "../../../src/engine/vector";
import { planetary, randomTree } from "../../support/random-drives";
import { mixer, pairOf, solveFile } from "./build";

const all = (items: readonly TreeItem[]): TreeItem[] => items.flatMap((item) => [item, ...all(item.children)]);
const told = (solved: Solved, key: string) => {
  const item = all(treeOf(solved)).find((one) => one.key === key);
  if (!item) throw new Error(`no item ${key}`);
  return itemWords(solved, item);
};
const shape = (items: readonly TreeItem[]): unknown[] =>
  items.map(({ key, children }) => (children.length === 0 ? key : [key, ...shape(children)]));

describe("the mixer of the format", () => {
  const solved = mixer();

  it("is walked in the order of its train, gears by their places", () => {
    expect(shape(treeOf(solved))).toEqual([
      ["shaft A", ["gear a1", "mesh m1 under a1"]],
      ["shaft B", ["gear b1", "mesh m1 under b1"], ["gear b2", "mesh m2 under b2"]],
      ["shaft C", ["gear c1", "mesh m2 under c1"]],
    ]);
  });

  it("tells each shaft's place, turning, thumb, speed and ratio", () => {
    expect(told(solved, "shaft A")).toEqual({
      name: "Motor",
      sort: "shaft, input",
      facts: [
        "lies from left to right",
        expect.stringMatching(/^turns (counter)?clockwise seen from the motor end$/),
        expect.stringMatching(/^right thumb towards the (motor|right|left) end: the fingers curl the way it turns$/),
        "1450 rev/min",
      ],
    });
    const cross = told(solved, "shaft B");
    expect(cross.facts).toContain("70 mm above Motor, parallel to it");
    expect(cross.facts).toContain("580 rev/min");
    expect(cross.facts).toContain("5 turns of Motor give 2 of Cross shaft");
    const mixerShaft = told(solved, "shaft C");
    expect(mixerShaft.sort).toBe("shaft, output");
    expect(mixerShaft.facts).toContain("at 90° to Cross shaft, the two axes meet");
    expect(mixerShaft.facts).toContain("5 turns of Motor give 1 of Mixer");
  });

  it("tells gears by their places and meshes by both sides", () => {
    expect(told(solved, "gear b2")).toEqual({
      name: "b2, 16 teeth",
      sort: "bevel gear",
      facts: ["60 mm along Cross shaft, towards the right end"],
    });
    expect(told(solved, "gear b1").facts).toEqual(["at 0 mm along Cross shaft"]);
    expect(told(solved, "mesh m1 under a1")).toEqual({
      name: "with b1, 50 teeth, on Cross shaft",
      sort: "mesh m1",
      facts: ["20 drives 50", "both shafts turn opposite ways"],
    });
    expect(told(solved, "mesh m1 under b1").name).toBe("with a1, 20 teeth, on Motor");
    expect(told(solved, "mesh m2 under c1").facts).toEqual(["16 drives 32", "shaft angle 90°"]);
  });
});

describe("elsewhere", () => {
  it("what a carrier carries stands under it, its ratio untold", () => {
    const solved = solve(planetary(24, 18, 60, 3));
    const items = treeOf(solved);
    const carriers = all(items).filter(
      ({ kind, children }) => kind === "shaft" && children.some((c) => c.kind === "shaft"),
    );
    expect(carriers).toHaveLength(1);
    const riders = carriers[0]?.children.filter(({ kind }) => kind === "shaft") ?? [];
    expect(riders).toHaveLength(3);
    for (const rider of riders) {
      const { facts } = itemWords(solved, rider);
      expect(facts.join("; ")).toMatch(/carried by/);
      expect(facts.join("; ")).toMatch(/to an eye riding on/);
      expect(facts.join("; ")).not.toMatch(/turns of/);
    }
  });

  it("has every part of any drive: shafts and gears once, meshes twice (60 random trees, seeds 1 to 60)", () => {
    for (let seed = 1; seed <= 60; seed++) {
      const solved = solve(randomTree(seed, 9, 4));
      const items = all(treeOf(solved));
      const of = (kind: string): string[] =>
        items
          .filter((item) => item.kind === kind)
          .map(({ id }) => id)
          .sort();
      const ids = (list: readonly { readonly id: string }[]): string[] => list.map(({ id }) => id).sort();
      expect(of("shaft")).toEqual(ids(solved.drive.shafts));
      expect(of("gear")).toEqual(ids(solved.drive.gears));
      expect(of("mesh")).toEqual(ids([...solved.drive.meshes, ...solved.drive.meshes]));
      expect(new Set(items.map(({ key }) => key)).size).toBe(items.length);
      for (const item of items)
        for (const fact of itemWords(solved, item).facts) expect(fact).not.toMatch(/undefined|NaN/);
    }
  });

  it("a shaft without a place, a drive that has no input and a locked one are told as they are", () => {
    const bare = solveFile({
      shafts: [
        { id: "A", name: "Crank", pose: { origin: [0, 0, 0], axis: [0, 0, 1], ref: [1, 0, 0] } },
        { id: "B", name: "Stone" },
      ],
    });
    expect(told(bare, "shaft A").facts).toEqual(["stands upright", "its turning is not fixed yet"]);
    expect(told(bare, "shaft B").facts).toContain("has no place yet");
    const still = pairOf(["spur", "spur"], { teeth: 20 }, { teeth: 40 }, {}, [{ shaft: "A", role: "held" }]);
    expect(told(still, "shaft B").facts).toContain("stands still");
    expect(told(still, "mesh m under a").facts).toEqual(["40 rolls on 20"]);
  });

  it("an upright post and a shaft 40 mm behind it that leans", () => {
    const solved = solveFile({
      shafts: [
        { id: "A", name: "Post", pose: { origin: [0, 0, 0], axis: [0, 0, 1], ref: [1, 0, 0] } },
        { id: "B", name: "Vane", pose: { origin: [0, 40, 0], axis: [1, 0, 1], ref: [0, 1, 0] } },
      ],
    });
    expect(shaftPlace(solved, 1)).toEqual(["leans towards its upper right end"]);
    expect(standsBeside(solved, 1, 0)).toBe("at 45° to Post, 40 mm past it (the axes don't meet)");
  });
});

describe("sides", () => {
  const PROMISE: Readonly<Record<string, Vec3>> = {
    "to the right of": [1, 0, 0],
    "to the left of": [-1, 0, 0],
    behind: [0, 1, 0],
    "in front of": [0, -1, 0],
    above: [0, 0, 1],
    below: [0, 0, -1],
  };
  const part = fc.integer({ min: -9, max: 9 });

  it("each word is true of the direction, and the other way round each turns into its opposite", () => {
    fc.assert(
      fc.property(fc.tuple(part, part, part), (v) => {
        fc.pre(v.some((x) => x !== 0));
        const direction = unit(v);
        for (const word of sideWords(direction).split(" and ")) {
          expect(dot(PROMISE[word] ?? [Number.NaN, 0, 0], direction)).toBeGreaterThan(0);
        }
        const back = sideWords(sub([0, 0, 0], direction)).split(" and ");
        expect(back).toHaveLength(sideWords(direction).split(" and ").length);
        for (const word of back) expect(dot(PROMISE[word] ?? [Number.NaN, 0, 0], direction)).toBeLessThan(0);
      }),
      { numRuns: 300, seed: 1 },
    );
  });
});
