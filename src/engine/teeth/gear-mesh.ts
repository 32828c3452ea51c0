/**
 * The whole gear as triangles: teeth and body, closed, facing outward.
 *
 * Frame: z along the shaft's positive axis, x along its `ref`, origin on the axis at the gear's `at`; the middle of a
 * tooth (of a ring's tooth too) lies at azimuth 0. In the world: turn by the shaft's rotation and the gear's `phase` about
 * z, then stand it on the shaft (pose.ts).
 */
import type { AxialPoint, Blank } from "./blank";
import { blankOf } from "./blank";
import type { Outline } from "./outline";
import { outlineOf } from "./outline";
import type { ToothSpec } from "./spec";
import type { ToothTemplate } from "./tooth-template";
import { toothTemplate } from "./tooth-template";

/** For drawing: vertices are split where the surface has an edge. */
export interface GearMesh {
  /** x, y, z in mm. */
  readonly positions: Float32Array;
  /** Unit. */
  readonly normals: Float32Array;
  /** Three a triangle, counterclockwise from outside. */
  readonly indices: Uint32Array;
}

/** For export and checks: every point once, in doubles. */
export interface GearSolid {
  /** x, y, z in mm. */
  readonly points: Float64Array;
  readonly triangles: Uint32Array;
}

interface Plan {
  readonly spec: ToothSpec;
  readonly outline: Outline;
  readonly template: ToothTemplate;
  readonly blank: Blank;
  readonly bands: readonly Band[];
  readonly toothVertices: number;
  readonly vertices: number;
  readonly triangles: number;
}

/** A band of the body between two neighbouring points of its line, or between the teeth and the line's end. */
interface Band {
  readonly from: AxialPoint | null;
  readonly to: AxialPoint | null;
  /** Numbers in the blank's line. */
  readonly fromPoint: number;
  readonly toPoint: number;
  /** First vertex of each of its own rings. */
  readonly fromVertex: number;
  readonly toVertex: number;
}

const isOnAxis = (point: AxialPoint | null): boolean => point !== null && point[0] === 0;

function planGear(spec: ToothSpec): Plan {
  const outline = outlineOf(spec);
  const template = toothTemplate(spec, outline);
  const blank = blankOf(spec, outline.root, outline.sag);
  const sides = spec.quality.body;
  const rootCount = outline.rootAzimuths.length * outline.pitches;
  const toothVertices = template.pointOf.length * outline.pitches;
  const line: (AxialPoint | null)[] = [null, ...blank.line, null];
  const bands: Band[] = [];
  let vertices = toothVertices;
  let triangles = (template.triangles.length / 3) * outline.pitches;
  for (let i = 0; i + 1 < line.length; i++) {
    const [from, to] = [line[i] ?? null, line[i + 1] ?? null];
    if (isOnAxis(from) && isOnAxis(to)) continue;
    bands.push({
      from,
      to,
      fromPoint: i - 1,
      toPoint: i,
      fromVertex: vertices,
      toVertex: vertices + (from ? sides : 0),
    });
    vertices += (from ? sides : 0) + (to ? sides : 0);
    const around = (point: AxialPoint | null) => (point === null ? rootCount : isOnAxis(point) ? 0 : sides);
    triangles += around(from) + around(to);
  }
  return { spec, outline, template, blank, bands, toothVertices, vertices, triangles };
}

/** Indices of all triangles, by vertices of the drawing mesh. */
function planIndices(plan: Plan): Uint32Array {
  const { outline, template, spec, toothVertices } = plan;
  const indices = new Uint32Array(3 * plan.triangles);
  const { triangles, pointOf } = template;
  const perPitch = pointOf.length;
  let at = 0;
  for (let pitch = 0; pitch < outline.pitches; pitch++) {
    const base = pitch * perPitch;
    const isLast = pitch === outline.pitches - 1;
    for (let i = 0; i < triangles.length; i++) {
      const vertex = base + (triangles[i] as number);
      indices[at++] = isLast && vertex >= toothVertices ? vertex - toothVertices : vertex;
    }
  }
  const flip = outline.outward < 0;
  const add = (a: number, b: number, c: number) => {
    indices[at++] = a;
    indices[at++] = flip ? c : b;
    indices[at++] = flip ? b : c;
  };
  for (const band of plan.bands) {
    if (band.from && band.to) joinRings(band, spec.quality.body, add);
    else joinTeeth(plan, band, add);
  }
  return indices;
}

