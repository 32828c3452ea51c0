/**
 * A vector drawing as data: views side by side on one sheet, each with layers of lines, arcs and texts.
 * Sheet coordinates in mm of paper, x to the right, y down. Line types and the ratio of their widths: ISO 128-2.
 */

import type { Vec3 } from "../solved";

export type Point = readonly [x: number, y: number];

/** The part that an item stands for. */
export interface DrawnPart {
  readonly kind: "shaft" | "gear";
  readonly id: string;
}

interface Common {
  readonly part: DrawnPart | null;
  /** Of an arrow: the way the shaft turns as seen in this view. */
  readonly turn?: Turn;
}

/** Arrows round an axis that points at the eye, and arrows of the near side of a shaft that lies across the view. */
export type Turn = "clockwise" | "counterclockwise" | "near side moves";

export interface LineItem extends Common {
  readonly shape: "line";
  readonly points: readonly Point[];
  readonly isClosed?: boolean;
  readonly isFilled?: boolean;
}

/** Part of an ellipse: centre + rx cos t · e + ry sin t · e', with e at `tilt` from x towards y and e' a quarter turn on from it. */
export interface ArcItem extends Common {
  readonly shape: "arc";
  readonly centre: Point;
  readonly rx: number;
  readonly ry: number;
  /** Radians. */
  readonly tilt: number;
  /** Radians; 2π from `from` to `to` is the whole ellipse. */
  readonly from: number;
  readonly to: number;
}

export interface TextItem extends Common {
  readonly shape: "text";
  readonly at: Point;
  readonly text: string;
  readonly anchor: "start" | "middle" | "end";
  /** What it is written beside: where a line to it begins. */
  readonly beside?: Point;
}

export type Item = LineItem | ArcItem | TextItem;

export const LAYERS = {
  hatching: { label: "Hatching", line: "continuous narrow" },
  hidden: { label: "Hidden edges", line: "dashed narrow" },
  pitch: { label: "Pitch surfaces", line: "long-dashed dotted narrow" },
  centre: { label: "Centre lines", line: "long-dashed dotted narrow" },
  visible: { label: "Visible outlines", line: "continuous wide" },
  arrows: { label: "Direction of turn", line: "continuous narrow" },
  labels: { label: "Labels", line: "continuous narrow" },
} as const;

export type LayerName = keyof typeof LAYERS;

/** What one view draws, by layer. */
export type Layers = Readonly<Record<LayerName, readonly Item[]>>;
export type LayersToFill = Record<LayerName, Item[]>;

export const emptyLayers = (): LayersToFill => ({
  hatching: [],
  hidden: [],
  pitch: [],
  centre: [],
  visible: [],
  arrows: [],
  labels: [],
});

export type ViewName = "front" | "top" | "side" | "section" | "schematic";

export interface DrawnView {
  readonly name: ViewName | "notes" | "workings" | "readouts";
  readonly label: string;
  /** From the drive to the eye, world, unit; left out where nothing is looked at. */
  readonly towards?: Vec3;
  readonly layers: Layers;
}

export interface Drawing {
  readonly title: string;
  /** mm of paper. */
  readonly width: number;
  readonly height: number;
  /** mm of paper for each mm of the drive. */
  readonly scale: number;
  readonly views: readonly DrawnView[];
}
