/** Rings round what is lit or in trouble: of radius 1, sized and placed by a matrix, so that one that is dragged isn't built anew. */
import { inSteps } from "../engine/vector";

/** Thickness of a ring's wire as a part of its radius, in steps. */
export const wirePart = (wire: number, radius: number): number => inSteps(wire / radius, 1.3);

/** A ring of radius 1 at its size and place, as a matrix, column by column. */
export const ringPlace = (radius: number, z: number): number[] => [
  radius,
  0,
  0,
  0,
  0,
  radius,
  0,
  0,
  0,
  0,
  radius,
  0,
  0,
  0,
  z,
  1,
];
