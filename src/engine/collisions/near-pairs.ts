/**
 * Boxes that meet, found in a tree of boxes: each node holds the box round its own, so that what lies apart is never compared. Time
 * grows as n log n and the number of boxes that do meet.
 */

/** Boxes end to end, six numbers each: least x, y, z, then greatest. */
export type Boxes = Float64Array;

const LEAF = 4;

interface Node {
  readonly from: number;
  readonly to: number;
  readonly box: Float64Array;
  readonly first: Node | null;
  readonly second: Node | null;
}

/** Calls `meet` once for every two boxes that meet or touch, until it answers false. `i < j` need not hold. */
export function nearPairs(boxes: Boxes, meet: (i: number, j: number) => boolean): void {
  const count = boxes.length / 6;
  if (count < 2) return;
  const order = Int32Array.from({ length: count }, (_, i) => i);
  const root = build(boxes, order, 0, count);
  let isOver = false;
  const compare = (i: number, j: number): void => {
    if (!isOver && boxesMeet(boxes, 6 * i, boxes, 6 * j)) isOver = !meet(i, j);
  };
  const within = (node: Node): void => {
    if (isOver) return;
    if (node.first && node.second) {
      within(node.first);
      within(node.second);
      between(node.first, node.second);
      return;
    }
    for (let a = node.from; a < node.to; a++) {
      for (let b = a + 1; b < node.to; b++) compare(order[a] as number, order[b] as number);
    }
  };
  const between = (a: Node, b: Node): void => {
    if (isOver || !boxesMeet(a.box, 0, b.box, 0)) return;
    const isLeafA = a.first === null;
    const isLeafB = b.first === null;
    if (isLeafA && isLeafB) {
      for (let i = a.from; i < a.to; i++) {
        for (let j = b.from; j < b.to; j++) compare(order[i] as number, order[j] as number);
      }
    } else if (isLeafB || (!isLeafA && a.to - a.from >= b.to - b.from)) {
      between(a.first as Node, b);
      between(a.second as Node, b);
    } else {
      between(a, b.first as Node);
      between(a, b.second as Node);
    }
  };
  within(root);
}

function boxesMeet(a: Float64Array, i: number, b: Float64Array, j: number): boolean {
  for (let k = 0; k < 3; k++) {
    if ((a[i + k] as number) > (b[j + 3 + k] as number) || (b[j + k] as number) > (a[i + 3 + k] as number))
      return false;
  }
  return true;
}

function build(boxes: Boxes, order: Int32Array, from: number, to: number): Node {
  const box = new Float64Array([Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity]);
  const middles = new Float64Array([Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity]);
  for (let a = from; a < to; a++) {
    const i = 6 * (order[a] as number);
    for (let k = 0; k < 3; k++) {
      const [low, high] = [boxes[i + k] as number, boxes[i + 3 + k] as number];
      if (low < (box[k] as number)) box[k] = low;
      if (high > (box[3 + k] as number)) box[3 + k] = high;
      const middle = low + high;
      if (middle < (middles[k] as number)) middles[k] = middle;
      if (middle > (middles[3 + k] as number)) middles[3 + k] = middle;
    }
  }
  if (to - from <= LEAF) return { from, to, box, first: null, second: null };
  let axis = 0;
  for (let k = 1; k < 3; k++) {
    if (
      (middles[3 + k] as number) - (middles[k] as number) >
      (middles[3 + axis] as number) - (middles[axis] as number)
    ) {
      axis = k;
    }
  }
  const key = (a: number): number => {
    const i = 6 * (order[a] as number) + axis;
    return (boxes[i] as number) + (boxes[i + 3] as number);
  };
  // Those on the lower side of the middle go first.
  const middle = ((middles[axis] as number) + (middles[3 + axis] as number)) / 2;
  let [a, b] = [from, to - 1];
  while (a <= b) {
    if (key(a) < middle) a++;
    else {
      const kept = order[a] as number;
      order[a] = order[b] as number;
      order[b] = kept;
      b--;
    }
  }
  // All in one place: half and half.
  const cut = a === from || a === to ? (from + to) >> 1 : a;
  return { from, to, box, first: build(boxes, order, from, cut), second: build(boxes, order, cut, to) };
}
