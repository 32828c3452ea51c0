/** Room for labels on the sheet: each goes to the next free place below or above, with a thin line to where it belongs. mm of paper. */
import type { DrawnView, Item, Point, TextItem } from "./types";

/** mm: height of a line of text, and about how wide a letter is. */
const LINE = 4.6;
const LETTER = 1.95;
/** How many lines up and down are tried. */
const FARTHEST = 12;

export const textWidth = (text: string): number => LETTER * text.length;

interface Taken {
  readonly from: Point;
  readonly to: Point;
}

const boxAt = ([x, y]: Point, text: string): Taken => ({ from: [x, y - LINE], to: [x + textWidth(text), y] });
const overlap = (a: Taken, b: Taken): boolean =>
  a.from[0] < b.to[0] && b.from[0] < a.to[0] && a.from[1] < b.to[1] && b.from[1] < a.to[1];

/** The same views with their labels moved apart. */
export function withRoom(views: readonly DrawnView[]): DrawnView[] {
  const taken: Taken[] = [];
  const room = (item: TextItem): Point => {
    const tries = [0, ...Array.from({ length: FARTHEST }, (_, k) => [-(k + 1), k + 1]).flat()];
    const places = tries.map((k): Point => [item.at[0], item.at[1] + k * LINE]);
    return places.find((at) => !taken.some((box) => overlap(box, boxAt(at, item.text)))) ?? item.at;
  };
  return views.map((view) => {
    const leaders: Item[] = [];
    const labels = view.layers.labels.map((item): Item => {
      if (item.shape !== "text") return item;
      const at = room(item);
      taken.push(boxAt(at, item.text));
      if (at !== item.at && at[1] !== item.at[1]) {
        const end: Point = [at[0] - 0.6, at[1] - 1];
        leaders.push({ shape: "line", points: [[item.at[0] - 1, item.at[1] + 1], end], part: item.part });
      }
      return { ...item, at };
    });
    return { ...view, layers: { ...view.layers, labels, arrows: [...view.layers.arrows, ...leaders] } };
  });
}

/** How far to the right texts reach. */
export const textReach = (views: readonly DrawnView[]): number =>
  views.reduce(
    (most, { layers }) =>
      layers.labels.reduce(
        (m, item) => (item.shape === "text" ? Math.max(m, boxAt(item.at, item.text).to[0]) : m),
        most,
      ),
    0,
  );
