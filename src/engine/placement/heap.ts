/** A least-first queue of numbers (binary heap): the meshes to look at next, in the order of passes over the document. */
export class Heap {
  private readonly items: number[] = [];

  push(value: number): void {
    const { items } = this;
    let at = items.length;
    items.push(value);
    while (at > 0) {
      const above = (at - 1) >> 1;
      const parent = items[above] as number;
      if (parent <= value) break;
      items[at] = parent;
      at = above;
    }
    items[at] = value;
  }

  /** The least value, taken out; undefined where there is none. */
  pop(): number | undefined {
    const { items } = this;
    const least = items[0];
    const last = items.pop();
    if (least === undefined || last === undefined || items.length === 0) return least;
    let at = 0;
    for (;;) {
      let below = 2 * at + 1;
      if (below >= items.length) break;
      if (below + 1 < items.length && (items[below + 1] as number) < (items[below] as number)) below++;
      const child = items[below] as number;
      if (child >= last) break;
      items[at] = child;
      at = below;
    }
    items[at] = last;
    return least;
  }
}
