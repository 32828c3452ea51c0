/** Gears of one shaft that stand in one another, against a plain comparison of every two. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { checkGearsOverlap } from "../../../src/engine/checks/gears-overlap";
import { only, POSE, solveFile } from "../explain/build";
import { growth } from "../explain/timing";

type GearFile = Readonly<Record<string, unknown>>;
const onOneShaft = (gears: readonly GearFile[]) =>
  solveFile({
    shafts: [{ id: "A", name: "Cross shaft", pose: POSE }],
    gears: gears.map((gear, i) => ({ id: `g${i}`, shaft: "A", kind: "spur", teeth: 20, module: 2, ...gear })),
  });
const clashes = (gears: readonly GearFile[]) => only(onOneShaft(gears), "gears-overlap");

test("two gears at the same place clash, two that touch do not", () => {
  const [found] = clashes([{}, { teeth: 40 }]);
  expect(found?.severity).toBe("error");
  expect(found?.at).toEqual(["g0", "g1", "A"]);
  expect(found?.message).toBe(
    "Gears g0 and g1 stand in one another on Cross shaft: one takes up −5 to 5 mm along it, the other −5 to 5 mm; move g1 to 10 mm or beyond, or make a face narrower.",
  );
  expect(clashes([{}, { at: 10 }])).toEqual([]);
  expect(clashes([{}, { at: 9.99 }])).toHaveLength(1);
});

test("the place that the sentence offers is free", () => {
  fc.assert(
    fc.property(
      fc.double({ min: -20, max: 20, noNaN: true }),
      fc.double({ min: 1, max: 30, noNaN: true }),
      (at, face) => {
        const [found] = clashes([{}, { at, face }]);
        if (!found) return;
        const [, id, place] = /move (\w+) to ([\u2212\d.]+) mm/.exec(found.message) ?? [];
        const moved = Number(place?.replace("\u2212", "-"));
        expect(clashes([id === "g0" ? { at: moved } : {}, { at: id === "g1" ? moved : at, face }])).toEqual([]);
      },
    ),
  );
});

test("agrees with a comparison of every two on random spur gears", () => {
  fc.assert(
    fc.property(
      fc.array(fc.record({ at: fc.integer({ min: 0, max: 200 }), face: fc.integer({ min: 1, max: 15 }) }), {
        maxLength: 30,
      }),
      (gears) => {
        const isClashing = (i: number): boolean =>
          gears.some((other, j) => {
            const gear = gears[i];
            return j !== i && gear !== undefined && 2 * Math.abs(gear.at - other.at) < gear.face + other.face;
          });
        const found = clashes(gears);
        // The pairs named form a tree over each clump, so every gear that clashes is named, and none that doesn't.
        const named = new Set(found.flatMap((finding) => finding.at.slice(0, 2)));
        expect([...named].sort()).toEqual(gears.flatMap((_, i) => (isClashing(i) ? [`g${i}`] : [])).sort());
        expect(found.length).toBeLessThan(Math.max(1, gears.length));
      },
    ),
  );
});

const inRing = (teeth: number, rest: GearFile = {}) => [
  { kind: "internal", teeth: 60 },
  { teeth, ...rest },
];
test("a gear may stand inside a ring, and a ring in the back of an outside gear, but not in its teeth", () => {
  // Ring of 60, module 2: teeth from 58 to 62.5 mm radius.
  expect(clashes(inRing(30))).toEqual([]);
  expect(clashes(inRing(56))).toEqual([]);
  expect(clashes(inRing(57))).toHaveLength(1);
  expect(clashes(inRing(60))).toHaveLength(1);
  expect(clashes(inRing(70))).toEqual([]);
  expect(clashes(inRing(60, { at: 10 }))).toEqual([]);
});

test("a bevel gear's face runs from the heel towards the apex by face · cos δ", () => {
  const drive = (apex: string, at: number) =>
    solveFile({
      shafts: [{ id: "A", pose: POSE }, { id: "B" }],
      gears: [
        { id: "a", shaft: "A", kind: "bevel", teeth: 20, module: 2, face: 10, apex },
        { id: "b", shaft: "B", kind: "bevel", teeth: 20, module: 2, face: 10 },
        { id: "s", shaft: "A", kind: "spur", teeth: 20, module: 2, face: 2, at },
      ],
      meshes: [{ id: "m", gears: ["a", "b"], shaftAngle: 90 }],
    });
  const depth = 10 * Math.cos(Math.PI / 4);
  for (const [apex, way] of [
    ["+", 1],
    ["-", -1],
  ] as const) {
    expect(only(drive(apex, way * (depth + 0.99)), "gears-overlap")).toHaveLength(1);
    expect(only(drive(apex, way * (depth + 1.01)), "gears-overlap")).toEqual([]);
    expect(only(drive(apex, -way * 1.01), "gears-overlap")).toEqual([]);
  }
});

test("a flat crown has no length along its shaft and still clashes with a gear around it", () => {
  const drive = (at: number) =>
    solveFile({
      shafts: [{ id: "A", pose: POSE }, { id: "B" }],
      gears: [
        { id: "a", shaft: "A", kind: "bevel", teeth: 40, module: 2 },
        { id: "b", shaft: "B", kind: "bevel", teeth: 20, module: 2 },
        { id: "s", shaft: "A", kind: "spur", teeth: 20, module: 2, face: 10, at },
      ],
      meshes: [{ id: "m", gears: ["b", "a"], shaftAngle: 120 }],
    });
  expect(only(drive(0), "gears-overlap")).toHaveLength(1);
  expect(only(drive(5), "gears-overlap")).toEqual([]);
});

test("the cost on one crowded shaft doesn't grow with the square of its gears, rings among them", () => {
  const crowd = (count: number) => {
    const solved = onOneShaft(
      Array.from({ length: count }, (_, i) => ({
        at: 7 * i,
        face: i % 2 ? 6 : 60_000,
        kind: i % 2 ? "spur" : "internal",
        teeth: i % 2 ? 10 : 20 + 3 * i,
      })),
    );
    return () => checkGearsOverlap(solved, () => undefined);
  };
  // Thirty-two times as many: some 30 to 50 where n log n, 1,000 where every two are compared.
  expect(growth(crowd(1000), crowd(32_000))).toBeLessThan(100);
});
