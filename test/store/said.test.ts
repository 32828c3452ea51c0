/** Sentences of the engine are said in the reader's units; the drive, its history and the command line know nothing of it. */
import { afterEach, describe, expect, it } from "vitest";
import { boxWords } from "../../src/engine/collisions/findings";
import { makeDrive, makeGear, makeMesh, makePort, makeShaft } from "../../src/engine/drive/defaults";
import { writeDrive } from "../../src/engine/drive/write";
import { itemWords, type TreeItem, treeOf } from "../../src/engine/explain/tree";
import { measure } from "../../src/engine/measure/measure";
import { measureLines } from "../../src/engine/measure/words";
import { FILE_UNITS } from "../../src/engine/units/choice";
import { limit, quantities, quantity, speakIn, toothSizeWords } from "../../src/engine/wording";
import { documentStore, openDrive } from "../../src/store/document";
import { chooseUnits, unitsStore } from "../../src/store/units";

const before = unitsStore.getState().settings;
afterEach(() => {
  chooseUnits(before);
  speakIn(FILE_UNITS);
});

/** A bore far too wide, so that a finding tells lengths. */
const drive = makeDrive({
  shafts: [
    makeShaft({ id: "A", pose: { origin: [0, 0, 0], axis: [1, 0, 0], ref: [0, 0, 1] } }),
    makeShaft({ id: "B" }),
  ],
  gears: [
    makeGear({ id: "a", shaft: "A", kind: "spur", teeth: 20, module: 2, at: 50.8, bore: 254 }),
    makeGear({ id: "b", shaft: "B", kind: "spur", teeth: 40, module: 2 }),
  ],
  meshes: [makeMesh({ id: "m", gears: ["a", "b"], azimuth: 90 })],
  ports: [makePort({ shaft: "A", role: "input", speed: 60 })],
});
const said = (): string =>
  documentStore
    .getState()
    .solved.findings.map(({ message }) => message)
    .join(" ");

describe("sentences in inches", () => {
  it("are said anew by findings, the tree and measures, without a step to undo", () => {
    openDrive(drive);
    expect(said()).toMatch(/, 254 mm, leaves/);
    const past = documentStore.temporal.getState().pastStates.length;
    chooseUnits({ length: "in", tooth: "pitch" });
    // 254 mm / 25.4 = 10 in.
    expect(said()).toMatch(/, 10 in, leaves/);
    expect(said()).not.toMatch(/\d mm/);
    const { solved } = documentStore.getState();
    const words = (items: readonly TreeItem[]): string =>
      items.map((item) => `${JSON.stringify(itemWords(solved, item))} ${words(item.children)}`).join(" ");
    const tree = words(treeOf(solved));
    // 50.8 mm / 25.4 = 2 in.
    expect(tree).toMatch(/2 in along/);
    expect(tree).not.toMatch(/\d mm/);
    const found = measure(solved, { kind: "shaft", id: "A" }, { kind: "shaft", id: "B" });
    if (!found || "reason" in found) throw new Error("no measure");
    // (20 + 40) / 2 × 2 mm = 60 mm = 2.3622 in.
    expect(JSON.stringify(measureLines(found))).toMatch(/2\.3622 in/);
    expect(documentStore.temporal.getState().pastStates.length).toBe(past);
    expect(writeDrive(documentStore.getState().drive)).toBe(writeDrive(drive));
    chooseUnits({ length: "mm", tooth: "module" });
    expect(said()).toMatch(/, 254 mm, leaves/);
  });

  it("keep lists of numbers in one unit, and tell the size of teeth as a pitch", () => {
    speakIn({ ...FILE_UNITS, length: "in", tooth: "pitch", decimalSign: "," });
    expect(quantities([25.4, 38.1], " to ", "mm")).toBe("1 to 1,5 in");
    expect(boxWords([254, null, 127])).toBe("10 × any × 5 in");
    // 25.4 / 2 = 12.7 teeth for each inch.
    expect(toothSizeWords(2)).toBe("diametral pitch 12,7 /in");
    expect(quantity(2, "N·m")).toBe("2 N·m");
  });

  it("have the figures that were chosen; more where they are needed to tell a number by, fewer where it is good for no more", () => {
    speakIn({ ...FILE_UNITS, figures: 3 });
    expect([quantity(12.3456, "mm"), quantity(12.3456, "mm", 3), quantity(12.34567, "°", 6)]).toEqual([
      "12.3 mm",
      "12.3 mm",
      "12.3457°",
    ]);
    speakIn({ ...FILE_UNITS, figures: 6 });
    expect([quantity(12.34567, "mm"), quantity(12.34567, "mm", 3)]).toEqual(["12.3457 mm", "12.3 mm"]);
  });

  it("round limits in the unit that is said, so that they hold", () => {
    for (const length of ["mm", "in"] as const) {
      speakIn({ ...FILE_UNITS, length });
      const one = length === "in" ? 25.4 : 1;
      for (let mm = 0.3; mm < 2000; mm *= 1.07) {
        const [up, down] = (["up", "down"] as const).map((way) =>
          Number.parseFloat(limit(mm, "mm", way).replace("\u202f", "")),
        );
        expect(up).toBeGreaterThanOrEqual((mm / one) * (1 - 1e-12));
        expect(up).toBeLessThan((mm / one) * 1.0101);
        expect(down).toBeLessThanOrEqual((mm / one) * (1 + 1e-12));
        expect(down).toBeGreaterThan((mm / one) * 0.9899);
      }
    }
  });

  it("stay as the file has them by themselves", () => {
    expect(quantity(12_000, "W")).toBe("12\u202f000 W");
    expect(toothSizeWords(2)).toBe("module 2 mm");
  });
});
