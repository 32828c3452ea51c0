/** Placement: where every shaft, gear and mesh of a drive stands, and how well loops fit. */
import type { Drive, Gear, Mesh } from "../drive/types";
import type { Finding } from "../findings";
import type { Pair } from "../mesh-kinds/contract";
import { misfitUnit } from "../mesh-kinds/parallel";
import type { DriveIndex, PlacedMesh, PlacedShaft, Placement } from "../solved";
import { FITS_MODULE, SAME_ANGLE } from "../tolerances";
import { type Before, placeShafts, type Sized, sizeMeshes } from "./place-shafts";
import { coneMismatch, loopMisfit, noCommonFace, unreached } from "./placement-findings";
import { StandingGear, StandingMesh } from "./standing";

/** The pitch angle of each gear, radians: of a bevel that of the first mesh in document order that names it; NaN without one. */
function pitchAngles(drive: Drive, index: DriveIndex, sized: readonly Sized[]): Float64Array {
  const angles = new Float64Array(drive.gears.length).fill(Number.NaN);
  for (let end = 0; end < index.gearAt.length; end++) {
    const gear = index.gearAt[end] as number;
    if (!Number.isNaN(angles[gear])) continue;
    angles[gear] = (sized[end >> 1] as Sized).pair.shape.pitchAngles[(end & 1) as 0 | 1];
  }
  return angles;
}

/** Which gear of a pair is cut to another pitch cone than this mesh asks; null where both agree. */
function spoiledSide(pair: Pair, own1: number, own2: number): 0 | 1 | null {
  if (!agrees(pair, 0, own1)) return 0;
  return agrees(pair, 1, own2) ? null : 1;
}

/** What differs by rounding, or by less than the heel would notice, agrees. */
function agrees({ shape, gears }: Pair, side: 0 | 1, own: number): boolean {
  const off = Math.abs(own - shape.pitchAngles[side]);
  return off <= SAME_ANGLE || off * shape.coneDistances[side] <= FITS_MODULE * misfitUnit(gears);
}

/**
 * Places a parsed drive. Pure; throws only on a drive that no parser would let through. `before`: an earlier drive, whose unmoved shafts,
 * gears and meshes are taken over as they are; the result is the same without it.
 */
export function place(drive: Drive, index: DriveIndex, before: Before | null = null): Placement {
  const sized = sizeMeshes(drive, index, before);
  const { shafts, places } = placeShafts(drive, index, sized, before);
  const angles = pitchAngles(drive, index, sized);
  const findings: Finding[] = [];
  for (let i = 0; i < shafts.length; i++) if (!shafts[i]) findings.push(unreached(drive, i));

  const gears: (StandingGear | null)[] = new Array(drive.gears.length);
  for (let i = 0; i < gears.length; i++) {
    const shaft = shafts[index.shaftOfGear[i] as number];
    const [gear, angle, old] = [drive.gears[i] as Gear, angles[i] as number, before?.placement.gears[i]];
    if (!shaft) gears[i] = null;
    else if (old instanceof StandingGear && old.isOf(gear, shaft, angle)) gears[i] = old;
    else gears[i] = new StandingGear(gear, shaft, angle);
  }

  const meshes: (PlacedMesh | null)[] = new Array(drive.meshes.length);
  for (let i = 0; i < meshes.length; i++) {
    const mesh = drive.meshes[i] as Mesh;
    const [g1, g2] = [index.gearAt[2 * i] as number, index.gearAt[2 * i + 1] as number];
    const [gear1, gear2] = [gears[g1], gears[g2]];
    meshes[i] = null;
    // A gear stands where its shaft does.
    if (!gear1 || !gear2) continue;
    const { kind, pair } = sized[i] as Sized;
    const end1 = shafts[index.shaftAt[2 * i] as number] as PlacedShaft;
    const end2 = shafts[index.shaftAt[2 * i + 1] as number] as PlacedShaft;
    const side = spoiledSide(pair, angles[g1] as number, angles[g2] as number);
    const [closesLoop, fitsCones] = [places[i] === 0, side === null];
    const old = before?.placement.meshes[i];
    const standing =
      old instanceof StandingMesh && old.isOf(pair, [end1, end2], [gear1, gear2], closesLoop, fitsCones)
        ? old
        : new StandingMesh(kind, pair, end1, end2, gear1, gear2, closesLoop, fitsCones);
    meshes[i] = standing;
    if (side !== null) {
      const own = angles[side === 0 ? g1 : g2] as number;
      findings.push(coneMismatch(mesh, pair.gears[side], own, pair.shape.pitchAngles[side]));
    } else if (standing.misfit.modules > FITS_MODULE) {
      findings.push(loopMisfit(drive, index, i, standing.misfit, standing.isMissing));
    }
    if (standing.width <= 0) findings.push(noCommonFace(mesh));
  }
  return { shafts, gears, meshes, findings };
}
