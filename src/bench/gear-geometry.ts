/** Geometries of gears for the graphics card: body with its rim marks in one, lines in one. Shared by equal gears. */
import { BufferAttribute, BufferGeometry } from "three";
import type { Solved } from "../engine/solved";
import { QUALITIES, toothKey, toothSpec } from "../engine/teeth/spec";
import type { GearOutline } from "./gear-outline";
import { markShape, rimLines } from "./rim-marks";
import { joinShapes, type Shape, turnedShape } from "./shapes";

/** Teeth, or bodies without. */
export type BodyDetail = "teeth" | "smooth";

export function toGeometry({ positions, normals, indices }: Shape): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(positions, 3));
  geometry.setAttribute("normal", new BufferAttribute(normals, 3));
  const corners = positions.length / 3;
  geometry.setIndex(new BufferAttribute(corners < 65536 ? new Uint16Array(indices) : indices, 1));
  return geometry;
}

export function toLines(points: Float32Array): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(points, 3));
  return geometry;
}

/** Grey of a mark, as a factor on the body's colour: 0 to 255. */
const MARK_SHADE = 40;

function withMarks(body: Shape, marks: Shape): BufferGeometry {
  const geometry = toGeometry(joinShapes([body, marks]));
  const shades = new Uint8Array(body.positions.length + marks.positions.length).fill(255);
  shades.fill(MARK_SHADE, body.positions.length);
  geometry.setAttribute("color", new BufferAttribute(shades, 3, true));
  return geometry;
}

const segmentsFor = (outline: GearOutline): number => (outline.tipRadius > 0 ? 64 : 24);

/** What a gear's geometry depends on, as a key. */
export function geometryKey(solved: Solved, outline: GearOutline, marks: number, detail: BodyDetail): string {
  const spec = toothSpec(solved.drive, solved.index, solved.placement, outline.gear, QUALITIES.bench);
  return `${detail} ${marks} ${toothKey(spec)}`;
}

export function bodyGeometry(_solved: Solved, outline: GearOutline, marks: number, _detail: BodyDetail): BufferGeometry {
  const body = turnedShape(outline.body, segmentsFor(outline));
  return withMarks(body, markShape(outline, marks, false));
}

/** Creases of the body and the pitch circles. */
export function lineGeometry(_solved: Solved, outline: GearOutline, _detail: BodyDetail): BufferGeometry {
  return toLines(rimLines(outline));
}
