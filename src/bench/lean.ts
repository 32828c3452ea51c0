/** A pair that can be leaned by hand: which mesh, in which plane, and at what angle; and the arc between its axes. Pure. */
import { type Gear, pitchDiameter } from "../engine/drive/types";
import { frameOfMesh } from "../engine/motion/pose-at";
import type { Solved, Vec3 } from "../engine/solved";
import { along, clamp, length, scale, square, unit } from "../engine/vector";
import type { Part } from "../store/view";

/** Degrees: from a spur pair to a pinion in a ring. */
export const LEAST_LEAN = 0;
export const MOST_LEAN = 180;
/** Degrees: steps that the handle snaps to, and from how near. */
const SNAP_STEP = 15;
const SNAP_NEAR = 2.5;
/** How far from the leaning gear's heel its knob stands on the axis, in parts of both pitch radii together. */
const REACH = 0.6;
/** The same for the arc: nearer to the apex it would not be seen, much further away it tells nothing. */
const LEAST_ARC = 0.15;
const MOST_ARC = 8;

export interface LeaningPair {
  readonly id: string;
  /** Which of the mesh's gears is on the shaft that leans, and the index of that shaft. */
  readonly leans: 0 | 1;
  readonly shaft: number;
  /** Degrees between the outward axes. */
  readonly angle: number;
  /** Degrees at which one of the pair is a flat crown; null where none is. */
  readonly crown: number | null;
  /** Where the outer pitch circles touch, at whatever angle. */
  readonly pivot: Vec3;
  /** Unit: the outward axis of the gear that stays, and from that axis towards the pivot. */
  readonly staysOutward: Vec3;
  readonly towards: Vec3;
  /** mm: pitch radius of the gear that leans, and how far beyond its heel the knob stands on its axis. */
  readonly radius: number;
  readonly reach: number;
  /** Index of the carrier on which all this rides, -1 for none; the vectors are at time zero. */
  readonly frame: number;
}

/** Which side of a mesh stands on the shaft that it placed; null for a mesh that placed none. */
export function placedSide({ drive, index, placement }: Solved, mesh: number): 0 | 1 | null {
  const id = drive.meshes[mesh]?.id;
  if (id === undefined || placement.meshes[mesh]?.closesLoop !== false) return null;
  for (const side of [0, 1] as const) {
    const shaft = index.shaftsOfMesh[mesh]?.[side] ?? -1;
    const data = drive.shafts[shaft];
    if (data && !data.pose && data.coaxial === undefined && placement.shafts[shaft]?.placedBy === id) return side;
  }
  return null;
}

/** The pair of a mesh that placed one of its shafts, whatever its kind; null for any other. */
export function leaningPair(solved: Solved, mesh: number): LeaningPair | null {
  const { drive, index, placement } = solved;
  const leans = placedSide(solved, mesh);
  const placed = placement.meshes[mesh];
  const data = drive.meshes[mesh];
  if (leans === null || !placed || !data) return null;
  const stays = (1 - leans) as 0 | 1;
  const gear = placement.gears[index.gearsOfMesh[mesh]?.[stays] ?? -1];
  const axis = placement.shafts[index.shaftsOfMesh[mesh]?.[stays] ?? -1]?.axis;
  if (!gear || !axis) return null;
  const { gears, shape } = placed.pair;
  const { isCone, outward, heel } = placed.kind.needsShaftAngle
    ? { isCone: true, outward: gear.outward, heel: 0 }
    : // As the bevel pair that it becomes: with its apex on the + side, and its heel at the end of its face.
      {
        isCone: false,
        outward: scale(axis, -1),
        heel: (shape.pitchAngles[stays] === 0 ? 1 : -1) * (gears[stays].face / 2),
      };
  const towards = placed.towards[stays];
  const sizes = gears.map(sizeOf);
  const less = Math.min(...sizes) / Math.max(...sizes);
  return {
    id: data.id,
    leans,
    shaft: index.shaftsOfMesh[mesh]?.[leans] ?? -1,
    angle: isCone ? (data.shaftAngle ?? 90) : shape.shaftAngle === 0 ? LEAST_LEAN : MOST_LEAN,
    crown: less < 1 ? (Math.acos(-less) * 180) / Math.PI : null,
    pivot: along(along(gear.centre, outward, heel), towards, shape.radii[stays]),
    staysOutward: outward,
    towards,
    radius: shape.radii[leans],
    reach: REACH * (shape.radii[0] + shape.radii[1]),
    frame: frameOfMesh(solved, mesh),
  };
}

