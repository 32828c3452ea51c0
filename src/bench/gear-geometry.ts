/** Geometries of gears for the graphics card: body with its rim marks in one, lines in one. Shared by equal gears. */
import { BufferAttribute, BufferGeometry } from "three";
import type { Solved } from "../engine/solved";
import { buildGear } from "../engine/teeth/gear-mesh";
import { grownSpec } from "../engine/teeth/grown";
import { QUALITIES, type ToothSpec, toothKey, toothSpec } from "../engine/teeth/spec";
import type { GearOutline } from "./gear-outline";
import { markShape, rimLines } from "./rim-marks";
import { joinShapes, type Shape, turnedShape } from "./shapes";

/** Teeth, or bodies without. */
export type BodyDetail = "teeth" | "smooth";

/** Points that the graphics card can place; all of a shape or none. A cone that degenerates has no place to be drawn at. */
const placeable = (points: Float32Array): boolean => {
  for (let i = 0; i < points.length; i++) if (!Number.isFinite(points[i])) return false;
  return true;
};
const NO_SHAPE: Shape = { positions: new Float32Array(), normals: new Float32Array(), indices: new Uint32Array() };

export function toGeometry(shape: Shape): BufferGeometry {
  const { positions, normals, indices } = placeable(shape.positions) ? shape : NO_SHAPE;
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(positions, 3));
  geometry.setAttribute("normal", new BufferAttribute(normals, 3));
  const corners = positions.length / 3;
  geometry.setIndex(new BufferAttribute(corners < 65536 ? new Uint16Array(indices) : indices, 1));
  return geometry;
}

export function toLines(points: Float32Array): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(placeable(points) ? points : new Float32Array(), 3));
  return geometry;
}

/** Grey of a mark, as a factor on the body's colour: 0 to 255. */
const MARK_SHADE = 40;

function withMarks(body: Shape, marks: Shape): BufferGeometry {
  const geometry = toGeometry(joinShapes([body, marks]));
  if (geometry.getAttribute("position").count === 0)
    return geometry.setAttribute("color", new BufferAttribute(new Uint8Array(), 3, true));
  const shades = new Uint8Array(body.positions.length + marks.positions.length).fill(255);
  shades.fill(MARK_SHADE, body.positions.length);
  geometry.setAttribute("color", new BufferAttribute(shades, 3, true));
  return geometry;
}

const SMOOTH_SEGMENTS = 64;

const specOf = ({ drive, index, placement }: Solved, outline: GearOutline, growth: number): ToothSpec =>
  grownSpec(toothSpec(drive, index, placement, outline.gear, QUALITIES.bench), growth);

/** What a gear's geometry depends on, as a key. `growth`: the part of their height that its teeth have. */
export const geometryKey = (
  solved: Solved,
  outline: GearOutline,
  marks: number,
  detail: BodyDetail,
  growth = 1,
): string => `${detail} ${marks} ${toothKey(specOf(solved, outline, growth))}`;

/** The body at place 0 of its shaft, a tooth's middle at azimuth 0, with marks across its pitch circles. */
export function bodyGeometry(
  solved: Solved,
  outline: GearOutline,
  marks: number,
  detail: BodyDetail,
  growth = 1,
): BufferGeometry {
  const body =
    detail === "teeth" ? buildGear(specOf(solved, outline, growth)) : turnedShape(outline.body, SMOOTH_SEGMENTS);
  return withMarks(body, markShape(outline, marks, growth === 0 ? "alone" : detail === "smooth"));
}

/** Edges of the body and the pitch circles. `body`: the geometry that the edges are those of. */
export function lineGeometry(body: BufferGeometry, outline: GearOutline): BufferGeometry {
  const edges = creases(body);
  const rims = rimLines(outline);
  const points = new Float32Array(edges.length + rims.length);
  points.set(edges);
  points.set(rims, edges.length);
  return toLines(points);
}

/** Cosine: a smaller angle than this between two faces is no crease. */
const SMOOTH = Math.cos((18 * Math.PI) / 180);

/**
 * Edges at which the surface has a crease. Corners are split there, so in the index such an edge belongs to one triangle only; it is
 * found from both sides, and kept where the two sides' normals differ (a fan's corners are split where it is flat).
 */
function creases(geometry: BufferGeometry): Float32Array {
  const index = geometry.index?.array ?? [];
  const positions = geometry.getAttribute("position").array;
  const normals = geometry.getAttribute("normal").array;
  const shades = geometry.getAttribute("color").array;
  const corners = positions.length / 3;
  const single = new Set<number>();
  for (let t = 0; t < index.length; t += 3) {
    for (let k = 0; k < 3; k++) {
      const a = index[t + k] as number;
      const b = index[t + ((k + 1) % 3)] as number;
      // Marks have no lines round them.
      if ((shades[3 * a] ?? 0) < 255) continue;
      const key = a < b ? a * corners + b : b * corners + a;
      if (!single.delete(key)) single.add(key);
    }
  }
  const other = new Map<string, number>();
  const points: number[] = [];
  for (const key of single) {
    const [a, b] = [Math.floor(key / corners), key % corners];
    const middle = [0, 1, 2]
      .map((k) => Math.round(((positions[3 * a + k] ?? 0) + (positions[3 * b + k] ?? 0)) * 512))
      .join(" ");
    const mate = other.get(middle);
    if (mate === undefined) {
      other.set(middle, a);
      continue;
    }
    let [cosine, sizeA, sizeB] = [0, 0, 0];
    for (let k = 0; k < 3; k++) {
      const [n, m] = [normals[3 * a + k] ?? 0, normals[3 * mate + k] ?? 0];
      cosine += n * m;
      sizeA += n * n;
      sizeB += m * m;
    }
    if (cosine > SMOOTH * Math.sqrt(sizeA * sizeB)) continue;
    for (const corner of [a, b]) {
      points.push(positions[3 * corner] ?? 0, positions[3 * corner + 1] ?? 0, positions[3 * corner + 2] ?? 0);
    }
  }
  return new Float32Array(points);
}
