/**
 * The least gap of two bodies over all turns of the carriers between them. Turning a carrier by an angle moves no point further than
 * its reach times the angle, so a stretch of angles whose middle shows a gap larger than that holds no smaller one: stretches are
 * halved, the most promising first, until the least is known.
 */
import { type Turning, turned } from "./carrying";
import { gapBetween, quickGap } from "./gap";
import type { Gap, GapWish, Turned } from "./turned";

export interface SweptGap extends Gap {
  /** Radians by which each carrier has turned where the gap is least; as many as `turnings`. */
  readonly angles: readonly number[];
  /** False where the search was given up: `low` is then no bound. */
  readonly isWhole: boolean;
}

export interface SweepWish extends GapWish {
  /** Stretches to look at, at the most. */
  readonly most: number;
}

interface Stretch {
  readonly middle: readonly number[];
  readonly half: readonly number[];
  /** No gap in it is less. */
  readonly low: number;
}

/** The two bodies when each carrier has turned by its angle. */
export function standAt(
  bodies: readonly [Turned, Turned],
  turnings: readonly Turning[],
  angles: readonly number[],
): readonly [Turned, Turned] {
  const moved: [Turned, Turned] = [bodies[0], bodies[1]];
  turnings.forEach(({ side, line }, k) => {
    moved[side] = turned(moved[side], line, angles[k] ?? 0);
  });
  return moved;
}

/** Stretches of one carrier's turn that are looked at first. */
const FIRST = 8;

export function sweptGap(bodies: readonly [Turned, Turned], turnings: readonly Turning[], wish: SweepWish): SweptGap {
  const { enough = Infinity, below = -Infinity } = wish;
  let best: SweptGap = { low: -Infinity, high: Infinity, at: [0, 0, 0], angles: turnings.map(() => 0), isWhole: true };
  let looked = 0;
  /** Least lower bound of all stretches that were left aside. */
  let aside = Infinity;
  const room = (half: readonly number[]): number =>
    turnings.reduce((sum, { reach }, k) => sum + reach * (half[k] ?? 0), 0);

  const look = (middle: readonly number[], half: readonly number[]): Stretch => {
    looked++;
    const [a, b] = standAt(bodies, turnings, middle);
    const within = room(half);
    const needed = Math.min(best.high - wish.tolerance, enough) + within;
    const quick = quickGap(a, b, needed);
    if (quick >= needed) return { middle, half, low: quick - within };
    // As well as this stretch deserves: a wide one is halved anyway.
    const tolerance = Math.max(wish.tolerance / 2, within / 8);
    const gap = gapBetween(a, b, { tolerance, enough: needed, below });
    if (gap.high < best.high) best = { ...gap, low: best.low, angles: middle, isWhole: true };
    return { middle, half, low: gap.low - within };
  };

  let open: Stretch[] = [
    look(
      turnings.map(() => 0),
      turnings.map(() => Math.PI),
    ),
  ];
  open = split(
    open[0] as Stretch,
    turnings.map(() => FIRST),
  ).map(({ middle, half }) => look(middle, half));
  let isWhole = true;
  while (open.length > 0 && best.high >= below) {
    let chosen = 0;
    for (let i = 1; i < open.length; i++) if ((open[i] as Stretch).low < (open[chosen] as Stretch).low) chosen = i;
    const stretch = open[chosen] as Stretch;
    if (stretch.low >= Math.min(best.high - wish.tolerance, enough)) {
      aside = Math.min(aside, stretch.low);
      break;
    }
    if (looked >= wish.most) {
      isWhole = false;
      aside = Math.min(aside, stretch.low);
      break;
    }
    open[chosen] = open[open.length - 1] as Stretch;
    open.pop();
    // Halve where the most can happen.
    let widest = 0;
    turnings.forEach(({ reach }, k) => {
      if (reach * (stretch.half[k] ?? 0) > (turnings[widest]?.reach ?? 0) * (stretch.half[widest] ?? 0)) widest = k;
    });
    for (const { middle, half } of split(
      stretch,
      turnings.map((_, k) => (k === widest ? 2 : 1)),
    )) {
      const next = look(middle, half);
      if (next.low < Math.min(best.high - wish.tolerance, enough)) open.push(next);
      else aside = Math.min(aside, next.low);
    }
  }
  return { ...best, low: Math.min(best.high, aside), isWhole };
}

/** A stretch cut into equal parts along each angle. */
function split({ middle, half, low }: Stretch, parts: readonly number[]): Stretch[] {
  let cells: Stretch[] = [{ middle: [], half: [], low }];
  parts.forEach((count, k) => {
    const width = (half[k] ?? 0) / count;
    cells = cells.flatMap((cell) =>
      Array.from({ length: count }, (_, i) => ({
        middle: [...cell.middle, (middle[k] ?? 0) - (half[k] ?? 0) + (2 * i + 1) * width],
        half: [...cell.half, width],
        low,
      })),
    );
  });
  return cells;
}
