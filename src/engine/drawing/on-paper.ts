/** Scales of a sheet, and the symbol of its projection; light enough for whoever shows a drawing without making it. */
import { figures } from "../wording";
import type { Angle } from "./frame";
import type { Item, Point } from "./types";

/** Scales of ISO 5455: 1, 2 and 5 times powers of ten. The largest at which `size` (mm) fits in `room` (mm of paper). */
export function standardScale(size: number, room: number): number {
  const most = room / size;
  const power = 10 ** Math.floor(Math.log10(most) + 1e-12);
  const step = [5, 2].find((k) => k * power <= most * (1 + 1e-12)) ?? 1;
  return step * power;
}

export const scaleText = (scale: number): string =>
  scale >= 1 ? `${figures(Number(scale.toPrecision(1)))}:1` : `1:${figures(Number((1 / scale).toPrecision(1)))}`;

/** The symbol of ISO 5456-2: a cut cone from the side and from its end; the circles stand where that view would. 20 × 8 mm. */
export function projectionSymbol(angle: Angle, [left, middle]: Point): Item[] {
  const isFirst = angle === "first";
  const cone = isFirst ? left : left + 12;
  const eye = isFirst ? left + 16 : left + 4;
  const whole = { shape: "arc", centre: [eye, middle], tilt: 0, from: 0, to: 2 * Math.PI, part: null } as const;
  const points: Point[] = [
    [cone, middle - 2],
    [cone, middle + 2],
    [cone + 8, middle + 4],
    [cone + 8, middle - 4],
  ];
  return [
    { shape: "line", isClosed: true, part: null, points },
    { ...whole, rx: 2, ry: 2 },
    { ...whole, rx: 4, ry: 4 },
  ];
}
