/**
 * What stands where on the bench, reckoned once for each solution and shared by the 3D scene, the labels and the flat drawing:
 * outlines of gears, rods, the ends at which ports stand, arrows, arms of carriers. Each in its shaft's own coordinates (z along the shaft).
 */
import type { Solved, Vec3 } from "../engine/solved";
import { add, along, cross, distance, dot, length, scale, sub } from "../engine/vector";
import { shaftName } from "../engine/wording";
import { countMarks, type GearOutline, gearOutline, reachAcross, reachAlong } from "./gear-outline";
import { portSides } from "./port-sides";

export interface RodPlace {
  readonly shaft: number;
  readonly low: number;
  readonly high: number;
  readonly radius: number;
  /** The end at which the port (or where there is none, the arrow) stands. */
  readonly side: 1 | -1;
  /** Place along the shaft of the arrow that goes round it, and its radius. */
  readonly arrowAt: number;
  readonly arrowRadius: number;
}

/** An arm of a carrier, from its own axis to that of a shaft which it carries: in the carrier's own coordinates at time zero. */
export interface ArmPlace {
  readonly carrier: number;
  readonly from: Vec3;
  readonly to: Vec3;
}

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

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1] ?? 0;

interface Reach {
  low: number;
  high: number;
  /** Whether a cone's apex lies beyond the last body on that side: a rod there would run into its mate. */
  apexLow: boolean;
  apexHigh: boolean;
}

function reaches(outlines: readonly GearOutline[]): Reach | null {
  if (outlines.length === 0) return null;
  const reach: Reach = {
    low: Number.POSITIVE_INFINITY,
    high: Number.NEGATIVE_INFINITY,
    apexLow: false,
    apexHigh: false,
  };
  for (const outline of outlines) {
    const [low, high] = reachAlong(outline);
    const apex = outline.coneDistance === null ? null : outline.pitch[0][1];
    if (low < reach.low) {
      reach.low = low;
      reach.apexLow = apex !== null && apex < low;
    }
    if (high > reach.high) {
      reach.high = high;
      reach.apexHigh = apex !== null && apex > high;
    }
  }
  return reach;
}

/** Shafts that stand on one line, in document order: sleeves and carriers. Keyed by a rounded line, so linear in time. */
function linesOf(solved: Solved): Map<string, number[]> {
  const lines = new Map<string, number[]>();
  solved.placement.shafts.forEach((shaft, i) => {
    if (!shaft) return;
    const flip = shaft.axis.find((part) => Math.abs(part) > 1e-9) ?? 1;
    const axis = scale(shaft.axis, Math.sign(flip));
    const foot = along(shaft.origin, axis, -dot(shaft.origin, axis));
    const key = [...axis, ...foot].map((part) => Math.round(part * 1000) || 0).join(" ");
    lines.set(key, [...(lines.get(key) ?? []), i]);
  });
  return lines;
}

function armsOf(
  solved: Solved,
  outlines: readonly GearOutline[][],
  unitLength: number,
  sides: readonly (1 | -1)[],
): ArmPlace[] {
  const arms: ArmPlace[] = [];
  solved.placement.shafts.forEach((planet, i) => {
    const c = solved.index.frameOfShaft[i] ?? -1;
    const carrier = solved.placement.shafts[c];
    if (!planet || !carrier) return;
    const reach = reaches(outlines[i] ?? []);
    const isCrossing = length(cross(planet.axis, carrier.axis)) > 1e-6;
    // Parallel: an arm on the carrier's own side of all planets. Crossing: the pin on which the planet turns, out of the carrier's axis.
    const isUp = (sides[c] ?? 1) * dot(planet.axis, carrier.axis) > 0;
    const beside = reach && (isUp ? reach.high + ARM_GAP * unitLength : reach.low - ARM_GAP * unitLength);
    const at = reach ? (isCrossing ? outerEnd(reach, planet, carrier) : (beside ?? 0)) : 0;
    const tip = along(planet.origin, planet.axis, at);
    const foot = along(carrier.origin, carrier.axis, dot(sub(tip, carrier.origin), carrier.axis));
    const meeting = isCrossing ? nearestOn(carrier, planet) : foot;
    const local = (point: Vec3): Vec3 => {
      const d = sub(point, carrier.origin);
      return [dot(d, carrier.ref), dot(d, cross(carrier.axis, carrier.ref)), dot(d, carrier.axis)];
    };
    if (distance(meeting, tip) > 1e-6) arms.push({ carrier: c, from: local(meeting), to: local(tip) });
  });
  return arms;
}

