/** What the teeth have to say of bad numbers: the whole sentence, so that a change of words is seen. */
import { expect, test } from "vitest";
import { makeGear, makeMesh } from "../../../src/engine/drive/defaults";
import { indexDrive } from "../../../src/engine/placement/index-drive";
import { place } from "../../../src/engine/placement/place";
import { toothFindings } from "../../../src/engine/teeth/tooth-findings";
import { drive, type PairOptions, pair } from "./judge";

const of = (data: ReturnType<typeof pair>) => {
  const index = indexDrive(data);
  return toothFindings(data, index, place(data, index));
};
const single = (fields: object) => {
  const data = drive({ shafts: ["A"], gears: [] });
  return of({
    ...data,
    gears: [makeGear({ id: "g", shaft: "A", kind: "spur", teeth: 20, module: 2, ...fields } as never)],
  });
};
const sentences = (options: PairOptions) => of(pair(options)).map(({ code, message }) => `${code}: ${message}`);

test("a sound pair has nothing to say", () => {
  expect(sentences({ teeth: [20, 50] })).toEqual([]);
  expect(sentences({ teeth: [24, 54], angle: 90 })).toEqual([]);
});
test("a pointed tip", () => {
  expect(single({ teeth: 8, shift: 0.8 })[0]?.message).toBe(
    "The flanks of gear g (8 teeth, on A) meet in a point before its tip circle: the teeth end 0.26 mm lower, at the point; less addendum or a smaller profile shift leaves a land at the tip.",
  );
});
test("a trimmed tip", () => {
  expect(sentences({ teeth: [18, 60], isRing: true })).toEqual([
    "tip-trimmed: The tips of gear b (60 teeth, on B) would dig into a mate's roots as they are drawn, their rounding included: its teeth are drawn and exported 0.183 mm shorter, an addendum of 0.909, and so run free; the same positive profile shift on both gears would do it too.",
  ]);
});
test("an undercut pinion leaves its mate's tips as they are, for the rack that cut it went where they go", () => {
  // A rack tooth holds the mate's tooth at every moment (Shigley, Mechanical Engineering Design, section 13-7: undercutting removes what
  // would interfere).
  for (const teeth of [
    [9, 40],
    [7, 29],
    [12, 36],
    [15, 45],
  ] as const) {
    expect(sentences({ teeth }).filter((sentence) => sentence.startsWith("tip-trimmed"))).toEqual([]);
  }
});
test("a tip longer than the mate's gap is deep", () => {
  const long = pair({ teeth: [30, 90], isRing: true });
  const changed = { ...long, gears: long.gears.map((gear, i) => (i === 0 ? { ...gear, addendum: 1.4 } : gear)) };
  expect(of(changed).some(({ code, message }) => code === "tip-trimmed" && message.includes("gear a"))).toBe(true);
});
test("a bore too large, a face too long, backlash wider than the tooth, very many teeth", () => {
  expect(single({ bore: 60 }).map(({ code }) => code)).toEqual(["bore-too-large"]);
  expect(single({ backlash: 20 }).map(({ code }) => code)).toEqual(["tooth-form"]);
  expect(single({ teeth: 100_000 }).map(({ code }) => code)).toEqual(["coarse-teeth"]);
  const long = of(pair({ teeth: [20, 30], angle: 90, face: 80 }));
  expect(long.filter(({ code }) => code === "face-too-long").length).toBe(2);
});
test("tips that foul name the count that clears", () => {
  expect(sentences({ teeth: [30, 36], isRing: true }).filter((text) => text.startsWith("tips-foul"))).toEqual([
    "tips-foul: In mesh m the tips of a (30 teeth, on A) and b (36 teeth, on B) foul each other where they part: 30 teeth are too many inside 36; use a pinion of at most 28 teeth, or use stub teeth.",
  ]);
});
test("a ring that stands by itself: the phase that the finding offers brings its teeth into the gaps", () => {
  const data = (phase: number) =>
    drive({
      shafts: ["S", "P", "R"],
      gears: [
        { id: "s", shaft: "S", kind: "spur", teeth: 18, module: 2 },
        { id: "p", shaft: "P", kind: "spur", teeth: 22, module: 2 },
        { id: "r", shaft: "R", kind: "internal", teeth: 62, module: 2, phase },
      ],
      meshes: [makeMesh({ id: "sp", gears: ["s", "p"], azimuth: 25 }), makeMesh({ id: "pr", gears: ["p", "r"] })],
    });
  const coaxial = (phase: number) => {
    const base = data(phase);
    return { ...base, shafts: base.shafts.map((shaft) => (shaft.id === "R" ? { ...shaft, coaxial: "S" } : shaft)) };
  };
  const found = of(coaxial(0)).find(({ code }) => code === "loop-phase");
  const offered = /give gear r a phase of (−?[\d.]+)°/.exec(found?.message ?? "")?.[1];
  expect(offered).toBeDefined();
  expect(of(coaxial(Number((offered ?? "").replace("−", "-")))).filter(({ code }) => code === "loop-phase")).toEqual(
    [],
  );
});
