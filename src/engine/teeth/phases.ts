/**
 * Where every shaft stands at time zero, so that at every mesh a tooth stands in a gap.
 *
 * With T the azimuth of a tooth's middle and B that of the pitch point, both in turns about the shafts' positive axes,
 * and s the signs of the mesh's equation of motion: s1 z1 (T1 - B1) + s2 z2 (T2 - B2) is half a turn more than a
 * whole number of turns. Differentiated it is the equation of motion itself, so it holds at every moment.
 */
import type { Drive, Gear, Vec3 } from "../drive/types";
import { hasTeeth } from "../drive/types";
import type { DriveIndex, PlacedShaft, Placement } from "../solved";
import { SAME_PITCH } from "../tolerances";
import { cross, dot } from "../vector";

const TURN = 2 * Math.PI;

/** Azimuth of `direction` about the shaft's positive axis, from its `ref`: turns, in (-1/2, 1/2]. */
export const azimuthTurns = (direction: Vec3, shaft: PlacedShaft): number =>
  Math.atan2(dot(direction, cross(shaft.axis, shaft.ref)), dot(direction, shaft.ref)) / TURN;

/** The part of `x` above the next whole number below: in [0, 1). */
export const fraction = (x: number): number => x - Math.floor(x);

/** One mesh with teeth, ready for the law above. Index 0 and 1: the gears in the mesh's order. */
export interface PhaseMesh {
  readonly signs: readonly [1 | -1, 1 | -1];
  readonly teeth: readonly [number, number];
  /** Azimuths of the pitch point, turns. */
  readonly towards: readonly [number, number];
  /** The gears' own `phase`, turns. */
  readonly keys: readonly [number, number];
}

/** The mesh as the law needs it; null where it has no teeth, or isn't placed. */
export function phaseMesh(drive: Drive, index: DriveIndex, placement: Placement, mesh: number): PhaseMesh | null {
  const placed = placement.meshes[mesh];
  const at = index.gearsOfMesh[mesh];
  const on = index.shaftsOfMesh[mesh];
  const data = drive.meshes[mesh];
  if (!placed || !at || !on || !data || placed.kind.isFriction) return null;
  const gears: [Gear | undefined, Gear | undefined] = [drive.gears[at[0]], drive.gears[at[1]]];
  const shafts = [placement.shafts[on[0]], placement.shafts[on[1]]] as const;
  const [a, b] = gears;
  const [p, q] = shafts;
  if (!a || !b || !p || !q || !hasTeeth(a) || !hasTeeth(b)) return null;
  return {
    signs: placed.kind.signs({ mesh: data, gears: [a, b], shape: placed.shape }, [p, q]),
    teeth: [a.teeth, b.teeth],
    towards: [azimuthTurns(placed.towards[0], p), azimuthTurns(placed.towards[1], q)],
    keys: [a.phase / 360, b.phase / 360],
  };
}

/**
 * By how much of a pitch the teeth of a mesh miss, when its shafts stand at the rotations given in turns: -1/2 to 1/2,
 * 0 where a tooth stands in the middle of a gap.
 */
export function phaseMiss(mesh: PhaseMesh, rotations: readonly [number, number]): number {
  let sum = -0.5;
  for (const i of [0, 1] as const) {
    // Reduced before the product, so that no digits are lost on large counts.
    sum += mesh.signs[i] * fraction(mesh.teeth[i] * fraction(rotations[i] + mesh.keys[i] - mesh.towards[i]));
  }
  return sum - Math.round(sum);
}

/** The smallest rotation, turns, of the shaft of gear `side` that fits the mesh when the other stands at `rotation`. */
function fittingRotation(mesh: PhaseMesh, side: 0 | 1, rotation: number): number {
  const other = side === 0 ? 1 : 0;
  const z = mesh.teeth[side];
  const mate = mesh.signs[other] * mesh.teeth[other] * fraction(rotation + mesh.keys[other] - mesh.towards[other]);
  const pitches = fraction(
    mesh.signs[side] * (0.5 - fraction(mate)) + z * fraction(mesh.towards[side] - mesh.keys[side]),
  );
  return pitches > 1 - SAME_PITCH || pitches < SAME_PITCH ? 0 : pitches / z;
}

/**
 * The rotation of each shaft at time zero, radians, right-handed about its positive axis, from where its `ref` is
 * azimuth 0: root and coaxial shafts 0, a placed shaft the smallest one (0 or more) that centres a tooth of the
 * mesh that placed it in its mate's gap. Unplaced shafts and those placed by friction: 0. format.md, `phase`.
 */
export function restPhases(drive: Drive, index: DriveIndex, placement: Placement): Float64Array {
  const count = drive.shafts.length;
  const turns = new Float64Array(count);
  const known = new Uint8Array(count);
  const path: number[] = [];
  for (let start = 0; start < count; start++) {
    // From the shaft back to the first one known, then forward again: no recursion, chains may be thousands long.
    let shaft = start;
    while (known[shaft] === 0) {
      path.push(shaft);
      known[shaft] = 1;
      const parent = parentOf(drive, index, placement, shaft);
      if (parent === null) break;
      shaft = parent.shaft;
    }
    for (let next = path.pop(); next !== undefined; next = path.pop()) {
      const parent = parentOf(drive, index, placement, next);
      const mesh = parent && phaseMesh(drive, index, placement, parent.mesh);
      if (parent && mesh) turns[next] = fittingRotation(mesh, parent.side, turns[parent.shaft] ?? 0);
    }
  }
  return turns.map((t) => t * TURN);
}

/** The mesh that placed a shaft, on which side of it the shaft stands, and the shaft that it was placed from. */
export function parentOf(
  drive: Drive,
  index: DriveIndex,
  placement: Placement,
  shaft: number,
): { readonly mesh: number; readonly side: 0 | 1; readonly shaft: number } | null {
  const data = drive.shafts[shaft];
  const placed = placement.shafts[shaft];
  // By the drive's own keys, not the word in `placedBy`: a mesh may be called "pose".
  if (!data || !placed || data.pose !== undefined || data.coaxial !== undefined) return null;
  const mesh = index.meshes.get(placed.placedBy);
  const on = mesh === undefined ? undefined : index.shaftsOfMesh[mesh];
  if (mesh === undefined || !on) return null;
  const side = on[1] === shaft ? 1 : 0;
  return { mesh, side, shaft: on[side === 0 ? 1 : 0] };
}
