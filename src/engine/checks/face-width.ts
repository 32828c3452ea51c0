/**
 * Face width of bevel gears: towards the apex the teeth grow so small that beyond a third of the cone distance, or ten
 * modules, more width carries nothing (Mott, Machine Elements in Mechanical Design, Example 8-6). A face as long as
 * the cone distance runs past the apex, toothed or not.
 */
import { hasTeeth } from "../drive/types";
import { LONGEST_FACE } from "../teeth/blank";
import { gearName, limit, quantity } from "../wording";
import type { Check } from "./check";

/** Relative: a face that was set to the limit itself may be rounded. */
const ROUNDING = 1e-6;

/** Largest sensible face width, mm, from the cone distance and the outer module, mm. */
export const largestFace = (coneDistance: number, module: number): number => Math.min(coneDistance / 3, 10 * module);

export const checkFaceWidth: Check = ({ drive, index, placement }, add) => {
  drive.gears.forEach((gear, i) => {
    const coneDistance = placement.gears[i]?.coneDistance ?? null;
    if (coneDistance === null) return;
    const most = hasTeeth(gear) ? largestFace(coneDistance, gear.module) : coneDistance;
    if (gear.face <= most * (1 + ROUNDING)) return;
    // Almost to the apex and beyond: its teeth can't be drawn so long, and a finding of theirs says so.
    if (hasTeeth(gear) && gear.face > LONGEST_FACE * coneDistance) return;
    const name = gearName(drive, gear, index.shaftOfGear[i] ?? -1);
    const why = !hasTeeth(gear)
      ? `its cone distance, ${quantity(coneDistance, "mm")}, so it runs past the apex: make it narrower (geometry of the cone)`
      : most === coneDistance / 3
        ? `a third of its cone distance, ${quantity(most, "mm")}, where the teeth grow too thin to carry anything: make it at most ${limit(most, "mm", "down")} ` +
          "(Mott, Machine Elements in Mechanical Design, Example 8-6)"
        : `ten modules, ${quantity(most, "mm")}, and the load hardly spreads so far: make it at most ${limit(most, "mm", "down", 4)} wide ` +
          "(Mott, Machine Elements in Mechanical Design, Example 8-6)";
    add({
      severity: "warning",
      code: "face-width",
      at: [gear.id],
      message: `The face of ${name} is ${quantity(gear.face, "mm")} wide, more than ${why}.`,
    });
  });
};
