/**
 * Undercut: a rack that generates a gear of few teeth cuts into the flank near its root. The limit on (virtual) teeth is
 * z = 2 (ha* - x) / sin² α, where the rack's tip line passes the tangent point (AGMA and textbooks; 17.097 at 20 degrees).
 * Practice accepts the whole number below it.
 */
import { hasTeeth } from "../drive/types";
import { figures, gearName, quantity, roundOutward } from "../wording";
import type { Check } from "./check";
import { virtualGear } from "./virtual-gear";

/** Relative: a limit that is whole but for rounding of doubles is whole. */
const ROUNDING = 1e-9;

/** Smallest (virtual) teeth that a rack cuts without undercut. `addendum` and `shift` in modules, `pressureAngle` in radians. */
export const undercutLimit = (addendum: number, shift: number, pressureAngle: number): number =>
  (2 * (addendum - shift)) / Math.sin(pressureAngle) ** 2;

export const checkUndercut: Check = ({ drive, index, placement }, add) => {
  drive.gears.forEach((gear, i) => {
    const placed = placement.gears[i];
    if (!placed || !hasTeeth(gear)) return;
    const virtual = virtualGear(gear, placed);
    // A rack cannot cut a ring, and a crown gear is a rack itself.
    if (!virtual || virtual.teeth < 0 || virtual.teeth === Number.POSITIVE_INFINITY) return;
    const limit = undercutLimit(gear.addendum, gear.shift, virtual.pressureAngle);
    if (virtual.teeth >= limit * (1 - ROUNDING)) return;
    const whole = Math.floor(limit * (1 + ROUNDING));
    const isSlight = virtual.teeth >= whole * (1 - ROUNDING);
    const name = gearName(drive, gear, index.shaftOfGear[i] ?? -1);
    const counted =
      placed.coneDistance === null ? "" : `, which count as ${figures(virtual.teeth)} on its back cone (z / cos δ),`;
    const shift = roundOutward(gear.addendum - (virtual.teeth * Math.sin(virtual.pressureAngle) ** 2) / 2, "up");
    const more = `more teeth or a profile shift of at least ${figures(shift)}`;
    add({
      severity: isSlight ? "note" : "warning",
      code: "undercut",
      at: [gear.id],
      message:
        `Gear ${name}${counted} is ${isSlight ? "very slightly " : ""}undercut: a rack that cuts it takes away part of the ` +
        `flank near the root below ${figures(limit)} teeth at ${quantity(gear.pressureAngle, "°")}; ` +
        `${isSlight ? `practice accepts this, and ${more} avoids it` : `give it ${more}`} ` +
        "(rack formula z = 2 (addendum − shift) / sin² of the pressure angle, AGMA and textbooks).",
    });
  });
};
