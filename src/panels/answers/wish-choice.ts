/** A wish as it is being chosen: its kind and the numbers that it needs. */
import { fromNumber } from "../../engine/motion/rational";
import type { Solved, Vec3 } from "../../engine/solved";
import type { Way, Wish } from "../../engine/wishes/wish";
import { shaftName } from "../../engine/wording";

export type WishKind = Wish["kind"] | "stand";

export interface WishChoice {
  readonly kind: Exclude<WishKind, "angle" | "lean"> | null;
  readonly way: Way | null;
  /** Towards the eye as it stood when the way was chosen. */
  readonly toEye: Vec3;
  readonly speed: number;
  readonly torque: number;
  readonly degrees: number;
  /** Id of the shaft to measure from; null for the level. */
  readonly to: string | null;
  readonly point: Vec3;
}

export const WISHES: readonly { readonly kind: Exclude<WishKind, "angle" | "lean">; readonly words: string }[] = [
  { kind: "other-way", words: "turn the other way" },
  { kind: "this-way", words: "turn this way seen from here" },
  { kind: "speed", words: "turn this fast" },
  { kind: "torque", words: "have this much torque" },
  { kind: "stand", words: "stand at this angle" },
  { kind: "here", words: "come out here" },
];

/** What the fields hold at first: how the shaft is now. */
export function firstChoice(solved: Solved, shaft: number): WishChoice {
  const placed = solved.placement.shafts[shaft];
  const speed = Math.abs(solved.motion.speed[shaft] ?? 0);
  const torque = Math.abs(solved.load.shafts[shaft]?.torque ?? 0);
  const other = solved.drive.shafts.findIndex((_, i) => i !== shaft && solved.placement.shafts[i]);
  return {
    kind: null,
    way: null,
    toEye: [0, -1, 0],
    speed: speed || 60,
    torque: torque || 1,
    degrees: 90,
    to: solved.drive.shafts[other]?.id ?? null,
    point: (placed?.origin.map((x) => Math.round(x)) ?? [0, 0, 0]) as unknown as Vec3,
  };
}

/** The wish as the engine is asked it; null while something is still to be chosen. */
export function wishOf(shaft: string, choice: WishChoice): Wish | null {
  switch (choice.kind) {
    case null:
      return null;
    case "other-way":
      return { kind: "other-way", shaft };
    case "this-way":
      return choice.way && { kind: "this-way", shaft, way: choice.way, toEye: choice.toEye };
    case "speed":
      return { kind: "speed", shaft, speed: fromNumber(choice.speed) };
    case "torque":
      return { kind: "torque", shaft, torque: choice.torque };
    case "stand":
      return choice.to === null
        ? { kind: "lean", shaft, degrees: choice.degrees }
        : { kind: "angle", shaft, to: choice.to, degrees: choice.degrees };
    case "here":
      return { kind: "here", shaft, point: choice.point };
  }
}

/** "Mixer turns at 290 rev/min now" is said by the readouts; here only what the field is about. */
export const nameOf = (solved: Solved, id: string): string => shaftName(solved.drive, solved.index.shafts.get(id) ?? 0);
