/** Two sizes and what joins them, in as few words as stand between two cards. */
import { type Gear, hasTeeth } from "../drive/types";
import { gearSize } from "../wording";

const bareSize = (gear: Gear): string => (hasTeeth(gear) ? String(gear.teeth) : gearSize(gear));

/** "20 drives 50", "60 mm drives 120 mm": the mesh between two cards. */
export const driveWords = (from: Gear, to: Gear): string => `${bareSize(from)} drives ${bareSize(to)}`;

/** "18 rolls on 60", where the second stands. */
export const rollWords = (rolling: Gear, standing: Gear): string =>
  `${bareSize(rolling)} rolls on ${bareSize(standing)}`;
