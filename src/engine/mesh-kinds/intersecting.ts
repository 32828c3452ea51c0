/**
 * Geometry that all pairs on intersecting shafts share: bevel gears and friction cones, at any shaft angle between 0 and
 * 180 degrees, the crown (pitch angle 90) and the internal cone (past 90) included, by one formula without cases.
 *
 * tan δ1 = sin Σ / (n2/n1 + cos Σ), δ2 = Σ - δ1: both cones roll on one line, n1 sin δ2 = n2 sin δ1.
 * Source: the formula of the handbooks (Khurmi & Gupta; Mott), here with atan2 so that it serves obtuse angles too.
 */
import type { Gear } from "../drive/types";
import { hasTeeth, pitchDiameter } from "../drive/types";
import type { PlacedShaft } from "../solved";
import { FARTHEST_APEX } from "../tolerances";
import {
  add,
  along,
  angleBetween,
  cosDegrees,
  DEGREE,
  distance,
  length,
  scale,
  sinDegrees,
  square,
  sub,
  unit,
} from "../vector";
import type { MeshKind, PairShape } from "./contract";
import { atAzimuth, misfitOf, misfitUnit } from "./parallel";

type IntersectingParts = Pick<
  MeshKind,
  "needsShaftAngle" | "shape" | "place" | "misfit" | "signs" | "width" | "contact" | "forceRadii"
>;

/** The outward axis of a bevel gear or cone: the shaft's axis where its apex is on the - side, else its reverse. */
export const outwardAxis = (shaft: Pick<PlacedShaft, "axis">, gear: Gear) =>
  gear.apex === "-" ? shaft.axis : scale(shaft.axis, -1);

/** What the ratio is reckoned from: teeth, or diameters where there are none. */
const size = (gear: Gear): number => (hasTeeth(gear) ? gear.teeth : gear.diameter);

/**
 * Pitch angles of two cones that roll on one another, radians; each from its own quotient: exact at 90 for the crown, whichever of the two
 * it is. `n1`, `n2`: teeth or diameters.
 */
export function pitchAnglesAt(degrees: number, n1: number, n2: number): readonly [number, number] {
  const [sin, cos] = [sinDegrees(degrees), cosDegrees(degrees)];
  return [Math.atan2(n1 * sin, n2 + n1 * cos), Math.atan2(n2 * sin, n1 + n2 * cos)];
}

const shapeAt = (degrees: number, gears: readonly [Gear, Gear]): PairShape => {
  const [delta1, delta2] = pitchAnglesAt(degrees, size(gears[0]), size(gears[1]));
  const radii = [pitchDiameter(gears[0]) / 2, pitchDiameter(gears[1]) / 2] as const;
  return {
    radii,
    pitchAngles: [delta1, delta2],
    coneDistances: [radii[0] / Math.sin(delta1), radii[1] / Math.sin(delta2)],
    shaftAngle: degrees * DEGREE,
    centreDistance: 0,
  };
};

/** Whether the cones' apex lies near enough for places to be reckoned from it. */
const hasNearApex = ({ radii, coneDistances }: PairShape): boolean =>
  coneDistances[0] < FARTHEST_APEX * radii[0] && coneDistances[1] < FARTHEST_APEX * radii[1];

export const intersectingPair: IntersectingParts = {
  needsShaftAngle: true,
  shape: (mesh, gears) => shapeAt(mesh.shaftAngle ?? 90, gears),

  // u2 = cos Σ u1 + sin Σ r; both apexes are one point; ref2 square to a2, on the side of u1.
  place: (pair, from, shaft) => {
    const to = (1 - from) as 0 | 1;
    const { pitchAngles, coneDistances, radii } = pair.shape;
    const degrees = pair.mesh.shaftAngle ?? 90;
    const [sin, cos] = [sinDegrees(degrees), cosDegrees(degrees)];
    const u1 = outwardAxis(shaft, pair.gears[from]);
    const r = atAzimuth(shaft, pair.mesh.azimuth);
    const centre = along(shaft.origin, shaft.axis, pair.gears[from].at);
    const u2 = unit(along(scale(u1, cos), r, sin));
    const back = along(scale(u1, sin), r, -cos);
    const apex = along(centre, u1, -coneDistances[from] * Math.cos(pitchAngles[from]));
    const centre2 = hasNearApex(pair.shape)
      ? along(apex, u2, coneDistances[to] * Math.cos(pitchAngles[to]))
      : // From pitch circle to pitch circle: a far apex would cost all digits.
        along(along(centre, r, radii[from]), back, -radii[to]);
    const axis = pair.gears[to].apex === "-" ? u2 : scale(u2, -1);
    return {
      origin: along(centre2, axis, -pair.gears[to].at),
      axis,
      ref: unit(square(back, u2)),
    };
  },

  misfit: (pair, shafts, gears) => {
    const actual = angleBetween(outwardAxis(shafts[0], pair.gears[0]), outwardAxis(shafts[1], pair.gears[1]));
    const [apex1, apex2] = [gears[0].apexPoint, gears[1].apexPoint];
    const apart = apex1 && apex2 ? distance(apex1, apex2) : 0;
    const radius = Math.max(...pair.shape.radii);
    return misfitOf(apart, Math.abs(actual - pair.shape.shaftAngle), radius, misfitUnit(pair.gears));
  },

  // With w the spin about the outward axis, z1 w1 + z2 w2 = 0 at every shaft angle.
  signs: (pair) => [pair.gears[0].apex === "-" ? 1 : -1, pair.gears[1].apex === "-" ? 1 : -1],

  width: (pair) => Math.min(pair.gears[0].face, pair.gears[1].face),

  contact: (pair, shafts, gears) => {
    const u1 = outwardAxis(shafts[0], pair.gears[0]);
    const u2 = outwardAxis(shafts[1], pair.gears[1]);
    const width = Math.min(pair.gears[0].face, pair.gears[1].face);
    if (!hasNearApex(pair.shape)) {
      const across = square(sub(gears[1].centre, gears[0].centre), u1);
      const towards = length(across) > 0 ? unit(across) : shafts[0].ref;
      const heel = along(gears[0].centre, towards, pair.shape.radii[0]);
      return { line: [heel, along(heel, u1, -width)], towards: [towards, scale(towards, -1)] };
    }
    const [delta1, delta2] = pair.shape.pitchAngles;
    const line = unit(add(scale(u1, Math.sin(delta2)), scale(u2, Math.sin(delta1))));
    const apex = gears[0].apexPoint ?? gears[0].centre;
    const cone = pair.shape.coneDistances[0];
    return {
      line: [along(apex, line, cone), along(apex, line, Math.max(0, cone - width))],
      towards: [unit(square(line, u1)), unit(square(line, u2))],
    };
  },

  forceRadii: (pair, width) => {
    const { radii, pitchAngles } = pair.shape;
    return [radii[0] - (width / 2) * Math.sin(pitchAngles[0]), radii[1] - (width / 2) * Math.sin(pitchAngles[1])];
  },
};
