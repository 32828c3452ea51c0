/**
 * The handle that slides a gear along its shaft. Where the shaft hangs on this very gear, the gear stays in mesh and the shaft slides
 * through it: then the knob is on the shaft.
 */
import { type Edit, refuse } from "../../engine/drive/commands/edit";
import { setGear } from "../../engine/drive/commands/gear";
import { pitchDiameter } from "../../engine/drive/types";
import { GEAR_FORMS } from "../../engine/mesh-kinds/gear-forms";
import type { Solved } from "../../engine/solved";
import { along, clamp, dot, scale, sub } from "../../engine/vector";
import { nameText, quantity, shaftName } from "../../engine/wording";
import { placedSide } from "../lean";
import { type Handle, nearestStop, straightTrack } from "./handle";
import { freely, further, onStep } from "./steps";

/** mm from which a fit with a mate is found. */
const NEAR = 1.5;

export function slideHandle(solved: Solved, gear: number): Handle | null {
  const { drive, index, placement } = solved;
  const [data, placed] = [drive.gears[gear], placement.gears[gear]];
  const shaftIndex = index.shaftOfGear[gear] ?? -1;
  const shaft = placement.shafts[shaftIndex];
  if (!data || !placed || !shaft) return null;
  const { id, at: value } = data;
  const others = (index.gearsOfShaft[shaftIndex] ?? []).filter((one) => one !== gear);
  const places = others.map((one) => drive.gears[one]?.at ?? 0);
  const holds = (index.meshesOfShaft[shaftIndex] ?? []).some((mesh) => {
    const side = placedSide(solved, mesh);
    return side !== null && index.gearsOfMesh[mesh]?.[side] === gear;
  });
  const middle = places.reduce((sum, at) => sum + at, 0) / Math.max(1, places.length);
  const track = holds
    ? straightTrack(value, along(shaft.origin, shaft.axis, middle), () => scale(shaft.axis, -1))
    : straightTrack(value, placed.centre, () => shaft.axis);
  const fits = holds ? [] : fitsOf(solved, gear);
  const ends = [value, ...places];
  const room = Math.max(100, 3 * pitchDiameter(data));
  const least = Math.floor((Math.min(...ends) - room) / 10) * 10;
  const most = Math.ceil((Math.max(...ends) + room) / 10) * 10;
  return {
    key: `slide ${id}`,
    sort: "slide",
    name: holds
      ? `Slide: ${shaftName(drive, shaftIndex)} through ${nameText(id)}`
      : `Slide: place of ${nameText(id)} along its shaft`,
    value,
    least,
    most,
    text: (to) => quantity(to, "mm"),
    said: (to) => `${quantity(to, "mm")} along the shaft`,
    told: (to) => `${nameText(id)} at ${quantity(to, "mm")} along its shaft`,
    ...track,
    frame: index.frameOfShaft[shaftIndex] ?? -1,
    perPixel: 0.5,
    snap: (to, isFree) => {
      const within = clamp(to, least, most);
      return isFree ? freely(within) : (nearestStop(within, fits, NEAR) ?? onStep(within));
    },
    stepped: (to, steps) => clamp(further(to, steps), least, most),
    edit: (to) => taken(solved, gear, others, to) ?? setGear(id, { at: to }),
    label: `place of ${id}`,
  };
}

/** Places at which the gear is level with the mates that it closes a loop with: mid-face to mid-face, or apex to apex. */
function fitsOf({ index, placement }: Solved, gear: number): number[] {
  const shaft = placement.shafts[index.shaftOfGear[gear] ?? -1];
  const own = placement.gears[gear];
  if (!shaft || !own) return [];
  const at = dot(sub(own.centre, shaft.origin), shaft.axis);
  return (index.meshesOfShaft[index.shaftOfGear[gear] ?? -1] ?? []).flatMap((mesh) => {
    const pair = index.gearsOfMesh[mesh] ?? [-1, -1];
    const placed = placement.meshes[mesh];
    if (!pair.includes(gear) || !placed?.closesLoop) return [];
    const mate = placement.gears[pair[0] === gear ? pair[1] : pair[0]];
    const [from, to] = placed.kind.needsShaftAngle ? [own.apexPoint, mate?.apexPoint] : [own.centre, mate?.centre];
    return from && to ? [Math.round((at + dot(sub(to, from), shaft.axis)) * 1e6) / 1e6] : [];
  });
}

/** The span of a gear along its shaft from its `at`, mm: a cone's face goes from the heel, up to pitch angle 90 towards its apex. */
function spanOf({ drive, placement }: Solved, gear: number): readonly [number, number] {
  const [data, placed] = [drive.gears[gear], placement.gears[gear]];
  if (!data || !placed) return [0, 0];
  if (GEAR_FORMS[data.kind].pitchAngle !== null) return [-data.face / 2, data.face / 2];
  return (data.apex === "+") === (placed.pitchAngle ?? 0) <= 90 ? [0, data.face] : [-data.face, 0];
}

/** Refuses a place that another gear of the shaft has, unless the two share theirs already. */
function taken(solved: Solved, gear: number, others: readonly number[], to: number): Edit | null {
  const { gears } = solved.drive;
  const own = spanOf(solved, gear);
  for (const other of others) {
    const [data, mate, span] = [gears[gear], gears[other], spanOf(solved, other)];
    if (!data || !mate) continue;
    const meets = (at: number): boolean =>
      Math.min(at + own[1], mate.at + span[1]) - Math.max(at + own[0], mate.at + span[0]) > 1e-9;
    if (!meets(to) || meets(data.at)) continue;
    const reason = `Gear ${nameText(data.id)} can't stand at ${quantity(to, "mm")}: ${nameText(mate.id)} is there on the same shaft; slide it past that gear, or stop short of it.`;
    return () => refuse(reason);
  }
  return null;
}
