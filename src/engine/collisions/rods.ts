/**
 * The rods of shafts and the arms of carriers, reckoned once for each solution. A drive says where its shafts lie, and not how long
 * or thick they are: this is what the bench draws, and what collisions and extents count. In each shaft's own coordinates.
 */
import type { Solved, Vec3 } from "../solved";
import { along, cross, distance, dot, inSteps, length, sub } from "../vector";
import { type GearOutline, gearOutline, isShell, reachAlong, spokePlace } from "./gear-outline";
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

export interface Rods {
  readonly gears: readonly GearOutline[];
  /** By shaft index; null for a shaft that isn't placed. */
  readonly rods: readonly (RodPlace | null)[];
  readonly arms: readonly ArmPlace[];
  /** A middling gear's tip radius, in steps: what rods, arrows and dashes are scaled by. */
  readonly unit: number;
}

const median = (values: readonly number[]): number => Float64Array.from(values).sort()[values.length >> 1] ?? 0;

/** From one unit to the next. */
const UNIT_STEP = 1.05;
/** In steps, so that rods stay what they are while the middling gear's size is dragged: only what it moves is laid out anew. */
const steady = (size: number): number => Number(inSteps(size, UNIT_STEP).toPrecision(3));

interface Reach {
  low: number;
  high: number;
  /** Whether a rod must not go on beyond the last body on that side: a cone's apex (and so its mate) or a ring's inside is there. */
  endsLow: boolean;
  endsHigh: boolean;
}

/** What a shaft's gears take up of it. A shell is held by spokes at one place, so that its inside is free. */
function reaches(outlines: readonly GearOutline[], side: 1 | -1): Reach | null {
  if (outlines.length === 0) return null;
  const reach: Reach = {
    low: Number.POSITIVE_INFINITY,
    high: Number.NEGATIVE_INFINITY,
    endsLow: false,
    endsHigh: false,
  };
  for (const outline of outlines) {
    const shell = isShell(outline);
    const held = spokePlace(outline, side);
    const [low, high] = shell ? [held, held] : reachAlong(outline);
    const apex = outline.coneDistance === null ? null : outline.pitch[0][1];
    if (low < reach.low) {
      reach.low = low;
      reach.endsLow = shell || (apex !== null && apex < low);
    }
    if (high > reach.high) {
      reach.high = high;
      reach.endsHigh = shell || (apex !== null && apex > high);
    }
  }
  return reach;
}

/** Shafts that stand on one line, in document order: sleeves and carriers. Keyed by a rounded line, so linear in time. */
function linesOf(solved: Solved): Map<string, number[]> {
  const lines = new Map<string, number[]>();
  solved.placement.shafts.forEach((shaft, i) => {
    if (!shaft) return;
    const [x, y, z] = shaft.axis;
    const flip = Math.sign(Math.abs(x) > 1e-9 ? x : Math.abs(y) > 1e-9 ? y : z);
    const at = dot(shaft.origin, shaft.axis);
    const whole = (part: number): number => Math.round(part * 1000) || 0;
    const foot = (k: 0 | 1 | 2): number => whole(shaft.origin[k] - at * shaft.axis[k]);
    const key = `${whole(x * flip)} ${whole(y * flip)} ${whole(z * flip)} ${foot(0)} ${foot(1)} ${foot(2)}`;
    const line = lines.get(key);
    if (line) line.push(i);
    else lines.set(key, [i]);
  });
  return lines;
}

/** Between the planets' faces and the arm's middle, in units. */
const ARM_GAP = 0.2;

function armsOf(
  solved: Solved,
  outlines: readonly GearOutline[][],
  unit: number,
  sides: readonly (1 | -1)[],
): ArmPlace[] {
  const arms: ArmPlace[] = [];
  solved.placement.shafts.forEach((planet, i) => {
    const c = solved.index.frameOfShaft[i] ?? -1;
    const carrier = solved.placement.shafts[c];
    if (!planet || !carrier) return;
    const reach = reaches(outlines[i] ?? [], sides[i] ?? 1);
    const isCrossing = length(cross(planet.axis, carrier.axis)) > 1e-6;
    // Parallel: an arm on the carrier's own side of all planets. Crossing: the pin on which the planet turns, out of the carrier's axis.
    const isUp = (sides[c] ?? 1) * dot(planet.axis, carrier.axis) > 0;
    const beside = reach && (isUp ? reach.high + ARM_GAP * unit : reach.low - ARM_GAP * unit);
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

const isSolid = ({ coneDistance, pitchAngle }: GearOutline): boolean => coneDistance !== null || pitchAngle < 1;

const known = new WeakMap<Solved, Rods>();

/** Outlines of all gears that have one, the rods of all placed shafts, the arms of carriers. The same answer for the same solution. */
export function rodsOf(solved: Solved): Rods {
  const had = known.get(solved);
  if (had) return had;
  const laid = layRods(solved);
  known.set(solved, laid);
  return laid;
}

function layRods(solved: Solved): Rods {
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
  const unit = steady(Math.max(1e-3, median(gears.map(({ tipRadius }) => tipRadius)) || 20));
  const sides = portSides(solved);
  const arms = armsOf(solved, byShaft, unit, sides);
  /** Places of each carrier's arms along it. */
  const armPlaces = new Map<number, number[]>();
  for (const { carrier, from } of arms) {
    const places = armPlaces.get(carrier);
    if (places) places.push(from[2]);
    else armPlaces.set(carrier, [from[2]]);
  }

  const rods: (RodPlace | null)[] = drive.shafts.map(() => null);
  for (const line of linesOf(solved).values()) {
    const taken = { "1": 0, "-1": 0 };
    for (const shaft of line) {
      const side = sides[shaft] ?? 1;
      const place = { shaft, side, level: taken[side]++, isAlone: line.length === 1 };
      rods[shaft] = rodOf(place, byShaft[shaft] ?? [], armPlaces.get(shaft) ?? [], unit);
    }
  }
  return { gears, rods, arms, unit };
}

interface Place {
  readonly shaft: number;
  readonly side: 1 | -1;
  /** How many sleeves come out of the same end of the line before it. */
  readonly level: number;
  /** On its line. */
  readonly isAlone: boolean;
}

function rodOf(
  { shaft, side, level, isAlone }: Place,
  outlines: readonly GearOutline[],
  arms: readonly number[],
  unit: number,
): RodPlace {
  const reach = reaches(outlines, side) ?? { low: Infinity, high: -Infinity, endsLow: false, endsHigh: false };
  for (const at of arms) {
    reach.low = Math.min(reach.low, at);
    reach.high = Math.max(reach.high, at);
  }
  if (reach.low > reach.high) [reach.low, reach.high] = [-unit, unit];
  const long = Math.max(0.3, LONG_END - SLEEVE_SHORTER * level) * unit;
  // On a shared line the far end is the next shaft's own.
  const short = isAlone ? SHORT_END * unit : 0;
  const end = (isEnd: boolean, isPortSide: boolean): number => (isPortSide ? long : isEnd ? 0 : short);
  const low = reach.low - end(reach.endsLow, side === -1);
  const high = reach.high + end(reach.endsHigh, side === 1);
  const thinnest = Math.min(...outlines.filter(isSolid).map(({ rootRadius }) => rootRadius), unit);
  const thickest = outlines.some(isSolid) ? thinnest * 0.6 : unit;
  return {
    shaft,
    low,
    high,
    radius: Math.min(thickest, 0.11 * unit * (1 + SLEEVE_THICKER * level)),
    side,
    arrowAt: side === 1 ? high - 0.45 * long : low + 0.45 * long,
    arrowRadius: 0.42 * unit,
  };
}
