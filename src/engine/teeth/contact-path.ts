/**
 * Where the flanks of a mesh touch: on the line of action of a parallel pair, on the great circle of action of a pair of cones,
 * both tangent to the base circles, between the ends that the two tips set, one base pitch apart. Along the face the touch is a
 * line: parallel to the axes, or towards the common apex.
 *
 * With p the parameter of a flank (tan φ, or the arc ψ; flank.ts), a left flank of the gear whose tooth's middle stands at azimuth
 * T from the pitch point touches where p = p_pitch + c (T + h), h the tooth's half thickness at the pitch circle and c = 1, or the
 * sine of the base cone; a right flank is its mirror image. Source: law of gearing, the base circle rolling on the line (ISO 21771).
 * Backlash is left out: the touch is drawn in the middle of the play.
 */
import { hasTeeth, type Vec3 } from "../drive/types";
import type { Solved } from "../solved";
import { add, along, cross, distance, dot, scale, unit } from "../vector";
import { grownSpec } from "./grown";
import { flankOf, toothProfile } from "./profile";
import { rackRoot } from "./rack-root";
import { QUALITIES, type ToothSpec, toothSpec } from "./spec";

/** Which flank of the gear that the path is told of: 1 the one on the side of growing azimuth about its outward axis. */
export type FlankSide = 1 | -1;

export interface ContactPath {
  readonly mesh: number;
  /** The gear (0 or 1 of the mesh) whose flank the parameters are of, by index: an outside or conical one. */
  readonly side: 0 | 1;
  readonly gear: number;
  readonly shaft: number;
  /** Parameters between which flanks touch; `first` is above `last` where tips are so short that nothing touches. */
  readonly first: number;
  readonly last: number;
  /** Parameter at the pitch point, and the step from one pair of flanks to the next: a base pitch. */
  readonly pitch: number;
  readonly step: number;
  /** Base pitches that the path is long: how many pairs touch on the average. */
  readonly ratio: number;
  /** The parameter on this flank of the tooth whose middle stands at `azimuth` (radians about the outward axis, from the pitch point). */
  parameter(azimuth: number, flank: FlankSide): number;
  /** The touching line at `p` at time zero, in the world, mm: at the heel (or first end of the face) and at the toe. */
  line(p: number, flank: FlankSide): readonly [Vec3, Vec3];
  /** Azimuth of a direction (world, at time zero) about the gear's outward axis from the pitch point, radians. */
  azimuthOf(direction: Vec3): number;
}

/**
 * The path of contact of a mesh; null for friction pairs and what isn't placed.
 * @param growth part of their height that the teeth have (grown.ts); null at 0
 */
