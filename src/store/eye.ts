/** Where the bench's eye is, for those that ask once and don't follow it: the bench says how to read it. */
import { FIRST_EYE } from "../engine/explain/directions";
import type { Vec3 } from "../engine/solved";

export interface Eye {
  /** From the drive towards the eye, world, unit. */
  readonly towards: Vec3;
  /** What is looked at, mm, and from how far; null where the whole drive is seen. */
  readonly near: { readonly target: Vec3; readonly distance: number } | null;
}

interface Reader {
  readonly towards: () => Vec3;
  readonly near: () => Eye["near"];
}

let read: Reader = { towards: () => FIRST_EYE, near: () => null };

/** From the drive towards the eye, world, unit. As the eye stands at first until there is a bench. */
export const towardsEye = (): Vec3 => read.towards();

/** The eye with its place. */
export const wholeEye = (): Eye => ({ towards: read.towards(), near: read.near() });

export const readEyeBy = (reader: Reader): void => {
  read = reader;
};
