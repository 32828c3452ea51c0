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

  const shaftOfGear = new Int32Array(drive.gears.length);
  const gearsOfShaft: number[][] = drive.shafts.map(() => []);
  for (let i = 0; i < drive.gears.length; i++) {
    const shaft = find(shafts, (drive.gears[i] as { shaft: string }).shaft, "shaft");
    shaftOfGear[i] = shaft;
    gearsOfShaft[shaft]?.push(i);
  }

  const gearsOfMesh: [number, number][] = [];
  const shaftsOfMesh: [number, number][] = [];
  const meshesOfShaft: number[][] = drive.shafts.map(() => []);
  for (let i = 0; i < drive.meshes.length; i++) {
    const ids = (drive.meshes[i] as { gears: readonly [string, string] }).gears;
    const pair: [number, number] = [find(gears, ids[0], "gear"), find(gears, ids[1], "gear")];
    const ends: [number, number] = [shaftOfGear[pair[0]] as number, shaftOfGear[pair[1]] as number];
    gearsOfMesh.push(pair);
    shaftsOfMesh.push(ends);
    meshesOfShaft[ends[0]]?.push(i);
    meshesOfShaft[ends[1]]?.push(i);
  }

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