const sizeOf = (gear: Gear): number => ("teeth" in gear ? gear.teeth : pitchDiameter(gear));

/** The mesh that is leaned for what is selected: the mesh itself, that which placed the shaft, the first at an angle of a gear; -1 for none. */
export function leaningMesh(solved: Solved, { kind, id }: Part): number {
  const { index, placement } = solved;
  const can = (mesh: number): boolean => placedSide(solved, mesh) !== null;
  if (kind === "mesh") {
    const mesh = index.meshes.get(id) ?? -1;
    return can(mesh) ? mesh : -1;
  }
  if (kind === "shaft") {
    const mesh = index.meshes.get(placement.shafts[index.shafts.get(id) ?? -1]?.placedBy ?? "") ?? -1;
    const side = placedSide(solved, mesh);
    return side !== null && index.shaftsOfMesh[mesh]?.[side] === index.shafts.get(id) ? mesh : -1;
  }
  const gear = index.gears.get(id) ?? -1;
  const shaft = index.shaftOfGear[gear] ?? -1;
  const own = placement.shafts[shaft]?.placedBy;
  const meshes = (index.meshesOfShaft[shaft] ?? []).filter(
    (mesh) =>
      index.gearsOfMesh[mesh]?.includes(gear) && placement.meshes[mesh]?.kind.needsShaftAngle === true && can(mesh),
  );
  // The mesh that placed the shaft first: leaning it moves the gear itself.
  return meshes.find((mesh) => solved.drive.meshes[mesh]?.id === own) ?? meshes[0] ?? -1;
}

/** The arc between the two outward axes of a pair at an angle, with the apex in its middle. */
export interface LeanArcPlace {
  readonly id: string;
  /** Degrees. */
  readonly angle: number;
  readonly apex: Vec3;
  /** Outward axes: the gear that stays, and the gear that leans. Unit. */
  readonly stays: Vec3;
  readonly leans: Vec3;
  /** In the plane of both, square to `stays`, on the side of `leans`. Unit. */
  readonly across: Vec3;
  /** mm from the apex: the arc ends at the knob, where that is on its side of the apex. */
  readonly radius: number;
  readonly frame: number;
}

/** The arc of the pair that is leaned for what is selected; null for none, and where the apex is too far away. */
export function leanArcFor(solved: Solved, selection: Part | null): LeanArcPlace | null {
  const mesh = selection ? leaningMesh(solved, selection) : -1;
  const pair = leaningPair(solved, mesh);
  const gears = solved.index.gearsOfMesh[mesh];
  if (!pair || !gears) return null;
  const [stays, leans] = [
    solved.placement.gears[gears[1 - pair.leans] ?? -1],
    solved.placement.gears[gears[pair.leans]],
  ];
  if (!stays?.apexPoint || !leans || leans.coneDistance === null || leans.pitchAngle === null) return null;
  const across = square(leans.outward, stays.outward);
  const toKnob = leans.coneDistance * Math.cos((leans.pitchAngle * Math.PI) / 180) + pair.reach;
  const size = pair.reach / REACH;
  // The apex of an internal bevel lies beyond the knob: there the arc goes round the cones.
  const radius = toKnob < LEAST_ARC * size ? 1.25 * leans.coneDistance : toKnob;
  if (length(across) < 1e-9 || radius > MOST_ARC * size) return null;
  return {
    id: pair.id,
    angle: pair.angle,
    apex: stays.apexPoint,
    stays: stays.outward,
    leans: leans.outward,
    across: unit(across),
    radius,
    frame: pair.frame,
  };
}

/** A point of the arc, `angle` degrees from the axis that stays. */
export function arcPoint(arc: LeanArcPlace, angle: number): Vec3 {
  const a = (angle * Math.PI) / 180;
  return along(along(arc.apex, arc.stays, arc.radius * Math.cos(a)), arc.across, arc.radius * Math.sin(a));
}

/** Into the range; onto a step, a right angle or the flat crown where near (not with `isFree`), else whole degrees. */
export function snapLean(angle: number, crown: number | null, isFree: boolean): number {
  // Past one end round the back the nearer end is meant.
  const within = clamp(angle < -90 ? MOST_LEAN : angle, LEAST_LEAN, MOST_LEAN);
  if (isFree) return Math.round(within * 10) / 10;
  const step = Math.round(within / SNAP_STEP) * SNAP_STEP;
  if (Math.abs(within - step) <= SNAP_NEAR) return step;
  if (crown !== null && Math.abs(within - crown) <= SNAP_NEAR) return crown;
  return Math.round(within);
}
