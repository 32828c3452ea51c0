/**
 * Gears that stand in one another on one shaft. Each takes up an interval of the shaft, its face; a ring leaves its middle
 * free, so that a smaller gear may stand inside it, or outside teeth on its back. Geometry, no source.
 */
import { hasTeeth } from "../drive/types";
import type { Gear, PlacedGear } from "../solved";
import { DEGREE } from "../vector";
import { limit, nameText, quantities, shaftName } from "../wording";
import type { Check, Checked } from "./check";
import { FurthestByRadius, type Room } from "./furthest-by-radius";

/** mm: faces that touch may overlap by rounding. */
const TOUCHING = 1e-6;

/** mm, for want of a rim thickness in the file. */
const SKIN = 1e-3;
/** On shafts of up to so many gears every two are looked at before anything is sorted. */
const FEW = 6;

/** How far a gear's face runs along the shaft, mm: from the heel of a cone towards its apex by face · cos δ (past 90 degrees away from it). */
const toeOf = (gear: Gear, cosine: number): number => gear.at + (gear.apex === "+" ? 1 : -1) * gear.face * cosine;

function roomOf(gear: Gear, placed: PlacedGear, index: number): Room {
  const pitchAngle = placed.pitchAngle;
  const cosine = pitchAngle === null ? 0 : Math.cos(pitchAngle * DEGREE);
  const isCone = pitchAngle === null || placed.coneDistance !== null;
  const toe = toeOf(gear, cosine);
  const radius = placed.pitchDiameter / 2;
  const size = hasTeeth(gear) ? gear.module : 0;
  const shift = (!isCone && cosine < 0 ? -1 : 1) * gear.shift;
  // format.md: tip and root radius, at the heel for a bevel gear.
  const tip = radius + size * (gear.addendum + shift) * cosine;
  const root = radius - size * (gear.addendum + gear.clearance - shift) * cosine;
  const isRing = cosine < 0;
  // A smooth gear has a skin in place of teeth: outside a ring's pitch circle, inside any other's.
  const skin = hasTeeth(gear) ? 0 : SKIN;
  return {
    gear: index,
    from: isCone ? Math.min(gear.at, toe) : gear.at - gear.face / 2,
    to: isCone ? Math.max(gear.at, toe) : gear.at + gear.face / 2,
    inner: Math.min(tip, root) - (isRing ? 0 : skin),
    outer: Math.max(tip, root) + (isRing ? skin : 0),
    isRing,
  };
}

/** Gears that stand further apart than both their faces are wide can't clash, whatever they are. */
function isRoomy(gears: readonly Gear[], places: readonly number[]): boolean {
  if (places.length > FEW) return false;
  for (let i = 1; i < places.length; i++) {
    for (let j = 0; j < i; j++) {
      const a = gears[places[i] ?? -1];
      const b = gears[places[j] ?? -1];
      if (a && b && Math.abs(a.at - b.at) <= a.face + b.face) return false;
    }
  }
  return true;
}

/** Whether two intervals share a length, or one without length (a flat crown) lies in the other. */
function overlaps(a: Room, b: Room): boolean {
  const from = Math.max(a.from, b.from);
  const to = Math.min(a.to, b.to);
  if (to - from > TOUCHING) return true;
  if (to < from - TOUCHING) return false;
  const [short, long] = a.to - a.from < b.to - b.from ? [a, b] : [b, a];
  if (short.to - short.from > TOUCHING) return false;
  const isInside = long.from + TOUCHING < short.from && short.to < long.to - TOUCHING;
  return isInside || long.to - long.from <= TOUCHING;
}

/** Neighbours along the shaft that overlap: each room against the one before it that reaches furthest. Rooms sorted by `from`. */
function solidClashes(rooms: readonly Room[]): [Room, Room][] {
  const clashes: [Room, Room][] = [];
  let furthest: Room | undefined;
  for (const room of rooms) {
    if (furthest && overlaps(furthest, room)) clashes.push([furthest, room]);
    if (!furthest || room.to > furthest.to) furthest = room;
  }
  return clashes;
}

/** Rings against each other and against solid gears: only bands of teeth at the same radius clash. Rooms sorted by `from`. */
function ringClashes(rooms: readonly Room[]): [Room, Room][] {
  const clashes: [Room, Room][] = [];
  const edges = rooms.flatMap(({ inner, outer }) => [inner, outer]);
  const rings = new FurthestByRadius(edges);
  const solids = new FurthestByRadius(edges);
  for (const room of rooms) {
    for (const other of [rings.find(room), room.isRing ? solids.find(room) : undefined]) {
      if (other && overlaps(other, room)) clashes.push([other, room]);
    }
    (room.isRing ? rings : solids).put(room);
  }
  return clashes;
}

function clashesOn(checked: Checked, gears: readonly number[]): [Room, Room][] {
  const rooms: Room[] = [];
  for (const i of gears) {
    const [gear, placed] = [checked.drive.gears[i], checked.placement.gears[i]];
    if (gear && placed) rooms.push(roomOf(gear, placed, i));
  }
  rooms.sort((a, b) => a.from - b.from || a.gear - b.gear);
  const solids = solidClashes(rooms.filter((room) => !room.isRing));
  return rooms.some((room) => room.isRing) ? [...solids, ...ringClashes(rooms)] : solids;
}

export const checkGearsOverlap: Check = (checked, add) => {
  const { drive, index } = checked;
  index.gearsOfShaft.forEach((gears, shaft) => {
    if (gears.length < 2 || isRoomy(drive.gears, gears)) return;
    for (const [before, after] of clashesOn(checked, gears)) {
      const [first, second] = [drive.gears[before.gear], drive.gears[after.gear]];
      if (!first || !second) continue;
      const span = (room: Room): string => quantities([room.from, room.to], " to ", "mm");
      const place = second.at + before.to - after.from;
      add({
        severity: "error",
        code: "gears-overlap",
        at: [first.id, second.id, drive.shafts[shaft]?.id ?? ""],
        message:
          `Gears ${nameText(first.id)} and ${nameText(second.id)} stand in one another on ${shaftName(drive, shaft)}: one takes up ${span(before)} along it, the other ` +
          `${span(after)}; move ${nameText(second.id)} to ${limit(place, "mm", "up", 4)} or beyond, or make a face narrower.`,
      });
    }
  });
};
