/** Pitch-line speed: straight teeth take up the load all at once, so that beyond a certain speed they hammer and howl. */
import { nameText, quantity } from "../wording";
import type { Check } from "./check";

/** m/s. The figure of Shigley (1000 ft/min) is from memory. */
export const USUAL_PITCH_SPEED = {
  parallel: { limit: 10, source: "common practice, no source" },
  atAnAngle: { limit: 5, source: "Shigley, Mechanical Engineering Design, section 15-1" },
} as const;

export const checkPitchSpeed: Check = ({ drive, placement, load }, add) => {
  drive.meshes.forEach((mesh, m) => {
    const kind = placement.meshes[m]?.kind;
    const speed = load.meshes[m]?.pitchSpeed ?? null;
    if (!kind || kind.isFriction || speed === null) return;
    const { limit, source } = kind.needsShaftAngle ? USUAL_PITCH_SPEED.atAnAngle : USUAL_PITCH_SPEED.parallel;
    if (speed <= limit) return;
    add({
      severity: "warning",
      code: "pitch-speed",
      at: [mesh.id, ...mesh.gears],
      message:
        `In mesh ${nameText(mesh.id)} the teeth pass at ${quantity(speed, "m/s")}, beyond the ${quantity(limit, "m/s")} usual for straight teeth (${kind.words.name}), ` +
        `and would be loud and wear: turn it slower or take smaller gears (${source}).`,
    });
  });
};
