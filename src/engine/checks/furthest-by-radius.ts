/** For gears put along a shaft one after the other: which of those at some radius reaches furthest. A segment tree over radii. */

/** What a gear takes up of its shaft. */
export interface Room {
  readonly gear: number;
  /** Interval of the shaft, mm along its axis. */
  readonly from: number;
  readonly to: number;
  /** Radii between which the teeth lie, mm. */
  readonly inner: number;
  readonly outer: number;
  readonly isRing: boolean;
}

const further = (a: Room | undefined, b: Room | undefined): Room | undefined => (!a || (b && b.to > a.to) ? b : a);

export class FurthestByRadius {
  private readonly edges: readonly number[];
  /** For each node the furthest room that covers all of its radii, and the furthest that touches any of them. */
  private readonly whole: (Room | undefined)[] = [];
  private readonly any: (Room | undefined)[] = [];

  /** `edges`: every inner and outer radius that will be asked for. */
  constructor(edges: readonly number[]) {
    this.edges = [...new Set(edges)].sort((a, b) => a - b);
  }

  /** The room that reaches furthest of those whose band shares radii with this one. O(log n) */
  find(room: Room): Room | undefined {
    return this.ask(1, 0, this.edges.length, this.at(room.inner), this.at(room.outer));
  }

  put(room: Room): void {
    this.cover(1, 0, this.edges.length, this.at(room.inner), this.at(room.outer), room);
  }

  private at(edge: number): number {
    let low = 0;
    for (let high = this.edges.length; low < high; ) {
      const middle = (low + high) >> 1;
      if ((this.edges[middle] ?? 0) < edge) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  /** Node over the cells from `low` to `high`; the band from `first` to before `last`. */
  private ask(node: number, low: number, high: number, first: number, last: number): Room | undefined {
    if (last <= low || high <= first) return undefined;
    if (first <= low && high <= last) return this.any[node];
    const middle = (low + high) >> 1;
    const below = this.ask(2 * node, low, middle, first, last);
    const above = this.ask(2 * node + 1, middle, high, first, last);
    return further(this.whole[node], further(below, above));
  }

  private cover(node: number, low: number, high: number, first: number, last: number, room: Room): void {
    if (last <= low || high <= first) return;
    this.any[node] = further(this.any[node], room);
    if (first <= low && high <= last) {
      this.whole[node] = further(this.whole[node], room);
      return;
    }
    const middle = (low + high) >> 1;
    this.cover(2 * node, low, middle, first, last, room);
    this.cover(2 * node + 1, middle, high, first, last, room);
  }
}
