/** Leaning a bevel pair by hand: which mesh, in which plane, and at what angle. Pure. */

import { hasTeeth } from "../engine/drive/types";
import { frameOfMesh } from "../engine/motion/pose-at";
import type { Solved, Vec3 } from "../engine/solved";
import { along, clamp, cross, dot, length, square, sub, unit } from "../engine/vector";
import type { Part } from "../store/view";
import type { Ray } from "./orbit";

/** Degrees: the handle's range. The number field beside the mesh takes all that the format allows. */
export const LEAST_LEAN = 15;
export const MOST_LEAN = 150;
/** Degrees: steps that the handle snaps to, and from how near. */
const SNAP_STEP = 15;
const SNAP_NEAR = 2.5;

export interface Lean {
  readonly mesh: number;
  readonly id: string;
  /** Degrees between the outward axes. */
  readonly angle: number;
  readonly apex: Vec3;
  /** Outward axes: the gear that stays, and the gear that leans. Unit. */
  readonly stays: Vec3;
  readonly leans: Vec3;
  /** In the plane of both, square to `stays`, on the side of `leans`. Unit. */
  readonly across: Vec3;
  /** mm from the apex. */
  readonly radius: number;
  /** Index of the carrier on which all this rides, -1 for none; the vectors above are at time zero. */
  readonly frame: number;
  /** Degrees at which one of the pair is a flat crown. */
  readonly crown: number | null;
}

/** The mesh that the handle leans for what is selected: of the mesh, gear or shaft the first at an angle; null for none. */
export function leanFor(solved: Solved, selection: Part | null): Lean | null {
  const mesh = selection ? leaningMesh(solved, selection) : -1;
  return mesh >= 0 ? leanOf(solved, mesh) : null;
}

const canLean = ({ placement }: Solved, mesh: number): boolean => {
  const placed = placement.meshes[mesh];
  return Boolean(placed?.kind.needsShaftAngle && !placed.closesLoop);
};

function leaningMesh(solved: Solved, { kind, id }: Part): number {
  const { index, placement } = solved;
  if (kind === "mesh") {
    const mesh = index.meshes.get(id) ?? -1;
    return canLean(solved, mesh) ? mesh : -1;
  }
  const gear = kind === "gear" ? (index.gears.get(id) ?? -1) : -1;
  const shaft = kind === "shaft" ? (index.shafts.get(id) ?? -1) : (index.shaftOfGear[gear] ?? -1);
  const meshes = (index.meshesOfShaft[shaft] ?? []).filter(
    (mesh) => canLean(solved, mesh) && (gear < 0 || index.gearsOfMesh[mesh]?.includes(gear)),
  );
  // The mesh that placed the shaft first: leaning it moves the shaft itself.
  const own = placement.shafts[shaft]?.placedBy;
  return meshes.find((mesh) => solved.drive.meshes[mesh]?.id === own) ?? meshes[0] ?? -1;
}

function leanOf(solved: Solved, mesh: number): Lean | null {
  const { drive, index, placement } = solved;
  const data = drive.meshes[mesh];
  const pair = index.gearsOfMesh[mesh];
  const shafts = index.shaftsOfMesh[mesh];
  if (!data || !pair || !shafts) return null;
  // The shaft that this mesh placed is the one that leans.
  const moving =
    placement.shafts[shafts[0]]?.placedBy === data.id && drive.shafts[shafts[0]]?.pose === undefined ? 0 : 1;
  const [stays, leans] = [placement.gears[pair[moving === 0 ? 1 : 0]], placement.gears[pair[moving]]];
  if (!stays?.apexPoint || !leans || stays.coneDistance === null) return null;
  const across = square(leans.outward, stays.outward);
  if (length(across) < 1e-9) return null;
  const [a, b] = [drive.gears[pair[0]], drive.gears[pair[1]]];
  const size = (gear: typeof a): number => (gear ? (hasTeeth(gear) ? gear.teeth : gear.diameter) : 1);
  const less = Math.min(size(a), size(b)) / Math.max(size(a), size(b));
  return {
    mesh,
    id: data.id,
    angle: data.shaftAngle ?? 90,
    apex: stays.apexPoint,
    stays: stays.outward,
    leans: leans.outward,
    across: unit(across),
    radius: reach(solved, pair) * 1.25,
    frame: frameOfMesh(solved, mesh),
    crown: less < 1 ? (Math.acos(-less) * 180) / Math.PI : null,
  };
}

/** How far from the apex the pair's bodies reach along their axes, or their cones, whichever is more. */
function reach({ placement }: Solved, pair: readonly [number, number]): number {
  return Math.max(...pair.map((gear) => placement.gears[gear]?.coneDistance ?? 0).map((d) => Math.min(d, 1e6)));
}

/** A point of the arc, `angle` degrees from the axis that stays. */
export function arcPoint(lean: Lean, angle: number, radius = lean.radius): Vec3 {
  const a = (angle * Math.PI) / 180;
  return along(along(lean.apex, lean.stays, radius * Math.cos(a)), lean.across, radius * Math.sin(a));
}

/** Degrees at which a line of sight meets the plane of the axes; null where it runs along that plane. */
export function angleUnder(lean: Lean, ray: Ray): number | null {
  const normal = cross(lean.stays, lean.across);
  const down = dot(ray.direction, normal);
  if (Math.abs(down) < 0.08) return null;
  const at = along(ray.origin, ray.direction, dot(sub(lean.apex, ray.origin), normal) / down);
  const d = sub(at, lean.apex);
  return (Math.atan2(dot(d, lean.across), dot(d, lean.stays)) * 180) / Math.PI;
}

/** Into the handle's range; onto a step, a right angle or the flat crown where near (not with `isFree`), else whole degrees. */
export function snapLean(angle: number, crown: number | null, isFree: boolean): number {
  // Behind the apex the nearer end of the range is meant.
  const within = clamp(angle < -105 ? MOST_LEAN : angle, LEAST_LEAN, MOST_LEAN);
  if (isFree) return Math.round(within * 10) / 10;
  const step = Math.round(within / SNAP_STEP) * SNAP_STEP;
  if (Math.abs(within - step) <= SNAP_NEAR) return clamp(step, LEAST_LEAN, MOST_LEAN);
  if (crown !== null && crown <= MOST_LEAN && Math.abs(within - crown) <= SNAP_NEAR) return crown;
  return Math.round(within);
}
