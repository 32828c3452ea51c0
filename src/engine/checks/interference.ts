/**
 * Interference: the tip of one gear passes the tangent point of its mate on the line of action and would touch it where it
 * has no involute. Apart from undercut, which comes of cutting. Outside pairs, rings and (on virtual teeth) bevel gears; a
 * crown gear is the rack. Shigley eq. 13-10 to 13-13; Khurmi & Gupta, Theory of Machines, ch. 12.
 */
import type { ToothedGear } from "../drive/types";
import { hasTeeth } from "../drive/types";
import { figures, gearName, nameText, quantity, roundOutward } from "../wording";
import type { Check } from "./check";
import { heightReaching, tangentReach, tipReach, type VirtualGear, virtualGear } from "./virtual-gear";

/** Relative: reaches that agree up to rounding of doubles. */
const ROUNDING = 1e-9;

/** By how much the tooth of `gear` is too high for `mate`, mm; 0 where it is not. */
export function excessHeight(gear: VirtualGear, mate: VirtualGear): number {
  const limit = tangentReach(mate);
  const reach = tipReach(gear);
  if (limit === Number.POSITIVE_INFINITY) {
    // Against a rack or a ring no tip of an outside gear reaches too far.
    return 0;
  }
  // A ring whose tip lies within its own base circle has no flank left there: too high by more than the mate's limit.
  if (reach === null ? gear.teeth > 0 : reach <= limit * (1 + ROUNDING)) return 0;
  return Math.max(0, gear.addendum - heightReaching(gear, limit));
}

interface Culprit {
  readonly gear: ToothedGear;
  readonly gearIndex: number;
  readonly mate: ToothedGear;
  readonly mateIndex: number;
  readonly virtual: VirtualGear;
  readonly excess: number;
}

export const checkInterference: Check = ({ drive, index, placement }, add) => {
  drive.meshes.forEach((mesh, m) => {
    const placedMesh = placement.meshes[m];
    const [a, b] = index.gearsOfMesh[m] ?? [-1, -1];
    const [first, second] = [drive.gears[a], drive.gears[b]];
    const [firstPlaced, secondPlaced] = [placement.gears[a], placement.gears[b]];
    if (!placedMesh?.holds || placedMesh.kind.isFriction || !first || !second || !firstPlaced || !secondPlaced) return;
    if (!hasTeeth(first) || !hasTeeth(second)) return;
    const one = virtualGear(first, firstPlaced);
    const two = virtualGear(second, secondPlaced);
    if (!one || !two) return;
    const ofFirst = excessHeight(one, two);
    const ofSecond = excessHeight(two, one);
    if (ofFirst === 0 && ofSecond === 0) return;
    const worse: Culprit =
      ofFirst / first.module >= ofSecond / second.module
        ? { gear: first, gearIndex: a, mate: second, mateIndex: b, virtual: one, excess: ofFirst }
        : { gear: second, gearIndex: b, mate: first, mateIndex: a, virtual: two, excess: ofSecond };
    const { gear, mate, virtual, excess } = worse;
    const name = gearName(drive, gear, index.shaftOfGear[worse.gearIndex] ?? -1);
    const mateName = gearName(drive, mate, index.shaftOfGear[worse.mateIndex] ?? -1);
    const [gearId, mateId] = [nameText(gear.id), nameText(mate.id)];
    const lower = roundOutward(gear.addendum - excess / gear.module, "down");
    const move = roundOutward(excess / gear.module, "up");
    const own = gear.shift - virtual.shiftSense * move;
    add({
      severity: "warning",
      code: "interference",
      at: [mesh.id, gear.id, mate.id],
      message:
        `In mesh ${nameText(mesh.id)} the tips of ${name} reach ${quantity(excess, "mm", 3)} too far and would dig into the roots of ${mateName}: ` +
        `give ${mateId} more teeth, or ${gearId} an addendum of at most ${figures(lower)}, or shift the profiles ` +
        `(${mateId} ${figures(mate.shift + move)}, ${gearId} ${figures(own)}) ` +
        "(the tip passes the mate's tangent point on the line of action: Shigley, Mechanical Engineering Design, section 13-7).",
    });
  });
};
