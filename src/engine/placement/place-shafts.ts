/**
 * Where every shaft stands: roots by their pose, coaxial shafts with the one that they name, all others by the mesh that
 * reaches them first, in passes over the meshes in document order (format.md, Placing).
 */
import type { Drive, Gear, Mesh, Shaft } from "../drive/types";
import type { MeshKind, Pair } from "../mesh-kinds/contract";
import { kindOf } from "../mesh-kinds/list";
import type { DriveIndex, PlacedShaft, Placement } from "../solved";
import { square, unit } from "../vector";
import { Heap } from "./heap";

/** A pair with its kind. */
export interface Sized {
  readonly kind: MeshKind;
  readonly pair: Pair;
}

/** An earlier drive as it was placed. What has not changed since keeps its very objects, and costs no more than a look at it. */
export interface Before {
  readonly drive: Drive;
  readonly placement: Placement;
}

/** The kind and the sizes of each mesh, wherever it stands. */
export function sizeMeshes(drive: Drive, index: DriveIndex, before: Before | null): Sized[] {
  const sized: Sized[] = new Array(drive.meshes.length);
  for (let i = 0; i < sized.length; i++) {
    const mesh = drive.meshes[i] as Mesh;
    const first = drive.gears[index.gearAt[2 * i] as number] as Gear;
    const second = drive.gears[index.gearAt[2 * i + 1] as number] as Gear;
    const old = before?.placement.meshes[i];
    if (old?.pair.mesh === mesh && old.pair.gears[0] === first && old.pair.gears[1] === second) {
      sized[i] = old;
      continue;
    }
    const kind = kindOf(first.kind, second.kind);
    if (!kind) throw new RangeError(`Gears ${first.id} and ${second.id} are of kinds that can't mesh.`);
    const gears = [first, second] as const;
    sized[i] = { kind, pair: { mesh, gears, shape: kind.shape(mesh, gears) } };
  }
  return sized;
}

export interface PlacedShafts {
  readonly shafts: (PlacedShaft | null)[];
  /** For each mesh whether it placed a shaft. */
  readonly places: Uint8Array;
}

/** Places all shafts that can be reached; the others stay null. Linear in the drive, but for the logarithm of the queue. */
export function placeShafts(
  drive: Drive,
  index: DriveIndex,
  sized: readonly Sized[],
  before: Before | null = null,
): PlacedShafts {
  const count = drive.meshes.length;
  const shafts: (PlacedShaft | null)[] = new Array(drive.shafts.length).fill(null);
  const places = new Uint8Array(count);
  const coaxialWith = coaxialLists(drive, index);
  const { start, members } = index.meshesAt;
  const queue = new Heap();
  const oldShaft = (shaft: number): PlacedShaft | null | undefined => before?.placement.shafts[shaft];
  // A mesh waits under pass · count + its number; each is queued at most once for each of its shafts.
  const queueMeshes = (shaft: number, pass: number, after: number): void => {
    for (let k = start[shaft] as number; k < (start[shaft + 1] as number); k++) {
      const mesh = members[k] as number;
      if (mesh !== after) queue.push((mesh > after ? pass : pass + 1) * count + mesh);
    }
  };
  const settle = (shaft: number, placed: PlacedShaft, pass: number, after: number): void => {
    shafts[shaft] = placed;
    queueMeshes(shaft, pass, after);
    // Chains of coaxial shafts are as deep as the file makes them: a list, not recursion.
    for (const other of coaxialChain(coaxialWith, shaft)) {
      const old = oldShaft(other);
      shafts[other] =
        old?.placedBy === "coaxial" &&
        old.origin === placed.origin &&
        old.axis === placed.axis &&
        old.ref === placed.ref
          ? old
          : { origin: placed.origin, axis: placed.axis, ref: placed.ref, placedBy: "coaxial" };
      queueMeshes(other, pass, after);
    }
  };

  for (let i = 0; i < shafts.length; i++) {
    const { pose } = drive.shafts[i] as Shaft;
    if (!pose) continue;
    const old = oldShaft(i);
    if (old && before?.drive.shafts[i]?.pose === pose) {
      settle(i, old, 0, -1);
      continue;
    }
    const axis = unit(pose.axis);
    const ref = unit(square(unit(pose.ref), axis));
    settle(i, { origin: pose.origin, axis, ref, placedBy: "pose" }, 0, -1);
  }

  for (let key = queue.pop(); key !== undefined; key = queue.pop()) {
    const at = key % count;
    const from = shafts[index.shaftAt[2 * at] as number] ? 0 : 1;
    const placed = shafts[index.shaftAt[2 * at + from] as number];
    const to = index.shaftAt[2 * at + 1 - from] as number;
    // A coaxial shaft is placed with the one it names, never by a mesh.
    if (!placed || shafts[to] || (drive.shafts[to] as Shaft).coaxial !== undefined) continue;
    const { kind, pair } = sized[at] as Sized;
    places[at] = 1;
    const pass = Math.floor(key / count);
    const old = oldShaft(to);
    const isUnmoved =
      old?.placedBy === pair.mesh.id &&
      before?.placement.meshes[at] === sized[at] &&
      oldShaft(index.shaftAt[2 * at + from] as number) === placed;
    if (isUnmoved) settle(to, old, pass, at);
    else {
      const { origin, axis, ref } = kind.place(pair, from, placed);
      settle(to, { origin, axis, ref, placedBy: pair.mesh.id }, pass, at);
    }
  }
  return { shafts, places };
}

/** For each shaft that others name as the one they share a line with, those others. */
function coaxialLists(drive: Drive, index: DriveIndex): ReadonlyMap<number, readonly number[]> {
  const lists = new Map<number, number[]>();
  for (let i = 0; i < drive.shafts.length; i++) {
    const { coaxial } = drive.shafts[i] as Shaft;
    const named = coaxial === undefined ? undefined : index.shafts.get(coaxial);
    if (named === undefined) continue;
    const list = lists.get(named);
    if (list) list.push(i);
    else lists.set(named, [i]);
  }
  return lists;
}

const NONE: readonly number[] = [];

/** All shafts that share the line of `shaft`, straight or through others. */
function coaxialChain(coaxialWith: ReadonlyMap<number, readonly number[]>, shaft: number): readonly number[] {
  const named = coaxialWith.get(shaft);
  if (!named) return NONE;
  const chain = [...named];
  for (let i = 0; i < chain.length; i++) chain.push(...(coaxialWith.get(chain[i] as number) ?? []));
  return chain;
}