type AddTriangle = (a: number, b: number, c: number) => void;

function joinRings(band: Band, sides: number, add: AddTriangle): void {
  const { fromVertex: p, toVertex: n } = band;
  for (let i = 0; i < sides; i++) {
    const next = (i + 1) % sides;
    if (!isOnAxis(band.from)) add(n + i, p + i, p + next);
    if (!isOnAxis(band.to)) add(n + i, p + next, n + next);
  }
}

/** Between the many points of the root circle and the body's fewer sides: always the nearer next point. */
function joinTeeth(plan: Plan, band: Band, add: AddTriangle): void {
  const { outline, template, spec } = plan;
  const end = band.from === null ? 0 : 1;
  const onRoot = template.rootVertices[end] as Uint32Array;
  const perPitch = template.pointOf.length;
  const count = onRoot.length;
  const total = count * outline.pitches;
  const sides = spec.quality.body;
  const ring = end === 0 ? band.toVertex : band.fromVertex;
  const axis = isOnAxis(end === 0 ? band.to : band.from);
  const start = -Math.PI / outline.pitches;
  const azimuth = (i: number) =>
    (outline.rootAzimuths[i % count] ?? 0) - start + (2 * Math.PI * Math.floor(i / count)) / outline.pitches;
  const rootVertex = (i: number) => Math.floor((i % total) / count) * perPitch + (onRoot[i % count] ?? 0);
  // A turn the other way round at the second end.
  const put: AddTriangle = end === 0 ? add : (a, b, c) => add(a, c, b);
  if (axis) {
    for (let i = 0; i < total; i++) put(ring, rootVertex(i), rootVertex(i + 1));
    return;
  }
  const step = (2 * Math.PI) / sides;
  for (let i = 0, j = 0; i < total || j < sides; ) {
    const rootMiddle = i < total ? azimuth(i) + azimuth(i + 1) : Infinity;
    const ringMiddle = j < sides ? (2 * j + 1) * step : Infinity;
    if (rootMiddle <= ringMiddle) {
      put(ring + (j % sides), rootVertex(i), rootVertex(i + 1));
      i++;
    } else {
      put(ring + (j % sides), rootVertex(i), ring + ((j + 1) % sides));
      j++;
    }
  }
}

/** Directions of the body's sides: the first lies in the middle of a gap, as the first point of the teeth does. */
function sideDirections(plan: Plan): Float64Array {
  const sides = plan.spec.quality.body;
  const directions = new Float64Array(2 * sides);
  for (let i = 0; i < sides; i++) {
    const azimuth = (2 * Math.PI * i) / sides - Math.PI / plan.outline.pitches;
    directions[2 * i] = Math.cos(azimuth);
    directions[2 * i + 1] = Math.sin(azimuth);
  }
  return directions;
}

/** Radius and z of the root circle's points at each end, as an axial point. */
function rootPoint(plan: Plan, end: 0 | 1): AxialPoint {
  const { points, pointOf, rootVertices } = plan.template;
  const p = pointOf[rootVertices[end]?.[0] ?? 0] ?? 0;
  return [Math.hypot(points[3 * p] ?? 0, points[3 * p + 1] ?? 0), points[3 * p + 2] ?? 0];
}

