import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { SHAFT_COLOURS, shaftColour } from "../../src/store/colours";

/** Relative luminance and contrast as WCAG 2.2 defines them. */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
const contrast = (a: string, b: string): number => {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
};

const sheet = readFileSync("src/app/theme.css", "utf8");
const [, lightSheet = "", darkSheet = ""] = /(:root \{[\s\S]*?)(:root\[data-theme="dark"\][\s\S]*)/.exec(sheet) ?? [];
const token = (text: string, name: string): string => new RegExp(`--${name}: (#[0-9a-f]{6});`).exec(text)?.[1] ?? "";

describe("colours of shafts", () => {
  it.each(["ground", "surface"])("stand out 3:1 and more from the %s, light and dark (WCAG 2.2, 1.4.11)", (ground) => {
    for (const { light, dark } of SHAFT_COLOURS) {
      expect(contrast(light, token(lightSheet, ground))).toBeGreaterThanOrEqual(3);
      expect(contrast(dark, token(darkSheet, ground))).toBeGreaterThanOrEqual(3);
    }
  });

  it("are those of the style sheet", () => {
    SHAFT_COLOURS.forEach(({ light, dark }, i) => {
      expect(token(lightSheet, `shaft-${i}`)).toBe(light);
      expect(token(darkSheet, `shaft-${i}`)).toBe(dark);
    });
  });

  it("are eight different ones, and then repeat", () => {
    expect(new Set(SHAFT_COLOURS.map(({ light }) => light)).size).toBe(8);
    expect(new Set(SHAFT_COLOURS.map(({ dark }) => dark)).size).toBe(8);
    expect(shaftColour(9)).toBe(shaftColour(1));
  });
});
