/**
 * What a drive must keep beyond its schema: ids that are unique and that exist, poses that are directions, carriers and
 * coaxial shafts without circles, gears that go together, at most one port a shaft. Reads a value in which anything may
 * still be wrong, so that these faults come together with those of the schema; a part that is unfit is passed over.
 */
import type { MeshKind } from "../mesh-kinds/contract";
import { kindOf } from "../mesh-kinds/list";
import { ALONG_AXIS } from "../tolerances";
import { cross, length, unit } from "../vector";
import { bareId, listIds } from "./describe";
import { isRecord, own } from "./schema-parts";
import { type Fault, GEAR_KINDS, type GearKind, LIMITS, type Vec3 } from "./types";

type Path = readonly (string | number)[];
type Report = (path: Path, message: string) => void;
type Item = Record<string, unknown> | null;

const items = (file: Record<string, unknown>, key: string, limit: number): Item[] | null => {
  const value = own(file, key);
  if (value === undefined) return [];
  // Past a limit the items aren't looked at, so nothing can be said of what names them.
  if (!Array.isArray(value) || value.length > limit) return null;
  return value.map((item) => (isRecord(item) ? item : null));
};

const textOf = (item: Item | undefined, key: string): string | undefined => {
  const value = item ? own(item, key) : undefined;
  return typeof value === "string" ? value : undefined;
};
const has = (item: Item, key: string): boolean => item !== null && own(item, key) !== undefined;

/** Reports every fault of this sort in the file, a value that need not have passed the schema. */
export function checkRules(file: Record<string, unknown>, report: Report): void {
  const shafts = items(file, "shafts", LIMITS.shafts);
  const gears = items(file, "gears", LIMITS.gears);
  const meshes = items(file, "meshes", LIMITS.meshes);
  const ports = items(file, "ports", LIMITS.shafts);
  const shaftIds = shafts && indexIds(shafts, "shafts", report);
  const gearIds = gears && indexIds(gears, "gears", report);
  if (meshes) indexIds(meshes, "meshes", report);
  if (shafts && shaftIds) {
    checkPoses(shafts, report);
    if (Array.isArray(own(file, "shafts")) && !shafts.some((shaft) => has(shaft, "pose"))) {
      report(
        ["shafts"],
        "No shaft has a pose; expected at least one that says where it stands, to place the others from",
      );
    }
    checkLinks(shafts, shaftIds, "coaxial", report);
    checkLinks(shafts, shaftIds, "frame", report);
    gears?.forEach(
      (gear, i) => void checkShaft(gear, ["gears", i, "shaft"], `Gear ${nameOf(gear, i)}`, shaftIds, report),
    );
    if (ports) checkPorts(ports, shaftIds, report);
  }
  if (meshes && gears && gearIds) meshes.forEach((mesh, i) => void checkMesh(mesh, i, gears, gearIds, report));
}

/** The faults of this sort of a whole value, as a list. */
export function ruleFaults(file: object): Fault[] {
  const faults: Fault[] = [];
  checkRules(file as Record<string, unknown>, (_, message) => faults.push({ pointer: "", message: `${message}.` }));
  return faults;
}

const nameOf = (item: Item | undefined, index: number): string => {
  const id = textOf(item, "id");
  return id === undefined ? `number ${index + 1}` : bareId(id);
};

function indexIds(list: readonly Item[], key: string, report: Report): Map<string, number> {
  const ids = new Map<string, number>();
  list.forEach((item, i) => {
    const id = textOf(item, "id");
    if (id === undefined) return;
    const first = ids.get(id);
    if (first === undefined) ids.set(id, i);
    else
      report(
        [key, i, "id"],
        `The id ${bareId(id)} is taken by /${key}/${first} already; expected one that no other of the ${key} has`,
      );
  });
  return ids;
}

const vectorOf = (value: unknown): Vec3 | undefined => {
  if (!Array.isArray(value) || value.length !== 3) return undefined;
  const [x, y, z] = value as unknown[];
  const fit = [x, y, z].every((n) => typeof n === "number" && Number.isFinite(n));
  return fit ? [x as number, y as number, z as number] : undefined;
};
const isZero = (a: Vec3): boolean => a.every((n) => n === 0);

function checkPoses(shafts: readonly Item[], report: Report): void {
  shafts.forEach((shaft, i) => {
    const pose = shaft && own(shaft, "pose");
    if (!isRecord(pose)) return;
    const axis = vectorOf(own(pose, "axis"));
    const ref = vectorOf(own(pose, "ref"));
    const name = `Shaft ${nameOf(shaft, i)}`;
    if (axis && isZero(axis))
      report(["shafts", i, "pose", "axis"], `${name}: axis has zero length; expected a direction such as [1, 0, 0]`);
    if (ref && isZero(ref))
      report(
        ["shafts", i, "pose", "ref"],
        `${name}: ref has zero length; expected a direction that is not along the axis`,
      );
    if (axis && ref && !isZero(axis) && !isZero(ref) && length(cross(unit(axis), unit(ref))) < ALONG_AXIS) {
      report(
        ["shafts", i, "pose", "ref"],
        `${name}: ref lies along the axis; expected a direction at an angle to it, since it marks azimuth 0`,
      );
    }
  });
}

const LINKS = {
  coaxial: {
    ground: "expected the id of a shaft",
    circle: (ids: string) => `${ids} take their place from one another in a circle; give one of them a pose instead`,
    self: "is coaxial with itself; expected another shaft's id, or a pose instead",
  },
  frame: {
    ground: "leave frame out on a shaft that the ground carries",
    circle: (ids: string) => `${ids} carry one another in a circle; leave frame out on one of them`,
    self: "carries itself; expected another shaft's id, or no frame where the ground carries it",
  },
} as const;

