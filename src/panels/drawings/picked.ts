/** Which part is meant by a press on a drawing: what is under the pointer, else the line nearest to it, else the smallest part round it. */
import type { Part } from "../../store/view";

/** Pixels round the pointer in which a line is looked for; a finger covers more than a line. */
const REACHES = [3, 6, 10];
const WAYS = 8;

const partOfMark = (element: Element | null): Part | null => {
  const mark = element?.closest("[data-gear], [data-shaft]");
  const [gear, shaft] = [mark?.getAttribute("data-gear"), mark?.getAttribute("data-shaft")];
  if (gear) return { kind: "gear", id: gear };
  return shaft ? { kind: "shaft", id: shaft } : null;
};

/** @param x pixels of the page, like `y` */
export function partAt(sheet: SVGSVGElement, target: Element, x: number, y: number): Part | null {
  const direct = partOfMark(target);
  if (direct || !document.elementFromPoint) return direct;
  for (const reach of REACHES) {
    for (let k = 0; k < WAYS; k++) {
      const a = (2 * Math.PI * k) / WAYS;
      const found = document.elementFromPoint(x + reach * Math.cos(a), y + reach * Math.sin(a));
      const part = found && sheet.contains(found) ? partOfMark(found) : null;
      if (part) return part;
    }
  }
  return partRound(sheet, x, y);
}

function partRound(sheet: SVGSVGElement, x: number, y: number): Part | null {
  let best: Part | null = null;
  let least = Infinity;
  for (const mark of sheet.querySelectorAll('[data-layer="visible"] > path')) {
    const { left, right, top, bottom } = mark.getBoundingClientRect();
    const area = (right - left) * (bottom - top);
    if (x < left || x > right || y < top || y > bottom || area >= least) continue;
    [best, least] = [partOfMark(mark), area];
  }
  return best;
}