/** Between the planets' faces and the arm's middle, in units. */
const ARM_GAP = 0.2;

type Line = { readonly origin: Vec3; readonly axis: Vec3 };

/** The end of a planet's gears that lies further from the carrier's axis. */
function outerEnd(reach: Reach, planet: Line, carrier: Line): number {
  const away = (at: number): number => {
    const d = sub(along(planet.origin, planet.axis, at), carrier.origin);
    return length(along(d, carrier.axis, -dot(d, carrier.axis)));
  };
  return away(reach.high) > away(reach.low) ? reach.high : reach.low;
}

/** The point of `line`'s axis that is nearest to the axis of `other`. */
function nearestOn(line: Line, other: Line): Vec3 {
  const across = cross(line.axis, other.axis);
  const d = sub(other.origin, line.origin);
  return along(line.origin, line.axis, dot(cross(d, other.axis), across) / dot(across, across));
}

/** Room beside the gears for one rod: how far it goes beyond the last body at the port's end and at the other, in units. */
const LONG_END = 1.05;
const SHORT_END = 0.3;
/** By how much each further sleeve on the same side of one line is shorter and thicker. */
const SLEEVE_SHORTER = 0.4;
const SLEEVE_THICKER = 0.75;

export function benchLayout(solved: Solved): BenchLayout {
  const { drive, index, placement } = solved;
  const byShaft: GearOutline[][] = drive.shafts.map(() => []);
  const gears: GearOutline[] = [];
  drive.gears.forEach((gear, i) => {
    const placed = placement.gears[i];
    const shaft = index.shaftOfGear[i] ?? -1;
    const outline = placed ? gearOutline(gear, placed, i, shaft) : null;
    if (!outline) return;
    gears.push(outline);
    byShaft[shaft]?.push(outline);
  });
  const unitLength = Math.max(1e-3, median(gears.map(({ tipRadius }) => tipRadius)) || 20);
  const sides = portSides(solved);
  const arms = armsOf(solved, byShaft, unitLength, sides);

  const rods: (RodPlace | null)[] = drive.shafts.map(() => null);
  for (const line of linesOf(solved).values()) {
    const taken = { "1": 0, "-1": 0 };
    for (const i of line) {
      const shaft = placement.shafts[i];
      if (!shaft) continue;
      const reach = reaches(byShaft[i] ?? []) ?? {
        low: Number.POSITIVE_INFINITY,
        high: Number.NEGATIVE_INFINITY,
        apexLow: false,
        apexHigh: false,
      };
      for (const arm of arms) {
        if (arm.carrier !== i) continue;
        reach.low = Math.min(reach.low, arm.from[2]);
        reach.high = Math.max(reach.high, arm.from[2]);
      }
      const isBare = reach.low > reach.high;
      if (isBare) [reach.low, reach.high] = [-unitLength, unitLength];
      const side = sides[i] ?? 1;
      const level = taken[side]++;
      const long = Math.max(0.3, LONG_END - SLEEVE_SHORTER * level) * unitLength;
      // On a shared line the far end is the next shaft's own.
      const short = line.length > 1 ? 0 : SHORT_END * unitLength;
      const end = (isApexSide: boolean, isPortSide: boolean): number => (isPortSide ? long : isApexSide ? 0 : short);
      const low = reach.low - end(reach.apexLow, side === -1);
      const high = reach.high + end(reach.apexHigh, side === 1);
      const thinnest = Math.min(...(byShaft[i] ?? []).filter(isSolid).map(({ rootRadius }) => rootRadius), unitLength);
      const thickest = (byShaft[i] ?? []).some(isSolid) ? thinnest * 0.6 : unitLength;
      const radius = Math.min(thickest, 0.11 * unitLength * (1 + SLEEVE_THICKER * level));
      rods[i] = {
        shaft: i,
        low,
        high,
        radius,
        side,
        arrowAt: side === 1 ? high - 0.45 * long : low + 0.45 * long,
        arrowRadius: 0.42 * unitLength,
      };
    }
  }
  const room = surround(solved, gears, rods, unitLength);
  return {
    solved,
    gears,
    outlines: new Map(gears.map((outline) => [outline.gear, outline])),
    marks: countMarks(drive.gears),
    rods,
    arms,
    unit: unitLength,
    ...room,
    stroke: STROKE_STEP ** Math.round(Math.log(room.radius) / Math.log(STROKE_STEP)),
  };
}

const isSolid = ({ coneDistance, pitchAngle }: GearOutline): boolean => coneDistance !== null || pitchAngle < 1;

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
