/** What drawings are asked for and what comes back, as plain data that can go to another thread and back. */
import type { DrawingWishes, NoDrawing } from "../../engine/drawing/sheet";
import { svgOf } from "../../engine/drawing/svg";
import type { Mark } from "../../engine/drawing/svg-marks";
import type { Drawing, DrawnView, LayerName } from "../../engine/drawing/types";
import type { Drive } from "../../engine/drive/types";
import type { UnitChoice } from "../../engine/units/choice";

export interface ShownView extends Pick<DrawnView, "name" | "label" | "towards"> {
  readonly layers: readonly { readonly name: LayerName; readonly marks: readonly Mark[] }[];
}

/** A drawing as the page shows it. mm of paper. */
export interface Sheet {
  readonly width: number;
  /** Where it begins, 0 or above: names that had no room below go up. */
  readonly top: number;
  readonly height: number;
  readonly views: readonly ShownView[];
}

/** A drawing as a file. mm of paper. */
export interface Figure extends Pick<Drawing, "width" | "height" | "scale"> {
  readonly svg: string;
}

/** What a wish came to. */
export type Draft = { readonly sheet: Sheet } | { readonly figure: Figure } | NoDrawing;

export interface Order {
  /** Tells the answers of one order from those of another. */
  readonly count: number;
  readonly drive: Drive;
  readonly units: UnitChoice;
  readonly wishes: readonly DrawingWishes[];
  readonly form: "sheet" | "figure";
}

export type Answer =
  | { readonly count: number; readonly wish: number; readonly draft: Draft }
  /** Views drawn so far, of how many in all. */
  | { readonly count: number; readonly done: number; readonly of: number };

export const figureOf = (drawing: Drawing): Figure => {
  const { width, height, scale } = drawing;
  return { width, height, scale, svg: svgOf(drawing) };
};
