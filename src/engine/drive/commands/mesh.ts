/** Edits of meshes: their numbers, new ones between gears that are there, and trading the sizes of a pair. */
import { makeGear, makeMesh } from "../defaults";
import { bareId } from "../describe";
import { type Drive, type Gear, hasTeeth, type Mesh } from "../types";
import {
  type Edit,
  type EditFault,
  gearOf,
  limited,
  meshFault,
  meshOf,
  missing,
  refuse,
  replaced,
  ruled,
} from "./edit";
import { freshMeshId } from "./ids";

/** Numbers of a mesh to change; one that is undefined is left out, or goes back to its default. */
export type MeshPatch = Partial<Omit<Mesh, "id" | "gears">>;

/** Changes numbers of a mesh. Refused where one is out of its range or doesn't belong to this kind of mesh. */
export const setMesh =
  (id: string, patch: MeshPatch): Edit =>
  (drive) => {
    const mesh = meshOf(drive, id);
    if (!mesh) return missing("mesh", id);
    const changed = makeMesh({ ...mesh, ...patch });
    const fault = meshFault(changed) ?? pairFault(drive, changed);
    return fault ?? { ...drive, meshes: replaced(drive.meshes, mesh, changed) };
  };

/** What the rules have against a mesh of this drive, on two gears that exist. */
function pairFault(drive: Drive, mesh: Mesh): EditFault | null {
  const gears = mesh.gears.flatMap((id) => gearOf(drive, id) ?? []);
  const shafts = gears.map(({ shaft }) => ({ id: shaft, pose: { axis: [1, 0, 0], ref: [0, 0, 1] } }));
  const own = gears[0]?.shaft === gears[1]?.shaft ? shafts.slice(1) : shafts;
  const result = ruled({ shafts: own, gears: [...new Set(gears)], meshes: [mesh] } as unknown as Drive);
  return "refused" in result ? result : null;
}

/** Joins two gears that are there. The angle between the axes is required on bevel gears and cones, and refused elsewhere. */
export const joinMesh =
  (first: string, second: string, fields: MeshPatch = {}): Edit =>
  (drive) => {
    if (!gearOf(drive, first)) return missing("gear", first);
    if (!gearOf(drive, second)) return missing("gear", second);
    const twin = drive.meshes.find(({ gears }) => gears.includes(first) && gears.includes(second) && first !== second);
    if (twin)
      return refuse(
        `Gears ${bareId(first)} and ${bareId(second)} mesh already, in ${bareId(twin.id)}; choose another pair.`,
      );
    const mesh = makeMesh({ ...fields, id: freshMeshId(drive), gears: [first, second] });
    return meshFault(mesh) ?? pairFault(drive, mesh) ?? limited({ ...drive, meshes: [...drive.meshes, mesh] });
  };

/** Pinion and wheel trade their teeth (their diameters in a friction pair). Refused on a ring, which must be the larger. */
export const swapSizes =
  (id: string): Edit =>
  (drive) => {
    const mesh = meshOf(drive, id);
    if (!mesh) return missing("mesh", id);
    const [a, b] = mesh.gears.map((gear) => gearOf(drive, gear)) as [Gear, Gear];
    if (a.kind !== b.kind) {
      return refuse(
        `Gears ${bareId(a.id)} and ${bareId(b.id)} can't trade sizes: a ring must be larger than its pinion.`,
      );
    }
    const [first, second] = [withSizeOf(a, b), withSizeOf(b, a)];
    return { ...drive, gears: replaced(replaced(drive.gears, a, first), b, second) };
  };

function withSizeOf(gear: Gear, mate: Gear): Gear {
  if (hasTeeth(gear)) return hasTeeth(mate) ? makeGear({ ...gear, teeth: mate.teeth }) : gear;
  if (hasTeeth(mate)) return gear;
  return makeGear({ ...gear, diameter: mate.diameter, diameterDigits: mate.diameterDigits });
}