/** Builds what is drawn. Same spec, same mesh. */
export function buildGear(spec: ToothSpec): GearMesh {
  const plan = planGear(spec);
  const { outline, template } = plan;
  const positions = new Float32Array(3 * plan.vertices);
  const normals = new Float32Array(3 * plan.vertices);
  const mirror = spec.isFlipped ? -1 : 1;
  const count = template.pointOf.length;
  const vertexPoints = new Float64Array(3 * count);
  for (let v = 0; v < count; v++) {
    const p = template.pointOf[v] as number;
    for (let k = 0; k < 3; k++) vertexPoints[3 * v + k] = template.points[3 * p + k] as number;
  }
  for (let pitch = 0, at = 0; pitch < outline.pitches; pitch++) {
    const angle = (2 * Math.PI * pitch) / outline.pitches;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    for (let v = 0; v < 3 * count; v += 3, at += 3) {
      const [x, y] = [vertexPoints[v] as number, vertexPoints[v + 1] as number];
      positions[at] = c * x - s * y;
      positions[at + 1] = mirror * (s * x + c * y);
      positions[at + 2] = mirror * (vertexPoints[v + 2] as number);
      const [nx, ny] = [template.normals[v] as number, template.normals[v + 1] as number];
      normals[at] = c * nx - s * ny;
      normals[at + 1] = mirror * (s * nx + c * ny);
      normals[at + 2] = mirror * (template.normals[v + 2] as number);
    }
  }
  const directions = sideDirections(plan);
  for (const band of plan.bands) {
    const [r0, z0] = band.from ?? rootPoint(plan, 0);
    const [r1, z1] = band.to ?? rootPoint(plan, 1);
    const size = Math.hypot(r1 - r0, z1 - z0) || 1;
    const [radial, axial] = [(outline.outward * (z1 - z0)) / size, (-outline.outward * (r1 - r0)) / size];
    const ring = (first: number, [r, z]: AxialPoint) => {
      for (let i = 0, at = 3 * first; i < directions.length; i += 2, at += 3) {
        const [c, s] = [directions[i] as number, directions[i + 1] as number];
        positions[at] = r * c;
        positions[at + 1] = mirror * r * s;
        positions[at + 2] = mirror * z;
        normals[at] = radial * c;
        normals[at + 1] = mirror * radial * s;
        normals[at + 2] = mirror * axial;
      }
    };
    if (band.from) ring(band.fromVertex, band.from);
    if (band.to) ring(band.toVertex, band.to);
  }
  return { positions, normals, indices: planIndices(plan) };
}

/** Builds the closed solid: the same triangles, each point once. */
export function buildSolid(spec: ToothSpec): GearSolid {
  const plan = planGear(spec);
  const { outline, template, blank } = plan;
  const sides = spec.quality.body;
  const mirror = spec.isFlipped ? -1 : 1;
  const perPitch = template.points.length / 3;
  const toothPoints = perPitch * outline.pitches;
  // One ring of points for each point of the line, or one point where it lies on the axis.
  const firstOf: number[] = [];
  let total = toothPoints;
  for (const point of blank.line) {
    firstOf.push(total);
    total += isOnAxis(point) ? 1 : sides;
  }
  const points = new Float64Array(3 * total);
  for (let pitch = 0, at = 0; pitch < outline.pitches; pitch++) {
    const angle = (2 * Math.PI * pitch) / outline.pitches;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    for (let p = 0; p < 3 * perPitch; p += 3, at += 3) {
      const [x, y] = [template.points[p] as number, template.points[p + 1] as number];
      points[at] = c * x - s * y;
      points[at + 1] = mirror * (s * x + c * y);
      points[at + 2] = mirror * (template.points[p + 2] as number);
    }
  }
  const directions = sideDirections(plan);
  blank.line.forEach(([r, z], i) => {
    const count = r === 0 ? 1 : sides;
    for (let k = 0; k < count; k++) {
      const at = 3 * ((firstOf[i] ?? 0) + k);
      points[at] = r * (directions[2 * k] ?? 0);
      points[at + 1] = mirror * r * (directions[2 * k + 1] ?? 0);
      points[at + 2] = mirror * z;
    }
  });
  const pointOf = new Uint32Array(plan.vertices);
  const count = template.pointOf.length;
  for (let v = 0; v < plan.toothVertices; v++) {
    pointOf[v] = Math.floor(v / count) * perPitch + (template.pointOf[v % count] as number);
  }
  for (const band of plan.bands) {
    const fill = (vertex: number, point: number) => {
      const single = isOnAxis(blank.line[point] ?? null);
      for (let i = 0; i < sides; i++) pointOf[vertex + i] = (firstOf[point] ?? 0) + (single ? 0 : i);
    };
    if (band.from) fill(band.fromVertex, band.fromPoint);
    if (band.to) fill(band.toVertex, band.toPoint);
  }
  return { points, triangles: planIndices(plan).map((v) => pointOf[v] as number) };
}