/** Follows `coaxial` or `frame` from every shaft: to a shaft that exists, and never back to itself. Linear. */
function checkLinks(
  shafts: readonly Item[],
  ids: ReadonlyMap<string, number>,
  key: keyof typeof LINKS,
  report: Report,
): void {
  const words = LINKS[key];
  const next = shafts.map((shaft, i) => {
    const id = textOf(shaft, key);
    if (id === undefined) return -1;
    const target = ids.get(id);
    if (target !== undefined) return target;
    const cure = id === "ground" ? words.ground : "expected the id of a shaft of this drive";
    report(["shafts", i, key], `Shaft ${nameOf(shaft, i)}: ${key} names ${bareId(id)}, which is no shaft; ${cure}`);
    return -1;
  });
  // 0: not seen yet; otherwise the number of the walk that saw it.
  const seen = new Int32Array(shafts.length);
  for (let start = 0; start < shafts.length; start++) {
    let i = start;
    while (i >= 0 && seen[i] === 0) {
      seen[i] = start + 1;
      i = next[i] ?? -1;
    }
    if (i < 0 || seen[i] !== start + 1) continue;
    const circle = [i];
    for (let j = next[i] ?? -1; j !== i && j >= 0; j = next[j] ?? -1) circle.push(j);
    const first = circle.reduce((least, j) => Math.min(least, j), i);
    const names = circle.map((j) => textOf(shafts[j], "id") ?? "");
    const message =
      circle.length === 1 ? `Shaft ${nameOf(shafts[i], i)} ${words.self}` : `Shafts ${words.circle(listIds(names))}`;
    report(["shafts", first, key], message);
  }
}

function checkShaft(item: Item, path: Path, name: string, ids: ReadonlyMap<string, number>, report: Report): void {
  const id = textOf(item, "shaft");
  if (id !== undefined && !ids.has(id)) {
    report(path, `${name}: shaft names ${bareId(id)}, which is no shaft; expected the id of a shaft of this drive`);
  }
}

function checkPorts(ports: readonly Item[], ids: ReadonlyMap<string, number>, report: Report): void {
  const first = new Map<string, number>();
  ports.forEach((port, i) => {
    checkShaft(port, ["ports", i, "shaft"], `Port number ${i + 1}`, ids, report);
    const id = textOf(port, "shaft");
    if (id === undefined) return;
    const other = first.get(id);
    if (other === undefined) first.set(id, i);
    else
      report(
        ["ports", i, "shaft"],
        `Shaft ${bareId(id)} has a port already, /ports/${other}; expected at most one port a shaft`,
      );
  });
}

const isGearKind = (kind: unknown): kind is GearKind => (GEAR_KINDS as readonly unknown[]).includes(kind);

function checkMesh(
  mesh: Item,
  index: number,
  gears: readonly Item[],
  ids: ReadonlyMap<string, number>,
  report: Report,
): void {
  const pair = mesh && own(mesh, "gears");
  if (!mesh || !Array.isArray(pair) || pair.length !== 2) return;
  const name = `Mesh ${nameOf(mesh, index)}`;
  const places = pair.map((id: unknown, side) => {
    if (typeof id !== "string") return undefined;
    const place = ids.get(id);
    if (place === undefined) {
      report(
        ["meshes", index, "gears", side],
        `${name} names ${bareId(id)}, which is no gear; expected the id of a gear of this drive`,
      );
    }
    return place;
  });
  const [a, b] = places;
  if (a === undefined || b === undefined) return;
  const path = ["meshes", index, "gears"] as const;
  const [first, second] = [gears[a] ?? null, gears[b] ?? null];
  if (a === b) report(path, `${name} joins gear ${nameOf(first, a)} to itself; expected two gears on two shafts`);
  else if (textOf(first, "shaft") !== undefined && textOf(first, "shaft") === textOf(second, "shaft")) {
    const both = `${nameOf(first, a)} and ${nameOf(second, b)}`;
    report(
      path,
      `${name} joins ${both}, which sit on one shaft, ${bareId(textOf(first, "shaft") ?? "")}; expected gears on two shafts`,
    );
  }
  const [kind1, kind2] = [textOf(first, "kind"), textOf(second, "kind")];
  if (!isGearKind(kind1) || !isGearKind(kind2)) return;
  const kind = kindOf(kind1, kind2);
  if (kind) checkMeshKeys(mesh, index, name, kind, report);
  else {
    const both = kind1 === kind2 ? `two gears of kind ${kind1}` : `a gear of kind ${kind1} and one of kind ${kind2}`;
    report(path, `${name} joins ${both}, which do not go together; expected ${matesOf(kind1)}`);
  }
}

/** "spur with spur or internal" */
const matesOf = (kind: GearKind): string =>
  `${kind} with ${GEAR_KINDS.filter((other) => kindOf(kind, other)).join(" or ")}`;

function checkMeshKeys(
  mesh: Record<string, unknown>,
  index: number,
  name: string,
  kind: MeshKind,
  report: Report,
): void {
  const has = (key: string): boolean => own(mesh, key) !== undefined;
  if (kind.needsShaftAngle && !has("shaftAngle")) {
    report(
      ["meshes", index, "shaftAngle"],
      `${name}: shaftAngle is missing; expected degrees above 0 and below 180 between the two axes`,
    );
  }
  if (!kind.needsShaftAngle && has("shaftAngle")) {
    report(
      ["meshes", index, "shaftAngle"],
      `${name}: shaftAngle stands on gears whose shafts are parallel; leave it out`,
    );
  }
  for (const key of ["normalForce", "friction"]) {
    if (!kind.isFriction && has(key))
      report(
        ["meshes", index, key],
        `${name}: ${key} stands on toothed gears; leave it out, since only friction pairs press on one another`,
      );
  }
}
