/** How much of what is drawn lies within a box: lines are noted in a grid once, so that many boxes can be asked. mm of paper. */
import { type DrawnView, type Item, LAYERS, type LayerName, type Point } from "./types";

const CELL = 1.5;
/** mm between points noted along a line. */
const STEP = 1;
/** Cells to either side of 0 that tell rows apart; no sheet is larger. */
const ROW = 1 << 20;
/** What it costs to cover a cell: a thin line of dashes is still read under a word. */
const FAINT: ReadonlySet<LayerName> = new Set<LayerName>(["centre", "pitch"]);
const COST = { faint: 1, strong: 3 } as const;

export interface Ink {
  /** The cost of covering a box, from its upper left to its lower right corner; 0 where nothing is drawn. */
  readonly covered: (from: Point, to: Point) => number;
  /** Notes what is drawn besides. */
  readonly add: (item: Item) => void;
}

/** What the layers of some views have drawn, labels left out. */
export function inkOf(views: readonly DrawnView[]): Ink {
  const cells = new Map<number, number>();
  const key = (column: number, row: number): number => column * ROW + row;
  const cellOf = (x: number): number => Math.floor(x / CELL);
  const note = (item: Item, cost: number): void =>
    follow(item, ([x, y]) => {
      const at = key(cellOf(x), cellOf(y));
      if ((cells.get(at) ?? 0) < cost) cells.set(at, cost);
    });
  for (const { layers } of views) {
    for (const layer of Object.keys(LAYERS) as LayerName[]) {
      for (const item of layers[layer]) note(item, FAINT.has(layer) ? COST.faint : COST.strong);
    }
  }
  return {
    covered: (from, to) => {
      let sum = 0;
      for (let column = cellOf(from[0]); column <= cellOf(to[0]); column++) {
        for (let row = cellOf(from[1]); row <= cellOf(to[1]); row++) sum += cells.get(key(column, row)) ?? 0;
      }
      return sum;
    },
    add: (item) => note(item, COST.strong),
  };
}

/** Visits points along a line or an arc, close enough to miss no cell by much. Words are no lines. */
export function follow(item: Item, visit: (point: Point) => void): void {
  if (item.shape === "text") return;
  if (item.shape === "arc") {
    const { centre, rx, ry, tilt, from, to } = item;
    const steps = Math.max(1, Math.ceil((Math.max(rx, ry) * Math.abs(to - from)) / STEP));
    const [c, s] = [Math.cos(tilt), Math.sin(tilt)];
    for (let k = 0; k <= steps; k++) {
      const t = from + ((to - from) * k) / steps;
      const [x, y] = [rx * Math.cos(t), ry * Math.sin(t)];
      visit([centre[0] + c * x - s * y, centre[1] + s * x + c * y]);
    }
    return;
  }
  const points = item.isClosed ? [...item.points, ...item.points.slice(0, 1)] : item.points;
  points.forEach(([x, y], i) => {
    const [x0, y0] = points[i - 1] ?? [x, y];
    const steps = Math.max(1, Math.ceil(Math.hypot(x - x0, y - y0) / STEP));
    for (let k = 1; k <= steps; k++) visit([x0 + ((x - x0) * k) / steps, y0 + ((y - y0) * k) / steps]);
  });
}
