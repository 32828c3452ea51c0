/** Points of a pen as a smooth line. */

export interface Point {
  readonly x: number;
  readonly y: number;
}

const at = ({ x, y }: Point): string => `${x.toFixed(1)} ${y.toFixed(1)}`;
const middle = (a: Point, b: Point): Point => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });

/** SVG path data through the middles between points, bent by the points themselves; a dot for a single one, "" for none. */
export function inkPath(points: readonly Point[]): string {
  const [first] = points;
  const last = points.at(-1);
  if (!first || !last) return "";
  // A line of no length is drawn by its round ends.
  if (points.length === 1) return `M${at(first)}h0`;
  let path = `M${at(first)}`;
  for (let i = 1; i < points.length - 1; i++) {
    const [point, next] = [points[i], points[i + 1]];
    if (point && next) path += `Q${at(point)} ${at(middle(point, next))}`;
  }
  return `${path}L${at(last)}`;
}
