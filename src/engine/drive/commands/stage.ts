/** Add a stage: a gear on a shaft, a new shaft with its mate, and the mesh that places it. */
import type { MeshKind } from "../../mesh-kinds/contract";
import { kindOf, MESH_KINDS } from "../../mesh-kinds/list";
import { DEFAULTS, makeMesh, makePort, makeShaft } from "../defaults";
import { bareId } from "../describe";
import { type Drive, type Gear, type GearKind, hasTeeth, type Mesh, TOOTHED_KINDS } from "../types";
import {
  type Edit,
  type EditFault,
  gearOf,
  isRefused,
  limited,
  meshFault,
  missing,
  portOf,
  refuse,
  shaftOf,
} from "./edit";
import { type NewGear, newGear } from "./gear";
import { freshMeshId, freshShaftId } from "./ids";

export interface StageFields {
  /** The shaft that the stage begins from. */
  readonly shaft: string;
  /** A gear on it that takes the mate as it stands; without one a new gear is put on. */
  readonly gear?: string;
  /** Id of the kind of mesh, as in `MESH_KINDS`. */
  readonly kind: string;
  /** Whether the new shaft gets the kind that the mesh kind names first, the other way round than usual (a pinion in a ring that is there). */
  readonly swapped?: boolean;
  /** Teeth of the first and of the new shaft's gear; 20 and 40 unless given. The first is not used where `gear` is. */
  readonly teeth?: readonly [number, number];
  /** The same for friction pairs, mm; 60 and 120 unless given. */
  readonly diameters?: readonly [number, number];
  /** mm; that of a gear of the shaft, else 2. */
  readonly module?: number;
  /** Degrees, for kinds that take one; 90 unless given. */
  readonly shaftAngle?: number;
  /** Degrees; 0 unless given. */
  readonly azimuth?: number;
  /** mm along the first shaft, for a new gear on it; beyond its last gear unless given. */
  readonly at?: number;
  /** mm, of both; that of a gear of the shaft, else 10, or less where a third of the cone distance is less. */
  readonly face?: number;
  /** Sides of the two apexes, for kinds that have one; `+` and `-` unless given. */
  readonly apexes?: readonly ["+" | "-", "+" | "-"];
  /** Name of the new shaft. */
  readonly name?: string;
  readonly efficiency?: number;
  readonly normalForce?: number;
  readonly friction?: number;
}

const USUAL_TEETH = [20, 40] as const;
const USUAL_DIAMETERS = [60, 120] as const;
const USUAL_MODULE = 2;
/** mm between the last gear of a shaft and a new one. */
const ROOM = 10;
/** A usual bound on the face width of bevel gears: a third of the cone distance. */
const FACE_OF_CONE = 1 / 3;

const isToothed = (kind: GearKind): boolean => (TOOTHED_KINDS as readonly string[]).includes(kind);

/** The kinds of the first and the second gear of the stage. */
function sides(fields: StageFields, kind: MeshKind, gear: Gear | undefined): readonly [GearKind, GearKind] | EditFault {
  const [a, b] = kind.pairs;
  if (!gear) return fields.swapped ? [b, a] : [a, b];
  if (gear.kind === a && !(fields.swapped && b === a)) return [a, b];
  if (gear.kind === b) return [b, a];
  return refuse(
    `Gear ${bareId(gear.id)} is of kind ${gear.kind}, which a ${kind.words.name} does not take; choose another gear or kind of mesh.`,
  );
}

/** mm: a whole number beyond all gears of the shaft, 0 on a bare one. */
function freePlace(drive: Drive, shaft: string, face: number): number {
  const ends = drive.gears.filter((gear) => gear.shaft === shaft).map(({ at, face: own }) => at + own);
  return ends.length === 0 ? 0 : Math.ceil(Math.max(...ends) + ROOM + face);
}

