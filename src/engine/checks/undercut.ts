/**
 * Undercut: a rack that generates a gear of few teeth cuts into the flank near its root. The limit on (virtual) teeth is
 * z = 2 (ha* - x) / sin² α, where the rack's tip line passes the tangent point (AGMA and textbooks; 17.097 at 20 degrees).
 * Practice accepts the whole number below it.
 */
import { hasTeeth } from "../drive/types";
import { CROWN_COSINE } from "../tolerances";
import { DEGREE } from "../vector";
import { figures, gearName, quantity, roundToStep } from "../wording";
import type { Check } from "./check";

/** Relative: a limit that is whole but for rounding of doubles is whole. */
const ROUNDING = 1e-9;

/** Smallest (virtual) teeth that a rack cuts without undercut. `addendum` and `shift` in modules, `pressureAngle` in radians. */
export const undercutLimit = (addendum: number, shift: number, pressureAngle: number): number =>
  (2 * (addendum - shift)) / Math.sin(pressureAngle) ** 2;

export const checkUndercut: Check = ({ drive, index, placement }, add) => {
  drive.gears.forEach((gear, i) => {
    if (!hasTeeth(gear)) return;
    const alpha = gear.pressureAngle * DEGREE;
    const limit = undercutLimit(gear.addendum, gear.shift, alpha);
    // Virtual teeth are never fewer than real ones.
    if (gear.teeth >= limit) return;
    const pitchAngle = placement.gears[i]?.pitchAngle ?? null;
    if (pitchAngle === null) return;
    const cosine = Math.cos(pitchAngle * DEGREE);
    // A rack cannot cut a ring, and a crown gear is a rack itself.
    if (cosine <= CROWN_COSINE) return;
    const teeth = gear.teeth / cosine;
    if (teeth >= limit * (1 - ROUNDING)) return;
    const isSlight = teeth >= Math.floor(limit * (1 + ROUNDING)) * (1 - ROUNDING);
    const counted = cosine === 1 ? "" : `, which counts as ${figures(teeth)} on its back cone (z / cos δ),`;
    const shift = roundToStep(gear.addendum - (teeth * Math.sin(alpha) ** 2) / 2, "up", 0.001);
    const asDrawn = cosine === 1 ? "" : "; the drawing rounds the roots of bevel teeth and shows no undercut";
    const more = `more teeth or a profile shift of at least ${figures(shift, 5)}`;
    add({
      severity: isSlight ? "note" : "warning",
      code: "undercut",
      at: [gear.id],
      message:
        `Gear ${gearName(drive, gear, index.shaftOfGear[i] ?? -1)}${counted} is ${isSlight ? "very slightly " : ""}undercut: a ` +
        `rack that cuts it takes away part of the flank near the root below ${figures(limit)} teeth at ` +
        `${quantity(gear.pressureAngle, "°")}; ${isSlight ? `practice accepts this, and ${more} avoids it` : `give it ${more}`} ` +
        `(rack formula z = 2 (addendum − shift) / sin² of the pressure angle, AGMA and textbooks)${asDrawn}.`,
    });
  });
};
