/** Drawing what is ordered: for the worker alone, so that the page need not load what draws. */
import { type DrawingWishes, drawingOf } from "../../engine/drawing/sheet";
import { marksOf } from "../../engine/drawing/svg-marks";
import { type Drawing, type DrawnView, LAYERS, type LayerName } from "../../engine/drawing/types";
import { solve } from "../../engine/solve";
import { speakIn } from "../../engine/wording";
import { type Answer, figureOf, type Order, type Sheet, type ShownView } from "./orders";

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
