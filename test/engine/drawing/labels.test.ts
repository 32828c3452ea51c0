/** Where names stand on the sheet, read back from the SVG by a public library: apart, on the paper, and off what is drawn. */
import type { INode } from "svgson";
import { describe, expect, it } from "vitest";
import { linesOf, readSvg, type XY } from "./read-figure";
import { figure, SAMPLES } from "./samples";

interface Box {
  readonly words: string;
  readonly low: XY;
  readonly high: XY;
}

/** A letter is about half as wide as its size, and stands on its foot: rough, so a little is left out on each side. */
const boxOf = (node: INode, size: number): Box => {
  const [x, y] = [Number(node.attributes.x), Number(node.attributes.y)];
  const words = node.children.map(({ value }) => value).join("");
  return { words, low: [x + 0.5, y - 0.65 * size], high: [x + 0.45 * size * words.length, y - 0.2] };
};

const textsIn = (node: INode): INode[] => (node.name === "text" ? [node] : node.children.flatMap(textsIn));
const sizeIn = (node: INode): number =>
  Number.parseFloat(node.attributes["font-size"] ?? "") || node.children.map(sizeIn).find((size) => size > 0) || 0;

const meets = (a: Box, b: Box): boolean =>
  [0, 1].every((k) => (a.low[k] ?? 0) < (b.high[k] ?? 0) && (b.low[k] ?? 0) < (a.high[k] ?? 0));

/** Whether a segment goes through a box: the part of it within each pair of sides, by Liang and Barsky's clipping. */
function goesThrough(from: XY, to: XY, { low, high }: Box): boolean {
  let [enter, leave] = [0, 1];
  for (const k of [0, 1] as const) {
    const way = to[k] - from[k];
    if (way === 0) {
      if (from[k] < low[k] || from[k] > high[k]) return false;
      continue;
    }
    const [a, b] = [(low[k] - from[k]) / way, (high[k] - from[k]) / way];
    [enter, leave] = [Math.max(enter, Math.min(a, b)), Math.min(leave, Math.max(a, b))];
  }
  return enter < leave;
}

describe.each(SAMPLES)("on the sheet of %s", (_, solved) => {
  it.each(["three", "front", "section", "schematic"] as const)("names of %s stand apart and on the paper", (view) => {
    if (view === "section" && !solved.placement.meshes.some((mesh) => mesh !== null)) return;
    const svg = readSvg(figure(solved, { view }).svg);
    const [, , width = 0, height = 0] = (svg.attributes.viewBox ?? "").split(" ").map(Number);
    const boxes = textsIn(svg).map((node) => boxOf(node, sizeIn(svg)));
    expect(boxes.length).toBeGreaterThan(solved.drive.shafts.length === 0 ? 0 : 1);
    boxes.forEach((box, i) => {
      expect(box.low[0] >= 0 && box.low[1] >= 0 && box.high[0] <= width && box.high[1] <= height, box.words).toBe(true);
      for (const other of boxes.slice(0, i)) expect(meets(box, other), `${box.words} on ${other.words}`).toBe(false);
    });
  });

  it.each(["three", "section"] as const)("no edge and no hatching goes through a name of %s", (view) => {
    const svg = readSvg(figure(solved, { view }).svg);
    const boxes = textsIn(svg).map((node) => boxOf(node, sizeIn(svg)));
    const crossed = new Set<string>();
    for (const name of view === "section" ? ["section"] : ["front", "top", "side"]) {
      for (const layer of ["visible", "hidden", "hatching"]) {
        for (const { from, to } of linesOf(svg, `${name}-${layer}`)) {
          for (const box of boxes) if (goesThrough(from, to, box)) crossed.add(`${box.words} (${name})`);
        }
      }
    }
    expect([...crossed]).toEqual([]);
  });
});
