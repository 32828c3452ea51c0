/**
 * Where every shaft stands: roots by their pose, coaxial shafts with the one that they name, all others by the mesh that
 * reaches them first, in passes over the meshes in document order (format.md, Placing).
 */
import type { Drive, Gear } from "../drive/types";
import type { MeshKind, Pair } from "../mesh-kinds/contract";
import { kindOf } from "../mesh-kinds/list";
import type { DriveIndex, PlacedShaft } from "../solved";
import { square, unit } from "../vector";
import { Heap } from "./heap";

/** A pair with its kind. */
export interface Sized extends Pair {
  readonly kind: MeshKind;
}

/** The kind and the sizes of each mesh, wherever it stands. */
export function sizeMeshes(drive: Drive, index: DriveIndex): Sized[] {
  return drive.meshes.map((mesh, i) => {
    const [first, second] = index.gearsOfMesh[i] as readonly [number, number];
    const gears = [drive.gears[first] as Gear, drive.gears[second] as Gear] as const;
    const kind = kindOf(gears[0].kind, gears[1].kind);
    if (!kind) throw new RangeError(`Gears ${gears[0].id} and ${gears[1].id} are of kinds that can't mesh.`);
    return { kind, mesh, gears, shape: kind.shape(mesh, gears) };
  });
}

export interface PlacedShafts {
  readonly shafts: (PlacedShaft | null)[];
  /** For each mesh whether it placed a shaft. */
  readonly places: Uint8Array;
}

/** Places all shafts that can be reached; the others stay null. Linear in the drive, but for the logarithm of the queue. */
export function placeShafts(drive: Drive, index: DriveIndex, sized: readonly Sized[]): PlacedShafts {
  const count = drive.meshes.length;
  const shafts: (PlacedShaft | null)[] = drive.shafts.map(() => null);
  const places = new Uint8Array(count);
  const coaxialWith = new Map<number, number[]>();
  drive.shafts.forEach((shaft, i) => {
    const named = shaft.coaxial === undefined ? undefined : index.shafts.get(shaft.coaxial);
    if (named === undefined) return;
    const list = coaxialWith.get(named);
    if (list) list.push(i);
    else coaxialWith.set(named, [i]);
  });

  const queue = new Heap();
  // A mesh waits under pass · count + its number; each is queued at most once for each of its shafts.
  const settle = (shaft: number, placed: PlacedShaft, pass: number, after: number): void => {
    shafts[shaft] = placed;
    for (const mesh of index.meshesOfShaft[shaft] as readonly number[]) {
      if (mesh === after) continue;
      queue.push((mesh > after ? pass : pass + 1) * count + mesh);
    }
    // Chains of coaxial shafts are as deep as the file makes them: a list, not recursion.
    for (const other of coaxialChain(coaxialWith, shaft)) {
      shafts[other] = { origin: placed.origin, axis: placed.axis, ref: placed.ref, placedBy: "coaxial" };
      for (const mesh of index.meshesOfShaft[other] as readonly number[]) {
        queue.push((mesh > after ? pass : pass + 1) * count + mesh);
      }
    }
  };

  drive.shafts.forEach((shaft, i) => {
    if (!shaft.pose) return;
    const axis = unit(shaft.pose.axis);
    const ref = unit(square(unit(shaft.pose.ref), axis));
    settle(i, { origin: shaft.pose.origin, axis, ref, placedBy: "pose" }, 0, -1);
  });

  for (let key = queue.pop(); key !== undefined; key = queue.pop()) {
    const at = key % count;
    const ends = index.shaftsOfMesh[at] as readonly [number, number];
    const from = shafts[ends[0]] ? 0 : 1;
    const placed = shafts[ends[from]];
    const to = ends[1 - from] as number;
    // A coaxial shaft is placed with the one it names, never by a mesh.
    if (!placed || shafts[to] || drive.shafts[to]?.coaxial !== undefined) continue;
    const pair = sized[at] as Sized;
    const pose = pair.kind.place(pair, from, placed);
    places[at] = 1;
    settle(
      to,
      { origin: pose.origin, axis: pose.axis, ref: pose.ref, placedBy: pair.mesh.id },
      Math.floor(key / count),
      at,
    );
  }
  return { shafts, places };
}

/** All shafts that share the line of `shaft`, straight or through others. */
function coaxialChain(coaxialWith: ReadonlyMap<number, readonly number[]>, shaft: number): readonly number[] {
  const named = coaxialWith.get(shaft);
  if (!named) return [];
  const chain = [...named];
  for (let i = 0; i < chain.length; i++) chain.push(...(coaxialWith.get(chain[i] as number) ?? []));
  return chain;
}
