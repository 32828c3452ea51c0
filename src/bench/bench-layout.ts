/**
 * What stands where on the bench, reckoned once for each solution and shared by the 3D scene, the labels and the flat drawing:
 * outlines of gears, rods, the ends at which ports stand, arrows, arms of carriers. Each in its shaft's own coordinates (z along the shaft).
 */
import { type GearOutline, reachAcross, reachAlong } from "../engine/collisions/gear-outline";
import { type ArmPlace, type RodPlace, rodsOf } from "../engine/collisions/rods";
import type { Solved, Vec3 } from "../engine/solved";
import { add, along, cross, distance, dot, length, scale, sub } from "../engine/vector";
import { shaftName } from "../engine/wording";
import { countMarks } from "./mark-counts";

export interface BenchLayout {
  readonly solved: Solved;
  readonly gears: readonly GearOutline[];
  /** By gear index. */
  readonly outlines: ReadonlyMap<number, GearOutline>;
  readonly marks: readonly number[];
  /** By shaft index; null for a shaft that isn't placed. */
  readonly rods: readonly (RodPlace | null)[];
  readonly arms: readonly ArmPlace[];
  /** A sphere round everything, mm. */
  readonly centre: Vec3;
  readonly radius: number;
  /** About `radius`, in coarse steps: widths of lines go by it, and so stay what they are while a size is dragged. */
  readonly stroke: number;
  /** A middling gear's tip radius: what rods, arrows and dashes are scaled by. */
  readonly unit: number;
}

/** From one width of lines to the next. */
const STROKE_STEP = 1.25;

export function benchLayout(solved: Solved): BenchLayout {
  const { gears, rods, arms, unit } = rodsOf(solved);
  const room = surround(solved, gears, rods, unit);
  return {
    solved,
    gears,
    outlines: new Map(gears.map((outline) => [outline.gear, outline])),
    marks: countMarks(solved.drive.gears),
    rods,
    arms,
    unit,
    ...room,
    stroke: STROKE_STEP ** Math.round(Math.log(room.radius) / Math.log(STROKE_STEP)),
  };
}

/** Room that a port takes at the end of its rod, as circles round the shaft: place along it and radius. */
export function portRoom(solved: Solved, rod: RodPlace, unitLength: number): readonly (readonly [number, number])[] {
  const end = rod.side === 1 ? rod.high : rod.low;
  const beyond = (part: number): number => end + rod.side * part * unitLength;
  const port = solved.drive.ports[solved.index.portOfShaft[rod.shaft] ?? -1];
  if (!port) return [[beyond(0.3), rod.radius]];
  if (port.role !== "input") return [[beyond(0.35), 0.45 * unitLength]];
  // A crank goes round wide, a motor stands long.
  return isCrank(solved, rod.shaft) ? [[beyond(0.65), 0.92 * unitLength]] : [[beyond(0.85), 0.4 * unitLength]];
}

/** An input that goes by the name of a crank or handle is one; any other is a motor. */
export const isCrank = ({ drive }: Solved, shaft: number): boolean =>
  /\b(crank|handle|hand ?wheel|winder)\b/i.test(shaftName(drive, shaft));

/** The middle and radius of a box round all gears and rods. */
function surround(
  solved: Solved,
  gears: readonly GearOutline[],
  rods: readonly (RodPlace | null)[],
  unitLength: number,
) {
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  const take = (shaft: number, at: number, r: number): void => {
    const placed = solved.placement.shafts[shaft];
    if (!placed) return;
    const point = along(placed.origin, placed.axis, at);
    for (const k of [0, 1, 2] as const) {
      const across = r * Math.sqrt(Math.max(0, 1 - placed.axis[k] ** 2));
      low[k] = Math.min(low[k], point[k] - across);
      high[k] = Math.max(high[k], point[k] + across);
    }
  };
  for (const outline of gears) for (const at of reachAlong(outline)) take(outline.shaft, at, reachAcross(outline));
  for (const rod of rods) {
    if (!rod) continue;
    take(rod.shaft, rod.low, rod.radius);
    take(rod.shaft, rod.high, rod.radius);
    take(rod.shaft, rod.arrowAt, rod.arrowRadius);
    for (const [at, r] of portRoom(solved, rod, unitLength)) take(rod.shaft, at, r);
  }
  if (low[0] > high[0]) return { centre: [0, 0, 0] as Vec3, radius: 50 };
  return { centre: scale(add(low, high), 0.5), radius: Math.max(1e-3, distance(low, high) / 2) };
}

/** A unit vector square to the shaft in which a gear's label stands: away from its mates. In the shaft's coordinates. */
export function freeDirection(layout: BenchLayout, outline: GearOutline): readonly [number, number] {
  const { solved } = layout;
  const shaft = solved.placement.shafts[outline.shaft];
  if (!shaft) return [1, 0];
  const y = cross(shaft.axis, shaft.ref);
  let away: Vec3 = [0, 0, 0];
  for (const mesh of solved.index.meshesOfShaft[outline.shaft] ?? []) {
    const gears = solved.index.gearsOfMesh[mesh];
    const placed = solved.placement.meshes[mesh];
    if (!gears || !placed) continue;
    for (const k of [0, 1] as const) if (gears[k] === outline.gear) away = sub(away, placed.towards[k]);
  }
  // Where mates stand all round, or none does: up, or to the right for an upright shaft.
  if (length(away) < 0.1) away = Math.abs(shaft.axis[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0];
  const [a, b] = [dot(away, shaft.ref), dot(away, y)];
  const size = Math.hypot(a, b) || 1;
  return [a / size, b / size];
}
