/** Joins of a drive by number: built once for each drive, so that nothing later looks up an id. */
import type { Drive } from "../drive/types";
import type { DriveIndex } from "../solved";

/** Builds the index of a parsed drive. Throws a RangeError on an id that names nothing: the parser lets none through. */
export function indexDrive(drive: Drive): DriveIndex {
  const numbered = (list: readonly { readonly id: string }[]) => {
    const map = new Map<string, number>();
    for (let i = 0; i < list.length; i++) map.set((list[i] as { id: string }).id, i);
    return map;
  };
  const shafts = numbered(drive.shafts);
  const gears = numbered(drive.gears);
  const meshes = numbered(drive.meshes);
  const find = (map: ReadonlyMap<string, number>, id: string, what: string): number => {
    const at = map.get(id);
    if (at === undefined) throw new RangeError(`There is no ${what} ${id}.`);
    return at;
  };

  const shaftCount = drive.shafts.length;
  const shaftOfGear = new Int32Array(drive.gears.length);
  for (let i = 0; i < drive.gears.length; i++) {
    shaftOfGear[i] = find(shafts, (drive.gears[i] as { shaft: string }).shaft, "shaft");
  }
  const gearsOfShaft = listsOf(shaftCount, shaftOfGear.length, (i) => shaftOfGear[i] as number);

  const meshCount = drive.meshes.length;
  const gearsOfMesh: [number, number][] = new Array(meshCount);
  const shaftsOfMesh: [number, number][] = new Array(meshCount);
  for (let i = 0; i < meshCount; i++) {
    const ids = (drive.meshes[i] as { gears: readonly [string, string] }).gears;
    const pair: [number, number] = [find(gears, ids[0], "gear"), find(gears, ids[1], "gear")];
    gearsOfMesh[i] = pair;
    shaftsOfMesh[i] = [shaftOfGear[pair[0]] as number, shaftOfGear[pair[1]] as number];
  }
  const meshesOfShaft = listsOf(
    shaftCount,
    2 * meshCount,
    (i) => (shaftsOfMesh[i >> 1] as [number, number])[i & 1] as number,
    (i) => i >> 1,
  );

  const frameOfShaft = new Int32Array(drive.shafts.length).fill(-1);
  drive.shafts.forEach((shaft, i) => {
    if (shaft.frame !== undefined) frameOfShaft[i] = find(shafts, shaft.frame, "shaft");
  });
  const portOfShaft = new Int32Array(drive.shafts.length).fill(-1);
  drive.ports.forEach((port, i) => {
    portOfShaft[find(shafts, port.shaft, "shaft")] = i;
  });

  return {
    shafts,
    gears,
    meshes,
    shaftOfGear,
    gearsOfMesh,
    shaftsOfMesh,
    meshesOfShaft,
    gearsOfShaft,
    frameOfShaft,
    portOfShaft,
  };
}

/**
 * For each of `count` owners the members that belong to it, in order. Counted before it is filled: an array that grows by
 * pushing takes room for seventeen at its first.
 */
function listsOf(
  count: number,
  members: number,
  owner: (i: number) => number,
  member: (i: number) => number = (i) => i,
): number[][] {
  const sizes = new Int32Array(count);
  for (let i = 0; i < members; i++) sizes[owner(i)] = (sizes[owner(i)] as number) + 1;
  const lists: number[][] = new Array(count);
  for (let i = 0; i < count; i++) lists[i] = new Array(sizes[i]);
  sizes.fill(0);
  for (let i = 0; i < members; i++) {
    const at = owner(i);
    const place = sizes[at] as number;
    (lists[at] as number[])[place] = member(i);
    sizes[at] = place + 1;
  }
  return lists;
}
