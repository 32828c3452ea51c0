/** Edits of the space that the drive must fit. */
import { quantity } from "../../wording";
import { type Sides, type Space, spaceOf } from "../space";
import type { Drive } from "../types";
import { type Edit, refuse, without } from "./edit";

/** mm: a space is no larger, and no corner further off. */
const LARGEST = 1e9;
const WORDS = ["width", "depth", "height"] as const;

/** Gives the drive a space, in the place of the one it has; null, or a space open on every side, takes it away. */
export const setSpace =
  (space: { readonly size: Sides; readonly corner?: Sides } | null): Edit =>
  (drive) => {
    if (!space || space.size.every((x) => x === null)) {
      return drive["x-space"] === undefined ? drive : (without(drive, "x-space") as Drive);
    }
    for (const [k, x] of space.size.entries()) {
      if (x === null || (x > 0 && x <= LARGEST)) continue;
      return refuse(
        `The ${WORDS[k]} of the space must be above 0 and at most ${quantity(LARGEST, "mm")}, or left open.`,
      );
    }
    const corner = space.corner ?? [null, null, null];
    if (corner.some((x) => x !== null && !(Math.abs(x) <= LARGEST))) {
      return refuse(`The corner of the space must be numbers of at most ${quantity(LARGEST, "mm")}, or left open.`);
    }
    const isFixed = corner.some((x) => x !== null);
    return { ...drive, "x-space": { size: [...space.size], ...(isFixed ? { corner: [...corner] } : {}) } };
  };

/** Changes one side of the space: k is 0 for x, 1 for y, 2 for z; null leaves it open. */
export const setSpaceSide =
  (k: 0 | 1 | 2, size: number | null): Edit =>
  (drive) => {
    const space = spaceOf(drive) ?? NONE;
    return setSpace({
      size: replaced(space.size, k, size),
      corner: replaced(space.corner, k, size === null ? null : space.corner[k]),
    })(drive);
  };

/** Fixes the left, near or bottom side of the space at a place, mm; null lets it stand where the drive is in its middle. */
export const setSpaceCorner =
  (k: 0 | 1 | 2, at: number | null): Edit =>
  (drive) => {
    const space = spaceOf(drive);
    if (!space) return refuse("Type a size for the space first.");
    return setSpace({ size: space.size, corner: replaced(space.corner, k, at) })(drive);
  };

const NONE: Space = { size: [null, null, null], corner: [null, null, null] };

const replaced = (sides: Sides, k: number, x: number | null): Sides => {
  const next: [number | null, number | null, number | null] = [sides[0], sides[1], sides[2]];
  next[k] = x;
  return next;
};
