/** Ratio of one stage: beyond the usual the wheel grows so large that two stages are smaller and cheaper. */
import { hasTeeth } from "../drive/types";
import { figures, gearName, nameText } from "../wording";
import type { Check } from "./check";

/** Larger over smaller, one stage. Common practice, no source. */
export const USUAL_RATIO = { parallel: 6, atAnAngle: 5 } as const;

export const checkRatioRange: Check = ({ drive, index, placement }, add) => {
  drive.meshes.forEach((mesh, m) => {
    const kind = placement.meshes[m]?.kind;
    const at = index.gearsOfMesh[m];
    const first = drive.gears[at?.[0] ?? -1];
    const second = drive.gears[at?.[1] ?? -1];
    if (!kind || kind.isFriction || !at || !first || !second || !hasTeeth(first) || !hasTeeth(second)) return;
    const limit = kind.needsShaftAngle ? USUAL_RATIO.atAnAngle : USUAL_RATIO.parallel;
    const ratio = Math.max(first.teeth, second.teeth) / Math.min(first.teeth, second.teeth);
    if (ratio <= limit) return;
    const names = [
      gearName(drive, first, index.shaftOfGear[at[0]] ?? -1),
      gearName(drive, second, index.shaftOfGear[at[1]] ?? -1),
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
