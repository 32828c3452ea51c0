/** What a drawing comes to in SVG, as data: paths and texts with the parts that they stand for. The file and the page draw the same. */
import { type ArcItem, type DrawnPart, type Item, LAYERS, type LayerName, type Point, type Turn } from "./types";

/** mm: wide lines; narrow ones are half as wide. */
const WIDE = 0.5;
const NARROW = 0.25;
/** In widths of the line: dash 12, gap 3; long dash 24, gap 3, dot 0.5, gap 3. */
const DASHES: Readonly<Record<string, readonly number[]>> = {
  "dashed narrow": [12, 3],
  "long-dashed dotted narrow": [24, 3, 0.5, 3],
};
/** mm, height of letters. ISO 3098 has capitals of 3.5 mm or 2.5 mm. */
export const TEXT = 3.5;

export const number = (x: number): string => {
  const text = x.toFixed(3).replace(/\.?0+$/, "");
  return text === "-0" ? "0" : text;
};
const point = ([x, y]: Point): string => `${number(x)} ${number(y)}`;

function arcPath({ centre, rx, ry, tilt, from, to }: ArcItem): string {
  const [c, s] = [Math.cos(tilt), Math.sin(tilt)];
  const at = (t: number): Point => {
    const [x, y] = [rx * Math.cos(t), ry * Math.sin(t)];
    return [centre[0] + c * x - s * y, centre[1] + s * x + c * y];
  };
  const degrees = number((tilt * 180) / Math.PI);
  const to_ = (t: number, isLarge: boolean): string =>
    `A${number(rx)} ${number(ry)} ${degrees} ${isLarge ? 1 : 0} 1 ${point(at(t))}`;
  if (to - from < 2 * Math.PI - 1e-6) return `M${point(at(from))}${to_(to, to - from > Math.PI)}`;
  return `M${point(at(from))}${to_(from + Math.PI, false)}${to_(from, false)}Z`;
}

/** Numbers as they are written. */
export type Mark =
  | {
      readonly shape: "path";
      readonly part: DrawnPart | null;
      readonly turn?: Turn;
      readonly isFilled: boolean;
      readonly path: string;
    }
  | {
      readonly shape: "text";
      readonly part: DrawnPart | null;
      readonly x: string;
      readonly y: string;
      readonly anchor: "start" | "middle" | "end";
      readonly text: string;
    };

const pathOf = (item: Item): string =>
  item.shape === "line"
    ? `M${item.points.map(point).join("L")}${item.isClosed ? "Z" : ""}`
    : item.shape === "arc"
      ? arcPath(item)
      : "";

const isSame = (a: DrawnPart | null, b: DrawnPart | null): boolean => a?.kind === b?.kind && a?.id === b?.id;

/** In the order of the items; paths one after another that differ in nothing but their place are one. */
export function marksOf(items: readonly Item[]): Mark[] {
  const marks: Mark[] = [];
  for (const item of items) {
    const { part } = item;
    if (item.shape === "text") {
      const { at, anchor, text } = item;
      marks.push({ shape: "text", part, x: number(at[0]), y: number(at[1]), anchor, text });
      continue;
    }
    const isFilled = item.shape === "line" && item.isFilled === true;
    const last = marks.at(-1);
    if (last?.shape === "path" && isSame(last.part, part) && last.turn === item.turn && last.isFilled === isFilled)
      marks[marks.length - 1] = { ...last, path: last.path + pathOf(item) };
    else marks.push({ shape: "path", part, ...(item.turn ? { turn: item.turn } : {}), isFilled, path: pathOf(item) });
  }
  return marks;
}

/** mm of paper: how wide the lines of a layer are, and their dashes; none where they are continuous. */
export function strokeOf(layer: LayerName): { readonly width: number; readonly dashes: string } {
  const { line } = LAYERS[layer];
  const width = line === "continuous wide" ? WIDE : NARROW;
  return { width, dashes: DASHES[line]?.map((k) => number(k * width)).join(" ") ?? "" };
}
