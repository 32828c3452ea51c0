/** Parallel lines over a flat polygon, at 45 degrees. ISO 128-50. Lengths in mm. */
import type { Point } from "./types";

export interface Hatch {
  /** 1 rises to the right, -1 falls. */
  readonly slope: 1 | -1;
  /** mm between neighbouring lines, square to them. */
  readonly spacing: number;
}

/** Whether the point lies within the closed polygon (even-odd). */
export function holds(polygon: readonly Point[], [x, y]: Point): boolean {
  let inside = false;
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const [xi, yi] = polygon[i] as Point;
    const [xj, yj] = polygon[j] as Point;
    if (yi > y !== yj > y && x < xi + ((y - yi) / (yj - yi)) * (xj - xi)) inside = !inside;
  }
  return inside;
}

/** The lines lie on one grid for the whole view, so that separate cuts of one part carry the same hatching. */
export function hatchLines(polygon: readonly Point[], { slope, spacing }: Hatch): (readonly [Point, Point])[] {
  // Square to the lines, and along them.
  const h = Math.SQRT1_2;
  const turned = polygon.map(([x, y]): Point => [h * (x + slope * y), h * (y - slope * x)]);
  const heights = turned.map(([, v]) => v);
  const lines: (readonly [Point, Point])[] = [];
  for (let k = Math.ceil(Math.min(...heights) / spacing); k * spacing <= Math.max(...heights); k++) {
    const v = k * spacing;
    const crossings: number[] = [];
    turned.forEach(([u0, v0], i) => {
      const [u1, v1] = turned[(i + 1) % turned.length] as Point;
      if (v0 > v !== v1 > v) crossings.push(u0 + ((v - v0) / (v1 - v0)) * (u1 - u0));
    });
    crossings.sort((a, b) => a - b);
    const back = (u: number): Point => [h * (u - slope * v), h * (slope * u + v)];
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      const [a, b] = [crossings[i] as number, crossings[i + 1] as number];
      if (b - a > 1e-6) lines.push([back(a), back(b)]);
    }
  }
  return lines;
}
