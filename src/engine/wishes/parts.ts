/** What the means have in common: the meshes on the way to a shaft, and edits that keep what is behind a shaft in its place. */

import { type Edit, isRefused } from "../drive/commands/edit";
import { setGear } from "../drive/commands/gear";
import { makeGear, makeMesh } from "../drive/defaults";
import { hasTeeth, type ToothedGear } from "../drive/types";
import { wayTo } from "../explain/route";
import type { MeshKind } from "../mesh-kinds/contract";
import { GEAR_FORMS } from "../mesh-kinds/gear-forms";
import { indexDrive } from "../placement/index-drive";
import { place } from "../placement/place";
import type { Drive, Gear, Mesh, Solved } from "../solved";
import { ON_AXIS } from "../tolerances";
import { cross, DEGREE, dot, sub } from "../vector";

/** One mesh as the means ask about it. */
export interface Joint {
  readonly mesh: Mesh;
  /** Index of the mesh. */
  readonly at: number;
  readonly kind: MeshKind;
  readonly gears: readonly [Gear, Gear];
  readonly shafts: readonly [number, number];
  /** Which side placed the other; null on a mesh that closes a loop. */
  readonly from: 0 | 1 | null;
  /** Which side is nearer to the input. */
  readonly near: 0 | 1;
}

/** Meshes looked at on the way to one shaft, the nearest to it first: beyond these an answer is no small change. */
const MOST_JOINTS = 8;

export function jointAt(solved: Solved, at: number, near: 0 | 1): Joint | null {
  const { drive, index, placement } = solved;
  const mesh = drive.meshes[at];
  const placed = placement.meshes[at];
  const shafts = index.shaftsOfMesh[at];
  if (!mesh || !placed || !shafts) return null;
  const placedBy = ([0, 1] as const).find((side) => {
    const shaft = drive.shafts[shafts[side]];
    return !placed.closesLoop && !shaft?.pose && placement.shafts[shafts[side]]?.placedBy === mesh.id;
  });
  return {
    mesh,
    at,
    kind: placed.kind,
    gears: placed.pair.gears,
    shafts,
    from: placedBy === undefined ? null : placedBy === 0 ? 1 : 0,
    near,
  };
}

/** The meshes that drive a shaft, the nearest first. */
export const jointsTo = (solved: Solved, shaft: number): Joint[] =>
  wayTo(solved, shaft)
    .toReversed()
    .flatMap(({ link }) => (link.kind === "mesh" ? (jointAt(solved, link.mesh, link.near) ?? []) : []))
    .slice(0, MOST_JOINTS);

/** Whether a gear meshes with one mate only, so that it may be cut anew for that one. */
export const isAlone = ({ drive }: Pick<Solved, "drive">, gear: Gear): boolean =>
  drive.meshes.filter(({ gears }) => gears.includes(gear.id)).length === 1;

export const isRing = (gear: Gear): boolean => GEAR_FORMS[gear.kind].pitchAngle === 180;

export const areToothed = (gears: readonly [Gear, Gear]): gears is readonly [ToothedGear, ToothedGear] =>
  hasTeeth(gears[0]) && hasTeeth(gears[1]);

export const setTeeth = (gear: string, teeth: number): Edit => setGear(gear, { teeth });

/** A gear replaced by one of other fields, another kind among them. */
export const remade =
  (id: string, fields: Partial<ToothedGear>): Edit =>
  (drive) => ({
    ...drive,
    gears: drive.gears.map((gear) =>
      gear.id === id && hasTeeth(gear) ? makeGear({ ...gear, ...fields } as ToothedGear) : gear,
    ),
  });

export const remeshed =
  (id: string, fields: Partial<Mesh>): Edit =>
  (drive) => ({
    ...drive,
    meshes: drive.meshes.map((mesh) => (mesh.id === id ? makeMesh({ ...mesh, ...fields }) : mesh)),
  });

/** Degrees within a turn; a hair's breadth from a whole number is that number. */
export const tidyDegrees = (degrees: number): number => {
  const within = ((degrees % 360) + 360) % 360;
  const whole = Math.round(within);
  return Math.abs(within - whole) < 1e-9 ? whole % 360 : within;
};

/**
 * Makes an edit after which what a shaft places stays where it was, though the shaft's own ref may have turned: the azimuths of
 * its meshes, and of those of shafts on its line, turn back by as much.
 */
export const keepingBehind =
  (before: Solved, shaft: string, edit: Edit): Edit =>
  (drive) => {
    const result = edit(drive);
    if (isRefused(result)) return result;
    const index = indexDrive(result);
    const placement = place(result, index);
    const own = before.placement.shafts[before.index.shafts.get(shaft) ?? -1];
    const now = placement.shafts[index.shafts.get(shaft) ?? -1];
    // Where the axis itself leans otherwise all that is behind leans with it.
    if (!own || !now || dot(own.axis, now.axis) < 1 - 1e-12) return result;
    const turn = Math.atan2(dot(cross(own.ref, now.ref), own.axis), dot(own.ref, now.ref)) / DEGREE;
    if (Math.abs(turn) < 1e-9) return result;
    const line = sharing(result, shaft);
    const meshes = result.meshes.map((mesh, i) => {
      const pair = index.shaftsOfMesh[i];
      const isPlacing = placement.meshes[i] && !placement.meshes[i]?.closesLoop;
      const from = pair?.find((s) => line.has(result.shafts[s]?.id ?? ""));
      const to = pair?.find((s) => s !== from);
      const placed = to === undefined ? undefined : placement.shafts[to];
      if (!isPlacing || from === undefined || placed?.placedBy !== mesh.id) return mesh;
      return makeMesh({ ...mesh, azimuth: tidyDegrees(mesh.azimuth - turn) });
    });
    return { ...result, meshes };
  };

/** The shaft and all that share its line through it, whichever way they name one another. */
function sharing(drive: Drive, shaft: string): ReadonlySet<string> {
  const line = new Set([shaft]);
  for (const id of line) {
    for (const other of drive.shafts) if (other.coaxial === id) line.add(other.id);
  }
  return line;
}

/** Place of a point along a shaft, mm from its origin. */
export const alongShaft = (solved: Solved, shaft: number, point: readonly [number, number, number]): number => {
  const placed = solved.placement.shafts[shaft];
  const at = placed ? dot(sub(point, placed.origin), placed.axis) : 0;
  // What is off a whole micrometre by rounding alone is written whole.
  const whole = Math.round(at * 1e3) / 1e3;
  return Math.abs(at - whole) < ON_AXIS * 1e-3 ? whole : at;
};
