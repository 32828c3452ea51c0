/**
 * Geometry that all pairs on parallel shafts share: outside pairs (spur gears, wheels) and ring pairs (a pinion inside a
 * ring). A ring pair differs only in the sign of the ring's radius.
 */
import type { Gear } from "../drive/types";
import { pitchDiameter } from "../drive/types";
import type { PlacedGear, PlacedShaft } from "../solved";
import { ON_AXIS } from "../tolerances";
import { along, angleBetween, cosDegrees, cross, DEGREE, dot, length, scale, sinDegrees, square, sub } from "../vector";
import type { MeshKind, Misfit, PairShape } from "./contract";

type ParallelParts = Pick<
  MeshKind,
  "needsShaftAngle" | "shape" | "place" | "misfit" | "signs" | "width" | "contact" | "forceRadii"
>;

/** Unit direction at `azimuth` degrees about the shaft's positive axis, from its ref, right-handed. */
export const atAzimuth = (shaft: Pick<PlacedShaft, "axis" | "ref">, azimuth: number) =>
  along(scale(shaft.ref, cosDegrees(azimuth)), cross(shaft.axis, shaft.ref), sinDegrees(azimuth));

/** The module, or for toothless kinds the smaller diameter: what misfits are measured in. */
export const misfitUnit = (gears: readonly [Gear, Gear]): number =>
  "module" in gears[0] && "module" in gears[1]
    ? Math.min(gears[0].module, gears[1].module)
    : Math.min(pitchDiameter(gears[0]), pitchDiameter(gears[1]));

export const misfitOf = (millimetres: number, radians: number, radius: number, size: number): Misfit => ({
  millimetres,
  degrees: radians / DEGREE,
  modules: Math.max(millimetres, radians * radius) / size,
  unit: size,
});

/** Where along the first gear's shaft both faces stand, mm; one point in the middle between them where they have no part in common. */
function commonFace(
  [first, second]: readonly [Gear, Gear],
  shaft: PlacedShaft,
  placed: PlacedGear,
): { readonly from: number; readonly to: number; readonly width: number } {
  const place = dot(sub(placed.centre, shaft.origin), shaft.axis);
  // Mid-face planes that coincide but for rounding coincide: the common face is then the smaller one exactly.
  const isLevel = Math.abs(place - first.at) < ON_AXIS;
  const at = isLevel ? first.at : place;
  const from = Math.max(first.at - first.face / 2, at - second.face / 2);
  const to = Math.min(first.at + first.face / 2, at + second.face / 2);
  if (to <= from) return { from: (from + to) / 2, to: (from + to) / 2, width: 0 };
  return { from, to, width: isLevel ? Math.min(first.face, second.face) : to - from };
}

// Shared by all pairs: a drive of thousands of meshes holds them once.
const OUTSIDE = [0, 0] as const;
const FIRST_IS_RING = [Math.PI, 0] as const;
const SECOND_IS_RING = [0, Math.PI] as const;
const NO_CONE = [Infinity, Infinity] as const;

/** Which of the two is the ring: 0, 1, or null for an outside pair. */
type FindRing = (gears: readonly [Gear, Gear]) => 0 | 1 | null;

export function parallelPair(findRing: FindRing): ParallelParts {
  const shape = (gears: readonly [Gear, Gear]): PairShape => {
    const ring = findRing(gears);
    const radii = [pitchDiameter(gears[0]) / 2, pitchDiameter(gears[1]) / 2] as const;
    return {
      radii,
      pitchAngles: ring === null ? OUTSIDE : ring === 0 ? FIRST_IS_RING : SECOND_IS_RING,
      coneDistances: NO_CONE,
      shaftAngle: ring === null ? 0 : Math.PI,
      centreDistance: ring === null ? radii[0] + radii[1] : Math.abs(radii[0] - radii[1]),
    };
  };

  return {
    needsShaftAngle: false,
    shape: (_mesh, gears) => shape(gears),

    // a2 = a1, ref2 = ref1, mid-face planes coincide, the new axis at the centre distance along the azimuth.
    place: (pair, from, shaft) => {
      const placed = pair.gears[from];
      const other = pair.gears[1 - from] as Gear;
      const direction = atAzimuth(shaft, pair.mesh.azimuth);
      const level = along(shaft.origin, shaft.axis, placed.at - other.at);
      return { origin: along(level, direction, pair.shape.centreDistance), axis: shaft.axis, ref: shaft.ref };
    },

    misfit: (pair, shafts, gears) => {
      const angle = angleBetween(shafts[0].axis, shafts[1].axis);
      const lean = Math.min(angle, Math.PI - angle);
      const apart = length(square(sub(gears[1].centre, gears[0].centre), shafts[0].axis));
      const radius = Math.max(...pair.shape.radii);
      return misfitOf(Math.abs(apart - pair.shape.centreDistance), lean, radius, misfitUnit(pair.gears));
    },

    // Equal surface velocity at the pitch point: outside n1 w1 + n2 w2 = 0, ring n1 w1 - n2 w2 = 0, about one direction.
    signs: (pair, shafts) => {
      const alike = dot(shafts[0].axis, shafts[1].axis) >= 0;
      return [1, (findRing(pair.gears) === null) === alike ? 1 : -1];
    },

    width: (pair, shafts, gears) => commonFace(pair.gears, shafts[0], gears[1]).width,

    contact: (pair, shafts, gears) => {
      const ring = findRing(pair.gears);
      const { origin, axis, ref } = shafts[0];
      const apart = square(sub(gears[1].centre, gears[0].centre), axis);
      const distance = length(apart);
      // From a ring the pitch point lies towards the pinion; from the pinion it lies away from the ring's centre.
      const line = distance > ON_AXIS ? scale(apart, 1 / distance) : ref;
      const towards = ring === 1 ? scale(line, -1) : line;
      const point = along(origin, towards, pair.shape.radii[0]);
      const { from, to } = commonFace(pair.gears, shafts[0], gears[1]);
      return {
        line: [along(point, axis, from), along(point, axis, to)],
        towards: [towards, ring === null ? scale(towards, -1) : towards],
      };
    },

    forceRadii: (pair) => pair.shape.radii,
  };
}
