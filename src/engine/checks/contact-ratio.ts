/** Contact ratio: how many pairs of teeth touch at once, on average. Below 1.2 the hand-over from tooth to tooth is rough. */
import { figures, nameText, roundToStep } from "../wording";
import type { Check } from "./check";

/** Common practice, no source. */
export const LEAST_CONTACT_RATIO = 1.2;

export const checkContactRatio: Check = ({ drive, load }, add) => {
  drive.meshes.forEach((mesh, m) => {
    const ratio = load.meshes[m]?.contactRatio ?? null;
    if (ratio === null || ratio >= LEAST_CONTACT_RATIO) return;
    const effect =
      ratio < 1
        ? "so between one pair of teeth and the next nothing drives"
        : "so one pair of teeth hands over to the next only just in time";
    add({
      severity: "warning",
      code: "contact-ratio",
      at: [mesh.id, ...mesh.gears],
      message:
        `In mesh ${nameText(mesh.id)} only ${figures(roundToStep(ratio, "down", ratio > LEAST_CONTACT_RATIO - 0.01 ? 1e-4 : 0.01), 5)} pairs of teeth touch on average, ${effect}: take more teeth, a ` +
        `smaller pressure angle or a larger addendum to reach ${figures(LEAST_CONTACT_RATIO)} (common practice, no source).`,
    });
  });
};
