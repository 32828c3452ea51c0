/** Handles in inches and diametral pitch: what they say, where they snap, and the number that the drive gets. */
import { act } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { dimensions } from "../../../src/bench/dimension";
import type { Handle } from "../../../src/bench/handles/handle";
import { handlesFor } from "../../../src/bench/handles/handles-for";
import type { SizeWay } from "../../../src/bench/handles/size-handle";
import { shownDrive } from "../../../src/bench/shown-drive";
import { isRefused } from "../../../src/engine/drive/commands/edit";
import { readDrive } from "../../../src/engine/drive/parse";
import type { Drive } from "../../../src/engine/drive/types";
import { isMeasured, measure } from "../../../src/engine/measure/measure";
import { solve } from "../../../src/engine/solve";
import { readQuantity } from "../../../src/engine/units/read";
import { openDrive } from "../../../src/store/document";
import { chooseUnits, currentUnits, unitsStore } from "../../../src/store/units";
import type { Part } from "../../../src/store/view";
import { MIXER } from "../../panels/support";
import { mesh, root, toothed, toothless } from "../../support/random-drives";

const drive: Drive = {
  title: "",
  notes: "",
  shafts: [root("A"), { id: "B", name: "B" }, root("D")],
  gears: [toothed("a", "A", "spur", 20, 2), toothed("b", "B", "spur", 32, 2), toothless("d", "D", "wheel", 50)],
  meshes: [mesh("m", "a", "b", { azimuth: 20 })],
  ports: [],
};
const find = (part: Part, sort: Handle["sort"], way: SizeWay = "teeth"): Handle => {
  const handle = handlesFor(solve(drive), part, way).find((one) => one.sort === sort);
  if (!handle) throw new Error(`no ${sort} handle`);
  return handle;
};
const gear = (id: string): Part => ({ kind: "gear", id });

const before = unitsStore.getState().settings;
beforeEach(() => chooseUnits({ length: "in", tooth: "pitch", figures: 4, decimal: "." }));
afterEach(() => act(() => chooseUnits(before)));

const said = (handle: Handle, value: number): string =>
  [handle.text(value), handle.said(value), handle.told(value), handle.name].join("; ");

describe("in inches", () => {
  it("a slide snaps to whole sixteenths, goes on by one for each arrow key, and freely to hundredths", () => {
    const slide = find(gear("a"), "slide");
    // 41.4 mm is 26.08 sixteenths, and 26 of them are 1.625 in.
    expect(slide.snap(41.4, false)).toBe(41.275);
    expect(slide.text(41.275)).toBe("1.625 in");
    expect(slide.said(41.275)).toBe("1.625 in along the shaft");
    expect(slide.stepped(0, 1)).toBe(25.4 / 16);
    expect(slide.stepped(0, 10)).toBe(15.875);
    // 41.4 mm is 162.99 hundredths.
    expect(slide.snap(41.4, true)).toBe(41.402);
    for (let mm = -90; mm < 90; mm += 0.37) {
      const sixteenths = (slide.snap(mm, false) / 25.4) * 16;
      expect(Math.abs(sixteenths - Math.round(sixteenths))).toBeLessThan(1e-9);
    }
    const result = slide.edit(slide.snap(41.4, false))(drive);
    expect(isRefused(result) ? result : result.gears[0]?.at).toBe(41.275);
  });

  it("a root goes by quarters, a diameter by sixteenths", () => {
    // 12.4 mm is 1.95 quarters.
    expect(find({ kind: "shaft", id: "A" }, "x").snap(12.4, false)).toBe(12.7);
    expect(find({ kind: "shaft", id: "A" }, "x").text(12.7)).toBe("x 0.5 in");
    const size = find(gear("d"), "size");
    // 50.3 mm is 31.69 sixteenths.
    expect(size.snap(50.3, false)).toBe(50.8);
    expect(size.text(50.8)).toBe("diameter 2 in");
  });

  it("the size of teeth snaps to the pitches in general use, as exactly as if they were typed", () => {
    const size = find(gear("a"), "size", "module");
    expect(size.name).toBe("Size: diametral pitch of a and its mates");
    // 25.4 / 12 = 2.11667 mm is the nearest to 2 mm, as a ratio; then come 10 and, the other way, 16.
    const twelve = readQuantity("12", "module", currentUnits());
    expect("value" in twelve && size.snap(2, false)).toBe("value" in twelve && twelve.value);
    expect(size.text(size.snap(2, false))).toBe("diametral pitch 12 /in");
    expect(size.text(size.stepped(size.snap(2, false), 1))).toBe("diametral pitch 10 /in");
    expect(size.text(size.stepped(size.snap(2, false), -1))).toBe("diametral pitch 16 /in");
    // 25.4 / 2 = 12.7.
    expect(size.text(size.snap(2, true))).toBe("diametral pitch 12.7 /in");
  });

  it("no handle says a millimetre", () => {
    const ways: readonly SizeWay[] = ["teeth", "ratio", "module"];
    const parts: readonly Part[] = [
      gear("a"),
      gear("b"),
      gear("d"),
      { kind: "shaft", id: "A" },
      { kind: "mesh", id: "m" },
    ];
    const handles = parts.flatMap((part) => ways.flatMap((way) => handlesFor(solve(drive), part, way)));
    expect(new Set(handles.map(({ sort }) => sort)).size).toBeGreaterThan(5);
    for (const handle of handles) expect(said(handle, handle.value)).not.toMatch(/\d mm|module/);
  });

  it("nor does a dimension line", () => {
    const read = readDrive(MIXER).drive;
    if (!read) throw new Error("no drive");
    act(() => openDrive(read));
    const { layout } = shownDrive();
    const found = measure(layout.solved, { kind: "gear", id: "a1" }, { kind: "gear", id: "b2" });
    if (!isMeasured(found)) throw new Error(found.reason);
    // 70 / 25.4 and √(60² + 70²) / 25.4.
    expect(dimensions(found, layout).map(({ words }) => words)).toEqual(["2.75591 in", "3.62974 in"]);
  });
});
