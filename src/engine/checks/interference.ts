/**
 * Interference: the tip of one gear passes the tangent point of its mate on the line of action and would touch it where it
 * has no involute. Apart from undercut, which comes of cutting. Outside pairs, rings and (on virtual teeth) bevel gears; a
 * crown gear is the rack. Shigley eq. 13-10 to 13-13; Khurmi & Gupta, Theory of Machines, ch. 12.
 */
import { hasTeeth, type ToothedGear } from "../drive/types";
import type { Pair } from "../mesh-kinds/contract";
import { type Section, sectionOf, tangentReach } from "../mesh-kinds/tooth-action";
import { DEGREE } from "../vector";
import { figures, gearName, nameText, quantity, roundToStep } from "../wording";
import type { Check } from "./check";

/** Parts of a module: heights that agree up to rounding of doubles. */
const ROUNDING = 1e-9;
/** Modules: addenda and shifts that are offered are rounded to this. */
const STEP = 0.001;

/**
 * Height of tooth, mm, whose tip just reaches `reach` mm along the line of action from the pitch point: the inverse of
 * `tipReach`. (1 + k h)² = 1 + 2 k g sin α + k² g² with k the curvature of the pitch circle, solved so that k may be 0.
 */
export function heightReaching({ curvature: k }: Section, reach: number, pressureAngle: number): number {
  const rest = 2 * reach * Math.sin(pressureAngle) + k * reach * reach;
  return rest / (1 + Math.sqrt(1 + k * rest));
}

/** By how much the tooth of `gear` is too high for `mate`, mm; 0 where it is not. Against a rack or a ring it never is. */
export function excessHeight(gear: Section, mate: Section, pressureAngle: number): number {
  const limit = tangentReach(mate, pressureAngle);
  return limit === Number.POSITIVE_INFINITY
    ? 0
    : Math.max(0, gear.addendum - heightReaching(gear, limit, pressureAngle));
}

export const checkInterference: Check = ({ drive, index, placement }, add) => {
  drive.meshes.forEach((mesh, m) => {
    const placed = placement.meshes[m];
    const at = index.gearsOfMesh[m];
    if (!placed?.holds || placed.kind.isFriction || !at) return;
    const first = drive.gears[at[0]];
    const second = drive.gears[at[1]];
    if (!first || !second || !hasTeeth(first) || !hasTeeth(second)) return;
    const pair: Pair = { mesh, gears: [first, second], shape: placed.shape };
    const ofFirst = sectionOf(pair, 0);
    const ofSecond = sectionOf(pair, 1);
    const alpha = first.pressureAngle * DEGREE;
    const firstExcess = excessHeight(ofFirst, ofSecond, alpha);
    const secondExcess = excessHeight(ofSecond, ofFirst, alpha);
    const side = firstExcess / first.module >= secondExcess / second.module ? 0 : 1;
    const excess = side === 0 ? firstExcess : secondExcess;
    if (excess <= ROUNDING * first.module) return;
    const [gear, mate]: readonly ToothedGear[] = side === 0 ? [first, second] : [second, first];
    if (!gear || !mate) return;
    const [gearId, mateId] = [nameText(gear.id), nameText(mate.id)];
    const nameOf = (which: ToothedGear): string =>
      gearName(drive, which, index.shaftOfGear[index.gears.get(which.id) ?? -1] ?? -1);
    const lower = roundToStep(gear.addendum - excess / gear.module, "down", STEP);
    const move = roundToStep(excess / gear.module, "up", STEP);
    // On a cylindrical ring a positive shift takes the tip away from the pinion, on all else towards the mate.
    const own = gear.shift + (placed.shape.pitchAngles[side] === Math.PI ? move : -move);
    add({
      severity: "warning",
      code: "interference",
      at: [mesh.id, gear.id, mate.id],
      message:
        `In mesh ${nameText(mesh.id)} the tips of ${nameOf(gear)} reach ${quantity(excess, "mm", 3)} too far and would dig ` +
        `into the roots of ${nameOf(mate)}: give ${mateId} more teeth, or ${gearId} an addendum of at most ` +
        `${figures(lower, 5)}, or shift the profiles (${mateId} ${figures(mate.shift + move, 5)}, ${gearId} ${figures(own, 5)}) (the ` +
        "tip passes the mate's tangent point on the line of action: Shigley, Mechanical Engineering Design, section 13-7).",
    });
  });
};
