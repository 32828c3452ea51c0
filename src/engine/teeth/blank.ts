/**
 * The body that carries the teeth: a closed line in the axial half plane, from the root circle of the first end (the
 * top of a cylinder, the heel of a cone) to that of the second (bottom, toe). The material lies on its left for a ring,
 * on its right for all else. z is counted along the gear's outward axis from the middle of the face, or from the plane of
 * the outer pitch circle.
 *
 * Heels and toes lie on back cones, not on spheres about the apex: blanks are turned so, and the tip and root diameters
 * of the drawing (d ± 2 h cos δ) are then those of the solid. The flanks don't mind: they run through the apex.
 */
import type { ToothSpec } from "./spec";

/** [radius, z] in mm. */
export type AxialPoint = readonly [number, number];

export interface Blank {
  readonly line: readonly AxialPoint[];
  /** The bore had to be made smaller than the gear asks. */
  readonly isBoreCut: boolean;
}

/** A bore takes at most this part of the root circle's radius. */
export const LARGEST_BORE = 0.82;

/** Part of the cone distance that a face may take: nearer to the apex teeth have no size left. */
export const LONGEST_FACE = 0.9;

/** Width of the teeth, mm: the face, on a cone cut off short of the apex. */
export const toothWidth = (spec: ToothSpec): number =>
  spec.form === "conical" ? Math.min(spec.face, LONGEST_FACE * spec.coneDistance) : spec.face;

/** The point of a section at place q, on the first end (0) or the second (1). */
export function endPoint(spec: ToothSpec, q: number, end: 0 | 1): AxialPoint {
  if (spec.form !== "conical") return [q, (end === 0 ? 1 : -1) * (spec.face / 2)];
  const { coneDistance, pitchAngle } = spec;
  // On the back cone: square to the pitch cone at this distance from the apex.
  const distance = (coneDistance - end * toothWidth(spec)) / Math.cos(q - pitchAngle);
  return [distance * Math.sin(q), distance * Math.cos(q) - coneDistance * Math.cos(pitchAngle)];
}

/** `root`: place of the root circle. `sag`: cosine of half the widest step of the outline along it. */
export function blankOf(spec: ToothSpec, root: number, sag: number): Blank {
  if (spec.form === "ring") return { line: rim(spec, root), isBoreCut: false };
  return spec.form === "conical" ? conicalBody(spec, root, sag) : disc(spec, root * sag);
}

/** A polygon of the body's many sides that encloses the circle of this radius. */
const enclosing = (spec: ToothSpec, radius: number): number => radius / Math.cos(Math.PI / spec.quality.body);

function rim(spec: ToothSpec, root: number): AxialPoint[] {
  const outer = enclosing(spec, root + Math.max(2.2 * spec.module, 0.04 * root));
  const half = spec.face / 2;
  return [
    [outer, half],
    [outer, -half],
  ];
}

/** Hub, web and rim where there is room for them, else a plain disc. */
function disc(spec: ToothSpec, root: number): Blank {
  const half = spec.face / 2;
  const bore = Math.min(spec.bore, LARGEST_BORE * root);
  const isBoreCut = bore < spec.bore;
  const inner = root - Math.max(2 * spec.module, 0.08 * root);
  const hub = Math.max(1.7 * bore, 0.24 * root);
  const web = 0.22 * spec.face;
  if (inner - hub < 0.18 * root || spec.face < 0.5 * spec.module) {
    return {
      line: [
        [bore, half],
        [bore, -half],
      ],
      isBoreCut,
    };
  }
  const slope = Math.min(0.1 * (inner - hub), half - web);
  const upper: AxialPoint[] = [
    [inner, half],
    [inner - slope, web],
    [hub + slope, web],
    [hub, half],
    [bore, half],
  ];
  return { line: [...upper, ...upper.toReversed().map(([r, z]): AxialPoint => [r, -z])], isBoreCut };
}

function conicalBody(spec: ToothSpec, root: number, sag: number): Blank {
  const { pitchAngle, module } = spec;
  const [sin, cos] = [Math.sin(pitchAngle), Math.cos(pitchAngle)];
  const heel = endPoint(spec, root, 0);
  const toe = endPoint(spec, root, 1);
  const thick = 2.2 * module;
  if (root >= Math.PI / 2) {
    // Internal: a shell outside the root cone.
    const grown = ([r, z]: AxialPoint): AxialPoint => [enclosing(spec, r - thick * cos), z + thick * sin];
    return { line: [grown(heel), grown(toe)], isBoreCut: false };
  }
  const scale = (spec.coneDistance - toothWidth(spec)) / spec.coneDistance;
  const least = Math.max(1.2 * Math.min(spec.bore, LARGEST_BORE * toe[0] * sag), 0.3 * heel[0]);
  const depth = Math.min(thick, (0.9 * (heel[0] * sag - least)) / Math.max(cos, 1e-9));
  // A short step along the front cone, then the flat front face.
  const step = Math.min(0.5 * module * scale, 0.4 * depth, (0.1 * toe[0] * sag) / Math.max(cos, 1e-9));
  const back: AxialPoint = [heel[0] - depth * cos, heel[1] + depth * sin];
  const front: AxialPoint = [toe[0] * sag - step * cos, toe[1] + step * sin];
  const bore = Math.min(spec.bore, LARGEST_BORE * front[0]);
  return { line: [back, [bore, back[1]], [bore, front[1]], front], isBoreCut: bore < spec.bore };
}
