/**
 * Each stretch of a line or an arc is drawn once: what comes again on the same carrier is left out, so that no hidden edge lies under
 * a visible one and no rim is drawn over its twin. Lengths in mm.
 */
import type { ArcItem, DrawnPart, LineItem, Point } from "./types";

type Interval = readonly [from: number, to: number];

/** mm within which two carriers are one. */
const SAME = 1e-3;
/** mm: shorter pieces are of no use to the eye. */
const SHORTEST = 5e-3;
const TURN = 2 * Math.PI;

/** What of `piece` the sorted, disjoint `covered` leaves free. */
function leftOf(piece: Interval, covered: readonly Interval[], least: number): Interval[] {
  const left: Interval[] = [];
  let [from] = piece;
  for (const [low, high] of covered) {
    if (high <= from) continue;
    if (low >= piece[1]) break;
    if (low - from > least) left.push([from, low]);
    from = Math.max(from, high);
  }
  if (piece[1] - from > least) left.push([from, piece[1]]);
  return left;
}

function addTo(covered: Interval[], piece: Interval): Interval[] {
  const joined: Interval[] = [];
  let [from, to] = piece;
  for (const one of covered) {
    if (one[1] < from || one[0] > to) joined.push(one);
    else [from, to] = [Math.min(from, one[0]), Math.max(to, one[1])];
  }
  joined.push([from, to]);
  return joined.sort((a, b) => a[0] - b[0]);
}

const whole = (x: number, step: number): number => Math.round(x / step) || 0;

export class Cover {
  private readonly carriers = new Map<string, Interval[]>();

  /** What of the line is not yet drawn. */
  line(from: Point, to: Point, part: DrawnPart): LineItem[] {
    let [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    const size = Math.hypot(dx, dy);
    if (size < SHORTEST) return [];
    [dx, dy] = [dx / size, dy / size];
    if (dx < -1e-9 || (Math.abs(dx) <= 1e-9 && dy < 0)) [dx, dy] = [-dx, -dy];
    const offset = dx * from[1] - dy * from[0];
    const a = dx * from[0] + dy * from[1];
    const b = dx * to[0] + dy * to[1];
    const key = `line ${whole(Math.atan2(dy, dx), 1e-5)} ${whole(offset, SAME)}`;
    const point = (s: number): Point => [s * dx - offset * dy, s * dy + offset * dx];
    return this.take(key, [Math.min(a, b), Math.max(a, b)], SHORTEST).map(([s, e]) => ({
      shape: "line",
      points: [point(s), point(e)],
      part,
    }));
  }

  /** What of the arc is not yet drawn; `from` < `to`, at most a turn. */
  arc(arc: Omit<ArcItem, "shape" | "part">, part: DrawnPart): ArcItem[] {
    const { centre, rx, ry, tilt, from, to } = arc;
    if (rx < SAME) return [];
    const isRound = Math.abs(rx - ry) < 1e-9 * rx;
    const key = `arc ${[centre[0], centre[1], rx, ry].map((x) => whole(x, SAME)).join(" ")} ${isRound ? 0 : whole(tilt, 1e-5)}`;
    const start = from - TURN * Math.floor(from / TURN);
    const end = start + Math.min(TURN, to - from);
    const least = SHORTEST / rx;
    const pieces = this.take(key, [start, Math.min(end, TURN)], least);
    const beyond = end > TURN + 1e-12 ? this.take(key, [0, end - TURN], least) : [];
    // Over the seam at 0 the two pieces are one.
    const [last, first] = [pieces.at(-1), beyond[0]];
    if (last && first && last[1] === TURN && first[0] === 0) {
      pieces[pieces.length - 1] = [last[0], TURN + first[1]];
      beyond.shift();
    }
    return [...pieces, ...beyond].map(([s, e]) => ({ shape: "arc", centre, rx, ry, tilt, from: s, to: e, part }));
  }

  private take(key: string, piece: Interval, least: number): Interval[] {
    const covered = this.carriers.get(key) ?? [];
    const left = leftOf(piece, covered, least);
    if (left.length > 0) this.carriers.set(key, addTo(covered, piece));
    return left;
  }
}