export function contactPath(solved: Solved, mesh: number, growth = 1): ContactPath | null {
  const { drive, index, placement } = solved;
  const placed = placement.meshes[mesh];
  const gears = index.gearsOfMesh[mesh];
  const shafts = index.shaftsOfMesh[mesh];
  if (!placed || placed.kind.isFriction || !gears || !shafts) return null;
  const specs = gears.map((gear) => grownSpec(toothSpec(drive, index, placement, gear, QUALITIES.fine), growth));
  const side: 0 | 1 = specs[0]?.form === "ring" ? 1 : 0;
  const own = specs[side] as ToothSpec;
  const mate = specs[side === 0 ? 1 : 0] as ToothSpec;
  const at = placement.gears[gears[side]];
  const data = drive.gears[gears[side]];
  if (!at || !data || !hasTeeth(data) || own.teeth === 0 || mate.teeth === 0) return null;

  const flank = flankOf({ ...own, thinning: 0 });
  const mateFlank = flankOf({ ...mate, thinning: 0 });
  const conical = own.form === "conical";
  const c = conical ? Math.sin(flank.base) : 1;
  const pitch = flank.parameterAt(conical ? own.pitchAngle : own.pitchRadius);
  const ownTip = flank.parameterAt(toothProfile(own).tip);
  const mateTip = mateFlank.parameterAt(toothProfile(mate).tip);
  const matePitch = mateFlank.parameterAt(mate.form === "conical" ? mate.pitchAngle : mate.pitchRadius);
  // How far from the pitch point the mate's tip reaches on the line, in this gear's parameter: lengths are base radius times tan φ.
  const ring = mate.form === "ring";
  const back = (ring ? matePitch - mateTip : mateTip - matePitch) * (conical ? 1 : mateFlank.base / flank.base);
  // Where a rack undercut a flank there is nothing left to touch.
  const first = Math.max(0, pitch - back, own.form === "outside" ? rackRoot(own).start : 0);
  const mateStart = mate.form === "outside" ? rackRoot(mate).start : 0;
  const ahead = (matePitch - mateStart) * (conical ? 1 : mateFlank.base / flank.base);
  const last = ring ? ownTip : Math.min(ownTip, pitch + ahead);
  const half = flank.half(conical ? own.pitchAngle : own.pitchRadius);
  const step = (2 * Math.PI * c) / own.teeth;

  const towards = placed.towards[side];
  const across = cross(at.outward, towards);
  const run = runOf(conical, c);
  const atPitch = run(pitch);
  const [heel, toe] = placed.contact;
  const apex = at.apexPoint;
  const line = (p: number, which: FlankSide): readonly [Vec3, Vec3] => {
    const azimuth = which * (run(p) - atPitch);
    const round = add(scale(towards, Math.cos(azimuth)), scale(across, Math.sin(azimuth)));
    const q = flank.placeAt(p);
    if (conical && apex) {
      const ray = add(scale(at.outward, Math.cos(q)), scale(round, Math.sin(q)));
      return [along(apex, ray, distance(apex, heel)), along(apex, ray, distance(apex, toe))];
    }
    const shift = add(scale(round, q), scale(towards, -own.pitchRadius));
    return [add(heel, shift), add(toe, shift)];
  };
  return {
    mesh,
    side,
    gear: gears[side],
    shaft: shafts[side],
    first,
    last,
    pitch,
    step,
    ratio: Math.max(0, last - first) / step,
    parameter: (azimuth, which) => pitch + c * (which * azimuth + half),
    line,
    azimuthOf: (direction) => Math.atan2(dot(direction, across), dot(direction, towards)),
  };
}

/** Azimuth that a point of the line of action has run from where the line touches the base circle. */
const runOf = (conical: boolean, sine: number): ((p: number) => number) =>
  conical ? (p) => Math.atan2(Math.sin(p), Math.cos(p) * sine) : Math.atan;

/** The parameters between `first` and `last` at which flanks of this side touch while a tooth's middle stands at `azimuth`. */
export function touching({ first, last, step, parameter }: ContactPath, azimuth: number, flank: FlankSide): number[] {
  const some = parameter(azimuth, flank);
  const found: number[] = [];
  for (let p = some + step * Math.ceil((first - some) / step - 1e-9); p <= last + 1e-9 * step; p += step) found.push(p);
  return found;
}

/**
 * The flanks that touch. Without play both sides do; with it only those that drive: seen from the gear that the path is told of,
 * the leading flank where it drives and the trailing one where it is driven. Both where it isn't known which drives.
 */
export function touchingSides(solved: Solved, path: ContactPath): readonly FlankSide[] {
  const { drive, index, motion, load, placement } = solved;
  const play = (index.gearsOfMesh[path.mesh] ?? []).reduce((sum, gear) => {
    const data = drive.gears[gear];
    return sum + (data && hasTeeth(data) ? data.backlash : 0);
  }, 0);
  const driver = load.meshes[path.mesh]?.driver ?? null;
  const row = motion.rows[path.mesh];
  if (play === 0 || driver === null || !row) return [1, -1];
  const carrier = row.carrier[path.side];
  const carried = carrier === -1 ? 0 : row.carrierSign[path.side] * (motion.speed[carrier] ?? 0);
  const spin = (motion.speed[path.shaft] ?? 0) - carried;
  if (spin === 0) return [1, -1];
  const axis = placement.shafts[path.shaft]?.axis;
  const outward = placement.gears[path.gear]?.outward;
  const turned = axis && outward && dot(axis, outward) < 0 ? -1 : 1;
  const leading = Math.sign(spin) * turned > 0 ? 1 : -1;
  return [driver === path.side ? leading : leading === 1 ? -1 : 1];
}

/** The direction, unit, in which the faces of a mesh slide past the pitch point: square to the contact line and to `towards`. */
export const tangentOf = (solved: Solved, path: ContactPath): Vec3 => {
  const outward = solved.placement.gears[path.gear]?.outward ?? [0, 0, 1];
  const towards = solved.placement.meshes[path.mesh]?.towards[path.side] ?? [1, 0, 0];
  return unit(cross(outward, towards));
};
