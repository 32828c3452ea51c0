/** Two sizes and what joins them, in as few words as stand between two cards. */
import { type Gear, hasTeeth } from "../drive/types";
import type { UnitChoice } from "../units/choice";
import { gearSize } from "../wording";

const bareSize = (gear: Gear, units: UnitChoice): string =>
  hasTeeth(gear) ? String(gear.teeth) : gearSize(gear, units);

/** "20 drives 50", "60 mm drives 120 mm": the mesh between two cards. */
export const driveWords = (from: Gear, to: Gear, units: UnitChoice): string =>
  `${bareSize(from, units)} drives ${bareSize(to, units)}`;

/** "18 rolls on 60", where the second stands. */
export const rollWords = (rolling: Gear, standing: Gear, units: UnitChoice): string =>
  `${bareSize(rolling, units)} rolls on ${bareSize(standing, units)}`;
