/** Edits of shafts and of the drive's own words. */
import { makeShaft } from "../defaults";
import type { Pose, Shaft } from "../types";
import { type Edit, limited, missing, replaced, ruled, shaftFault, shaftOf, without } from "./edit";
import { freshShaftId } from "./ids";

export const setTitle =
  (title: string): Edit =>
  (drive) => ({ ...drive, title });

export const setNotes =
  (notes: string): Edit =>
  (drive) => ({ ...drive, notes });

/** Gives a shaft another name; its id stays. */
export const rename =
  (id: string, name: string): Edit =>
  (drive) => {
    const shaft = shaftOf(drive, id);
    return shaft
      ? { ...drive, shafts: replaced(drive.shafts, shaft, makeShaft({ ...shaft, name })) }
      : missing("shaft", id);
  };

export interface ShaftPatch {
  readonly name?: string;
  /** Null takes it away. A pose ends `coaxial`, and the other way round. */
  readonly pose?: Pose | null;
  readonly coaxial?: string | null;
  /** Id of the carrier; null for ground. */
  readonly frame?: string | null;
}

const applied = (shaft: Shaft, patch: ShaftPatch): Shaft => {
  const merged: Record<string, unknown> = { ...shaft, ...without(patch) };
  if (patch.pose) delete merged.coaxial;
  else if (patch.coaxial) delete merged.pose;
  for (const key of ["pose", "coaxial", "frame"]) if (merged[key] === null) delete merged[key];
  return makeShaft(merged as unknown as Shaft);
};

/** Changes where a shaft stands or what carries it. Refused where shafts would carry or place one another in a circle, or none had a pose. */
export const setShaft =
  (id: string, patch: ShaftPatch): Edit =>
  (drive) => {
    const shaft = shaftOf(drive, id);
    if (!shaft) return missing("shaft", id);
    const changed = applied(shaft, patch);
    return shaftFault(changed) ?? ruled({ ...drive, shafts: replaced(drive.shafts, shaft, changed) });
  };

/** A further shaft, under a fresh id: with a pose, on the line of another (`coaxial`), or to be placed by a mesh that follows. */
export const addShaft =
  (fields: ShaftPatch): Edit =>
  (drive) => {
    const shaft = applied({ id: freshShaftId(drive), name: "" }, fields);
    const fault = shaftFault(shaft);
    if (fault) return fault;
    const within = limited({ ...drive, shafts: [...drive.shafts, shaft] });
    return "refused" in within ? within : ruled(within);
  };
