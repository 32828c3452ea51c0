/** What can't be drawn is said in one sentence; names of all sorts come back whole; true teeth have their number. */
import { describe, expect, it } from "vitest";
import { scaleText, standardScale } from "../../../src/engine/drawing/on-paper";
import { drawingOf } from "../../../src/engine/drawing/sheet";
import { svgOf } from "../../../src/engine/drawing/svg";
import { parseDrive } from "../../../src/engine/drive/parse";
import { solve } from "../../../src/engine/solve";
import { arcsOf, layer, linesOf, readSvg } from "./read-figure";
import { figure, SAMPLES } from "./samples";

const wishes = { view: "three", angle: "first", gears: "simplified" } as const;

const solvedFrom = (text: object) => {
  const { drive } = parseDrive(JSON.stringify(text));
  if (!drive) throw new Error("no drive");
  return solve(drive);
};
const START = { format: "turnwise.drive", version: 1 };

describe("what can't be drawn", () => {
  const [, hoist] = SAMPLES.find(([name]) => name === "well-hoist") ?? SAMPLES[0] ?? ["", null];
  if (!hoist) throw new Error("no samples");
  const empty = solve({ ...hoist.drive, shafts: [], gears: [], meshes: [], ports: [] });

  it.each(["three", "front", "section", "schematic"] as const)(
    "says of an empty drive that there is nothing: %s",
    (view) => {
      expect(drawingOf(empty, { ...wishes, view })).toEqual({
        trouble: expect.stringMatching(/nothing to draw.*first\.$/),
      });
    },
  );
  it("says that a mesh is not there", () => {
    expect(drawingOf(hoist, { ...wishes, view: "section", mesh: "gone" })).toEqual({
      trouble: expect.stringContaining('no mesh "gone"'),
    });
  });
  it("keeps every letter of a name that XML has a place for", () => {
    const title = 'A & B < "C" > 齿轮 \u0007\ud800';
    const drawing = drawingOf({ ...hoist, drive: { ...hoist.drive, title } }, wishes);
    if ("trouble" in drawing) throw new Error(drawing.trouble);
    const svg = svgOf(drawing);
    expect(svg).toContain("A &amp; B &lt; &quot;C&quot; &gt; 齿轮 \ufffd\ufffd");
    expect(readSvg(svg).name).toBe("svg");
  });
});

describe("scales of ISO 5455", () => {
  it.each([
    [100, 180, 1, "1:1"],
    [90, 180, 2, "2:1"],
    [181, 180, 0.5, "1:2"],
    [1000, 180, 0.1, "1:10"],
    [2, 180, 50, "50:1"],
  ])("%d mm in %d mm", (size, room, scale, words) => {
    expect(standardScale(size, room)).toBeCloseTo(scale, 12);
    expect(scaleText(standardScale(size, room))).toBe(words);
  });
});

describe("true teeth", () => {
  it("reach to the tip circle, as often as there are teeth", () => {
    const [, solved] = SAMPLES.find(([name]) => name === "well-hoist") ?? SAMPLES[0] ?? ["", null];
    if (!solved) throw new Error("no samples");
    const { svg: text, scale } = figure(solved, { view: "front", gears: "teeth" });
    const svg = readSvg(text);
    expect(layer(svg, "front-hidden")).toBeUndefined();
    const counts = solved.drive.gears.map((gear) => {
      const [pitch] = arcsOf(svg, "front-pitch").filter(({ part }) => part === gear.id);
      if (gear.kind !== "spur" || !pitch) throw new Error("the hoist has spur gears only, seen from their ends");
      const [cx, cy] = [(pitch.from[0] + pitch.to[0]) / 2, (pitch.from[1] + pitch.to[1]) / 2];
      const corners = linesOf(svg, "front-visible")
        .filter(({ part }) => part === gear.id)
        .flatMap(({ from, to }) => [from, to])
        .map(([x, y]) => ({ radius: Math.hypot(x - cx, y - cy), azimuth: Math.atan2(y - cy, x - cx) }));
      // Half the pitch diameter and the addendum. ISO 53, from memory.
      const tip = scale * ((gear.teeth * gear.module) / 2 + gear.module * (gear.addendum + gear.shift));
      expect(Math.abs(Math.max(...corners.map(({ radius }) => radius)) - tip)).toBeLessThan(0.005);
      // The land of a tip is narrower than half a pitch: a wider step between corners leads to the next tooth.
      const tips = corners
        .filter(({ radius }) => radius > tip - 0.02)
        .map(({ azimuth }) => azimuth)
        .sort((x, y) => x - y);
      const steps = tips.map((azimuth, i) => (tips[i + 1] ?? (tips[0] ?? 0) + 2 * Math.PI) - azimuth);
      return [steps.filter((step) => step > Math.PI / gear.teeth).length, gear.teeth] as const;
    });
    for (const [seen, teeth] of counts) expect(seen).toBeLessThanOrEqual(teeth);
    // Part of some gears is behind others.
    expect(counts.filter(([seen, teeth]) => seen === teeth).length).toBeGreaterThan(0);
  });
});

it("takes a drive without any mesh: views, and one sentence for the section", () => {
  const lone = solvedFrom({
    ...START,
    shafts: [{ id: "s", pose: { origin: [0, 0, 0], axis: [0, 0, 1], ref: [1, 0, 0] } }],
    gears: [{ id: "g", shaft: "s", kind: "spur", teeth: 20, module: 2, face: 10, at: 0 }],
  });
  expect("trouble" in drawingOf(lone, wishes)).toBe(false);
  expect(drawingOf(lone, { ...wishes, view: "section" })).toEqual({
    trouble: expect.stringContaining("no mesh has a place"),
  });
});
