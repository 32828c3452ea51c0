/** Sheets of text: nothing is lost or runs off the sheet, numbers keep their units, rows stand under their heads. */
import { describe, expect, it } from "vitest";
import { svgOf } from "../../../src/engine/drawing/svg";
import { brokenText, textSheet } from "../../../src/engine/drawing/text-sheet";
import { layer, readSvg } from "./read-figure";

const kind = { name: "workings", label: "How the mill turns" } as const;
const long = `${"stones grind ".repeat(40)}at 580 rev/min`;

const texts = (svg: string) =>
  (layer(readSvg(svg), "workings-labels")?.children ?? []).map(({ attributes, children }) => ({
    x: Number(attributes.x),
    y: Number(attributes.y),
    text: children[0]?.value ?? "",
  }));

describe("text on a sheet", () => {
  it("is broken at spaces, never within a number and its unit", () => {
    for (let most = 20; most < 200; most += 7) {
      const pieces = brokenText(long, most);
      expect(pieces.join(" ").replaceAll("\u00a0", " ")).toBe(long);
      expect(pieces.filter((piece) => /\d$|^rev/.test(piece))).toEqual([]);
    }
    expect(brokenText("W".repeat(500), 20)).toEqual(["W".repeat(500)]);
  });

  it("stands within its sheet, each line below the one before", () => {
    const drawing = textSheet("A mill", kind, [
      { text: "Stones", level: 0, isHead: true },
      { text: long, level: 1 },
      { text: "W".repeat(500), level: 0 },
    ]);
    const all = texts(svgOf(drawing));
    expect(all[0]?.text).toBe("A mill: How the mill turns");
    for (const { x, text } of all) {
      // From memory, no source: letters of usual typefaces are half as wide as high on average, here 3.5 mm; a W is wider.
      if (!text.startsWith("W")) expect(x + text.length * 0.55 * 3.5).toBeLessThan(drawing.width);
    }
    for (const [i, { y }] of all.entries()) if (i > 0) expect(y).toBeGreaterThan((all[i - 1]?.y ?? 0) + 3.5);
    expect(all.at(-1)?.y).toBeLessThan(drawing.height);
  });

  it("has the cells of a table in columns, a broken cell in as many lines as it needs", () => {
    const rows = [
      ["Motor", "clockwise", "1450 rev/min"],
      ["Mill", long, "12 rev/min"],
    ];
    const all = texts(svgOf(textSheet("", kind, [{ head: ["Shaft", "turns", "speed"], rows }])));
    const at = (text: string) => all.find((one) => one.text.replace("\u00a0", " ") === text);
    for (const [a, b] of [
      ["Shaft", "Mill"],
      ["turns", "clockwise"],
      ["speed", "12 rev/min"],
    ]) {
      expect(at(a as string)?.x).toBe(at(b as string)?.x);
    }
    expect(at("Motor")?.y).toBe(at("1450 rev/min")?.y);
    expect(at("Mill")?.y).toBe(at("12 rev/min")?.y);
    expect(all.filter(({ text }) => text.startsWith("stones") || text.startsWith("grind")).length).toBeGreaterThan(4);
  });
});
