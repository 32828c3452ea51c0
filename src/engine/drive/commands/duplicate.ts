/** Duplicate a stage: a second shaft like the first, with the same gears, where there is room for it. */

import { along, cross, unit } from "../../vector";
import { makeGear, makeMesh, makeShaft } from "../defaults";
import { type Drive, type Gear, type Mesh, type Pose, pitchDiameter, type Shaft, type Vec3 } from "../types";
import { type Edit, limited, missing, shaftOf } from "./edit";
import { freshGearId, freshMeshId, freshShaftId } from "./ids";

/** Turns tried for the place of a copy, degrees from the original's azimuth: three planets first, then two, four, five. */
const TURNS = [120, 240, 180, 90, 270, 72, 144, 216, 288, 60, 300, 45, 135, 225, 315, 30, 330];
/** Nearer than this to another azimuth, degrees, a place counts as taken. */
const TOO_NEAR = 20;

/**
 * Adds a copy of a shaft with its gears. One that a mesh placed is meshed with the same mates (the first mesh and those
 * that close a loop with shafts on the same line, as a planet's with its ring) at a free azimuth round the first mate's
 * shaft; one with a pose stands beside the original. Its port is not copied.
 */
export const duplicateStage =
  (id: string): Edit =>
  (drive) => {
    const shaft = shaftOf(drive, id);
    if (!shaft) return missing("shaft", id);
    const gearIds = new Map<string, string>();
    const copy = makeShaft({
      ...shaft,
      id: freshShaftId(drive),
      ...(shaft.pose ? { pose: beside(drive, shaft, shaft.pose) } : {}),
    });
    let next: Drive = { ...drive, shafts: [...drive.shafts, copy] };
    for (const gear of drive.gears.filter((one) => one.shaft === id)) {
      const gearId = freshGearId(next, copy.id);
      gearIds.set(gear.id, gearId);
      next = { ...next, gears: [...next.gears, makeGear({ ...gear, id: gearId, shaft: copy.id })] };
    }
    for (const mesh of shaft.pose ? [] : meshesToCopy(drive, shaft)) {
      const gears = mesh.gears.map((gear) => gearIds.get(gear) ?? gear) as [string, string];
      next = {
        ...next,
        meshes: [
          ...next.meshes,
          makeMesh({ ...mesh, id: freshMeshId(next), gears, azimuth: freeAzimuth(next, mesh, gearIds) }),
        ],
      };
    }
    return limited(next);
  };

/** Beside the original, square to its axis and ref, clear of its largest gear. */
function beside(drive: Drive, shaft: Shaft, pose: Pose): Pose {
  const widest = Math.max(20, ...drive.gears.filter((gear) => gear.shaft === shaft.id).map(pitchDiameter));
  const aside: Vec3 = unit(cross(unit(pose.axis), unit(pose.ref)));
  const origin = along(pose.origin, aside, Math.ceil(1.5 * widest));
  return origin.every(Number.isFinite) ? { ...pose, origin } : pose;
}

/** The first mesh, which places the shaft, and those whose mates turn on the same line as its mate. */
function meshesToCopy(drive: Drive, shaft: Shaft): Mesh[] {
  const shaftOfGear = new Map(drive.gears.map((gear: Gear) => [gear.id, gear.shaft]));
  const coaxialOf = new Map(drive.shafts.map(({ id, coaxial }) => [id, coaxial]));
  const lineOf = (id: string): string => {
    let line = id;
    for (let up = coaxialOf.get(line); up !== undefined; up = coaxialOf.get(line)) line = up;
    return line;
  };
  const own = drive.meshes.flatMap((mesh) => {
    const shafts = mesh.gears.map((gear) => shaftOfGear.get(gear) ?? "");
    const mate = shafts[0] === shaft.id ? shafts[1] : shafts[1] === shaft.id ? shafts[0] : undefined;
    return mate === undefined ? [] : [{ mesh, line: lineOf(mate) }];
  });
  const placing = own[0];
  return own.filter(({ line }) => line === placing?.line).map(({ mesh }) => mesh);
}

/** A turn of the mesh's azimuth that is clear of the other meshes of the gear that both copies share. */
function freeAzimuth(drive: Drive, mesh: Mesh, copied: ReadonlyMap<string, string>): number {
  const shared = mesh.gears.find((gear) => !copied.has(gear));
  const taken = drive.meshes
    .filter(({ gears }) => shared !== undefined && gears.includes(shared))
    .map(({ azimuth }) => azimuth);
  const apart = (a: number, b: number): number => Math.abs(((((a - b) % 360) + 540) % 360) - 180);
  const turn = TURNS.find((one) => taken.every((other) => apart(mesh.azimuth + one, other) > TOO_NEAR)) ?? 10;
  return (mesh.azimuth + turn) % 360;
}
