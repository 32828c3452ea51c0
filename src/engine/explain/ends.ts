/**
 * Names of the two ends of a shaft: what stands there (a motor, a crank, a load), or the side that it faces. World: z up,
 * x to the right, y away from the viewer. The + end is the one that the shaft's axis points to.
 */
import type { Solved, Vec3 } from "../solved";
import { ON_AXIS } from "../tolerances";
import { cross, DEGREE, dot, length, square, sub } from "../vector";
import { shaftName } from "../wording";

export type End = "plus" | "minus";

export interface EndNames {
  readonly plus: string;
  readonly minus: string;
}

/** Words for +x, +y, +z and for the other way. */
const SIDES = [
  ["right", "left"],
  ["far", "near"],
  ["top", "bottom"],
] as const;
/** Beside another word the upright goes first and reads "upper" or "lower". */
const UPRIGHT = ["upper", "lower"] as const;
/** A second direction is named where it is at least this part of the first: tan 25°, so that names stay put near the axes. */
const SECOND_PART = Math.tan(25 * DEGREE);

/** "right end", "upper left end", "right-hand far end": the side that `direction` (unit) faces. Opposite directions never share a name. */
export function sideName(direction: Vec3): string {
  const order = [0, 1, 2].sort((a, b) => Math.abs(direction[b] ?? 0) - Math.abs(direction[a] ?? 0) || a - b);
  const [first = 0, second = 0] = order;
  const word = (axis: number): string => SIDES[axis]?.[(direction[axis] ?? 0) > 0 ? 0 : 1] ?? "";
  if (Math.abs(direction[second] ?? 0) < SECOND_PART * Math.abs(direction[first] ?? 0)) return `${word(first)} end`;
  const [low, high] = first < second ? [first, second] : [second, first];
  // "Far right" would read as "rightmost".
  if (high === 1) return `${word(0)}-hand ${word(1)} end`;
  return `${UPRIGHT[(direction[2] ?? 0) > 0 ? 0 : 1]} ${word(low)} end`;
}

/** The end that a gear's mate or apex leaves free counts for this many; where the gears stand counts for one. */
const APEX_WEIGHT = 2;

/**
 * The end of a shaft at which its motor, crank or load stands (the file doesn't say): away from the apexes of its outermost bevel
 * gears, where the mates are, and from the bulk of its gears; the minus end where nothing tells. Null without a port.
 */
export function portEnd(solved: Solved, shaft: number): End | null {
  const port = solved.index.portOfShaft[shaft] ?? -1;
  if (port < 0) return null;
  let first: { at: number; side: number } | undefined;
  let last: { at: number; side: number } | undefined;
  for (const g of solved.index.gearsOfShaft[shaft] ?? []) {
    const gear = solved.drive.gears[g];
    const placed = solved.placement.gears[g];
    const axis = solved.placement.shafts[shaft]?.axis;
    if (!gear || !placed || !axis) continue;
    // Which way along the axis the apex lies from the gear: 0 for parallel kinds and crowns.
    const apex = placed.apexPoint
      ? Math.sign(Math.round(dot(sub(placed.apexPoint, placed.centre), axis) / ON_AXIS))
      : 0;
    if (!first || gear.at < first.at) first = { at: gear.at, side: apex };
    if (!last || gear.at > last.at) last = { at: gear.at, side: apex };
  }
  // No gears to tell by (a carrier): what drives it at one end, what it drives at the other, clear of the sun's own end.
  if (!first || !last) return solved.drive.ports[port]?.role === "output" ? "plus" : "minus";
  const taken = (last.side > 0 ? APEX_WEIGHT : 0) - (first.side < 0 ? APEX_WEIGHT : 0);
  const bulk = Math.sign(first.at + last.at);
  return taken + bulk < 0 ? "plus" : "minus";
}

/** "Motor" reads "motor end", "A" and "NW arm" keep their capitals. */
const inSentence = (name: string): string =>
  /^\p{Lu}\p{Ll}/u.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;

/** Where a carrier turns the shaft's own axis round, sides of the room would change as it goes. */
function radialNames(solved: Solved, shaft: number): EndNames | null {
  const own = solved.placement.shafts[shaft];
  if (!own) return null;
  let carrier = solved.index.frameOfShaft[shaft] ?? -1;
  for (let steps = 0; carrier >= 0 && steps < solved.drive.shafts.length; steps++) {
    const placed = solved.placement.shafts[carrier];
    if (placed && length(cross(placed.axis, own.axis)) > ON_AXIS) {
      const gear = solved.placement.gears[solved.index.gearsOfShaft[shaft]?.[0] ?? -1];
      const outward = dot(square(sub(gear?.centre ?? own.origin, placed.origin), placed.axis), own.axis);
      return outward < 0 ? { plus: "inner end", minus: "outer end" } : { plus: "outer end", minus: "inner end" };
    }
    carrier = solved.index.frameOfShaft[carrier] ?? -1;
  }
  return null;
}

const SIDE_NAME = /^((upper|lower|top|bottom|near|far|left|right|inner|outer|plus|minus)(-hand)?\s*)+end$/i;

/** Names of both ends, always two different ones. "plus end" and "minus end" on a shaft that isn't placed. */
export function endNames(solved: Solved, shaft: number): EndNames {
  const placed = solved.placement.shafts[shaft];
  if (!placed) return { plus: "plus end", minus: "minus end" };
  const [x, y, z] = placed.axis;
  const sides = radialNames(solved, shaft) ?? { plus: sideName(placed.axis), minus: sideName([-x, -y, -z]) };
  const port = portEnd(solved, shaft);
  if (!port) return sides;
  const name = inSentence(shaftName(solved.drive, shaft));
  const named = /\bend$/i.test(name) ? name : `${name} end`;
  // A shaft called "Left" would make "left end" a lie wherever that end faces right.
  if (SIDE_NAME.test(named)) return sides;
  return port === "plus" ? { ...sides, plus: named } : { ...sides, minus: named };
}
