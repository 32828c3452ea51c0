/** Reads an SVG file back by public libraries: what stands in it, by layer and part, in mm of paper. */
import { makeAbsolute, parseSVG } from "svg-path-parser";
import { type INode, parseSync } from "svgson";

export type XY = readonly [number, number];
export interface ReadLine {
  readonly from: XY;
  readonly to: XY;
  readonly part: string;
}
export interface ReadArc {
  readonly from: XY;
  readonly to: XY;
  readonly rx: number;
  readonly ry: number;
  /** Degrees. */
  readonly tilt: number;
  readonly part: string;
  readonly isLarge: boolean;
}
export interface ReadPath {
  readonly lines: readonly ReadLine[];
  readonly arcs: readonly ReadArc[];
  readonly part: string;
  readonly turn: string | undefined;
  readonly isFilled: boolean;
}

export const readSvg = (text: string): INode => parseSync(text);

export const layer = (svg: INode, id: string): INode | undefined =>
  svg.children.flatMap((view) => view.children).find((group) => group.attributes.id === id);

export function readPaths(group: INode | undefined): ReadPath[] {
  return (group?.children ?? []).flatMap((node) => {
    if (node.name !== "path") return [];
    const { d = "", "data-gear": gear, "data-shaft": shaft, "data-turn": turn, fill } = node.attributes;
    const part = gear ?? shaft ?? "";
    const lines: ReadLine[] = [];
    const arcs: ReadArc[] = [];
    for (const step of makeAbsolute(parseSVG(d))) {
      const [from, to]: [XY, XY] = [
        [step.x0, step.y0],
        [step.x, step.y],
      ];
      if (step.code === "L") lines.push({ from, to, part });
      if (step.code === "A") {
        arcs.push({ from, to, rx: step.rx, ry: step.ry, tilt: step.xAxisRotation, part, isLarge: step.largeArc });
      }
    }
    return [{ lines, arcs, part, turn, isFilled: fill !== undefined }];
  });
}

export const linesOf = (svg: INode, id: string): ReadLine[] => readPaths(layer(svg, id)).flatMap(({ lines }) => lines);
export const arcsOf = (svg: INode, id: string): ReadArc[] => readPaths(layer(svg, id)).flatMap(({ arcs }) => arcs);
