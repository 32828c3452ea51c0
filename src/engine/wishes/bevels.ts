/** Bevel pairs cut anew about the same crossing of the same two lines, and the bevel set on the other side of its mate. */
import { type Edit, inTurn } from "../drive/commands/edit";
import { makeGear } from "../drive/defaults";
import type { ToothedGear, Vec3 } from "../drive/types";
import type { Mesh, Solved } from "../solved";
import { nameText, quantity, shaftName } from "../wording";
import type { Proposal } from "./change";
import { alongShaft, areToothed, isAlone, type Joint, keepingBehind, remade, remeshed, tidyDegrees } from "./parts";

export interface BevelChange {
  readonly teeth?: readonly [number, number];
  readonly shaftAngle?: number;
  readonly apexes?: readonly ["+" | "-", "+" | "-"];
  readonly azimuth?: number;
}

/** The face of a bevel is at most a third of its cone distance (the finding `face-width`). */
const FACE_OF_CONE = 1 / 3;

/**
 * Cuts both gears of a bevel pair anew so that their apexes stay at the crossing of the two lines: each slides along its shaft to
 * where its new cone reaches. What is behind the shaft that the mesh places stays.
 */
export function recutBevels(solved: Solved, joint: Joint, change: BevelChange): Edit | null {
  const { mesh, kind, gears, shafts, from } = joint;
  const apex = solved.placement.gears[solved.index.gears.get(gears[0].id) ?? -1]?.apexPoint;
  if (!kind.needsShaftAngle || !apex || from === null || !areToothed(gears)) return null;
  const apexes = change.apexes ?? [gears[0].apex, gears[1].apex];
  const fields: Partial<Mesh> = {
    shaftAngle: change.shaftAngle ?? mesh.shaftAngle ?? 90,
    azimuth: change.azimuth ?? mesh.azimuth,
  };
  const cut = gears.map((gear, side) =>
    makeGear({ ...(gear as ToothedGear), teeth: change.teeth?.[side] ?? (gear as ToothedGear).teeth }),
  ) as unknown as readonly [ToothedGear, ToothedGear];
  const shape = kind.shape({ ...mesh, ...fields }, cut);
  const edits = ([0, 1] as const).map((side) => {
    const cone = shape.coneDistances[side];
    const reach = cone * Math.cos(shape.pitchAngles[side]);
    // Outward is along the shaft's axis for an apex on the - side.
    const at = alongShaft(solved, shafts[side], apex as Vec3) + (apexes[side] === "-" ? reach : -reach);
    const most = Math.floor(cone * FACE_OF_CONE * 2) / 2;
    const { face } = gears[side];
    return remade(gears[side].id, {
      teeth: (cut[side] as ToothedGear).teeth,
      at: Math.round(at * 1e9) / 1e9,
      apex: apexes[side],
      face: most > 0 && face > most && face <= Math.max(most, solvedFace(joint, side)) ? most : face,
    });
  });
  const to = solved.drive.shafts[shafts[1 - from] ?? -1]?.id ?? "";
  return keepingBehind(solved, to, inTurn(...edits, remeshed(mesh.id, fields)));
}

/** mm: the widest face that the gear's cone bore before; one that was wider already stays as it was chosen. */
const solvedFace = ({ kind, mesh, gears }: Joint, side: 0 | 1): number =>
  kind.shape(mesh, gears).coneDistances[side] * FACE_OF_CONE;

/**
 * A bevel gear on the other side of its mate: its outward axis is reversed while both lines stay, so the angle between the outward
 * axes becomes the supplementary one. At 90 degrees that is the same pair; at any other both gears are cut anew.
 */
export function otherSide(solved: Solved, joint: Joint, side: 0 | 1): Proposal | null {
  const { mesh, gears, shafts, from } = joint;
  const angle = mesh.shaftAngle ?? 90;
  if (from === null || !isAlone(solved, gears[side]) || (angle !== 90 && !isAlone(solved, gears[side === 0 ? 1 : 0]))) {
    return null;
  }
  const turned = (apex: "+" | "-"): "+" | "-" => (apex === "+" ? "-" : "+");
  const apexes = gears.map((gear, k) => (k === side ? turned(gear.apex) : gear.apex)) as ["+" | "-", "+" | "-"];
  const edit = recutBevels(solved, joint, {
    apexes,
    shaftAngle: 180 - angle,
    azimuth: side === from ? mesh.azimuth : tidyDegrees(mesh.azimuth + 180),
  });
  if (!edit) return null;
  const [own, mate] = [gears[side], gears[side === 0 ? 1 : 0]];
  const name = shaftName(solved.drive, shafts[side]);
  const how =
    angle === 90
      ? `It slides along ${name} past the crossing of the two axes, turned round; at 90° the pair stays the one it is.`
      : `Both shafts keep their lines only as a new pair for the supplementary angle, ${quantity(180 - angle, "°", 6)} in place of ${quantity(angle, "°", 6)}: both gears are cut anew.`;
  return { means: "side", title: `Put ${nameText(own.id)} on the other side of ${nameText(mate.id)}`, edit, how };
}
