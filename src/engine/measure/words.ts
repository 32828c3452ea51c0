/** A measure in words: one line for each figure, for the panel and for the clipboard. */
import { quantity } from "../wording";
import type { Relation } from "./lines";
import type { Measure } from "./measure";

export interface MeasureLine {
  readonly label: string;
  /** With its unit. */
  readonly value: string;
}

const RELATIONS: Readonly<Record<Relation, string>> = {
  "one line": "on one line",
  parallel: "parallel",
  meeting: "meeting in a point",
  crossing: "crossing without meeting (skew)",
};

/** "parallel", "meeting in a point". */
export const relationWords = ({ relation }: Measure): string => RELATIONS[relation];

/** Degrees: below this two angles read alike. */
const SAME_FIGURE = 1e-6;
/** mm: a distance below this is told as none. */
const NONE = 1e-6;

const millimetres = (x: number): string => quantity(Math.abs(x) < NONE ? 0 : x, "mm", 6);
const degrees = (x: number): string => quantity(Math.abs(x) < SAME_FIGURE ? 0 : x, "°", 6);

/** Every figure of a measure, the axes first. */
export function measureLines(found: Measure): MeasureLine[] {
  const lines: MeasureLine[] = [{ label: "Axes", value: relationWords(found) }];
  if (found.relation !== "one line") lines.push({ label: "Between the axes", value: millimetres(found.axes.distance) });
  lines.push({ label: "Angle", value: degrees(found.angle) });
  if (Math.abs(found.turn - found.angle) > SAME_FIGURE) {
    lines.push({ label: "Between their + ends", value: degrees(found.turn) });
  }
  if (found.centres) {
    const label = found.gears === 2 ? "Between the centres" : "From the centre to the axis";
    lines.push({ label, value: millimetres(found.centres.distance) });
  }
  if (found.along !== null) lines.push({ label: "Along the axis", value: millimetres(Math.abs(found.along)) });
  if (found.betweenFaces !== null) lines.push({ label: "Between the faces", value: millimetres(found.betweenFaces) });
  if (found.overTips !== null) lines.push({ label: "Over the tips of both", value: millimetres(found.overTips) });
  return lines;
}

export const AT_REST = "As the drive stands at rest: where a carrier turns, it changes.";

/** All of it as text, one figure a line. */
export function measureText(found: Measure): string {
  return [
    `${found.names[0]} to ${found.names[1]}`,
    ...measureLines(found).map(({ label, value }) => `${label}: ${value}`),
    ...(found.isCarried ? [AT_REST] : []),
  ].join("\n");
}