/** Adds a stage. The new shaft, gears and mesh stand last in their lists; an output at the first shaft moves on to the new one. */
export const addStage =
  (fields: StageFields): Edit =>
  (drive) => {
    const from = shaftOf(drive, fields.shaft);
    if (!from) return missing("shaft", fields.shaft);
    const there = fields.gear === undefined ? undefined : gearOf(drive, fields.gear);
    if (fields.gear !== undefined && there?.shaft !== from.id)
      return missing(`gear on shaft ${bareId(from.id)} called`, fields.gear);
    const kind = MESH_KINDS.find(({ id }) => id === fields.kind);
    if (!kind)
      return refuse(
        `There is no kind of mesh ${bareId(fields.kind)}; choose one of ${MESH_KINDS.map(({ id }) => id).join(", ")}.`,
      );
    const pair = sides(fields, kind, there);
    if (isRefused(pair)) return pair;

    const shaft = makeShaft({ id: freshShaftId(drive), name: fields.name, frame: from.frame });
    const withShaft: Drive = { ...drive, shafts: [...drive.shafts, shaft] };
    const last = drive.gears.findLast((gear) => gear.shaft === from.id);
    const face = fields.face ?? there?.face ?? last?.face ?? DEFAULTS.face;
    const first = there ?? newGear(drive, from.id, gearFields(drive, fields, pair[0], 0, face, undefined));
    if (isRefused(first)) return first;
    const withFirst: Drive = there ? withShaft : { ...withShaft, gears: [...drive.gears, first] };
    const second = newGear(withFirst, shaft.id, gearFields(drive, fields, pair[1], 1, face, there));
    if (isRefused(second)) return second;

    const mesh = makeMesh({
      id: freshMeshId(drive),
      gears: [first.id, second.id],
      shaftAngle: fields.shaftAngle ?? (kind.needsShaftAngle ? 90 : undefined),
      azimuth: fields.azimuth,
      efficiency: fields.efficiency,
      normalForce: fields.normalForce,
      friction: fields.friction,
    });
    const fault = meshFault(mesh) ?? strayKey(mesh, kind);
    if (fault) return fault;
    const most = fields.face === undefined ? mostFace(mesh, first, second) : Number.POSITIVE_INFINITY;
    const slim = (gear: Gear): Gear => (gear === there || gear.face <= most ? gear : { ...gear, face: most });
    const gears = there ? [...drive.gears, slim(second)] : [...drive.gears, slim(first), slim(second)];
    const output = portOf(drive, from.id);
    const ports = drive.ports.map((port) =>
      port === output && port.role === "output" ? makePort({ ...port, shaft: shaft.id }) : port,
    );
    return limited({ ...withShaft, gears, meshes: [...drive.meshes, mesh], ports });
  };

function strayKey(mesh: Mesh, kind: MeshKind): EditFault | null {
  const stray = [
    kind.needsShaftAngle ? undefined : mesh.shaftAngle,
    ...(kind.isFriction ? [] : [mesh.normalForce, mesh.friction]),
  ].some((value) => value !== undefined);
  return stray
    ? refuse(`A ${kind.words.name} takes no shaft angle, normal force or friction of the other kinds; leave it out.`)
    : null;
}

/** mm; rounded down to a half where that leaves something. */
function mostFace(mesh: Mesh, first: Gear, second: Gear): number {
  const cone = kindOf(first.kind, second.kind)?.shape(mesh, [first, second]).coneDistances ?? [
    Number.POSITIVE_INFINITY,
  ];
  const most = Math.min(...cone) * FACE_OF_CONE;
  if (!(most > 0)) return Number.POSITIVE_INFINITY;
  return most > 1 ? Math.floor(most * 2) / 2 : most;
}

function gearFields(
  drive: Drive,
  fields: StageFields,
  kind: GearKind,
  side: 0 | 1,
  face: number,
  mate: Gear | undefined,
): NewGear {
  const hasApex =
    fields.apexes !== undefined || MESH_KINDS.some((mesh) => mesh.needsShaftAngle && mesh.pairs.includes(kind));
  const common = {
    face,
    at: side === 0 ? (fields.at ?? freePlace(drive, fields.shaft, face)) : 0,
    ...(hasApex ? { apex: fields.apexes?.[side] ?? (side === 0 ? "+" : oppositeOf(mate)) } : {}),
  } as const;
  if (!isToothed(kind)) {
    return { kind, diameter: (fields.diameters ?? USUAL_DIAMETERS)[side], ...common } as NewGear;
  }
  const like = mate ?? drive.gears.findLast((gear) => gear.shaft === fields.shaft && hasTeeth(gear));
  const teeth =
    fields.teeth?.[side] ??
    (side === 1 && mate && hasTeeth(mate) && !fields.teeth ? 2 * mate.teeth : USUAL_TEETH[side]);
  return {
    kind,
    teeth: Math.min(teeth, Number.MAX_SAFE_INTEGER),
    module: fields.module ?? (like && hasTeeth(like) ? like.module : USUAL_MODULE),
    // Mates must agree in pressure angle, and their shifts must sum to 0 (in a ring pair: be equal).
    ...(mate && hasTeeth(mate)
      ? { pressureAngle: mate.pressureAngle, shift: kind === mate.kind ? -mate.shift : mate.shift }
      : {}),
    ...common,
  } as NewGear;
}

const oppositeOf = (mate: Gear | undefined): "+" | "-" => (mate?.apex === "-" ? "+" : "-");
