/** Where the bench's eye is, for those that ask once and don't follow it: the bench says how to read it. */
import { FIRST_EYE } from "../engine/explain/directions";
import type { Vec3 } from "../engine/solved";

let read: () => Vec3 = () => FIRST_EYE;

/** From the drive towards the eye, world, unit. As the eye stands at first until there is a bench. */
export const towardsEye = (): Vec3 => read();

export const readEyeBy = (reader: () => Vec3): void => {
  read = reader;
};
