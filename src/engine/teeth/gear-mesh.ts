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
import type { ToothSpec } from "./spec";
import type { ToothTemplate } from "./tooth-template";
import { toothOf } from "./tooth-template";

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
  const { outline, template } = toothOf(spec);
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
    at = copyShifted(triangles, indices, at, base);
  }
  // The last pitch leads on to the first.
  for (let i = at - triangles.length; i < at; i++) {
    if ((indices[i] as number) >= toothVertices) indices[i] = (indices[i] as number) - toothVertices;
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
  // A turn the other way round at the second end.
  const put: AddTriangle = end === 0 ? add : (a, b, c) => add(a, c, b);
  const start = -Math.PI / outline.pitches;
  const pitch = (2 * Math.PI) / outline.pitches;
  const step = (2 * Math.PI) / sides;
  const first = onRoot[0] as number;
  let vertex = first;
  let azimuth = (outline.rootAzimuths[0] as number) - start;
  let j = 0;
  for (let i = 0, local = 0, base = 0, turn = 0; i < total; i++) {
    if (++local === count) {
      local = 0;
      base += perPitch;
      turn += pitch;
    }
    const next = i + 1 === total ? first : base + (onRoot[local] as number);
    const nextAzimuth = turn + (outline.rootAzimuths[local] as number) - start;
    if (axis) put(ring, vertex, next);
    else {
      while (j < sides && (2 * j + 1) * step < azimuth + nextAzimuth) {
        put(ring + j, vertex, j + 1 === sides ? ring : ring + j + 1);
        j++;
      }
      put(j === sides ? ring : ring + j, vertex, next);
    }
    vertex = next;
    azimuth = nextAzimuth;
  }
  for (; !axis && j < sides; j++) put(ring + j, vertex, j + 1 === sides ? ring : ring + j + 1);
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

// Small functions of one loop each: the engine that runs them compiles such a loop within the first gear.

/** Turns triples about z by an angle of cosine `c` and sine `s`, and where `mirror` is -1 half a turn about x. */
function copyTurned(
  from: Float64Array,
  to: Float32Array | Float64Array,
  first: number,
  c: number,
  s: number,
  mirror: number,
): void {
  for (let i = 0, at = first; i < from.length; i += 3, at += 3) {
    const x = from[i] as number;
    const y = from[i + 1] as number;
    to[at] = c * x - s * y;
    to[at + 1] = mirror * (s * x + c * y);
    to[at + 2] = mirror * (from[i + 2] as number);
  }
}

/** Copies whole numbers with `shift` added; gives the place after the last. */
function copyShifted(from: Uint32Array, to: Uint32Array, first: number, shift: number): number {
  for (let i = 0; i < from.length; i++) to[first + i] = shift + (from[i] as number);
  return first + from.length;
}

/** Builds what is drawn. Same spec, same mesh. */
export function buildGear(spec: ToothSpec): GearMesh {
  const plan = planGear(spec);
  const { outline, template } = plan;
  const positions = new Float32Array(3 * plan.vertices);
  const normals = new Float32Array(3 * plan.vertices);
  const mirror = spec.isFlipped ? -1 : 1;
  const count = template.pointOf.length;
  const points = new Float64Array(3 * count);
  for (let v = 0; v < count; v++) {
    const p = 3 * (template.pointOf[v] as number);
    points[3 * v] = template.points[p] as number;
    points[3 * v + 1] = template.points[p + 1] as number;
    points[3 * v + 2] = template.points[p + 2] as number;
  }
  for (let pitch = 0; pitch < outline.pitches; pitch++) {
    const angle = (2 * Math.PI * pitch) / outline.pitches;
    copyTurned(points, positions, 3 * count * pitch, Math.cos(angle), Math.sin(angle), mirror);
    copyTurned(template.normals, normals, 3 * count * pitch, Math.cos(angle), Math.sin(angle), mirror);
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
  for (let pitch = 0; pitch < outline.pitches; pitch++) {
    const angle = (2 * Math.PI * pitch) / outline.pitches;
    copyTurned(template.points, points, 3 * perPitch * pitch, Math.cos(angle), Math.sin(angle), mirror);
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
