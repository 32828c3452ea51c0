/** Joins of a drive by number: built once for each drive, so that nothing later looks up an id. */
import type { Drive, Gear, Mesh, Port, Shaft } from "../drive/types";
import type { DriveIndex, FlatLists } from "../solved";

type Pairs = readonly (readonly [number, number])[];
type Lists = readonly (readonly number[])[];

/** Builds the index of a parsed drive. Throws a RangeError on an id that names nothing: the parser lets none through. */
export const indexDrive = (drive: Drive): DriveIndex => new JoinedDrive(drive);

/** The flat lists are filled at once; the lists of lists, which take ten times their room, when first asked for. */
class JoinedDrive implements DriveIndex {
  readonly shafts: ReadonlyMap<string, number>;
  readonly gears: ReadonlyMap<string, number>;
  readonly shaftOfGear: Int32Array;
  readonly gearAt: Int32Array;
  readonly shaftAt: Int32Array;
  readonly meshesAt: FlatLists;
  readonly gearsAt: FlatLists;
  readonly frameOfShaft: Int32Array;
  readonly portOfShaft: Int32Array;
  private ownMeshes: ReadonlyMap<string, number> | undefined = undefined;
  private ownGearsOfMesh: Pairs | undefined = undefined;
  private ownShaftsOfMesh: Pairs | undefined = undefined;
  private ownMeshesOfShaft: Lists | undefined = undefined;
  private ownGearsOfShaft: Lists | undefined = undefined;

  constructor(private readonly drive: Drive) {
    const { shafts, gears, meshes, ports } = drive;
    this.shafts = numbered(shafts);
    this.gears = numbered(gears);

    this.shaftOfGear = new Int32Array(gears.length);
    for (let i = 0; i < gears.length; i++) this.shaftOfGear[i] = find(this.shafts, (gears[i] as Gear).shaft, "shaft");
    this.gearsAt = flatLists(shafts.length, this.shaftOfGear, 1);

    this.gearAt = new Int32Array(2 * meshes.length);
    this.shaftAt = new Int32Array(2 * meshes.length);
    for (let end = 0; end < this.gearAt.length; end++) {
      const gear = find(this.gears, (meshes[end >> 1] as Mesh).gears[(end & 1) as 0 | 1], "gear");
      this.gearAt[end] = gear;
      this.shaftAt[end] = this.shaftOfGear[gear] as number;
    }
    this.meshesAt = flatLists(shafts.length, this.shaftAt, 2);

    this.frameOfShaft = new Int32Array(shafts.length).fill(-1);
    for (let i = 0; i < shafts.length; i++) {
      const { frame } = shafts[i] as Shaft;
      if (frame !== undefined) this.frameOfShaft[i] = find(this.shafts, frame, "shaft");
    }
    this.portOfShaft = new Int32Array(shafts.length).fill(-1);
    for (let i = 0; i < ports.length; i++) this.portOfShaft[find(this.shafts, (ports[i] as Port).shaft, "shaft")] = i;
  }

  get meshes(): ReadonlyMap<string, number> {
    this.ownMeshes ??= numbered(this.drive.meshes);
    return this.ownMeshes;
  }

  get gearsOfMesh(): Pairs {
    this.ownGearsOfMesh ??= pairsOf(this.gearAt);
    return this.ownGearsOfMesh;
  }

  get shaftsOfMesh(): Pairs {
    this.ownShaftsOfMesh ??= pairsOf(this.shaftAt);
    return this.ownShaftsOfMesh;
  }

  get meshesOfShaft(): Lists {
    this.ownMeshesOfShaft ??= listsOf(this.meshesAt);
    return this.ownMeshesOfShaft;
  }

  get gearsOfShaft(): Lists {
    this.ownGearsOfShaft ??= listsOf(this.gearsAt);
    return this.ownGearsOfShaft;
  }
}

function numbered(list: readonly { readonly id: string }[]): ReadonlyMap<string, number> {
  const map = new Map<string, number>();
  for (let i = 0; i < list.length; i++) map.set((list[i] as { id: string }).id, i);
  return map;
}

function find(map: ReadonlyMap<string, number>, id: string, what: string): number {
  const at = map.get(id);
  if (at === undefined) throw new RangeError(`There is no ${what} ${id}.`);
  return at;
}

/** For each of `count` owners its members in order, `owners` naming the owner of each; `perMember` entries are one member. */
function flatLists(count: number, owners: Int32Array, perMember: 1 | 2): FlatLists {
  const start = new Int32Array(count + 1);
  for (let i = 0; i < owners.length; i++)
    start[(owners[i] as number) + 1] = (start[(owners[i] as number) + 1] as number) + 1;
  for (let i = 0; i < count; i++) start[i + 1] = (start[i + 1] as number) + (start[i] as number);
  const members = new Int32Array(owners.length);
  const next = start.slice(0, count);
  for (let i = 0; i < owners.length; i++) {
    const owner = owners[i] as number;
    const place = next[owner] as number;
    members[place] = perMember === 1 ? i : i >> 1;
    next[owner] = place + 1;
  }
  return { start, members };
}

const pairsOf = (flat: Int32Array): Pairs =>
  Array.from({ length: flat.length / 2 }, (_, i) => [flat[2 * i] as number, flat[2 * i + 1] as number] as const);

const listsOf = ({ start, members }: FlatLists): Lists =>
  Array.from({ length: start.length - 1 }, (_, i) => [...members.subarray(start[i], start[i + 1])]);
