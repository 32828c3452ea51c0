/**
 * Leaning one shaft of a pair to any angle between its axes from 0 to 180 degrees. Between the two ends the pair is one of bevel
 * gears (or cones); at 0 it becomes an outside pair on parallel shafts, at 180 a pinion in a ring, and comes back. All that hangs on
 * the leaning shaft stands, at the change, where it stood just before.
 *
 * What has to be made good at a change follows from the two rules of placing (format.md), with r the direction at the azimuth, a the
 * axis of the shaft that stays and u its gear's outward axis: at 0 the leaning bevel's ref is -r, at 180 it is r, and a parallel pair
 * takes the ref of the shaft that stays; at 180 a ring's centre lies along its azimuth, an internal bevel's against it; `at` is the heel
 * of a bevel gear and the middle of the face of a cylinder. Our own reckoning, held against placing itself in the tests.
 */
import { GEAR_FORMS } from "../../mesh-kinds/gear-forms";
import { kindOf } from "../../mesh-kinds/list";
import { makeGear, makeMesh, makePort } from "../defaults";
import { bareId } from "../describe";
import { type Drive, GEAR_KINDS, type Gear, type GearKind, type Mesh, type Port, pitchDiameter } from "../types";
import { type Edit, type EditFault, gearOf, isRefused, meshOf, missing, refuse } from "./edit";
import { setMesh } from "./mesh";

export interface LeanFields {
  /** Degrees between the outward axes, 0 to 180. */
  readonly angle: number;
  /** Which of the mesh's gears stands on the shaft that leans: that which the mesh places. */
  readonly leans: 0 | 1;
  /** Ids of the shafts that have axis and ref from the leaning one (itself too), and of the meshes placed from any of them. */
  readonly aligned: { readonly shafts: readonly string[]; readonly meshes: readonly string[] };
}

type End = 0 | 180;

export const leanMesh =
  (id: string, fields: LeanFields): Edit =>
  (drive) => {
    const { angle } = fields;
    const mesh = meshOf(drive, id);
    if (!mesh) return missing("mesh", id);
    if (!(angle >= 0 && angle <= 180))
      return refuse(`Shafts can't stand at ${angle}° to one another; choose an angle from 0° to 180°.`);
    const pair = pairOf(drive, mesh);
    const kind = pair && kindOf(pair[0].kind, pair[1].kind);
    if (!pair || !kind) return missing("gear", mesh.gears.join(" or "));
    const end: End | null = kind.needsShaftAngle ? null : kind.shape(mesh, pair).shaftAngle === 0 ? 0 : 180;
    if (end === angle) return drive;
    if (end === null && angle > 0 && angle < 180) return setMesh(id, { shaftAngle: angle })(drive);
    const fault = neededElsewhere(drive, mesh, end === null ? angle : 90) ?? (angle === 180 ? faceToFace(pair) : null);
    if (fault) return fault;
    const cones = end === null ? drive : toCones(drive, mesh, fields, end);
    if (isRefused(cones)) return cones;
    return angle === 0 || angle === 180
      ? toCylinders(cones, id, fields, angle)
      : setMesh(id, { shaftAngle: angle })(cones);
  };

function pairOf(drive: Drive, mesh: Mesh): readonly [Gear, Gear] | null {
  const [first, second] = mesh.gears.map((gear) => gearOf(drive, gear));
  return first && second ? [first, second] : null;
}

/** A gear that becomes one of another kind must mesh nowhere else. */
function neededElsewhere(drive: Drive, mesh: Mesh, angle: number): EditFault | null {
  for (const other of drive.meshes) {
    const shared = other === mesh ? undefined : other.gears.find((gear) => mesh.gears.includes(gear));
    const gear = shared === undefined ? undefined : gearOf(drive, shared);
    if (!gear) continue;
    const into = angle === 0 ? "a pair on parallel shafts" : angle === 180 ? "a ring pair" : "a pair at an angle";
    return refuse(
      `Mesh ${bareId(mesh.id)} can't become ${into}: mesh ${bareId(other.id)} needs ${bareId(gear.id)} as the ${GEAR_FORMS[gear.kind].name} that it is; take that mesh away first, or stop short of it.`,
    );
  }
  return null;
}

const faceToFace = (pair: readonly [Gear, Gear]): EditFault | null =>
  pitchDiameter(pair[0]) === pitchDiameter(pair[1])
    ? refuse(
        `Gears ${bareId(pair[0].id)} and ${bareId(pair[1].id)} are of one size: at 180° they would be two flat crowns face to face, which can't roll; make one of them larger, or stop short of 180°.`,
      )
    : null;

/** The kind of gear with or without teeth whose pitch angle is 0, 180, or left to the mesh. */
function kindLike(gear: Gear, pitchAngle: 0 | 180 | null): GearKind {
  const { hasTeeth } = GEAR_FORMS[gear.kind];
  const like = GEAR_KINDS.find((kind) => {
    const form = GEAR_FORMS[kind];
    return form.hasTeeth === hasTeeth && form.pitchAngle === pitchAngle;
  });
  return like ?? gear.kind;
}

const recut = (gear: Gear, pitchAngle: 0 | 180 | null, at: number, apex: "+" | "-"): Gear =>
  makeGear({ ...gear, kind: kindLike(gear, pitchAngle), at, apex } as Gear);

