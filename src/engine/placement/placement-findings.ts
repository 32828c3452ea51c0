/** The sentences of placement. */
import type { Drive, Gear, Mesh, Shaft } from "../drive/types";
import type { Finding } from "../findings";
import type { Misfit } from "../mesh-kinds/contract";
import type { DriveIndex } from "../solved";
import { DEGREE } from "../vector";
import { nameText, quantity, shaftName } from "../wording";

export const unreached = (drive: Drive, at: number): Finding => {
  const shaft = drive.shafts[at] as Shaft;
  return {
    severity: "error",
    code: "unreached",
    at: [shaft.id],
    message: `Nothing says where ${shaftName(drive, at)} stands: mesh one of its gears with a placed one, give it a pose, or let it share the line of another shaft.`,
  };
};

/** Enough to tell two cuts of one gear apart. */
const hundredths = (degrees: number): number => Number(degrees.toFixed(2));

export const coneMismatch = (mesh: Mesh, gear: Gear, own: number, asked: number): Finding => ({
  severity: "error",
  code: "cone-mismatch",
  at: [mesh.id, gear.id],
  message: `Mesh ${nameText(mesh.id)} asks of ${nameText(gear.id)} a pitch angle of ${quantity(hundredths(asked / DEGREE), "°", 5)}, but it is cut to ${quantity(hundredths(own / DEGREE), "°", 5)} for the mesh before: a bevel gear has one pitch cone, so change the shaft angle or the teeth until both agree.`,
});

export function loopMisfit(drive: Drive, index: DriveIndex, at: number, misfit: Misfit, isError: boolean): Finding {
  const mesh = drive.meshes[at] as Mesh;
  const [s1, s2] = index.shaftsOfMesh[at] as readonly [number, number];
  const names = [s1, s2].map((shaft) => shaftName(drive, shaft));
  const parts = [
    ...(misfit.millimetres > 0 ? [quantity(misfit.millimetres, "mm", 3)] : []),
    ...(misfit.degrees > 1e-9 ? [quantity(misfit.degrees, "°", 3)] : []),
  ];
  const by = parts.join(" and ");
  return {
    severity: isError ? "error" : "warning",
    code: "loop-misfit",
    at: [mesh.id, ...mesh.gears],
    message: isError
      ? `Mesh ${nameText(mesh.id)} can't close: ${names[0]} and ${names[1]}, placed already, miss each other by ${by}; move one of them, or change teeth or module until the sizes fit.`
      : `Mesh ${nameText(mesh.id)} closes with a misfit of ${by} between ${names[0]} and ${names[1]}: it is reckoned as if it fitted; move one of them to take it up.`,
  };
}

export const noCommonFace = (mesh: Mesh): Finding => ({
  severity: "error",
  code: "no-common-face",
  at: [mesh.id, ...mesh.gears],
  message: `The teeth of ${nameText(mesh.gears[0])} and ${nameText(mesh.gears[1])} pass each other: their faces have no part in common, so slide one of them along its shaft.`,
});
