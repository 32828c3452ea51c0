/** Geometries of gears for the graphics card: body with its rim marks in one, lines in one. Shared by equal gears. */
import { BufferAttribute, BufferGeometry } from "three";
import type { GearOutline } from "../engine/collisions/gear-outline";
import { gearEdges } from "../engine/teeth/edges";
import { buildGear } from "../engine/teeth/gear-mesh";
import { grownSpec } from "../engine/teeth/grown";
import { QUALITIES, type ToothSpec, toothKey } from "../engine/teeth/spec";
import { toothOf } from "../engine/teeth/tooth-template";
import type { Level } from "./levels";
import { markShape, rimLines } from "./rim-marks";
import { joinShapes, type Shape, turnedEdges, turnedShape } from "./shapes";
import type { Pieces } from "./shared";

/** Teeth more or less fine, or bodies without. */
export type BodyDetail = Level;

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

const SMOOTH_SEGMENTS = 48;

const qualityOf = (detail: BodyDetail) => QUALITIES[detail === "smooth" ? "far" : detail];

/** What is built of a gear at a level of detail. `growth`: the part of their height that its teeth have. */
export const specAt = (spec: ToothSpec, detail: BodyDetail, growth = 1): ToothSpec =>
  grownSpec({ ...spec, quality: qualityOf(detail) }, growth);

/** What a gear's geometry depends on, as a key. */
export const geometryKey = (drawn: ToothSpec, marks: number, detail: BodyDetail): string =>
  `${detail} ${marks} ${toothKey(drawn)}`;

/** The body at place 0 of its shaft, a tooth's middle at azimuth 0, with marks across its pitch circles. Pauses between its pieces. */
export function* bodyGeometry(
  drawn: ToothSpec,
  outline: GearOutline,
  marks: number,
  detail: BodyDetail,
  growth = 1,
): Pieces<BufferGeometry> {
  if (detail !== "smooth") toothOf(drawn);
  yield;
  const body = detail === "smooth" ? turnedShape(outline.body, SMOOTH_SEGMENTS) : buildGear(drawn);
  yield;
  // A smooth body goes up to the tips whatever the growth; one that is built without its teeth ends at the pitch surface.
  return withMarks(body, markShape(outline, marks, detail === "smooth" || (growth === 0 && "end")));
}

/** Edges of the body and the pitch circles, placed as `bodyGeometry` is. */
export function* lineGeometry(drawn: ToothSpec, outline: GearOutline, detail: BodyDetail): Pieces<BufferGeometry> {
  const edges = detail === "smooth" ? turnedEdges(outline.body, SMOOTH_SEGMENTS) : gearEdges(drawn);
  yield;
  const rims = rimLines(outline);
  const points = new Float32Array(edges.length + rims.length);
  points.set(edges);
  points.set(rims, edges.length);
  return toLines(points);
}
