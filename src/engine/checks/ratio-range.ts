/** Ratio of one stage: beyond the usual the wheel grows so large that two stages are smaller and cheaper. */
import { hasTeeth, pitchDiameter } from "../drive/types";
import { figures, gearName, nameText } from "../wording";
import type { Check } from "./check";

/** Larger over smaller, one stage. Common practice, no source. */
export const USUAL_RATIO = { parallel: 6, atAnAngle: 5 } as const;

export const checkRatioRange: Check = ({ drive, index, placement }, add) => {
  drive.meshes.forEach((mesh, m) => {
    const kind = placement.meshes[m]?.kind;
    const [a, b] = index.gearsOfMesh[m] ?? [-1, -1];
    const [first, second] = [drive.gears[a], drive.gears[b]];
    if (!kind || kind.isFriction || !first || !second) return;
    const limit = kind.needsShaftAngle ? USUAL_RATIO.atAnAngle : USUAL_RATIO.parallel;
    const [one, two] =
      hasTeeth(first) && hasTeeth(second) ? [first.teeth, second.teeth] : [pitchDiameter(first), pitchDiameter(second)];
    const ratio = Math.max(one, two) / Math.min(one, two);
    if (ratio <= limit) return;
    const names = [
      gearName(drive, first, index.shaftOfGear[a] ?? -1),
      gearName(drive, second, index.shaftOfGear[b] ?? -1),
    ];
    add({
      severity: "warning",
      code: "ratio-range",
      at: [mesh.id, ...mesh.gears],
      message:
        `Mesh ${nameText(mesh.id)} of ${names[0]} and ${names[1]} has a ratio of ${figures(ratio)} to 1, beyond the ${limit} to 1 that is usual for one stage of ` +
        `its kind (${kind.words.name}): split it into two stages (common practice, no source).`,
    });
  });
};
