/**
 * The edges of a gear, at which its surface has a crease: tips, the outlines of both ends, the circles of the body. Found on one tooth and
 * turned, as the gear itself is. Same frame as gear-mesh.ts.
 */
import { type AxialPoint, blankOf, endPoint } from "./blank";
import type { Outline } from "./outline";
import type { ToothSpec } from "./spec";
import { type ToothTemplate, toothOf } from "./tooth-template";

/** Cosine: faces that meet at a smaller angle than this make no crease. Ours, for the drawing. */
const SMOOTH = Math.cos((18 * Math.PI) / 180);

/** Pairs of ends, x y z in mm. */
export function gearEdges(spec: ToothSpec): Float32Array {
  const { outline, template } = toothOf(spec);
  const tooth = toothEdges(template, outline);
  const circles = bodyCircles(spec, outline);
  const sides = spec.quality.body;
  const mirror = spec.isFlipped ? -1 : 1;
  const edges = new Float32Array(tooth.length * outline.pitches + circles.length * 6 * sides);
  let at = 0;
  for (let pitch = 0; pitch < outline.pitches; pitch++) {
    const angle = (2 * Math.PI * pitch) / outline.pitches;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    for (let i = 0; i < tooth.length; i += 3, at += 3) {
      const [x, y] = [tooth[i] as number, tooth[i + 1] as number];
      edges[at] = c * x - s * y;
      edges[at + 1] = mirror * (s * x + c * y);
      edges[at + 2] = mirror * (tooth[i + 2] as number);
    }
  }
  for (const [r, z] of circles) {
    for (let i = 0; i < sides; i++) {
      for (const end of [i, i + 1]) {
        // The body's sides begin in the middle of a gap.
        const azimuth = (2 * Math.PI * end) / sides - Math.PI / outline.pitches;
        edges[at++] = r * Math.cos(azimuth);
        edges[at++] = mirror * r * Math.sin(azimuth);
        edges[at++] = mirror * z;
      }
    }
  }
  return edges;
}

/** An edge of a triangle: its ends as vertices, the end of the lower point first. */
interface Side {
  readonly low: number;
  readonly high: number;
}

/** Edges of one pitch, pairs of points; where the surface goes on in the next pitch, the edge belongs to this one. */
function toothEdges({ points, pointOf, normals, triangles, rootVertices }: ToothTemplate, outline: Outline): number[] {
  const vertices = pointOf.length;
  const perPitch = points.length / 3;
  /** A vertex's point; those of the next pitch are counted on. */
  const pointAt = (vertex: number): number =>
    vertex < vertices ? (pointOf[vertex] ?? 0) : perPitch + (pointOf[vertex - vertices] ?? 0);
  const turn = (2 * Math.PI) / outline.pitches;
  const place = (point: number): readonly [number, number, number] => {
    const p = 3 * (point < perPitch ? point : point - perPitch);
    const angle = point < perPitch ? 0 : turn;
    const [x, y, z] = [points[p] ?? 0, points[p + 1] ?? 0, points[p + 2] ?? 0];
    return [Math.cos(angle) * x - Math.sin(angle) * y, Math.sin(angle) * x + Math.cos(angle) * y, z];
  };
  const open = new Map<number, Side>();
  const edges: number[] = [];
  const add = (a: number, b: number): void => {
    edges.push(...place(a), ...place(b));
  };
  for (let t = 0; t < triangles.length; t++) {
    const [v, w] = [triangles[t] ?? 0, triangles[t % 3 === 2 ? t - 2 : t + 1] ?? 0];
    let [p, q] = [pointAt(v), pointAt(w)];
    // Wholly in the next pitch: found there again.
    if (p >= perPitch && q >= perPitch) [p, q] = [p - perPitch, q - perPitch];
    const side = p < q ? { low: v, high: w } : { low: w, high: v };
    const key = Math.min(p, q) * 2 * perPitch + Math.max(p, q);
    const mate = open.get(key);
    if (!mate) open.set(key, side);
    else {
      open.delete(key);
      if (isCreased(mate, side)) add(p, q);
    }
  }
  // What is left borders on the body: there the end faces go on flat, and the root lands end.
  const flat = new Set([...rootVertices[0], ...rootVertices[1]]);
  for (const { low, high } of open.values()) {
    if (!flat.has(low % vertices) || !flat.has(high % vertices)) add(pointAt(low), pointAt(high));
  }
  return edges;

  function isCreased(a: Side, b: Side): boolean {
    if (a.low === b.low && a.high === b.high) return false;
    return cosine(a.low, b.low) < SMOOTH || cosine(a.high, b.high) < SMOOTH;
  }

  function cosine(v: number, w: number): number {
    const [i, j] = [3 * (v % vertices), 3 * (w % vertices)];
    let sum = 0;
    for (let k = 0; k < 3; k++) sum += (normals[i + k] ?? 0) * (normals[j + k] ?? 0);
    return sum;
  }
}

/** The points of the body's line at which it has a corner. */
function bodyCircles(spec: ToothSpec, outline: Outline): AxialPoint[] {
  const { line } = blankOf(spec, outline.root, outline.sag);
  const [first, last] = [endPoint(spec, outline.root, 0), endPoint(spec, outline.root, 1)];
  const whole = [first, ...line, last];
  return line.filter((point, i) => {
    if (point[0] === 0) return false;
    const [before, after] = [whole[i] ?? point, whole[i + 2] ?? point];
    const [a, b] = [
      [point[0] - before[0], point[1] - before[1]],
      [after[0] - point[0], after[1] - point[1]],
    ] as const;
    const sizes = Math.hypot(...a) * Math.hypot(...b);
    return sizes > 0 && a[0] * b[0] + a[1] * b[1] < SMOOTH * sizes;
  });
}
