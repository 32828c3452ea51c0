/** One section of a tooth between heel and toe. Pure numbers. */
import { pitchDiameter, type ToothedGear } from "../drive/types";
import { GEAR_FORMS } from "../mesh-kinds/gear-forms";
import { DEGREE } from "../vector";

export interface Tapered {
  /** mm, at the heel: pitch radius and (outer transverse) module. */
  readonly radius: number;
  readonly module: number;
  /** mm from the apex to the heel; Infinity for teeth on a cylinder. */
  readonly coneDistance: number;
  /** mm, face width. */
  readonly face: number;
  /** Factors of the module. */
  readonly addendum: number;
  readonly clearance: number;
  /** mm, at the heel: thickness that shift and backlash add along the pitch circle; 0 where left out. */
  readonly added?: number;
}

export interface TaperSection {
  /** mm from the apex; Infinity on a cylinder. */
  readonly fromApex: number;
  /** Distance from the apex over that of the heel. */
  readonly scale: number;
  /** mm: the thickness along the pitch circle: half the pitch, and what shift and backlash add. */
  readonly thickness: number;
  /** mm: whole depth, addendum and dedendum. */
  readonly depth: number;
  /** mm, pitch radius. */
  readonly radius: number;
}

/**
 * Everything on a straight bevel gear points at the apex, so each size is in the ratio of the distance from it. Half a pitch is
 * π m / 2, the whole depth (2 ha* + c*) m. Source: the tooth proportions of ISO 53, the terms of ISO 1122-1 (from memory).
 * @param part 0 at the heel to 1 at the toe
 */
export function taperSection(tooth: Tapered, part: number): TaperSection {
  const { coneDistance } = tooth;
  const isConical = Number.isFinite(coneDistance);
  const fromApex = isConical ? coneDistance - part * tooth.face : coneDistance;
  const scale = isConical ? fromApex / coneDistance : 1;
  return {
    fromApex,
    scale,
    thickness: scale * ((Math.PI * tooth.module) / 2 + (tooth.added ?? 0)),
    depth: scale * (2 * tooth.addendum + tooth.clearance) * tooth.module,
    radius: scale * tooth.radius,
  };
}

/**
 * The sizes of a gear's teeth. Shift thickens a tooth by 2 x m tan α on its pitch circle, on a ring it thins it. Source: the
 * rack of ISO 53 cut at a distance x m (Khurmi & Gupta; from memory).
 * @param coneDistance mm, Infinity on parallel shafts
 */
export function taperOf(gear: ToothedGear, coneDistance: number): Tapered {
  const { module, addendum, clearance, shift, pressureAngle, backlash } = gear;
  const outward = GEAR_FORMS[gear.kind].pitchAngle === 180 ? -1 : 1;
  return {
    radius: pitchDiameter(gear) / 2,
    module,
    coneDistance,
    face: gear.face,
    addendum,
    clearance,
    added: outward * 2 * shift * module * Math.tan(pressureAngle * DEGREE) - backlash,
  };
}
