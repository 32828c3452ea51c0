/** Placement: where every shaft, gear and mesh of a drive stands, and how well loops fit. */
import type { Drive, Gear } from "../drive/types";
import { pitchDiameter } from "../drive/types";
import type { Finding } from "../findings";
import type { Misfit } from "../mesh-kinds/contract";
import { GEAR_FORMS } from "../mesh-kinds/gear-forms";
import { outwardAxis } from "../mesh-kinds/intersecting";
import { misfitUnit } from "../mesh-kinds/parallel";
import type { DriveIndex, PlacedGear, PlacedMesh, PlacedShaft, Placement } from "../solved";
import { FITS_MODULE, MISFIT_DEGREES, MISFIT_MODULE, SAME_ANGLE } from "../tolerances";
import { along, DEGREE } from "../vector";
import { placeShafts, type Sized, sizeMeshes } from "./place-shafts";
import { coneMismatch, loopMisfit, noCommonFace, unreached } from "./placement-findings";

const NO_MISFIT: Misfit = { millimetres: 0, degrees: 0, modules: 0, unit: 1 };

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

function placeGear(gear: Gear, shaft: PlacedShaft, angle: number | null): PlacedGear {
  const centre = along(shaft.origin, shaft.axis, gear.at);
  const diameter = pitchDiameter(gear);
  const cylinder = GEAR_FORMS[gear.kind].pitchAngle;
  if (cylinder !== null) {
    return {
      centre,
      outward: shaft.axis,
      pitchDiameter: diameter,
      pitchAngle: cylinder,
      coneDistance: null,
      apexPoint: null,
    };
  }
  const outward = outwardAxis(shaft, gear);
  if (angle === null) {
    return { centre, outward, pitchDiameter: diameter, pitchAngle: null, coneDistance: null, apexPoint: null };
  }
  const coneDistance = diameter / 2 / Math.sin(angle);
  return {
    centre,
    outward,
    pitchDiameter: diameter,
    pitchAngle: angle / DEGREE,
    coneDistance,
    apexPoint: along(centre, outward, -coneDistance * Math.cos(angle)),
  };
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
    return shaft ? placeGear(gear, shaft, angles[i] ?? null) : null;
  });

  const meshes = drive.meshes.map((mesh, i): PlacedMesh | null => {
    const [s1, s2] = index.shaftsOfMesh[i] as readonly [number, number];
    const [g1, g2] = index.gearsOfMesh[i] as readonly [number, number];
    const ends = [shafts[s1], shafts[s2]];
    const placed = [gears[g1], gears[g2]];
    if (!ends[0] || !ends[1] || !placed[0] || !placed[1]) return null;
    const { kind, shape, gears: pair } = sized[i] as Sized;
    const stand = [ends[0], ends[1]] as const;
    const standing = [placed[0], placed[1]] as const;
    const closesLoop = places[i] === 0;

    let holds = true;
    const spoiled = ([0, 1] as const).find((side) => {
      const own = angles[side === 0 ? g1 : g2] as number;
      const slack = (FITS_MODULE * misfitUnit(pair)) / shape.coneDistances[side];
      return Math.abs(own - shape.pitchAngles[side]) > Math.max(slack, SAME_ANGLE);
    });
    if (spoiled !== undefined) {
      holds = false;
      findings.push(
        coneMismatch(mesh, pair[spoiled], angles[spoiled === 0 ? g1 : g2] as number, shape.pitchAngles[spoiled]),
      );
    }
    const misfit = closesLoop ? kind.misfit({ mesh, gears: pair, shape }, stand, standing) : NO_MISFIT;
    if (misfit.modules > FITS_MODULE && holds) {
      const isError = misfit.millimetres > MISFIT_MODULE * misfit.unit || misfit.degrees > MISFIT_DEGREES;
      if (isError) holds = false;
      findings.push(loopMisfit(drive, index, i, misfit, isError));
    }
    const contact = kind.contact({ mesh, gears: pair, shape }, stand, standing);
    if (contact.width <= 0) findings.push(noCommonFace(mesh));
    return {
      kind,
      shape,
      closesLoop,
      misfit,
      width: contact.width,
      contact: contact.line,
      towards: contact.towards,
      holds,
    };
  });
  return { shafts, gears, meshes, findings };
}
