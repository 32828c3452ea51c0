/** Placement: where every shaft, gear and mesh of a drive stands, and how well loops fit. */
import type { Drive } from "../drive/types";
import type { Finding } from "../findings";
import type { Pair } from "../mesh-kinds/contract";
import { misfitUnit } from "../mesh-kinds/parallel";
import type { DriveIndex, PlacedMesh, Placement } from "../solved";
import { FITS_MODULE, MISFIT_DEGREES, MISFIT_MODULE, SAME_ANGLE } from "../tolerances";
import { placeShafts, type Sized, sizeMeshes } from "./place-shafts";
import { coneMismatch, loopMisfit, noCommonFace, unreached } from "./placement-findings";
import { StandingGear, StandingMesh } from "./standing";

/** The pitch angle of each gear, radians: of a bevel that of the first mesh in document order that names it; null without one. */
function pitchAngles(drive: Drive, index: DriveIndex, sized: readonly Sized[]): (number | null)[] {
  const angles: (number | null)[] = drive.gears.map(() => null);
  sized.forEach(({ shape }, i) => {
    const [first, second] = index.gearsOfMesh[i] as readonly [number, number];
    angles[first] ??= shape.pitchAngles[0];
    angles[second] ??= shape.pitchAngles[1];
  });
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

/** Places a parsed drive. Pure; throws only on a drive that no parser would let through. */
export function place(drive: Drive, index: DriveIndex): Placement {
  const sized = sizeMeshes(drive, index);
  const { shafts, places } = placeShafts(drive, index, sized);
  const angles = pitchAngles(drive, index, sized);
  const findings: Finding[] = [];
  shafts.forEach((shaft, i) => {
    if (!shaft) findings.push(unreached(drive, i));
  });

  const gears = drive.gears.map((gear, i) => {
    const shaft = shafts[index.shaftOfGear[i] as number];
    return shaft ? new StandingGear(gear, shaft, angles[i] ?? null) : null;
  });

  const meshes = drive.meshes.map((mesh, i): PlacedMesh | null => {
    const [s1, s2] = index.shaftsOfMesh[i] as readonly [number, number];
    const [g1, g2] = index.gearsOfMesh[i] as readonly [number, number];
    const [end1, end2, gear1, gear2] = [shafts[s1], shafts[s2], gears[g1], gears[g2]];
    if (!end1 || !end2 || !gear1 || !gear2) return null;
    const pair = sized[i] as Sized;
    const standing = new StandingMesh(pair, end1, end2, gear1, gear2, places[i] === 0);
    const side = spoiledSide(pair, angles[g1] as number, angles[g2] as number);
    if (side !== null) {
      standing.holds = false;
      const own = angles[side === 0 ? g1 : g2] as number;
      findings.push(coneMismatch(mesh, pair.gears[side], own, pair.shape.pitchAngles[side]));
    }
    const { misfit } = standing;
    if (misfit.modules > FITS_MODULE && standing.holds) {
      const isError = misfit.millimetres > MISFIT_MODULE * misfit.unit || misfit.degrees > MISFIT_DEGREES;
      standing.holds = !isError;
      findings.push(loopMisfit(drive, index, i, misfit, isError));
    }
    if (standing.width <= 0) findings.push(noCommonFace(mesh));
    return standing;
  });
  return { shafts, gears, meshes, findings };
}
