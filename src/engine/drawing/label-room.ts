/** Room for labels on the sheet: each goes where it covers least of what is drawn, with a thin line to where it belongs. mm of paper. */
import { follow, inkOf } from "./inked";
import type { DrawnView, Item, LineItem, Point, TextItem } from "./types";

/** mm: height of a line of text, and about how wide a letter is. */
const LINE = 4.6;
const LETTER = 1.95;
/** How many lines up and down are tried. */
const FARTHEST = 16;
/** mm to the right of where a label belongs at which it may begin, and to the left at which it may end. */
const RIGHT = [0, 6, 12, 18, 24, 30];
const LEFT = [4, 10, 16, 22, 28];
/** mm that stay free along the edges of the paper. */
const EDGE = 1;
/** A drawing with more labels is no longer read label by label: each then only moves up and down, out of the way of others. */
const MOST_LABELS = 200;

export const textWidth = (text: string): number => LETTER * text.length;

interface Taken {
  readonly from: Point;
  readonly to: Point;
}

const boxAt = ([x, y]: Point, text: string): Taken => ({ from: [x, y - LINE], to: [x + textWidth(text), y] });
const overlap = (a: Taken, b: Taken): boolean =>
  a.from[0] < b.to[0] && b.from[0] < a.to[0] && a.from[1] < b.to[1] && b.from[1] < a.to[1];

/** What it costs when the line to a label runs through another, and for each mm beyond the paper's width. */
const THROUGH = 20;
const BEYOND = 0.3;

/** mm; `height` is left out where the paper grows with what stands above and below. */
export interface Paper {
  readonly width: number;
  readonly height?: number;
}

/** The line from where a label belongs to the nearer end of where it stands; null where it stands right there. */
function leaderOf({ at, text, part, beside }: TextItem, to: Point): LineItem | null {
  if (to[0] === at[0] && to[1] === at[1]) return null;
  const start: Point = beside ?? [at[0] - 1, at[1] + 1];
  const box = boxAt(to, text);
  const [across, along] = ([0, 1] as const).map((k) => Math.max(box.from[k] - start[k], start[k] - box.to[k], 0));
  if (Math.hypot(across ?? 0, along ?? 0) < LINE) return null;
  const [left, right] = [to[0] - 0.6, to[0] + textWidth(text) + 0.6];
  const end = Math.abs(right - start[0]) < Math.abs(left - start[0]) ? right : left;
  return { shape: "line", points: [start, [end, to[1] - 1]], part };
}

function runsThrough(leader: LineItem, boxes: readonly Taken[]): boolean {
  let found = false;
  follow(leader, (point) => {
    found ||= boxes.some((box) => overlap(box, { from: point, to: point }));
  });
  return found;
}

/** The same views with their labels moved apart, and off what is drawn. */
export function withRoom(views: readonly DrawnView[], { width, height }: Paper): DrawnView[] {
  const taken: Taken[] = [];
  const isCrowded = views.reduce((sum, { layers }) => sum + layers.labels.length, 0) > MOST_LABELS;
  const ink = inkOf(isCrowded ? [] : views);
  const lines = [0, ...Array.from({ length: FARTHEST }, (_, k) => [-(k + 1), k + 1]).flat()];
  const isOnPaper = ([x, y]: Point): boolean =>
    x >= EDGE && (height === undefined || (y >= LINE && y <= height - EDGE));
  const placesOf = ({ at: [x, y], text }: TextItem): Point[] => {
    const left = (mm: number): number => Math.max(EDGE, x - mm - textWidth(text));
    const columns = isCrowded ? [x] : [...RIGHT.map((mm) => x + mm), ...LEFT.map(left)];
    return columns.flatMap((column) => lines.map((k): Point => [column, y + k * LINE])).filter(isOnPaper);
  };
  /** The cheapest free place: what a label covers costs most, then how far it is away. */
  const room = (item: TextItem): Point => {
    let [best, least] = [item.at, Infinity];
    for (const at of placesOf(item)) {
      const box = boxAt(at, item.text);
      const away = Math.abs(at[1] - item.at[1]) / LINE + Math.abs(at[0] - item.at[0]) / (2 * LINE);
      let cost = away + BEYOND * Math.max(0, box.to[0] - width);
      if (cost >= least || taken.some((other) => overlap(other, box))) continue;
      cost += ink.covered(box.from, box.to);
      const leader = cost < least && !isCrowded ? leaderOf(item, at) : null;
      if (leader && runsThrough(leader, taken)) cost += THROUGH;
      if (cost < least) [best, least] = [at, cost];
    }
    return best;
  };
  return views.map((view) => {
    const leaders: Item[] = [];
    const labels = view.layers.labels.map((item): Item => {
      if (item.shape !== "text") return item;
      // Title and scale have their place.
      const at = view.name === "notes" ? item.at : room(item);
      taken.push(boxAt(at, item.text));
      const leader = leaderOf(item, at);
      if (leader) {
        leaders.push(leader);
        ink.add(leader);
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
