/** What everything that can grow has in common: the answer, how one that is refused reads, and places that are tried once. */
import type { Edit } from "../../engine/drive/commands/edit";
import { USUAL_SPEED } from "../../engine/drive/defaults";
import type { PortRole } from "../../engine/drive/types";
import type { Solved } from "../../engine/solved";
import type { UnitChoice } from "../../engine/units/choice";
import { type Candidate, type Tried, tryEdit } from "./candidate";
import type { GrowOption } from "./grow-options";
import type { Side } from "./sides";

/** Which numbers go with a choice, in the order of their fields. */
export type GrowField = "sizes" | "face" | "module" | "at" | "efficiency" | "load" | "shaftAngle" | "speed" | "role";

export interface Growth {
  readonly option: GrowOption;
  /** Units of the words. */
  readonly units: UnitChoice;
  /** Index of the shaft that it grows from. */
  readonly shaft: number;
  /** Null where it can't be put down as it stands. */
  readonly edit: Edit | null;
  /** The drive that would be, for the ghost; null where there is none. */
  readonly next: Solved | null;
  /** One sentence each: what it gives; empty where it can't be. */
  readonly words: readonly string[];
  /** Why it can't be put down, or why not where it was asked for; null where nothing speaks against it. */
  readonly blocked: string | null;
  /** How a text of sizes was read, or why it wasn't; null for nothing to say. */
  readonly read: { readonly ok: boolean; readonly words: string } | null;
  readonly fields: readonly GrowField[];
  /** Numbers as they are taken now, typed or filled in. */
  readonly values: {
    readonly sizes: string;
    readonly face: number | null;
    readonly module: number | null;
    readonly at: number | null;
    readonly shaftAngle: number | null;
    readonly role: PortRole;
    readonly speed: number;
    readonly load: number | null;
  };
  /** Null where nothing swings round the shaft. */
  readonly place: {
    readonly azimuth: number;
    /** "above", and the end that the clock face round the shaft is seen from. */
    readonly words: string;
    readonly seenFrom: string;
    /** Degrees clockwise from 12 o'clock. */
    readonly clockwise: number;
  } | null;
  readonly candidate: Candidate | null;
  /** Towards which end of the shaft a gear of its own would stand. */
  readonly side: Side;
}

export const NO_VALUES: Growth["values"] = {
  sizes: "",
  face: null,
  module: null,
  at: null,
  shaftAngle: null,
  role: "output",
  speed: USUAL_SPEED,
  load: null,
};

/** What all of them have before anything is known. */
export type Base = Pick<Growth, "option" | "units" | "shaft" | "read" | "blocked" | "place" | "candidate" | "side">;

/** A choice that can't be put down, and why. */
export const refused = (base: Base, why: string, rest: Partial<Growth> = {}): Growth => ({
  ...base,
  edit: null,
  next: null,
  words: [],
  fields: [],
  values: NO_VALUES,
  ...rest,
  blocked: why,
});

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Each place is built and solved once for a choice, however often the pointer comes by. */
const tries = new WeakMap<Solved, Map<string, Tried>>();
const MOST_KEPT = 120;
export function tryOnce(solved: Solved, edit: Edit, key: string): Tried {
  const known = tries.get(solved) ?? new Map<string, Tried>();
  tries.set(solved, known);
  const before = known.get(key);
  if (before) return before;
  if (known.size >= MOST_KEPT) known.clear();
  const tried = tryEdit(solved, edit);
  known.set(key, tried);
  return tried;
}
