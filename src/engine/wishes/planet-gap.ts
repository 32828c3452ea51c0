/** Room between two neighbours of a set of planets: plane for plain planets, on the sphere about the common apex for bevel planets. */
import { bodyOf, standIn } from "../checks/bodies";
import { type Gear, hasTeeth, pitchDiameter } from "../drive/types";
import type { PlacedGear, Solved } from "../solved";
import { ON_AXIS } from "../tolerances";
import { angleBetween, DEGREE, distance } from "../vector";
import { isRing } from "./parts";

export interface PlanetGap {
  /** Whether the bodies stand in one another, up to the tips. */
  readonly touches: boolean;
  /** mm between the tips, negative where they overlap; null where it isn't known (compound planets that don't face one another). */
  readonly gap: number | null;
}

const tipHeight = (gear: Gear): number => (hasTeeth(gear) ? gear.module * (gear.addendum + gear.shift) : 0);
const tipRadius = (gear: Gear): number => pitchDiameter(gear) / 2 + tipHeight(gear);

/**
 * Tips of two cones about one apex, mm, as the chord between the nearest points of their tip circles at the heel: the tip cone of half
 * angle δ + arctan(h / R) has the slant √(R² + h²) (R cone distance, h addendum; ISO 23509 for the names), and the axes stand at an
 * angle A, so that A less both half angles is left between them. Spherical geometry. Null where the two have no common apex.
 */
function coneGap(a: Gear, b: Gear, placedA: PlacedGear, placedB: PlacedGear): number | null {
  const cone = (gear: Gear, { pitchAngle, coneDistance }: PlacedGear) =>
    pitchAngle === null || coneDistance === null
      ? null
      : {
          half: pitchAngle * DEGREE + Math.atan(tipHeight(gear) / coneDistance),
          slant: Math.hypot(coneDistance, tipHeight(gear)),
        };
  const [one, two] = [cone(a, placedA), cone(b, placedB)];
  const [apexA, apexB] = [placedA.apexPoint, placedB.apexPoint];
  if (!one || !two || !apexA || !apexB || distance(apexA, apexB) > ON_AXIS * Math.max(1, one.slant)) return null;
  const left = angleBetween(placedA.outward, placedB.outward) - one.half - two.half;
  return 2 * Math.min(one.slant, two.slant) * Math.sin(left / 2);
}

/** Between the first planet (by the id of its shaft) and the next one. */
export function planetGap(after: Solved, first: string, next: string): PlanetGap {
  const gears = (id: string): readonly number[] => after.index.gearsOfShaft[after.index.shafts.get(id) ?? -1] ?? [];
  let touches = false;
  let gap: number | null = null;
  for (const a of gears(first)) {
    for (const b of gears(next)) {
      const [one, two] = [after.drive.gears[a], after.drive.gears[b]];
      const [placedOne, placedTwo] = [after.placement.gears[a], after.placement.gears[b]];
      const [bodyOne, bodyTwo] = [bodyOf(after, a), bodyOf(after, b)];
      if (!one || !two || !placedOne || !placedTwo || !bodyOne || !bodyTwo) continue;
      if (standIn(bodyOne, bodyTwo)) touches = true;
      const isPlane = bodyOne.isCylinder && bodyTwo.isCylinder && !isRing(one) && !isRing(two) && one.at === two.at;
      const left = isPlane
        ? distance(placedOne.centre, placedTwo.centre) - tipRadius(one) - tipRadius(two)
        : coneGap(one, two, placedOne, placedTwo);
      if (left !== null) gap = gap === null ? left : Math.min(gap, left);
    }
  }
  return { touches: touches || (gap !== null && gap < 0), gap };
}
