/** What drawings are asked for and what comes back, as plain data that can go to another thread and back; and the drawing itself. */
import { type DrawingWishes, drawingOf, type NoDrawing } from "../../engine/drawing/sheet";
import { svgOf } from "../../engine/drawing/svg";
import { type Mark, marksOf } from "../../engine/drawing/svg-marks";
import { type Drawing, type DrawnView, LAYERS, type LayerName } from "../../engine/drawing/types";
import type { Drive } from "../../engine/drive/types";
import { solve } from "../../engine/solve";
import type { UnitChoice } from "../../engine/units/choice";
import { speakIn } from "../../engine/wording";

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

/** mm above a name's foot, and below. */
const ABOVE = 5;
const BELOW = 2;

function sheetOf({ width, height, views }: Drawing): Sheet {
  const feet = views.flatMap(({ layers }) =>
    layers.labels.flatMap((item) => (item.shape === "text" ? item.at[1] : [])),
  );
  const top = feet.reduce((least, y) => Math.min(least, y - ABOVE), 0);
  const bottom = feet.reduce((most, y) => Math.max(most, y + BELOW), height);
  return { width, top, height: bottom - top, views: views.map(shownView) };
}

const shownView = ({ name, label, towards, layers }: DrawnView): ShownView => ({
  name,
  label,
  ...(towards ? { towards } : {}),
  layers: (Object.keys(LAYERS) as LayerName[])
    .filter((layer) => layers[layer].length > 0)
    .map((layer) => ({ name: layer, marks: marksOf(layers[layer]) })),
});

export const figureOf = (drawing: Drawing): Figure => {
  const { width, height, scale } = drawing;
  return { width, height, scale, svg: svgOf(drawing) };
};

const viewsOf = ({ view }: DrawingWishes): number => (view === "three" ? 3 : 1);

/** Draws all that is ordered, one after another. */
export function draft({ count, drive, units, wishes, form }: Order, answer: (answer: Answer) => void): void {
  speakIn(units);
  const solved = solve(drive);
  const of = wishes.reduce((sum, wish) => sum + viewsOf(wish), 0);
  let before = 0;
  wishes.forEach((wishes, wish) => {
    const drawing = drawingOf(solved, wishes, (done) => answer({ count, done: before + done, of }));
    before += viewsOf(wishes);
    const made =
      "trouble" in drawing ? drawing : form === "sheet" ? { sheet: sheetOf(drawing) } : { figure: figureOf(drawing) };
    answer({ count, wish, draft: made });
  });
}