/** From 0 to below 360 degrees; rounded where sums of decimals have lost their last digits. */
const turned = (azimuth: number): number => {
  const rest = Number((azimuth % 360).toFixed(9));
  return rest < 0 ? rest + 360 : rest + 0;
};
const opposite = (apex: "+" | "-"): "+" | "-" => (apex === "+" ? "-" : "+");
/** The sign of a gear's outward axis along its shaft's. */
const outward = ({ apex }: Gear): 1 | -1 => (apex === "-" ? 1 : -1);

/** What both changes need to know of a pair at one of the ends. */
function atEnd(drive: Drive, mesh: Mesh, leans: 0 | 1, end: End) {
  const [stays, leaning] = [1 - leans, leans].map((side) => gearOf(drive, mesh.gears[side as 0 | 1] ?? "")) as [
    Gear,
    Gear,
  ];
  const isRingLeaning = end === 180 && pitchDiameter(leaning) > pitchDiameter(stays);
  const isRingStaying = end === 180 && !isRingLeaning;
  return { stays, leaning, isRingLeaning, isRingStaying, swing: isRingLeaning ? 180 : 0 };
}

/** From the heel to the middle of the face, mm along the axis of the shaft that stays; the same for both, so that no shaft moves. */
const toMiddle = (stays: Gear, side: 1 | -1, isRing: boolean): number => ((isRing ? side : -side) * stays.face) / 2;

/** Parallel to bevel: its axes go on as they are, so at 0 both apexes lie on one side, at 180 on two. */
function toCones(drive: Drive, mesh: Mesh, { leans, aligned }: LeanFields, end: End): Drive | EditFault {
  const { stays, leaning, isRingStaying, swing } = atEnd(drive, mesh, leans, end);
  const middle = toMiddle(stays, -1, isRingStaying);
  const azimuth = turned(mesh.azimuth - swing);
  const base = end === 0 ? azimuth + 180 : azimuth;
  const bevel = makeMesh({ ...mesh, azimuth, shaftAngle: 90 });
  return {
    ...drive,
    gears: drive.gears.map((gear) => {
      if (gear === stays) return recut(gear, null, gear.at - middle, "+");
      return gear === leaning ? recut(gear, null, gear.at - middle, end === 0 ? "+" : "-") : gear;
    }),
    meshes: withAzimuths(drive, aligned.meshes, (alpha) => alpha - base).map((other) =>
      other.id === mesh.id ? bevel : other,
    ),
  };
}

/** Bevel to parallel: where the axes are then contrary, the leaning shaft and all that shares its axis is told from its other end. */
function toCylinders(drive: Drive, id: string, { leans, aligned }: LeanFields, end: End): Drive | EditFault {
  const mesh = meshOf(drive, id);
  if (!mesh) return missing("mesh", id);
  const { stays, leaning, isRingLeaning, isRingStaying, swing } = atEnd(drive, mesh, leans, end);
  const alike = outward(stays) * outward(leaning);
  const way = end === 0 ? alike : -alike;
  const middle = toMiddle(stays, outward(stays), isRingStaying);
  const base = end === 0 ? mesh.azimuth + 180 : mesh.azimuth;
  const { shaftAngle: _, ...rest } = mesh;
  const parallel = makeMesh({ ...rest, azimuth: turned(mesh.azimuth + swing) });
  const told = way < 0 ? fromOtherEnd(drive, new Set(aligned.shafts)) : drive;
  return {
    ...told,
    gears: told.gears.map((gear) => {
      if (gear.id === stays.id) return recut(gear, isRingStaying ? 180 : 0, gear.at + middle, "+");
      return gear.id === leaning.id ? recut(gear, isRingLeaning ? 180 : 0, gear.at + middle, "+") : gear;
    }),
    meshes: withAzimuths(told, aligned.meshes, (alpha) => base + way * alpha).map((other) =>
      other.id === id ? parallel : other,
    ),
  };
}

function withAzimuths(drive: Drive, ids: readonly string[], change: (azimuth: number) => number): readonly Mesh[] {
  if (ids.length === 0) return drive.meshes;
  const changed = new Set(ids);
  return drive.meshes.map((mesh) =>
    changed.has(mesh.id) ? makeMesh({ ...mesh, azimuth: turned(change(mesh.azimuth)) }) : mesh,
  );
}

/** The same shafts with their axes reversed: what is told along or about those axes changes sign. */
function fromOtherEnd(drive: Drive, shafts: ReadonlySet<string>): Drive {
  return {
    ...drive,
    gears: drive.gears.map((gear) =>
      shafts.has(gear.shaft)
        ? makeGear({
            ...gear,
            at: -gear.at,
            phase: -gear.phase,
            apex: GEAR_FORMS[gear.kind].pitchAngle === null ? opposite(gear.apex) : gear.apex,
          })
        : gear,
    ),
    ports: drive.ports.map((port) => (shafts.has(port.shaft) ? reversed(port) : port)),
  };
}

function reversed(port: Port): Port {
  const { speed, speedDigits: digits } = port;
  if (!speed) return port;
  const speedDigits = digits?.startsWith("-") ? digits.slice(1) : digits && `-${digits}`;
  return makePort({ ...port, speed: -speed, speedDigits });
}
