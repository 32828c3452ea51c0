/** Edits of gears: their numbers, and new ones. */
import { type GearFields, makeGear } from "../defaults";
import { partFault } from "../parse";
import { type Drive, type Gear, hasTeeth, type ToothedGear, type ToothlessGear } from "../types";
import { fileGear } from "../write";
import {
  digitsOf,
  type Edit,
  type EditFault,
  faultOf,
  gearOf,
  limited,
  missing,
  replaced,
  shaftOf,
  without,
} from "./edit";
import { freshGearId } from "./ids";

type Fixed = "id" | "shaft" | "kind";
/** Numbers of a gear to change; one that is undefined goes back to its default. */
export type GearPatch = Partial<Omit<ToothedGear, Fixed>> & Partial<Omit<ToothlessGear, Fixed>>;

export interface SetGearOptions {
  /**
   * Whether a new module or pressure angle goes on to the gears that this one meshes with, and on to theirs: mates
   * must agree in both. `module` (both of them) unless given.
   */
  readonly mates?: "module" | "none";
}

/** Changes numbers of a gear. Refused where one is out of its range or isn't one of its kind. */
export const setGear =
  (id: string, patch: GearPatch, options: SetGearOptions = {}): Edit =>
  (drive) => {
    const gear = gearOf(drive, id);
    if (!gear) return missing("gear", id);
    const changed = patched(gear, patch);
    if ("refused" in changed) return changed;
    const shared: Partial<ToothedGear> = without({ module: patch.module, pressureAngle: patch.pressureAngle });
    if (options.mates === "none" || Object.keys(shared).length === 0) {
      return { ...drive, gears: replaced(drive.gears, gear, changed) };
    }
    const mates = joinedGears(drive, id);
    const gears = drive.gears.map((other) => {
      if (other === gear) return changed;
      return mates.has(other.id) && hasTeeth(other) ? makeGear({ ...other, ...shared }) : other;
    });
    return { ...drive, gears };
  };

function patched(gear: Gear, patch: GearPatch): Gear | EditFault {
  const { diameterDigits, ...numbers } = patch;
  const merged = without({ ...gear, ...numbers });
  const fault = partFault("gears", { ...fileGear(gear), ...numbers });
  if (fault !== null) return faultOf(fault) as EditFault;
  if (hasTeeth(gear)) return makeGear(merged as ToothedGear);
  const { diameter, diameterDigits: old } = merged as ToothlessGear;
  return makeGear({ ...(merged as ToothlessGear), diameterDigits: digitsOf(diameterDigits ?? old, diameter) });
}

/** Ids of all gears that chains of meshes join to this one (not through shafts). */
export function joinedGears(drive: Drive, id: string): Set<string> {
  const mates = new Map<string, string[]>();
  const join = (a: string, b: string): void => {
    const list = mates.get(a);
    if (list) list.push(b);
    else mates.set(a, [b]);
  };
  for (const { gears } of drive.meshes) {
    join(gears[0], gears[1]);
    join(gears[1], gears[0]);
  }
  const joined = new Set([id]);
  for (const gear of joined) for (const mate of mates.get(gear) ?? []) joined.add(mate);
  return joined;
}

export type NewGear =
  | (Omit<Extract<GearFields, { teeth: number }>, "id" | "shaft"> & { readonly id?: string })
  | (Omit<Extract<GearFields, { diameter: number }>, "id" | "shaft"> & { readonly id?: string });

/** Puts a gear on a shaft, last in the list, under a fresh id. */
export const addGear =
  (shaft: string, fields: NewGear): Edit =>
  (drive) => {
    if (!shaftOf(drive, shaft)) return missing("shaft", shaft);
    const gear = newGear(drive, shaft, fields);
    return "refused" in gear ? gear : limited({ ...drive, gears: [...drive.gears, gear] });
  };

/** A gear with a fresh id, checked; not yet part of the drive. */
export function newGear(drive: Drive, shaft: string, fields: NewGear): Gear | EditFault {
  const full = { ...without(fields), id: freshGearId(drive, shaft), shaft } as GearFields;
  const fault = partFault("gears", without(full, "diameterDigits"));
  if (fault !== null) return faultOf(fault) as EditFault;
  return makeGear("teeth" in full ? full : { ...full, diameterDigits: digitsOf(full.diameterDigits, full.diameter) });
}
